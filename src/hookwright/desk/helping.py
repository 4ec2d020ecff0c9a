"""A process that works for the desk, so that the page never waits for a long answer.

It is asked one thing at a time. It can be stopped at any moment: the process ends and the
next question starts another.
"""

from __future__ import annotations

import asyncio
import gc
import os
import signal
from collections.abc import Callable
from contextlib import suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

import msgspec

_CONTEXT = get_context("spawn")
Told = Callable[[dict[str, Any]], None]


class Stopped(Exception):  # noqa: N818 - what was asked for, not a fault
    """The work was stopped before it was done."""


class Helper:
    """One process, started when it is first asked."""

    def __init__(self) -> None:
        """Start nothing yet."""
        self._turn = asyncio.Lock()
        self._process: BaseProcess | None = None
        self._line: Connection | None = None

    def begin(self) -> None:
        """Have the process begin now, so that it is ready when it is first asked."""
        self._started()

    async def ask(
        self, question: str, given: dict[str, Any], progress: Told | None = None
    ) -> bytes:
        """Ask a question and wait for its answer, which is JSON.

        Raises:
            Stopped: If the process has ended before.
        """
        async with self._turn:
            line = self._started()
            try:
                await asyncio.to_thread(line.send, (question, given))
                while True:
                    done, data = await asyncio.to_thread(line.recv)
                    if done:
                        return bytes(data)
                    if progress is not None:
                        progress(msgspec.json.decode(data))
            except asyncio.CancelledError:
                self.stop()  # an answer that nobody takes would be taken for the next one
                raise
            except (EOFError, OSError) as error:
                self.stop()
                raise Stopped from error

    def stop(self) -> None:
        """End the process and what it is at."""
        process, self._process = self._process, None
        # Let go of, not closed: a thread may be reading, and its number would be another's.
        self._line = None
        if process is not None:
            _end(process)

    def _started(self) -> Connection:
        if self._line is None or self._process is None or not self._process.is_alive():
            self.stop()
            mine, theirs = _CONTEXT.Pipe()
            process = _CONTEXT.Process(target=_work, args=(theirs,))
            process.start()
            theirs.close()
            self._process, self._line = process, mine
        assert self._line is not None
        return self._line


def _end(process: BaseProcess) -> None:
    """End a process at once, with those that it has started itself."""
    if process.pid is not None and hasattr(os, "killpg"):
        with suppress(OSError):
            os.killpg(process.pid, signal.SIGKILL)
    process.kill()


def _work(line: Connection) -> None:
    """Answer questions until nobody is left to ask them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "setpgrp"):
        os.setpgrp()  # its own helpers end with it
    from hookwright.desk.questions import answer_to  # noqa: PLC0415 - in this process only

    gc.freeze()
    gc.set_threshold(200_000, 50, 1000)
    with suppress(EOFError, OSError):
        while True:
            question, given = line.recv()

            def tell(said: dict[str, Any]) -> None:
                line.send((False, msgspec.json.encode(said)))

            line.send((True, answer_to(question, given, tell)))
