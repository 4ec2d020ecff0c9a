"""Headers, footers and page numbers of a print: what stands at one height on many pages."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from itertools import takewhile

from hookwright.reading.labels import begins_a_row
from hookwright.reading.printed import PrintedLine
from hookwright.regex import regex

_MARGIN_SHARE = 0.14
"""Share of the page's height, at its top and at its foot, where such lines stand."""
_OUTERMOST = 3
"""How many lines from the outermost one are looked at."""
_HEIGHT_STEP_PT = 3
_PAGES_SHARE = 0.4
"""They may stand on every second page only: left and right pages can differ."""
_DIGITS = 4
_NUMBER = regex(r"\d+")
_PAGE_NUMBER = regex(
    r"\W*(?:page\s*)?(\d{1,4})(?:\s*(?:of|/)\s*\d{1,4})?\W*", re.IGNORECASE
)

Pages = Sequence[Sequence[PrintedLine]]


def without_running_lines(
    pages: Pages, heights_pt: Sequence[float]
) -> tuple[list[list[PrintedLine]], list[str]]:
    """The pages without running lines, and the text of each kind that was left out.

    A line that begins with a row label is never left out.
    """
    kinds: dict[tuple[str, int], list[PrintedLine]] = defaultdict(list)
    out: set[PrintedLine] = set()
    for lines, height_pt in zip(pages, heights_pt, strict=True):
        for line in _in_the_margins(lines, height_pt):
            kinds[_kind(line)].append(line)
            if _is_page_number(line):
                out.add(line)
    said: list[str] = []
    for kind in kinds.values():
        if _is_running(kind, len(pages)):
            out.update(kind)
            said.append(kind[0].text)
    return [[line for line in lines if line not in out] for lines in pages], said


def _in_the_margins(lines: Sequence[PrintedLine], height_pt: float) -> list[PrintedLine]:
    """The outermost lines at the top and the foot of a page."""
    by_height = sorted(lines, key=lambda line: -line.box.top)
    top, rest = by_height[:_OUTERMOST], by_height[_OUTERMOST:]
    head = takewhile(lambda line: not begins_a_row(line.text), top)  # below is the row
    outermost = [*head, *rest[-_OUTERMOST:]]
    margin = _MARGIN_SHARE * height_pt
    return [
        line
        for line in outermost
        if (line.box.top > height_pt - margin or line.box.bottom < margin)
        and not begins_a_row(line.text)
    ]


def _kind(line: PrintedLine) -> tuple[str, int]:
    words = " ".join(_NUMBER.sub("#", line.text).split())
    return words, round(line.box.bottom / _HEIGHT_STEP_PT)


def _is_page_number(line: PrintedLine) -> bool:
    found = _PAGE_NUMBER.fullmatch(line.text.strip())
    return found is not None and int(found[1]) == line.page


def _is_running(kind: Sequence[PrintedLine], pages: int) -> bool:
    """Whether these stand on enough pages and differ in nothing but the page's number."""
    on = {line.page for line in kind}
    if len(on) < max(2, _PAGES_SHARE * pages):
        return False
    numbers = [_NUMBER.findall(line.text) for line in kind]
    for at_one_place in zip(*numbers, strict=True):
        steps = {
            _steps(number, line) for number, line in zip(at_one_place, kind, strict=True)
        }
        if len(set(at_one_place)) > 1 and len(steps) > 1:
            return False
    return True


def _steps(number: str, line: PrintedLine) -> int | str:
    """How far a number is ahead of its page; the number itself if it is no page's."""
    return int(number) - line.page if len(number) <= _DIGITS else number
