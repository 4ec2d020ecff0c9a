"""What is told outside the rows: conventions, multiples, the chain to begin with?"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import takewhile
from operator import attrgetter
from typing import TypeVar

from msgspec.structs import replace

from hookwright.notation.chains import SAID_OF_ALL, is_told_of_all
from hookwright.notation.collected import Collected
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.said_clauses import sentences
from hookwright.notation.statements import (
    AT_HOOK,
    SLIP_WORDS,
    first_of_count,
    is_a_stitch,
    statements_in,
)
from hookwright.notation.tree import Amount, Multiple, RowText, Statement, Topic
from hookwright.notation.work import is_work
from hookwright.regex import regex
from hookwright.source import Source, Span

# To look a member up in its enumeration takes as long as a call: these are asked for at
# every token.
_OPEN, _CLOSE = Kind.OPEN, Kind.CLOSE


def statements_outside(draft: Collected) -> list[Statement]:
    """Conventions told outside the rows, and inside them in brackets or of every row."""
    rows = sorted(
        (row.span.start, row.span.end)
        for part in draft.parts for row in part.rows if row.label is not None or row.claims
    )  # fmt: skip
    opens = draft.marks[_OPEN]
    result: list[Statement] = []
    outside: list[Token] = []
    at = 0
    for start, end in rows:
        first = bisect_left(draft.tokens, start, at, key=_START)
        after = bisect_left(draft.tokens, end, at, key=_START)
        outside.extend(draft.tokens[at:first])
        if outside and outside[-1].kind is not Kind.STOP and after > first:
            outside.append(Token(Kind.STOP, ".", 0, start, start))
        opened = bisect_left(opens, first)
        if opened < len(opens) and opens[opened] < after:
            closed = bisect_left(opens, after)
            result.extend(_slips_said(draft.tokens, opens[opened:closed]))
            for bracket in _brackets(draft.tokens[opens[opened] : after]):
                result.extend(_said_on_the_way(bracket))
        result.extend(_said_of_every_row(draft.tokens[first:after]))
        at = max(at, after)
    outside.extend(draft.tokens[at:])
    result.extend(statements_in(outside))
    return _once_each(sorted(result, key=lambda statement: statement.span))


_Said = TypeVar("_Said", Statement, Multiple)


def _once_each(said: list[_Said]) -> list[_Said]:
    """What is said again, in a title or a note, is said once."""
    first = {replace(value, span=_NOWHERE): value for value in reversed(said)}
    return [value for value in said if first[replace(value, span=_NOWHERE)] is value]


_NOWHERE = Span(0, 0)


_START = attrgetter("start")


def outside_rows(draft: Collected) -> Iterator[list[Token]]:
    """The lines that hold no row, as tokens."""
    rows = sorted(
        (row.span.start, row.span.end) for part in draft.parts for row in part.rows
    )
    for line in draft.lines:
        before = bisect_left(rows, (line.start + 1, 0)) - 1
        if line.last > line.first and (before < 0 or rows[before][1] <= line.start):
            yield draft.tokens_in(line)


_NEAR_SLIP = 10


def _slips_said(tokens: list[Token], opens: list[int]) -> Iterator[Statement]:
    """ "Sl st in first st (counts as a st)": said of one, it holds for all of them."""
    for i in opens:
        if tokens[i + 1].kind is Kind.NUMBER:  # a count, as in most brackets
            continue
        inside = list(takewhile(_within, tokens[i + 1 : i + _NEAR_SLIP]))
        if not is_a_stitch(inside):
            continue
        phrase = _back_to_mark(tokens[max(0, i - _NEAR_SLIP) : i])
        if phrase and phrase[0].text in SLIP_WORDS:
            span = inside[0].span.to(inside[-1].span)
            yield Statement(Topic.SLIPS, holds=True, span=span)


def _within(token: Token) -> bool:
    return token.kind is not _CLOSE


def _back_to_mark(tokens: list[Token]) -> list[Token]:
    """The words of the phrase that a bracket stands behind."""
    marks = (Kind.COMMA, Kind.STOP, Kind.SEMICOLON, Kind.COLON, Kind.STAR, _CLOSE)
    at = next((n for n in reversed(range(len(tokens))) if tokens[n].kind in marks), -1)
    return tokens[at + 1 :]


_LASTING = frozenset(
    "throughout always never all here later every each rows through now whole".split()
)


_BEYOND = {Topic.STITCH_BEHIND: "behind", Topic.SPIRAL: "spiral"}
"""What is always said of more than one row, with the word that says it."""


def _said_on_the_way(bracket: list[Token]) -> Iterator[Statement]:
    """What a bracket in a row says beside its count; most of them say no more."""
    words = {token.text for token in bracket}
    if not words.isdisjoint(_LASTING_SIGNS):
        yield from _lasting(bracket, words)
    if not words.isdisjoint(AT_HOOK):
        yield from first_of_count(bracket)


_OF_EVERY_ROW = frozenset("each every always throughout".split())


def _said_of_every_row(row: list[Token]) -> Iterator[Statement]:
    """ "The ch 5 at each turn makes a dc and a sp of 2 ch.": a sentence behind the work."""
    words = {token.text for token in row}
    if words.isdisjoint(_OF_EVERY_ROW) or words.isdisjoint(SAID_OF_ALL):
        return
    for sentence in sentences(row):
        clause = list(takewhile(_before_mark, sentence))
        if is_told_of_all([token.text for token in clause]):
            yield from statements_in(clause)


def _before_mark(token: Token) -> bool:
    return token.kind not in (Kind.COMMA, _OPEN)


_LASTING_SIGNS = _LASTING.union(_BEYOND.values())


def _lasting(bracket: list[Token], words: set[str]) -> Iterator[Statement]:
    """What a remark in a row says of more than this row."""
    lasting = not words.isdisjoint(_LASTING)
    for statement in statements_in(bracket):
        if lasting or statement.topic in _BEYOND:
            yield statement


def _brackets(tokens: list[Token]) -> Iterator[list[Token]]:
    """What stands in each pair of brackets, the outermost ones."""
    depth = first = 0
    for i, token in enumerate(tokens):
        if token.kind is _OPEN:
            depth += 1
            first = i + 1 if depth == 1 else first
        elif token.kind is _CLOSE and depth:
            depth -= 1
            if not depth:
                yield [t for t in tokens[first:i] if t.kind not in (_OPEN, _CLOSE)]


_MULTIPLE = (
    r"\b(?:multiples?\s+of|factor\s+of|count)\s+(?P<each>\d+)(?P<between>[^+\n.\d]{0,24}?)"
    r"(?:\+|plus)\s*(?P<extra>\d+)(?P<unit>\s*(?:sts?|stitches|ch(?:ain)?s?)\b)?"
    r"(?:[^+\n.\d]{0,12}?(?:\+|\bplus|\badd)\s*(?P<turning>\d+))?"
)
_OVER = r"(?:more|extra|over|besides|left\s+over)\b"
_AND_MORE = (
    r"\bmultiples?\s+of\s+(?P<each>\d+)(?P<between>(?:\s*(?:sts?|stitches|ch(?:ain)?s?)\b)?)"
    r"(?:,?\s+(?:and|with|then)|,)\s+(?:then\s+)?(?:add\s+)?"
    r"(?P<extra>\d+)(?P<unit>(?:\s*(?:sts?|stitches|ch(?:ain)?s?)\b)?)\s+"
    + _OVER
    + r"(?:[^+\n.\d]{0,12}?(?:\+|\bplus|\badd)\s*(?P<turning>\d+))?"
)
""" "A multiple of 8, and 2 more", "of 6 sts with 3 over": a sum told in words."""
_WHOLE_MULTIPLE = (
    r"\bmultiples?\s+of\s+(?P<each>\d+)(?P<unit>\s*(?:sts?|stitches|ch(?:ain)?s?)\b)"
    r"(?P<between>)(?P<extra>)(?![^+\n.\d]{0,24}?(?:\+|plus)\s*\d)"
    r"(?![^+\n.]{0,24}?\b" + _OVER + ")"
    r"(?:[^+\n.\d]{0,12}?\badd\s*(?P<turning>\d+))?"
)
""" "A multiple of 14 stitches": nothing stands beside the repeats."""
_OF_CHAINS = regex(
    r"\bch(?:ain)?s?\b[:,]?(?:\s+(?:is|in|of|with|to|a|any|some|must|should|be|needs))*\s+$",
    re.IGNORECASE,
)
_LONGEST_LEAD = 30
_CHAINS = r"\bch(?:ain)?s?\b"


def multiples_of(draft: Collected) -> tuple[Multiple, ...]:
    """ "Multiple of 6 + 1": the counts a pattern says it works over."""
    found = _multiples_in(draft.source.text)
    told = [_multiple(draft.source, multiple) for multiple in found]
    return tuple(_once_each(sorted(told, key=lambda multiple: multiple.span)))


def _multiples_in(text: str) -> Iterator[re.Match[str]]:
    """Where multiples are told, with a sum or without one."""
    yield from _sums_in(text)
    if "multiple" in text.lower():
        yield from re.finditer(_WHOLE_MULTIPLE, text, re.IGNORECASE)


def _sums_in(text: str) -> Iterator[re.Match[str]]:
    """Where multiples are told with a sum: "6 + 3", "6 plus 3", "6 and 3 more"."""
    if "+" in text or "plus" in text.lower():
        yield from re.finditer(_MULTIPLE, text, re.IGNORECASE)
    if "multiple" in text.lower():
        yield from re.finditer(_AND_MORE, text, re.IGNORECASE)


def _multiple(source: Source, m: re.Match[str]) -> Multiple:
    start, unit = m.start(), m["unit"] or ""
    lead = _OF_CHAINS.search(source.text, max(0, start - _LONGEST_LEAD), start)
    named = (m["between"], unit)
    of_chains = bool(
        lead or any(re.search(_CHAINS, words, re.IGNORECASE) for words in named)
    )
    return Multiple(
        int(m["each"][:9]),
        int(m["extra"][:9] or 0),
        Span(lead.start() if lead else start, m.end("extra")),
        bool(unit) and not of_chains,
        of_chains,
        int((m["turning"] or "0")[:9]),
    )


_HINT = regex(
    r"\b(?:chain(?:ed)?|ch)\s+(?P<a>\d{1,5})\b(?!\s*(?:sp|loop|from))|\b(?P<b>\d{1,5})\s*(?:ch|chains?)\b"
    r"(?!\s*(?:sp|loop|from))|=\s*(?P<c>\d{1,5})\b",
    re.IGNORECASE,
)


# "Ch a multiple of 3 plus 2; the sample used 38.", "Any even number of chains. These are
# for 28.", "Chains in fives and two over: 8 fives are 40, and 2 makes 42."
_USED = (
    r"(?:multiple|number of ch|chains in)[^\n]*?"
    r"\b(?:used|is|has|for|takes|with|made|makes|worked|chose|have|here|shown)"
    r"\s+(\d{2,5})\b(?!\s*(?:cm|mm|in|inch|inches|m|g|rows|%))"
)
_OF_ANY = ("multiple", "number of ch", "chains in")
"""Words of a text that leaves open how many chains are made."""


_NUMBER = regex(r"\d{2,5}\b")
_NEAR = 160  # characters: the sentence behind a multiple


def _fitting(text: str) -> Amount | None:
    """ "A multiple of 6 plus 3. For the cot size that's 45": the number that fits it."""
    for multiple in _sums_in(text):
        each, extra = int(multiple["each"][:9]), int(multiple["extra"][:9])
        fits = [
            found
            for found in _NUMBER.finditer(text, multiple.end(), multiple.end() + _NEAR)
            if each
            and int(found[0]) > each + extra
            and int(found[0]) % each == extra % each
        ]
        if fits:
            worked = (
                found
                for found in fits
                if re.search(_WORKED, _clause(text, found.start()), re.IGNORECASE)
            )
            found = next(worked, fits[0])
            return Amount((int(found[0]),), Span(found.start(), found.end()))
    return None


_WORKED = r"\b(?:sample|swatch|below|shown|pictured|here|mine|made|used|worked)\b"
"""What is said of the number that the rows are written for, where others are told too."""


def _clause(text: str, at: int) -> str:
    """The words before a place, back to the last mark."""
    return re.split(r"[.;:,\n]", text[:at])[-1]


def _is_added(before: str) -> bool:
    """ "Multiple of 8 + 3 chains": the chains of the edge, and no foundation."""
    return before.rstrip().endswith(("+", "plus"))


def _is_worked(row: RowText) -> bool:
    """Whether a row is one: "Foundation: a multiple of 4 plus 2" has no stitches."""
    label = row.label
    return any(map(is_work, row.body)) or label is None or bool(label.numbers)


def foundation_hint(draft: Collected, statements: Sequence[Statement]) -> Amount | None:
    """The last chain told before the first row, for a text that gives only a multiple.

    "Ch 1 does not count" is said of the chains that rows begin with.
    """
    labelled = [row for part in draft.parts for row in part.rows if row.label]
    first = next(filter(_is_worked, labelled), labelled[0] if labelled else None)
    before = draft.source.text[: first.span.start] if first else ""
    told = _fitting(before)
    if told is not None:
        return told
    said = [statement.span for statement in statements]
    said += [Span(*multiple.span()) for multiple in _multiples_in(before)]
    hints = [
        found
        for found in _HINT.finditer(before)
        if not any(Span(*found.span()) in span for span in said)
        and not _is_added(before[: found.start()])
    ]
    used = None
    if any(words in before.lower() for words in _OF_ANY):
        used = re.search(_USED, before, re.IGNORECASE)
    found = used or next(reversed(hints), None)
    if found is None:
        return None
    digits = next(group for group in found.groups() if group)
    return Amount((int(digits),), Span(found.start(), found.end()))
