"""Which stripes does a text plan: rows of each colour, how often, and how many in all?

"2 rows A, 2 rows B, 4 rows C. Work this sequence 9 times, then 2 rows A: 74 rows", and
tables of rows beside colours. What a row itself says of its yarn is read with the row.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from hookwright.design.stripes_of_each import stripes_of_each
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source, Span

_NUMBERS = {
    word: value
    for value, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve".split(), 1
    )
} | {"once": 1, "twice": 2}
_N = rf"(?:\d{{1,4}}|{'|'.join(_NUMBERS)})"
_ROWS = r"(?:rows?|rnds?|rounds?)"
_COLOUR = r"[A-Z][\w'’-]*(?:[ \t][A-Z][\w'’-]*){0,2}"
_NO_COLOUR = (
    r"(?i:stripes?|sequence|colou?rs?|work|rep|repeat|with|then|rows?|rnds?|rounds?|pattern|"
    r"order|stripe|first|next|last|after|for|gauge|tension|finish|end)\b"
)
_STRIPE = regex(
    rf"(?:(?P<n>\b(?i:{_N}))[ \t]{{1,4}}(?:(?i:more)[ \t]{{1,4}})?(?i:{_ROWS})[ \t]{{1,4}}"
    r"(?:(?i:of|in|with|using|colou?r|yarn|shade)[ \t]{1,4}){0,2}"
    rf"(?P<colour>{_COLOUR})"
    rf"|(?!{_NO_COLOUR})(?P<first>{_COLOUR})[ \t]{{0,4}}[:–-]?[ \t]{{1,4}}"
    r"(?P<m>(?i:" + _N + r"))[ \t]{1,4}(?i:" + _ROWS + r")"
    r"(?![ \t]{1,4}(?:(?i:of|in|with)[ \t]{1,4})?[A-Z]))\b"
)
_BETWEEN = regex(
    r"[ \t]{0,4}(?:[,;/+][ \t]{0,4})?(?:\b(?:and|then|and then|followed by)\b[ \t]{0,4})?$"
)
_TIMES = rf"(?:\d{{1,4}}|{'|'.join(_NUMBERS)})"
_AGAIN = regex(
    r"[ \t]{0,4}[.;,:)]?[ \t]{0,4}(?:"
    r"(?:(?:the|this|that|whole|stripe|colou?r|sequence|order|is|are|and|then)"
    r"[ \t]{1,4}){0,6}"
    r"\b(?P<repeat>rep(?:eat(?:ed)?)?|work(?:ed)?|do(?:ne)?|used?|follow(?:ed)?|make|made)\b"
    r"[^.\n;:\d]{0,50}?"
    r"(?:[ \t]\d{1,3}[ \t-](?:rows?|rnds?|rounds?|stripes?)\b[^.\n;:\d]{0,30}?)?"
    rf"[ \t](?P<times>{_TIMES})"
    r"(?P<more>[ \t]{1,4}more)?(?:[ \t]{1,4}times\b|(?<=once)|(?<=twice))"
    r"(?P<more2>[ \t]{1,4}more)?(?P<all>[ \t]{1,4}in (?:all|total)|[ \t]{1,4}altogether)?)",
    re.IGNORECASE,
)
_SO_OFTEN = regex(
    r"[ \t]{0,4}(?:"
    rf"[.;:–—][ \t]{{0,4}}(?P<times>{_TIMES})[ \t]{{1,4}}times\b(?![ \t]{{1,4}}more)"
    r"(?:[ \t]{1,4}over\b)?"
    rf"|,?[ \t]{{0,4}}(?P<over>{_TIMES})[ \t]{{1,4}}times over\b"
    rf"|[.;:][ \t]{{0,4}}(?P<sets>{_TIMES})[ \t]{{1,4}}(?:full |whole |complete )?"
    r"(?:stripe |colou?r )?(?:sequences|repeats|repetitions)\b)",
    re.IGNORECASE,
)
"""Times without a verb: "...: six times over", "... Six sequences"."""
_BRACKETED = regex(
    r"[ \t]{0,4}[)\]*][ \t]{0,4}(?:x[ \t]?)?(?P<times>\d{1,4}|"
    + "|".join(_NUMBERS)
    + r")(?:[ \t]times\b|\b)",
    re.IGNORECASE,
)
_THEN = regex(
    r"[ \t]{0,4}[,.;]?[ \t]{0,4}(?:(?:and[ \t]{1,4})?"
    r"(?:(?:the|this)[ \t]{1,4}\w{3,12}[ \t]{1,4})?"
    r"(?:then|end(?:s|ing)?|finish(?:es|ing)?|followed)\b"
    r"(?:[ \t]{1,4}(?:with|by|off|on|work|working|end|finish|a last|a final))*"
    r"|(?:and )?plus)[ \t]{0,4}",
    re.IGNORECASE,
)
_AND = regex(r"[ \t]{0,4}(?:[,;+]|\band\b)[ \t]{0,4}")
_MORE_ROWS = regex(
    r"[^.;\n]{0,60}?\b(?:rows?|rnds?|rounds?|stripes?|sequence|colou?rs?)\b", re.IGNORECASE
)
_WHOLE = (
    r"(?:throw|blanket|scarf|piece|shawl|afghan|cloth|wrap|runner|rug|sequence|cowl|panel|"
    r"whole|stripes)"
)
_IN_ALL = regex(
    r"(?:[ \t]{1,4}at the end)?"
    r"(?P<mark>(?:[:=(,;.–—-]|\b(?:for|making|makes?|gives?|giving|which|is|are|a|so|there)\b"
    r"|[ \t]){0,12}"
    rf"(?P<whole>(?:the|this)[ \t]{{1,4}}(?:whole[ \t]{{1,4}})?{_WHOLE}[ \t]{{1,4}}"
    r"(?:has|have|is|are|comes? to|takes?)[ \t]{1,4}(?:of[ \t]{1,4})?)?)"
    r"(?P<lead>(?:total of|total:?|in all:?)[ \t]{1,4})?"
    rf"(?P<number>\d{{1,5}})[ \t]{{1,4}}(?P<unit>{_ROWS}|stripes?)\b"
    r"(?P<all>[ \t]{1,4}(?:in (?:all|total)|altogether|total))?",
    re.IGNORECASE,
)
_OF_REPEATS = regex(
    r"[ \t]{0,4}\((?:(?:makes|making|for|=)[ \t]{1,4})?(?P<number>\d{1,5})[ \t]{1,4}"
    rf"(?P<unit>{_ROWS}|stripes?)\)",
    re.IGNORECASE,
)
"""What the repeats come to, before more is worked: "7 times (70 rows), then 4 rows A"."""
_TABLE_HEAD = regex(r"\b(?:rows?|rnds?|rounds?|stripes?|colou?rs?)\b", re.IGNORECASE)
_LINE = regex(
    rf"[ \t]{{0,4}}\|?[ \t]{{0,4}}(?:(?i:{_ROWS})[ \t]{{1,4}})?(?P<first>\d{{1,4}})"
    r"(?:[ \t]?(?:[-–&]|to|and)[ \t]?(?P<last>\d{1,4}))?"
    r"[ \t]{0,4}[|:=.\t]?[ \t]{1,4}(?:\|[ \t]{0,4})?"
    r"(?P<colour>[A-Z][\w'’]*(?:[ \t][A-Z][\w'’]*)?)[ \t]{0,4}[|.]?[ \t]{0,4}"
)
_FEWEST_LINES = 3
_LONGEST = 1_500
_SHORTEST = 12  # characters of "1 row A, 1 B"


class Stripe(Struct, frozen=True):
    """So many rows in one colour."""

    rows: int
    colour: str


class StripePlan(Struct, frozen=True):
    """A sequence of stripes with what is said of its repeats.

    Attributes:
        span: The whole of it.
        stripes: The sequence once.
        times: How often it is worked in all, with other numbers that the words may mean;
            empty where that is not told.
        after: What is worked once behind it.
        claimed: The number that the text says it comes to; None where it says none.
        of_stripes: Whether that is a number of stripes.
        of_repeats: Whether it is of the repeats alone, without what is worked once.
        claim: Where it says so.
        often: Where it says how often.
    """

    span: Span
    stripes: tuple[Stripe, ...]
    times: tuple[int, ...] = ()
    after: tuple[Stripe, ...] = ()
    claimed: int | None = None
    of_stripes: bool = False
    of_repeats: bool = False
    claim: Span | None = None
    often: Span | None = None

    def rows(self, times: int) -> int:
        """Its rows, where the sequence is worked so often."""
        return sum(s.rows for s in self.stripes) * times + sum(s.rows for s in self.after)

    def number(self, times: int) -> int:
        """Its stripes, where the sequence is worked so often."""
        return len(self.stripes) * times + len(self.after)


class TableRow(Struct, frozen=True):
    """A line of a table of rows and colours: "3-4 Slate"."""

    first: int
    last: int
    colour: str
    span: Span

    @property
    def ranged(self) -> bool:
        """Whether it stands for more rows than one."""
        return self.last > self.first


def stripe_plans(source: Source, pattern: Pattern) -> tuple[StripePlan, ...]:
    """The stripe sequences told outside the rows."""
    found: list[StripePlan] = []
    for stretch in _outside_rows(source, pattern):
        at = stretch.start
        while (begins := _STRIPE.search(source.text, at, stretch.end)) is not None:
            end = min(stretch.end, begins.start() + _LONGEST)
            plan = _plan(source.text, begins.start(), end)
            at = max(plan.span.end, begins.end())
            if len(plan.stripes) > 1:
                found.append(plan)
        if "each" in source.text[stretch.start : stretch.end]:
            found += [
                StripePlan(span, tuple(Stripe(rows, colour) for rows, colour in stripes))
                for span, stripes in stripes_of_each(source.text, stretch)
            ]
    return tuple(found)


def _outside_rows(source: Source, pattern: Pattern) -> Iterator[Span]:
    """What lies before, between and behind the rows, if any words do."""
    rows = sorted(
        row.span for part in pattern.parts for row in part.rows if row.label is not None
    )
    at = 0
    for row in [*rows, Span(len(source.text), len(source.text))]:
        if row.start - at > _SHORTEST:
            yield Span(at, row.start)
        at = max(at, row.end)


def _plan(text: str, at: int, end: int) -> StripePlan:
    """The sequence that begins here, and what follows it."""
    stripes, behind = _sequence(text, at, end)
    times: tuple[int, ...] = ()
    after: tuple[Stripe, ...] = ()
    again = _AGAIN.match(text, behind, end)
    bracketed = _BRACKETED.match(text, behind, end) if text[at - 1 : at] in "([*" else None
    often = _SO_OFTEN.match(text, behind, end)
    told = bracketed or again or often
    where = Span(*_times_said(told)) if told is not None else None
    if bracketed is not None:
        times, behind = (_number(bracketed["times"]),), bracketed.end()
    elif again is not None:
        times, behind = _times(again), again.end()
    elif often is not None and where is not None:
        times, behind = (_number(text[where.start : where.end]),), often.end()
    part = _OF_REPEATS.match(text, behind, end) if times else None
    if times:
        after_part = part.end() if part is not None else behind
        then = _THEN.match(text, after_part, end)
        if then is None and again is None:
            then = _AND.match(text, after_part, end)
        if then is not None:
            after, last = _sequence(text, then.end(), end)
            behind = last if after else behind
            if not after and _MORE_ROWS.match(text, then.end(), end):
                times = ()  # "then the first two stripes once more": nobody knows
    total = _IN_ALL.match(text, behind, end)
    told_of_all = total is not None and _is_total(total)
    if not told_of_all:
        total = part if after else None
    if total is None:
        return StripePlan(Span(at, behind), stripes, times, after, often=where)
    return StripePlan(
        Span(at, max(behind, total.end())),
        stripes,
        times,
        after,
        int(total["number"]),
        of_stripes=total["unit"].lower().startswith("s"),
        of_repeats=not told_of_all,
        claim=Span(
            total.start("number"), total.end() if told_of_all else total.end("unit")
        ),
        often=where,
    )


def _times_said(found: re.Match[str]) -> tuple[int, int]:
    """Where the words say how often."""
    groups = ("times", "over", "sets")
    name = next(name for name in groups if found.groupdict().get(name))
    return found.span(name)


def _number(word: str) -> int:
    return _NUMBERS.get(word.lower()) or int(word)


def _is_total(found: re.Match[str]) -> bool:
    """Whether a number of rows is said to be the sum: ": 110 rows", "85 rows in all"."""
    if found["all"] or found["lead"] or found["whole"]:
        return True
    mark = found["mark"].lower().strip()
    return _SUMS_UP.search(mark) is not None and "for" not in mark


_SUMS_UP = regex(r"[:=(–—]|\b(?:making|makes?|giv(?:es?|ing)|so)\b")


def _sequence(text: str, at: int, end: int) -> tuple[tuple[Stripe, ...], int]:
    """Stripes behind one another, with nothing but commas between them."""
    found: list[Stripe] = []
    behind = at
    while (stripe := _STRIPE.search(text, behind, min(end, behind + 80))) is not None:
        if _BETWEEN.match(text, behind, stripe.start()) is None:
            break
        rows = _number(stripe["n"] or stripe["m"])
        found.append(Stripe(rows, stripe["colour"] or stripe["first"]))
        behind = stripe.end()
    return tuple(found), behind


def _times(again: re.Match[str]) -> tuple[int, ...]:
    """How often in all; "repeat it 9 times" may be 9 in all or 9 more."""
    number = _number(again["times"])
    if again["more"] or again["more2"]:
        return (number + 1,)
    if again["repeat"].lower().startswith("rep") and not again["all"]:
        return (number, number + 1)
    return (number,)


def stripe_tables(source: Source, pattern: Pattern) -> Iterator[tuple[TableRow, ...]]:
    """Tables of rows and colours: lines of that kind right under one another."""
    for stretch in _outside_rows(source, pattern):
        yield from _tables(source, stretch)


def _tables(source: Source, stretch: Span) -> Iterator[tuple[TableRow, ...]]:
    lines: list[TableRow] = []
    head = ""
    for at in range(source.line_of(stretch.start), source.line_of(stretch.end - 1) + 1):
        span = source.line_span(at)
        found = _LINE.fullmatch(source.text, span.start, min(span.end, span.start + 80))
        if found is not None and span.end - span.start < 80:
            first = int(found["first"])
            where = Span(found.start("first"), found.end("colour"))
            lines.append(
                TableRow(first, int(found["last"] or first), found["colour"], where)
            )
            continue
        if len(lines) >= _FEWEST_LINES and _TABLE_HEAD.search(head):
            yield tuple(lines)
        lines = []
        words = source.text[span.start : min(span.end, span.start + 80)]
        head = words if re.search(r"\w", words) else head
    if len(lines) >= _FEWEST_LINES and _TABLE_HEAD.search(head):
        yield tuple(lines)
