"""A pattern of several sizes in the numbers of one of them.

In the rows the numbers are those of the tree, each at its place. Beside the rows a list is
one with as many values as there are sizes: "27 (29, 32) in", "1 (1, 2) balls". Rows that
the size does not have go, and so do lines that only say for which sizes rows are.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from hookwright.checking import Checked
from hookwright.finding import Edit
from hookwright.notation.printing.words import number_list
from hookwright.notation.tree import Amount, RowText
from hookwright.regex import regex
from hookwright.sizing.slots import amounts_in
from hookwright.source import Span
from hookwright.wording.expected import rows_of

_VALUE = r"(?:\d+(?:[.,]\d+)?(?:[ -]?\d+/\d+)?[ ]?[¼½¾⅓⅔⅛⅜⅝⅞]?|[¼½¾⅓⅔⅛⅜⅝⅞]|\d+/\d+|[-–—])"
_RANGE = rf"{_VALUE}(?:[-–]{_VALUE})?"
_GAP = r"[ ]?[,;:|/][ ]?|[ ]"
_THINGS = regex(
    r"[ ](?P<thing>balls|skeins|hanks|cakes|times|stitches|sts|rows|rounds|rnds|repeats|"
    r"chains|spaces|sps|inches|buttons|beads|pieces|markers)\b"
)
_ONE_OF = {"times": "time", "inches": "inch", "stitches": "stitch"}
_NUMBER = regex(r"\d")
_FROM_TO = regex(r"^(\d+)[-–](\d+)$")
_IN_BRACKETS = regex(r"([(\[])[^()\[\]]+[(\[][^()\[\]]+[)\]]([)\]])")
_UNITS = r"[ ]?(?:months?|mths?|mos?|years?|yrs?|cm|in)\b"


def rows_gone(checked: Checked, size: int | None) -> frozenset[int]:
    """The numbers of the rows that one size does not have though another has."""
    if size is None:
        return frozenset()
    rows = rows_of(checked.reading.pattern)
    places = {id(row): at for at, row in enumerate(rows)}
    worked = [
        {places[id(o.step.text)] for o in own.outcomes if id(o.step.text) in places}
        for own in checked.worked.sizes
    ]
    names = checked.sizes
    excluded = {
        at
        for at, row in enumerate(rows)
        if row.label
        and (
            (row.label.sizes and names[size] not in row.label.sizes)
            or (row.label.by_size and not row.label.by_size[size])
        )
    }
    elsewhere = set[int]().union(*worked) - worked[size]
    return frozenset(excluded | (elsewhere if len(worked) > 1 else set()))


def in_one_size(
    checked: Checked, size: int, gone: frozenset[int], anew: frozenset[int]
) -> Iterator[Edit]:
    """The changes that leave the numbers of one size, in the text of the source.

    Args:
        checked: The pattern.
        size: The number of the size.
        gone: The rows it does not have.
        anew: The rows that are set anew: of these only the labels are changed here.
    """
    rows = rows_of(checked.reading.pattern)
    text = checked.source.text
    steps = [outcome.step for outcome in checked.worked.sizes[size].outcomes]
    begun = {id(step.text): step.number for step in reversed(steps)}
    shared = _under_one_label(rows)
    for at, row in enumerate(rows):
        if at in shared:
            yield _of_shared(text, rows, at, shared[at], gone)
        elif at in gone:
            yield _without(text, row, rows[at - 1].span.end if at else 0)
        if at in gone:
            continue
        yield from _label(text, row, checked.sizes)
        yield from _label_numbers(text, row, size, begun.get(id(row)))
        if row.label is not None and row.label.next_rows:  # "Next 7 (8, 9) rounds"
            yield from _lists(text, row.label.span, len(checked.sizes), size)
        if at not in anew:
            yield from row_numbers(text, row, size)
    spans = sorted(row.span for row in rows)
    yield from _beside(text, spans, checked.sizes, size)


def _under_one_label(rows: Sequence[RowText]) -> dict[int, int]:
    """Where the own words of rows begin that share a label, by the number of the row.

    "Rnd 7: Child: ch 2, hdc in each st. Adult: ch 2, [hdc 5, inc] around." is two rows.
    """
    found: dict[int, int] = {}
    for at, (one, other) in enumerate(pairwise(rows), 1):
        if one.label is None or other.label is None or one.label.span != other.label.span:
            continue
        found.setdefault(at - 1, one.label.span.end)
        found[at] = one.span.end
    return found


def _of_shared(
    text: str, rows: Sequence[RowText], at: int, start: int, gone: frozenset[int]
) -> Edit:
    """A row under a shared label taken out, or the words that say for which sizes it is."""
    row, gap = rows[at], ""
    if row.label is not None and start == row.label.span.end:
        mark = _MARK.match(text, start)
        start = mark.end() if mark is not None else start
    elif at - 1 not in gone:
        gap = " "
    if at in gone:
        return Edit(Span(start, row.span.end), "")
    return Edit(Span(start, max(start, row.at)), gap)


_MARK = regex(r"[ ]*[:.=–—-]?[ ]*")


def _without(text: str, row: RowText, before: int) -> Edit:
    """A row taken out, with what stands before it on its line and the gap behind it.

    `before` is where the row before it ends, which may stand on the same line and stays.
    """
    start = text.rfind("\n", 0, row.span.start) + 1
    start = row.span.start if before > start else start
    end = row.span.end
    while end < len(text) and text[end] in " \t.":
        end += 1
    if end < len(text) and text[end] != "\n":  # another row follows on this line
        return Edit(Span(row.span.start, row.span.end), "")
    while end < len(text) and text[end] == "\n":
        end += 1
    return Edit(Span(start, end), "")


def row_numbers(text: str, row: RowText, size: int) -> Iterator[Edit]:
    """The changes that leave the numbers of one size in a row."""
    seen: set[Span] = set()
    amounts = (*amounts_in(row.body), *amounts_in(row.claims))
    for amount in amounts:
        span = row.place(amount.span)
        if len(amount.values) > 1 and span not in seen and _is_list(text, span, amount):
            seen.add(span)
            if size < len(amount.values):  # or it is a slip of hers, and left as it is
                yield from _one(text, span, amount.at(size))
    number = max((len(amount.values) for amount in amounts), default=0)
    for edit in _lists(text, row.span, number, size) if number > size else ():
        if not any(edit.span.start < own.end and own.start < edit.span.end for own in seen):
            yield edit  # a count that was not taken for one of the row


def _is_list(text: str, span: Span, amount: Amount) -> bool:
    return sum(1 for _ in _NUMBER.finditer(text, span.start, span.end)) >= sum(
        value is not None for value in amount.values
    )


def _one(text: str, span: Span, value: int | None) -> Iterator[Edit]:
    words = "0" if value is None else str(value)
    written = text[span.start : span.end]
    tail = re.search(r"[A-Za-z ]+$", written)
    around = _IN_BRACKETS.fullmatch(written)
    if around is not None:  # "[20 (22, 24)]"
        words = f"{around[1]}{words}{around[2]}"
    yield Edit(span, words + (tail[0] if tail else ""))
    if value == 1:
        yield from _of_one(text, span.end)


def _of_one(text: str, at: int) -> Iterator[Edit]:
    """ "1 ball", where a list said "balls"."""
    found = _THINGS.match(text, at)
    if found is not None:
        thing = found["thing"]
        one = _ONE_OF.get(thing, thing.removesuffix("s"))
        yield Edit(Span(*found.span("thing")), one)


def _label(text: str, row: RowText, names: tuple[str, ...]) -> Iterator[Edit]:
    label = row.label
    if label is None:
        return
    start = text.rfind("\n", 0, label.span.start) + 1
    lead = text[start : label.span.start]
    if _only_sizes(lead, names):
        yield Edit(Span(start, label.span.start), "")


def _label_numbers(text: str, row: RowText, size: int, begun: int | None) -> Iterator[Edit]:
    """ "Rnds 8-14 (9-16, 10-18)" as "Rnds 9-16", from the row that the size has come to."""
    label = row.label
    if label is None or not label.by_size:
        return
    written = text[label.span.start : label.span.end]
    first = _NUMBER.search(written)
    if first is None:
        return
    last = max(found.end() for found in re.finditer(r"\d+[)\]]*", written))
    whole = label.by_size[size]
    numbers = tuple(n for n in whole if begun is None or n >= begun) or whole
    word = written[: first.start()]
    several = len(numbers) > 1
    bare = word.rstrip()
    if not several and bare.lower() in ("rows", "rnds", "rounds"):
        word = bare[:-1] + " "
    yield Edit(
        Span(label.span.start, label.span.start + last), f"{word}{number_list(numbers)}"
    )


@lru_cache(maxsize=64)
def _size_words(names: tuple[str, ...]) -> re.Pattern[str]:
    every = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(
        rf"[\s*_#>-]*(?:(?:for|all|sizes?|only|and|or|to|both|other|others|{every})"
        rf"[\s,&/*_-]*)+[:.]?[\s*_]*",
        re.IGNORECASE,
    )


def _only_sizes(words: str, names: tuple[str, ...]) -> bool:
    """Whether words say nothing but for which sizes something is."""
    return bool(words.strip(" *_#>-")) and bool(_size_words(names).fullmatch(words))


def _beside(
    text: str, rows: list[Span], names: tuple[str, ...], size: int
) -> Iterator[Edit]:
    """The names and lists beside the rows."""
    stretches = list(_stretches(text, rows))
    told = [edit for span in stretches for edit in _names(text, span, names, size)]
    yield from told or _told_in_sentences(text, stretches, names, size)
    for span in stretches:
        yield from _heading(text, span)
        yield from _lists(text, span, len(names), size)
        yield from _lines_of_sizes(text, span, names)


def _stretches(text: str, rows: Collection[Span]) -> Iterator[Span]:
    at = 0
    for row in rows:
        if row.start > at:
            yield Span(at, row.start)
        at = max(at, row.end)
    if at < len(text):
        yield Span(at, len(text))


def _names(text: str, span: Span, names: tuple[str, ...], size: int) -> Iterator[Edit]:
    """ "Small (Medium, Large)" as "Medium"."""
    between = rf"(?:{_UNITS})?[\s,;:/|()\[\]-]{{1,4}}(?:and |or |& ?)?"
    every = between.join(map(re.escape, names))
    listed = re.compile(rf"[(\[]?\b{every}\b(?P<unit>{_UNITS})?[)\]]?", re.IGNORECASE)
    for found in listed.finditer(text, span.start, span.end):
        name = _as_one(names[size]) + (found["unit"] or "")
        if found[0][0] in "([" and found[0][-1] not in ")]":
            name = found[0][0] + name
        yield Edit(Span(*found.span()), name)


def _as_one(name: str) -> str:
    """A name that is no list: "4-5" alone would be read as two sizes."""
    return _FROM_TO.sub(r"\1 to \2", name)


def _told_in_sentences(
    text: str, stretches: Collection[Span], names: tuple[str, ...], size: int
) -> Iterator[Edit]:
    """ "For size S. Changes for M and L are in parentheses." as "For size M."."""
    every = r"\b[^\n]{1,40}?\b".join(map(re.escape, names))
    told = re.compile(rf"\b{every}\b[^.;\n]*(?P<stop>[.;])?", re.IGNORECASE)
    for span in stretches:
        for found in told.finditer(text, span.start, span.end):
            yield Edit(Span(*found.span()), _as_one(names[size]) + (found["stop"] or ""))


def _heading(text: str, span: Span) -> Iterator[Edit]:
    """The heading over the names is of one size."""
    heading = re.compile(
        r"^[#*_ ]*(Sizes)(?=[*_:. ]*(?:$|:))", re.IGNORECASE | re.MULTILINE
    )
    for found in heading.finditer(text, span.start, span.end):
        yield Edit(Span(*found.span(1)), found[1][:-1])


def _lists(text: str, span: Span, number: int, size: int) -> Iterator[Edit]:
    """ "27 (29, 32)" as "29"."""
    for found in _list_of(number).finditer(text, span.start, span.end):
        values = re.findall(_RANGE, found[0])
        if len(values) != number:
            continue
        yield Edit(Span(*found.span()), values[size].strip())
        if values[size].strip() == "1":
            yield from _of_one(text, found.end())


@lru_cache(maxsize=16)
def _list_of(number: int) -> re.Pattern[str]:
    rest = rf"(?:{_GAP})".join([_RANGE] * (number - 1))
    every = rf"(?:{_GAP})".join([_RANGE] * number)
    return re.compile(
        rf"(?<![\w/.,]){_RANGE}[ ]?[(\[][ ]?{rest}[ ]?[)\]]|[(\[]{every}[)\]](?![\w])"
    )


def _lines_of_sizes(text: str, span: Span, names: tuple[str, ...]) -> Iterator[Edit]:
    """Lines that only say for which sizes the rows below them are."""
    for found in re.finditer(
        r"^[^\n]+:[*_ ]*\n?", text[span.start : span.end], re.MULTILINE
    ):
        line = found[0].rstrip("\n")
        named = any(re.search(rf"\b{re.escape(name)}\b", line) for name in names)
        says = re.search(r"\bsizes?\b", line, re.IGNORECASE) is not None
        if named and says and _only_sizes(line, names):
            yield Edit(Span(span.start + found.start(), span.start + found.end()), "")
