"""How many numbers do the lists of a text have: "80 (88, 96)", "80/88/96"?"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from hookwright.notation.bracket_runs import in_one_bracket
from hookwright.notation.collected import Collected
from hookwright.notation.lexer import Kind, Token
from hookwright.regex import regex

_LIST = regex(r"(?<![\d.])\d+,?\s*[(\[]\s*\d+(?:\s*[,;:\-–]\s*\d+)+\s*[)\]]")


_PAIR = r"\d+ ?[(\[]\d+[)\]]"
_CHAINED_PAIR = regex(rf"\b(?:ch|chain) {_PAIR}", re.IGNORECASE)
_COUNTED_PAIR = regex(
    rf"(?<!\bch ){_PAIR} (?:st|stitche|sc|dc|hdc|htr|tr|sp|space|loop|shell|group)s?\b",
    re.IGNORECASE,
)
"""Two sizes: "ch 96 (120)", and counts behind it, "96 (120) dc"."""
_NAMED_PAIR = regex(r"(?m)^[^\d\n]*?\b([A-Z][a-z]+) [(\[]([A-Z][a-z]+)[)\]]\W*$")
"""What they are called, at the end of a line: "Shell cowl, Short (Long)"."""
_FEWEST_LISTS = 3


def has_lists(draft: Collected, fewest: int = 1) -> bool:
    """Whether so many brackets stand behind numbers, as those of sizes do."""
    opens = draft.marks[Kind.OPEN]
    return sum(_is_behind_number(draft.tokens, at) for at in opens) >= fewest


def sizes_by_lists(draft: Collected) -> tuple[str, ...]:
    """Numbers for names where only the lists themselves tell that there are sizes."""
    if not has_lists(draft, _FEWEST_LISTS):
        return ()
    text = draft.source.text
    chained = len(_CHAINED_PAIR.findall(text))
    pairs = chained + len(_COUNTED_PAIR.findall(text))
    if chained and pairs >= _FEWEST_LISTS and not _LIST.search(text):
        named = _NAMED_PAIR.search(text)
        return named.groups() if named is not None else ("1", "2")
    lengths = Counter(
        len(re.findall(r"\d+", found))
        for found in _LIST.findall(in_one_bracket(draft.source.text))
    )
    if not lengths:
        return ()
    length, often = lengths.most_common(1)[0]
    return tuple(str(n + 1) for n in range(length)) if often >= _FEWEST_LISTS else ()


_NONE_OR_NUMBER = r"(?:\d+|[-–—])"
_LIST_WITH_GAPS = regex(
    rf"(?<![\d.]){_NONE_OR_NUMBER},?\s*[(\[]\s*"
    rf"({_NONE_OR_NUMBER}(?:\s*[,;:]\s*{_NONE_OR_NUMBER})*)\s*[)\]]"
)


def lengths_of_lists(draft: Collected) -> set[int]:
    """How many numbers the lists of the text have, a dash for one as well."""
    found = _LIST_WITH_GAPS.findall(in_one_bracket(draft.source.text))
    return {2 + sum(map(others.count, ",;:")) for others in found}


def _is_behind_number(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number stands before a bracket, "80 (88, 96)", as in every list."""
    before = at - 1
    while before > 0 and tokens[before].kind in (Kind.COMMA, Kind.LINE):
        before -= 1
    return before >= 0 and tokens[before].text[-1:].isdecimal()
