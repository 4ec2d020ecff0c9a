"""What is written to the screen or into a pipe: its colours, its width, its end.

Two colours, as an editor's pencil has two ends: red for what does not close, blue for what
to write; and patches of yarn colours beside their names. Nothing is said by colour alone.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from typing import Self, TextIO

from msgspec import Struct

_PIPE_WIDTH = 92
_LEAST_WIDTH = 40
_MOST_WIDTH = 120


class ReaderGone(Exception):  # noqa: N818 - nothing is wrong: whoever reads has seen enough
    """Nobody reads on what is written to standard output."""


class Ink(Struct, frozen=True):
    """The colours, where they may be used.

    Attributes:
        on: Whether anything is coloured at all.
    """

    on: bool = False

    def red(self, words: str) -> str:
        """What does not close."""
        return self._marked("31", words)

    def blue(self, words: str) -> str:
        """What to write."""
        return self._marked("94", words)

    def strong(self, words: str) -> str:
        """A heading."""
        return self._marked("1", words)

    def quiet(self, words: str) -> str:
        """What is only there to find one's way."""
        return self._marked("2", words)

    def patch(self, code: str, words: str, *, dark: bool) -> str:
        """Words on a ground of a colour, six hex digits; on a dark one they are white."""
        red, green, blue = (int(code[at : at + 2], 16) for at in (1, 3, 5))
        return self._marked(f"{97 if dark else 30};48;2;{red};{green};{blue}", words)

    def _marked(self, code: str, words: str) -> str:
        return f"\x1b[{code}m{words}\x1b[0m" if self.on and words else words


NO_INK = Ink()


def ink() -> Ink:
    """Colours on a terminal, unless NO_COLOR is set.

    Source: no-color.org, "when present and not an empty string (regardless of its value)".
    """
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return Ink(on=_is_terminal(sys.stdout) and not plain)


def width() -> int:
    """How many columns there are to write in; in a pipe, enough for a row and its marks."""
    columns = _PIPE_WIDTH
    if _is_terminal(sys.stdout):
        import shutil  # noqa: PLC0415 - of use on a terminal only

        columns = shutil.get_terminal_size((_PIPE_WIDTH, 24)).columns
    return max(_LEAST_WIDTH, min(columns, _MOST_WIDTH))


def say(text: str) -> None:
    """Write a text and a line end to standard output.

    Letters that the output's encoding does not have are spelled out as codes.

    Raises:
        ReaderGone: If the other end of the pipe has been closed.
    """
    try:
        _write(sys.stdout, text)
    except BrokenPipeError as error:
        _let_go_of(sys.stdout)
        raise ReaderGone from error


def say_aside(text: str) -> None:
    """Write a sentence to standard error, where it does not mix with what was asked for."""
    try:
        _write(sys.stderr, text)
    except BrokenPipeError:
        _let_go_of(sys.stderr)


class ProgressLine:
    """How far a long piece of work is, in one line on a terminal that goes away again.

    It is told the share done and what is being done, and always answers to go on: at a
    terminal the keyboard stops a program. Nothing is written for work that is soon done,
    nor where standard error is no terminal.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._next = clock() + _SOON
        self._written = False

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._written:
            self._write("")

    def __call__(self, done: float, doing: str) -> bool:
        """Show how far the work is, if it is time to."""
        if self._clock() >= self._next and _is_terminal(sys.stderr):
            self._next = self._clock() + _BETWEEN
            self._written = True
            self._write(f"{100 * done:3.0f} %  {doing}"[: width() - 1])
        return True

    def _write(self, line: str) -> None:
        sys.stderr.write(f"\r{_writable(line, sys.stderr.encoding)}\x1b[K")
        sys.stderr.flush()


_SOON, _BETWEEN = 0.5, 0.1
"""Seconds until work is long, and from one line to the next."""


def _is_terminal(stream: TextIO | None) -> bool:
    return stream is not None and stream.isatty()


def _write(stream: TextIO | None, text: str) -> None:
    if stream is None:  # the command was started with this output closed
        return
    stream.write(_writable(text, stream.encoding) + "\n")
    stream.flush()


def _writable(text: str, encoding: str | None) -> str:
    wanted = encoding or "utf-8"
    try:
        text.encode(wanted)
    except UnicodeEncodeError:
        return text.encode(wanted, "backslashreplace").decode(wanted)
    return text


def _let_go_of(stream: TextIO) -> None:
    """Let the interpreter's own last flush find an open end, or it would complain."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)
