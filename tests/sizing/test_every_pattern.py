"""Every clean case and example with a multiple, at five other sizes.

Each must come out clean; the smallest and the largest must have the same multiple, and give
their own numbers back at the size they were written in. At that size nothing changes at all.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from hookwright.checking import Checked, check
from hookwright.finding import Severity
from hookwright.notation.lexer import NUMBER_WORDS
from hookwright.reading import read_draft
from hookwright.sizing.alike import growing_together, main_part
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.multiples import growth_of
from hookwright.sizing.rewriting import Rewritten, SizeWritten, rewritten

TESTS = Path(__file__).parent.parent
PLACES = ("cases/*/*.txt", "../examples/*.md", "editing/drafts/clean/*.md")


def is_slip(path: Path) -> bool:
    """Whether the sheet of a case names a planted fault: such a text is never resized."""
    sheet = path.with_suffix(".toml")
    return sheet.exists() and "\n[[problem]]" in sheet.read_text("utf-8")


FILES = sorted(path for place in PLACES for path in TESTS.glob(place) if not is_slip(path))
MORE = (1, 2, 5, 8, 13)
"""So many repeats more than are written."""
AND_BACK = (MORE[0], MORE[-1])
"""Those from which the way back is gone as well."""
NAMED = {
    "puffin-mat-two-tabs-uk": "divides",
    "mizzle-baby-top-three-sizes-uk": "divides",
    "dotterel-vest-front": "divides",
    "shag-waistcoat-back": "divides",
    "fulmar-vest-back": "divides",
    "larkrise-tee": "divides",
    "saturday-market-bag": "divides",
    "cat-coaster-two-ears": "divides",
    "heart-cloth-two-tops": "divides",
    "ternbay-cardigan": "each edge",
}
"""Texts of which a line does not follow, with a word of the reason that is told for it:
tabs, shoulders, straps and ears, and a band about a front that stands on its own chain."""


def read(path: Path) -> Checked:
    return check(read_draft(path))


class Text:
    """A text with how its sizes grow.

    Attributes:
        checked: The text, read and worked.
        growths: How each of its sizes grows.
        parts: The main part of each size; empty if any size has no multiple.
        stops: Whether a row does not follow from the chain.
    """

    def __init__(self, checked: Checked) -> None:
        self.checked = checked
        count = max(1, len(checked.sizes))
        self.growths = {size: growth_of(checked, size) for size in range(count)}
        parts = [main_part(growth) for growth in self.growths.values()]
        self.parts = [part for part in parts if part is not None]
        if len(self.parts) < count:
            self.parts = []
        together = [growing_together(growth) for growth in self.growths.values()]
        self.stops = any(one is not None and one.stops is not None for one in together)

    def with_more(self, more: int) -> Rewritten:
        """The text with so many repeats more in every size."""
        names = self.checked.sizes or ("",)
        wanted = [
            SizeWritten(name, part.repeats + more, source=size)
            for size, (name, part) in enumerate(zip(names, self.parts, strict=True))
        ]
        return rewritten(self.checked, wanted, self.growths)


def with_multiple(path: Path) -> Text | None:
    """A text that is clean and has a multiple in every size."""
    checked = check(read_draft(path))
    if any(found.severity is not Severity.ADVICE for found in checked.findings):
        return None
    text = Text(checked)
    return text if text.parts else None


def in_figures(text: str) -> str:
    """A text with its numbers in figures, and nouns in the plural: what a size restores."""
    words = {**NUMBER_WORDS, "once": 1, "twice": 2, "thrice": 3}
    figures = re.sub(
        r"[A-Za-z]+", lambda found: str(words.get(found[0].lower(), found[0])), text
    )
    figures = re.sub(r"\b([2-9]0)-([1-9])\b", lambda f: str(int(f[1]) + int(f[2])), figures)
    return re.sub(r"\s*\btimes?\b", "", figures)


def told(path: Path) -> Iterator[str]:
    """What is wrong with the other sizes of a text."""
    text = with_multiple(path)
    if text is None:
        return
    if text.stops:
        yield from told_of_the_row_named(text)
        return
    same = text.with_more(0)
    if same.text != text.checked.source.text or same.open:
        yield "its own size is another text"
    yield from told_of_rows(text)
    for more in MORE:
        result = text.with_more(more)
        if result.checked is None:
            yield f"{more} more: {result.open[0].message}"
            continue
        if more in AND_BACK:
            yield from told_of(text, Text(result.checked), more)


def told_of_the_row_named(text: Text) -> Iterator[str]:
    """What is wrong with how a row is named that does not follow; nothing may be written."""
    result = text.with_more(2)
    if result.text != text.checked.source.text or result.checked is not None:
        yield "written all the same"
    for found in result.open:
        if found.span.start == found.span.end or not found.why:
            yield f"no row and no reason: {found.message}"


def told_of_rows(text: Text) -> Iterator[str]:
    """What is wrong where two sets of rows more are worked; a text may say why it cannot be."""
    part = text.parts[0]
    if len(text.parts) > 1 or not part.set_repeats:
        return
    sets = part.set_repeats
    longer = rewritten(
        text.checked, [SizeWritten("", part.repeats, sets + 2)], text.growths
    )
    if longer.checked is None:
        return
    other = Text(longer.checked)
    if [own.set_repeats for own in other.parts] != [sets + 2]:
        yield "another number of sets"
        return
    back = rewritten(other.checked, [SizeWritten("", part.repeats, sets)], other.growths)
    if in_figures(back.text) != in_figures(text.checked.source.text):
        yield "other rows on the way back"


def told_of(text: Text, other: Text, more: int) -> Iterator[str]:
    """What is wrong with one other size."""
    if not other.parts or multiple_of(other.parts[0]) != multiple_of(text.parts[0]):
        yield f"{more} more: another multiple"
        return
    if other.parts[0].repeats != text.parts[0].repeats + more:
        yield f"{more} more: {other.parts[0].repeats} repeats"
    back = other.with_more(-more).text
    if in_figures(back) != in_figures(text.checked.source.text):
        yield f"{more} more: other numbers on the way back"


def multiple_of(part: PartMultiple) -> tuple[int | None, int | None]:
    """What one repeat takes of chains and stitches."""
    chains = part.chains.each if part.chains is not None else None
    return chains, part.stitches.each if part.stitches is not None else None


@pytest.mark.parametrize(
    "path", FILES, ids=[f"{path.parent.name}/{path.stem}" for path in FILES]
)
def test_five_other_sizes_come_out(path: Path) -> None:
    assert list(told(path)) == []


def test_so_many_texts_have_a_multiple_and_come_out() -> None:
    """A guard that the test above looks at something."""
    sample = FILES[::23]
    several = [text for path in sample if (text := with_multiple(path)) is not None]
    assert len(several) * 8 >= len(sample)
    assert sum(text.stops for text in several) * 3 <= len(several)


@pytest.mark.parametrize(("stem", "word"), NAMED.items())
def test_what_does_not_follow_is_named(stem: str, word: str) -> None:
    text = with_multiple(next(path for path in FILES if path.stem == stem))
    assert text is not None
    result = text.with_more(2)
    assert result.text == text.checked.source.text
    assert word in result.open[0].why
