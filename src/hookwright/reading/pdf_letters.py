"""The letters of a page of a PDF, and the words they are drawn in."""

from __future__ import annotations

import ctypes
import math
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from msgspec import Struct

from hookwright.reading.draft import Box
from hookwright.reading.printed import Run
from hookwright.regex import regex

_ASKEW = 3
"""Degrees up to which a line of letters is taken as straight."""
_BOLD_NAME = regex(r"bold|black|heavy|demi", re.IGNORECASE)
_DESCENT, _ASCENT = 0.22, 0.78
_SAME_BASELINE = 0.3
_WIDE = 1.0
_BACKWARDS = 0.6
_FAR_PT = 50_000.0
"""Three times as far as the largest sheet a PDF may have."""
_SPACE = 0x20
_REPLACEMENT = 0xFFFD
_PRIVATE_USE = range(0xE000, 0xF900)
_LIGATURES = str.maketrans(
    {"\ufb00": "ff", "\ufb01": "fi", "\ufb02": "fl", "\ufb03": "ffi", "\ufb04": "ffl"}
)


class Style(Struct, frozen=True):
    """How the letters of one text object are drawn.

    Attributes:
        size: In points, after all scaling.
        bold: By the name of the font.
        turn: Degrees, counted anticlockwise; None for letters that lean or lie askew.
    """

    size: float
    bold: bool
    turn: int | None


class Letter(NamedTuple):
    """A letter at its place on the page, seen in the direction of its line.

    Attributes:
        text: The letter, or the letters of a ligature.
        left: Where its shape begins along the line, in points.
        right: Where its shape ends.
        baseline: Where the line stands, in points towards the letters' heads.
        style: How it is drawn.
    """

    text: str
    left: float
    right: float
    baseline: float
    style: Style


class Letters:
    """The letters of a page in the order in which they are drawn; None for a bare gap."""

    def __init__(self, text_page: Any, raw: Any) -> None:  # noqa: ANN401 - it has no types
        self.unknown = 0
        self._page = text_page
        self._raw = raw
        self._object = 0
        self._style = Style(1.0, bold=False, turn=0)
        self._edges = [ctypes.c_double() for _ in range(4)]
        self._place = [ctypes.c_double() for _ in range(2)]
        self._matrix = raw.FS_MATRIX()
        self._name = ctypes.create_string_buffer(128)
        self._flags = ctypes.c_int()

    def __iter__(self) -> Iterator[Letter | None]:
        for at in range(self._page.count_chars()):
            code = self._raw.FPDFText_GetUnicode(self._page, at)
            if self._raw.FPDFText_IsGenerated(self._page, at) == 1:
                if code == _SPACE:
                    yield None
            elif not self._is_known(at, code):
                self.unknown += 1
            else:
                letter = self._letter(at, code)
                if _is_on_a_sheet(letter):
                    yield letter

    def _is_known(self, at: int, code: int) -> bool:
        known = code not in _PRIVATE_USE and code not in {0, _REPLACEMENT}
        return known and self._raw.FPDFText_HasUnicodeMapError(self._page, at) != 1

    def _letter(self, at: int, code: int) -> Letter:
        style = self._style_of(at)
        left, right, bottom, top = self._edges
        self._raw.FPDFText_GetCharBox(self._page, at, left, right, bottom, top)
        x, y = self._place
        self._raw.FPDFText_GetCharOrigin(self._page, at, x, y)
        text = chr(code).translate(_LIGATURES)
        if style.turn == 90:
            return Letter(text, bottom.value, top.value, -x.value, style)
        if style.turn == 180:
            return Letter(text, -right.value, -left.value, -y.value, style)
        if style.turn == 270:
            return Letter(text, -top.value, -bottom.value, x.value, style)
        return Letter(text, left.value, right.value, y.value, style)

    def _style_of(self, at: int) -> Style:
        """The style of a letter; the letters of one text object share theirs."""
        drawn = self._raw.FPDFText_GetTextObject(self._page, at)
        address = ctypes.addressof(drawn.contents) if drawn else 0
        if address == 0 or address != self._object:
            self._object = address
            self._style = self._new_style(at)
        return self._style

    def _new_style(self, at: int) -> Style:
        raw, page, matrix = self._raw, self._page, self._matrix
        raw.FPDFText_GetMatrix(page, at, matrix)
        size = raw.FPDFText_GetFontSize(page, at) * math.hypot(matrix.c, matrix.d)
        angle = math.degrees(math.atan2(matrix.b, matrix.a))
        turn = round(angle / 90) * 90
        name = self._name
        raw.FPDFText_GetFontInfo(page, at, name, len(name), self._flags)
        bold = _BOLD_NAME.search(name.value.decode("utf-8", "replace")) is not None
        straight = abs(angle - turn) <= _ASKEW
        return Style(max(size, 0.1), bold, turn % 360 if straight else None)


def _is_on_a_sheet(letter: Letter) -> bool:
    """Whether a letter stands where paper can be; some are scaled out of all measure."""
    return (
        -_FAR_PT < letter.left <= letter.right < _FAR_PT
        and -_FAR_PT < letter.baseline < _FAR_PT
        and letter.style.size < _FAR_PT
    )


def origin_shift(turn: int, sheet: Box) -> tuple[float, float]:
    """What to add along a line and across it to measure from the turned sheet's corner."""
    return {
        90: (-sheet.bottom, sheet.right),
        180: (sheet.right, sheet.top),
        270: (sheet.top, -sheet.left),
    }.get(turn, (-sheet.left, -sheet.bottom))


def runs_of(letters: Iterable[Letter | None], shift: tuple[float, float]) -> Iterator[Run]:
    """Words drawn together: letters that follow one another closely on one baseline.

    Where the library has a gap between words, it hands over a letter without a place.

    Args:
        letters: Letters of one direction, in the order in which they are drawn.
        shift: What to add along the line and across it.
    """
    run: list[Letter] = []
    words: list[str] = []
    for letter in letters:
        if letter is None:
            words.append(" ")
            continue
        if run and not _follows(run[-1], letter):
            yield _run(run, words, shift)
            run, words = [], []
        run.append(letter)
        words.append(letter.text)
    if run:
        yield _run(run, words, shift)


def _follows(last: Letter, letter: Letter) -> bool:
    size = min(last.style.size, letter.style.size)
    return (
        abs(letter.baseline - last.baseline) < _SAME_BASELINE * size
        and letter.left > last.left - _BACKWARDS * size
        and letter.left < last.right + _WIDE * size
    )


def _run(
    letters: Sequence[Letter], words: Sequence[str], shift: tuple[float, float]
) -> Run:
    along, across = shift
    size = max(letter.style.size for letter in letters)
    inked = [letter for letter in letters if letter.text.strip()] or letters
    foot = letters[0].baseline + across
    box = Box(
        min(letter.left for letter in inked) + along,
        foot - _DESCENT * size,
        max(letter.right for letter in inked) + along,
        foot + _ASCENT * size,
    )
    return Run("".join(words), box, size, all(letter.style.bold for letter in letters))
