"""Are the rows that the words name there: "the sts skipped in Rnd 21", "as for Arms to R6"?

Words beside the instructions send a maker to a row by its number. It is missed only where
every part of the kind ends before it, and none of them runs on for as long as the maker
likes; or where the part that is named with it ends before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import chain, islice

from msgspec import Struct

from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import row_at
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import Chain, InOnePlace, Make, PartText, Recall, Repeat
from hookwright.regex import regex
from hookwright.source import Span

_WORD = r"(?P<word>[Rr]ows?|[Rr]nds?|[Rr]ounds?|ROWS?|RNDS?|ROUNDS?|R(?=\d))"
_NAMED = regex(
    rf"\b(?:of|in|into|from|over|between|at|on|around|along|through)\s(?:the\s)?{_WORD}\s?"
    r"(?P<first>\d{1,4})(?![\d.,/½]*\s?(?:\d|in\b|cm\b|sts?\b|times\b))"
    r"(?:\s?(?:-|–|to|and|&|or)\s?(?P<second>(?:[Rr]ows?|[Rr]nds?|[Rr]ounds?|R)\s?)?"
    r"(?P<last>\d{1,4})(?!\d))?"
)
_OF_PART = regex(
    r"\b(?:as|like|same as)\s(?:(?:given|told|set|written|worked|described)\s)?(?:for\s)?"
    r"(?:the\s)?(?P<name>[A-Z][a-z]{2,})[^.;:\n]{0,24}?\b(?:to|through|up to|until|Rows?|"
    r"Rnds?|Rounds?|R\d{1,4}(?:\s?[-–]|\sto))\s?(?:the\s)?(?:end\sof\s|completion\sof\s)?"
    r"(?:and\sincluding\s)?(?:(?P<word>[Rr]ow|[Rr]nd|[Rr]ound|R(?=\d))\s?|\d{1,4}\s?(?:-|–|to)\s?R?)"
    r"(?P<first>\d{1,4})(?!\d)(?P<sizes>\s?[(\[][\d\s,:;–-]{1,60}[)\]])?"
)
_FUTURE = regex(
    r"\b(?:until|till|to|through|up to|by|before|beyond|continu\w*|rep\w*|every|total|"
    r"instead|would)\b[^.;\n]{0,24}$",
    re.IGNORECASE,
)
_RUNS_ON = regex(
    r"\buntil\b|\bcontinu|\beven\b|\bdesired\b|\bas (?:long|many|often)\b|"
    r"\b(?:more|further|another)\s(?:\w+\s)?(?:rows?|rnds?|rounds?|times|repeats?)\b|"
    r"\b(?:work|rep|repeat|for)\b[^.\n]{0,20}\d\s(?:rows|rnds|rounds|times)\b|"
    r"\b(?:rows?|rnds?|rounds?)\s[-\w ,]{0,24}(?:form|pattern|repeat)|\bchart|"
    r"\brep(?:eat)?s?\b[^.\n]{0,40}\b(?:times|ending)\b",
    re.IGNORECASE,
)
_OTHERS = regex(
    r"\b(?:chart|motif|square|strip|schematic|swatch|graph|key|table|size|plan|sample|"
    r"foundation|previous|other|last|pattern)\b",
    re.IGNORECASE,
)


class _Rows(Struct, frozen=True):
    """The numbered rows of a part.

    Attributes:
        part: The part.
        last: Its highest number.
        kinds: What its rows are called by: rounds (True), rows (False), or both.
        runs_on: Whether it may have further ones.
        span: Where it stands.
    """

    part: PartText
    last: int
    kinds: frozenset[bool]
    runs_on: bool
    span: Span


def rows_named(manuscript: Manuscript) -> Iterator[Finding]:
    """Rows that words name and no part has, the first of each number."""
    text = manuscript.source.text
    if not _may_be_named(text):
        return
    parts = _parts(manuscript)
    told: set[int] = set()
    missed = chain(_of_parts(manuscript, parts), _of_all(manuscript, parts))
    for found, last, name in islice(missed, _MOST):
        group = "last" if found.groupdict().get("last") else "first"
        number = int(found[group])
        if number in told:
            continue
        told.add(number)
        yield _finding(manuscript, found, group, last, name)


_ROW_NUMBER = regex(r"[Rr](?:ow|nd|ound|OW|ND|OUND)?[sS]?\s?\d")
_TO_ROWS = tuple("of in into from over between at on around along through the".split())
_NAME_OF_PART = regex(r"[A-Z][a-z]{2}")
_TO_PARTS = tuple("as like given told set written worked described for the".split())
"""The words that lead to a row, and to the name of a part, in what is sought here."""
_LONGEST_LEAD = 10


def _may_be_named(text: str) -> bool:
    """Whether a row or a part stands behind a word that leads to it, not as a label."""
    led = _is_led(text, _ROW_NUMBER, _TO_ROWS) and _NAMED.search(text)
    return bool(led or (_is_led(text, _NAME_OF_PART, _TO_PARTS) and _OF_PART.search(text)))


def _is_led(text: str, named: re.Pattern[str], leads: tuple[str, ...]) -> bool:
    starts = (found.start() for found in named.finditer(text))
    return any(
        text[max(0, at - _LONGEST_LEAD) : max(0, at - 1)].endswith(leads) for at in starts
    )


def _parts(manuscript: Manuscript) -> list[_Rows]:
    """The parts with rows in order, and how far each is numbered."""
    text, parts = manuscript.source.text, manuscript.pattern.parts
    numbers: dict[int, set[int]] = {}
    for size in manuscript.worked.sizes:
        for step in size.plan.steps:
            if step.number is not None:
                numbers.setdefault(step.part, set()).add(step.number)
    ends = [*(part.span.start for part in parts), len(text)][1:]
    result = []
    for at, (part, end) in enumerate(zip(parts, ends, strict=False)):
        labels = [row.label for row in part.rows if row.label is not None]
        kinds = frozenset(label.is_round for label in labels if label.numbers)
        if not kinds:
            continue
        told = {part.last_row, *numbers.get(at, ())}
        told |= {number for label in labels for number in (*label.numbers, label.until)}
        told |= {n for label in labels for one in label.by_size for n in one}
        span = Span(min(part.span.start, part.rows[0].span.start), end)
        runs_on = _runs_on(part) or _RUNS_ON.search(text, span.start, span.end) is not None
        result.append(_Rows(part, max(told), kinds, runs_on, span))
    return result


def _runs_on(part: PartText) -> bool:
    """Whether rows without a number, or as many as one likes, may follow the others."""
    for row in part.rows:
        label = row.label
        if label is not None and (label.every or label.next_rows is not None):
            return True
        if label is not None and label.numbers:
            recalls = [node for node in row.body if isinstance(node, Recall)]
            if any(node.open_length or node.forms_pattern for node in recalls):
                return True
            continue
        works = (node for node in nested(row.body) if isinstance(node, _WORK))
        stitches = [node for node in works if not _is_slip(node)]
        if stitches or (label is not None and not label.numbers):
            return True
    return False


_WORK = (Make, Repeat, InOnePlace, Recall)


def _is_slip(node: object) -> bool:
    return isinstance(node, Chain) or (isinstance(node, Make) and node.stitch == "sl st")


_MOST = 200
"""A text that misses more rows than that is none of ours."""

_Missed = tuple[re.Match[str], int, str]


def _of_parts(manuscript: Manuscript, parts: Sequence[_Rows]) -> Iterator[_Missed]:
    """ "as for Arms to the end of R6" where the Arms end at R5."""
    called: dict[str, list[_Rows]] = {}
    for found in _OF_PART.finditer(manuscript.source.text):
        stem = found["name"].lower().rstrip("s")
        if stem not in called and len(called) < _MOST:
            called[stem] = [rows for rows in parts if stem in rows.part.name.lower()]
        some = called.get(stem, [])
        if len(some) != 1 or some[0].runs_on or found["sizes"]:
            continue
        (rows,) = some
        within = rows.span.start <= found.start() < rows.span.end
        if int(found["first"]) > rows.last and not within:
            yield found, rows.last, rows.part.name


def _of_all(manuscript: Manuscript, parts: Sequence[_Rows]) -> Iterator[_Missed]:
    """ "in Rnd 21" where no part has so many rounds."""
    text = manuscript.source.text
    like = {
        kind: [rows for rows in parts if kind is None or kind in rows.kinds] or parts
        for kind in (None, True, False)
    }
    last_of = {kind: max((r.last for r in some), default=0) for kind, some in like.items()}
    endless = {kind: any(rows.runs_on for rows in some) for kind, some in like.items()}
    tried: set[str] = set()
    for found in _NAMED.finditer(text):
        kind = _kind(found["word"])
        last, number = last_of[kind], int(found["last"] or found["first"])
        if not 0 < last < number or endless[kind] or len(tried) > _MOST:
            continue
        lead = text[max(0, found.start() - 40) : found.start()].rpartition("\n")[2]
        behind = text[found.end() : found.end() + 30].split("\n")[0]
        if _FUTURE.search(lead) or _OTHERS.search(lead) or _OTHERS.search(behind):
            continue
        tried.add(found[0])
        if not _is_recalled(manuscript, found.start()):
            yield found, last, ""


def _kind(word: str) -> bool | None:
    """Whether a word says rounds; None where it may say either."""
    return None if word == "R" else word[:2].lower() != "ro" or word[:3].lower() == "rou"


def _is_recalled(manuscript: Manuscript, at: int) -> bool:
    """Whether the words are read as rows to be worked again, which is told elsewhere."""
    row, _ = row_at(manuscript, at)
    return row is not None and any(
        isinstance(node, Recall)
        and row.place(node.span).start <= at < row.place(node.span).end
        for node in nested(row.body)
    )


def _finding(
    manuscript: Manuscript, found: re.Match[str], group: str, last: int, name: str
) -> Finding:
    kind = _kind(found["word"] or "R")
    label = {True: "Round ", False: "Row ", None: "R"}[kind]
    there = f"the {name} end{'s' * (not name.endswith('s'))}" if name else "the last one is"
    row, part = row_at(manuscript, found.start(group))
    word = "second" if group == "last" else "word"
    start = found.start(word) if found[word] else found.start(group)
    behind = f"{there} {'at ' * bool(name)}{label}{last}"
    return Finding(
        "missing-target",
        Severity.WARNING,
        Span(start, found.end(group)),
        f"There is no {label}{found[group]}: {behind}.",
        "Look at the number, or put in the rows that are missing.",
        row=row.label.text if row and row.label else None,
        part=part or None,
    )
