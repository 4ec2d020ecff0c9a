"""The symbol charts and the outlines of a pattern, in both terms and for both hands.

The stitches of the charts are laid out once. A chart for a left-hander is drawn from the
same layout, and one in other terms has its words translated: symbols belong to no terms.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from html import escape, unescape

from hookwright.checking import Checked
from hookwright.drawing.asked import NotDrawn, Wanted, sheets_of
from hookwright.drawing.chart import chart_of, chart_sheets
from hookwright.drawing.lying import left_handed, lying_pieces
from hookwright.drawing.sheet import Sheet
from hookwright.drawing.stitch_symbols import symbols_of
from hookwright.drawing.yarn_colours import yarn_colours
from hookwright.notation.printing.terms import translate_words
from hookwright.progress import Progress, stretch, tell
from hookwright.regex import regex
from hookwright.release.copies import TERMS, Edition
from hookwright.release.drawn import Drawn, Keep
from hookwright.release.fabric_key import fabric_key
from hookwright.release.facts import Picture
from hookwright.release.manifest import sha256

MOST = 3
"""More pages of charts are no help in a pattern: `hookwright draw` makes them."""
_SAID = regex(r"(<(?:text|title|desc)\b[^>]*>)([^<]*)(?=</)")
_TITLE = regex(r"<title\b[^>]*>([^<]*)</title>")
_WORDS = regex(r"<desc\b[^>]*>([^<]*)</desc>")
_RIGHT_HANDED = (Edition.COLOUR, Edition.SPARING)


def charts_of(
    checked: Checked, keep: Keep, progress: Progress | None = None
) -> tuple[Drawn, ...]:
    """The charts of a pattern; none where there are none, or too many for one.

    Raises:
        Cancelled: When whoever is told of the progress stops the work.
    """
    return _drawings("chart", checked, keep, lambda: _chart_sheets(checked, progress))


def schematics_of(
    checked: Checked, keep: Keep, progress: Progress | None = None
) -> tuple[Drawn, ...]:
    """The outlines of its pieces; none where nothing tells how large they are.

    Raises:
        Cancelled: When whoever is told of the progress stops the work.
    """
    return _drawings("schematic", checked, keep, lambda: _outlines(checked, progress))


_ByHand = Iterator[tuple[bool, Sequence[Sheet]]]


def _drawings(
    kind: str, checked: Checked, keep: Keep, sheets_of_both: Callable[[], _ByHand]
) -> tuple[Drawn, ...]:
    """The drawings of a kind, those of an earlier release where they are still true."""
    made_of = sha256(kind, fabric_key(checked))
    kept = _kept(kind, keep, made_of)
    if kept:
        return kept
    own = checked.terms or checked.worked.terms
    found: list[Drawn] = []
    for left, sheets in sheets_of_both():
        if len(sheets) > MOST:
            return ()
        for terms in TERMS:
            for number, sheet in enumerate(sheets, 1):
                svg = sheet.svg() if terms == own else _in_terms(sheet.svg(), terms)
                name = _name(kind, number, len(sheets), terms, left=left)
                found.append(_drawn(kind, name, svg.encode(), made_of, terms, left=left))
    return tuple(found)


def _outlines(checked: Checked, progress: Progress | None) -> _ByHand:
    """The outlines for the right hand, then those for the left."""
    for left in (False, True):
        half = stretch(progress, left / 2, left / 2 + 0.5, "the measurements")
        with suppress(NotDrawn):
            yield left, sheets_of("schematic", checked, Wanted(left_handed=left), half)


def _chart_sheets(checked: Checked, progress: Progress | None) -> _ByHand:
    """The sheets for the right hand, then those for the left."""
    pieces = list(lying_pieces(checked, 0, stretch(progress, 0.0, 0.7)))
    symbols, colours = symbols_of(checked.worked), yarn_colours(checked)
    for left in (False, True):
        tell(progress, 0.85 if left else 0.7, "the charts")
        drawn = [left_handed(piece) if left else piece for piece in pieces]
        charts = [chart_of(one, symbols, colours, repeat=True) for one in drawn]
        yield (
            left,
            [
                sheet
                for chart in charts
                for sheet in chart_sheets(chart, checked.design.title, "chart")
            ],
        )


def _name(kind: str, number: int, of: int, terms: str, *, left: bool) -> str:
    hand = "-left-handed" if left else ""
    return f"{kind}-{number}-of-{of}-{terms.lower()}{hand}.svg"


def _drawn(
    kind: str, name: str, data: bytes, made_of: str, terms: str, *, left: bool
) -> Drawn:
    text = data.decode("utf-8")
    title, words = _TITLE.search(text), _WORDS.search(text)
    caption = unescape(title[1]).rpartition(": ")[2] if title else ""
    caption = caption[:1].upper() + caption[1:]
    alt = unescape(words[1]) if words else caption
    editions = (Edition.LEFT_HANDED,) if left else _RIGHT_HANDED
    return Drawn(Picture(name, alt, caption, kind), data, made_of, editions, terms)


def _kept(kind: str, keep: Keep, made_of: str) -> tuple[Drawn, ...]:
    """The drawings of an earlier release, if it has all of them."""
    for of in range(1, MOST + 1):
        found = list(_kept_of(kind, keep, made_of, of))
        if found and all(data is not None for *_, data in found):
            return tuple(
                _drawn(kind, name, data or b"", made_of, terms, left=left)
                for name, terms, left, data in found
            )
    return ()


def _kept_of(
    kind: str, keep: Keep, made_of: str, of: int
) -> Iterator[tuple[str, str, bool, bytes | None]]:
    for left in (False, True):
        for terms in TERMS:
            for number in range(1, of + 1):
                name = _name(kind, number, of, terms, left=left)
                yield name, terms, left, keep(name, made_of)


def _in_terms(svg: str, terms: str) -> str:
    """A chart with its words in other terms."""

    def translated(found: re.Match[str]) -> str:
        words = translate_words(unescape(found[2]), terms)
        return found[1] + escape(words, quote=False)

    return _SAID.sub(translated, svg)
