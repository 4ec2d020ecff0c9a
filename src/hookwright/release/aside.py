"""Work done beside the rest: in a process of its own, where one can be forked.

What is worked out there is what would be worked out here: the process is a copy of this
one, does its works in order, and leaves each result in a file that both have open. It ends
with its last work, or at once when nobody wants it any more. Where no process can be forked
a work is done when its result is asked for.
"""

from __future__ import annotations

import gc
import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from multiprocessing import current_process, get_context
from multiprocessing.connection import Connection
from multiprocessing.context import ForkProcess
from tempfile import TemporaryFile
from typing import IO, Any, Generic, Self, TypeVar, cast

from hookwright.progress import Progress, tell

Result = TypeVar("Result")
Work = Callable[[Progress | None], Result]
"""Is given whom to tell how far it is, and raises `Cancelled` where that says so."""

_PATIENCE_S = 0.1
"""How long is waited before whoever listens is asked again whether to go on."""
_STEP = 0.01
"""Of its progress a process tells no smaller steps: it must never wait to be heard."""


class Begun(Generic[Result]):
    """A work that may be under way."""

    def __init__(self, work: Work[Result]) -> None:
        self._work = work
        self._runner: _Runner | None = None
        self._number = 0
        self._found: list[Result] = []

    def given_to(self, runner: _Runner, number: int) -> None:
        """Have it done in another process."""
        self._runner, self._number = runner, number

    def result(self, progress: Progress | None = None) -> Result:
        """What it comes to; waits for it, or does it.

        Raises:
            Cancelled: When `progress` answers False.
            Exception: Whatever the work raised.
        """
        if not self._found:
            done = self._runner.wait(self._number, progress) if self._runner else None
            if done is None:
                self._found.append(self._work(progress))
            else:
                self._found.append(cast("Result", done.value()))
        return self._found[0]


class Aside:
    """The processes at work for one release."""

    def __init__(self) -> None:
        self._runners: list[_Runner] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        for runner in self._runners:
            runner.end()

    def begin(self, works: Sequence[Work[Result]]) -> list[Begun[Result]]:
        """Begin with some works, which are done one after the other."""
        begun = [Begun(work) for work in works]
        if begun and _may_fork():
            runner = _Runner(works)
            self._runners.append(runner)
            for number, one in enumerate(begun):
                one.given_to(runner, number)
        return begun


def _may_fork() -> bool:
    """Whether a process can be forked safely: only one thread runs in it, on Linux."""
    alone = threading.active_count() == 1 and not current_process().daemon
    return sys.platform == "linux" and alone


class _Done:
    """How a work ended: with a value, or with an exception."""

    def __init__(self, file: IO[bytes]) -> None:
        file.seek(0)
        self._raised, self._value = pickle.load(file)  # noqa: S301 - our own process wrote it

    def value(self) -> object:
        """The value.

        Raises:
            Exception: Whatever the work raised.
        """
        if self._raised:
            raise self._value
        return self._value


class _Runner:
    """A process, and what is known of its works."""

    def __init__(self, works: Sequence[Work[Any]]) -> None:
        context = get_context("fork")
        self._line, theirs = context.Pipe(duplex=False)
        self._files = [TemporaryFile() for _ in works]  # noqa: SIM115 - closed when it ends
        self._done = 0
        gc.freeze()  # what is there is never gone through again: pages stay shared
        self._process: ForkProcess = context.Process(
            target=_run, args=(works, self._files, theirs), daemon=True
        )
        self._process.start()
        gc.unfreeze()
        theirs.close()

    def wait(self, number: int, progress: Progress | None) -> _Done | None:
        """Wait for one of the works; None where the process has ended before.

        Raises:
            Cancelled: When `progress` answers False.
        """
        share, words = 0.0, ""
        while self._done <= number:
            try:
                if self._line.poll(_PATIENCE_S):
                    which, share, words = self._line.recv()
                    self._done = max(self._done, which)
                    share = share if which == number else 0.0
            except (EOFError, OSError):
                return None
            tell(progress, share, words)
        return _Done(self._files[number])

    def end(self) -> None:
        """End the process, whatever it is at."""
        if self._process.is_alive():
            self._process.terminate()
        self._process.join()
        self._line.close()
        for file in self._files:
            file.close()


def _run(works: Sequence[Work[Any]], files: Sequence[IO[bytes]], line: Connection) -> None:
    """What the process does: each work in turn, its result into its file."""
    signal.signal(
        signal.SIGINT, signal.SIG_IGN
    )  # Ctrl-C is for the process that was started
    with suppress(OSError):  # nobody listens any more
        for number, (work, file) in enumerate(zip(works, files, strict=True)):
            pickle.dump(_ended(work, number, line), file, pickle.HIGHEST_PROTOCOL)
            file.flush()
            line.send((number + 1, 0.0, ""))
    os._exit(0)  # nothing of the other process is tidied up here


def _ended(work: Work[Any], number: int, line: Connection) -> tuple[bool, object]:
    told = [-1.0]

    def tells(share: float, words: str) -> bool:
        if share >= told[0] + _STEP:
            told[0] = share
            try:
                line.send((number, share, words))
            except OSError:
                return False  # nobody listens any more
        return True

    try:
        return False, work(tells)
    except Exception as raised:  # noqa: BLE001 - raised again where it is asked for
        return True, raised
