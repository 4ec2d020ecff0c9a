"""The symbol charts and the outlines of a pattern, in both terms and for both hands.

The stitches are laid out once. A drawing for a left-hander is made from the same layout,
and one in other terms has its words translated: symbols belong to no terms.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from html import escape, unescape

from hookwright.checking import Checked
from hookwright.notation.printing.terms import translate_words
from hookwright.progress import Progress, stretch, tell
from hookwright.regex import regex
from hookwright.release.aside import Aside
from hookwright.release.copies import TERMS, Edition
from hookwright.release.drawn import Drawn
from hookwright.release.facts import Picture

CHART, OUTLINE = "chart", "schematic"
MOST = 3
"""More pages of charts are no help in a pattern: `hookwright draw` makes them."""
_SAID = regex(r"(<(?:text|title|desc)\b[^>]*>)([^<]*)(?=</)")
_TITLE = regex(r"<title\b[^>]*>([^<]*)</title>")
_WORDS = regex(r"<desc\b[^>]*>([^<]*)</desc>")
_NAMED = regex(
    r"(?P<kind>chart|schematic)-\d+-of-\d+-(?P<terms>us|uk)(?P<left>-left-handed)?\.svg"
)
_RIGHT_HANDED = (Edition.COLOUR, Edition.SPARING)


def drawings_of(
    checked: Checked, made_of: str, aside: Aside, progress: Progress | None = None
) -> tuple[Drawn, ...]:
    """The charts of a pattern, then its outlines.

    There are no charts where they would take too many pages, and no outlines where nothing
    tells how large its pieces are.

    Args:
        checked: The pattern.
        made_of: The hash of all that its pictures follow from.
        aside: Where the other sizes are measured meanwhile.
        progress: Told how far it is; False stops.

    Raises:
        Cancelled: When `progress` answers False.
    """
    charts: list[Drawn] = []
    outlined: list[Drawn] = []
    for left, chart, outline in _sheets(checked, aside, progress):
        charts += _in_both_terms(CHART, checked, chart, made_of, left=left)
        outlined += _in_both_terms(OUTLINE, checked, outline, made_of, left=left)
    return (*charts, *outlined)


def drawing_kept(name: str, data: bytes, made_of: str) -> Drawn | None:
    """A drawing of an earlier release; None for a file of another kind."""
    found = _NAMED.fullmatch(name)
    if found is None:
        return None
    kind, terms, left = found["kind"], found["terms"].upper(), bool(found["left"])
    return _drawn(kind, name, data, made_of, terms, left=left)


_Svgs = Sequence[str]


def _sheets(
    checked: Checked, aside: Aside, progress: Progress | None
) -> Iterator[tuple[bool, _Svgs, _Svgs]]:
    """Charts and outlines for the right hand, then those for the left."""
    from hookwright.drawing.both_hands import (  # noqa: PLC0415 - numpy and all that
        charts_in_repeats,
        laid_out,
        measured_in_size,
        outlines_measured,
    )

    laid = laid_out(checked, stretch(progress, 0.0, 0.3, "the charts"))
    sizes = range(1, len(checked.worked.sizes))
    begun = aside.begin([partial(measured_in_size, laid, size) for size in sizes[::-1]])
    charts = []
    for left in (False, True):
        tell(progress, 0.4 if left else 0.3, "the charts")
        charts.append([sheet.svg() for sheet in charts_in_repeats(laid, left=left)])
    rest = stretch(progress, 0.5, 1.0, "the measurements")
    others = []
    for number, one in enumerate(begun):
        share = (number / len(begun), (number + 1) / len(begun))
        others.append(one.result(stretch(rest, *share)))
    for left, chart in zip((False, True), charts, strict=True):
        outlines = outlines_measured(laid, others[::-1], left=left)
        yield left, chart, [sheet.svg() for sheet in outlines]


def _in_both_terms(
    kind: str, checked: Checked, svgs: _Svgs, made_of: str, *, left: bool
) -> Iterable[Drawn]:
    if len(svgs) > MOST:
        return
    own = checked.terms or checked.worked.terms
    for terms in TERMS:
        for number, svg in enumerate(svgs, 1):
            said = svg if terms == own else _in_terms(svg, terms)
            name = _name(kind, number, len(svgs), terms, left=left)
            yield _drawn(kind, name, said.encode(), made_of, terms, left=left)


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


def _in_terms(svg: str, terms: str) -> str:
    """A drawing with its words in other terms."""

    def translated(found: re.Match[str]) -> str:
        words = translate_words(unescape(found[2]), terms)
        return found[1] + escape(words, quote=False)

    return _SAID.sub(translated, svg)
