"""The numbers of a pattern's rows as they stand in its text, and how others are written.

A number is written anew in the manner of the old one: in figures or words, as one number or
as a list with one a size, and only where it is another.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.finding import Edit
from hookwright.notation.lexer import NUMBER_WORDS
from hookwright.notation.tree import Amount
from hookwright.regex import regex
from hookwright.source import Span

Values = tuple[int | None, ...]
"""A number in every size, or one that is the same in all."""

_TIMES = {1: "once", 2: "twice", 3: "thrice"}
_WORDS = {number: word for word, number in NUMBER_WORDS.items() if 0 < number <= 20}
_ONE_NUMBER = regex(r"\d+|[-–—](?!\d)")
_COUNTED = regex(
    r"(\s+)((?:more )?(?:times|time|sts|st|chs|ch|sps|sp|stitches|stitch|chains|chain|"
    r"rows|row|rounds|round|repeats|repeat))\b"
)
_ONE_OF = {
    "times": "time", "sts": "st", "chs": "ch", "sps": "sp", "stitches": "stitch",
    "chains": "chain", "rows": "row", "rounds": "round", "repeats": "repeat",
}  # fmt: skip
_SEVERAL_OF = {one: several for several, one in _ONE_OF.items()}
_SHORT = frozenset({"st", "ch", "sp"})
"""Words that are written so for several as well: "next 4 ch"."""


class Slot(Struct, frozen=True):
    """A number of the text with its values as written and as wanted.

    Attributes:
        span: Its digits or words in the text.
        was: Its values as written.
        now: Its values as wanted.
        what: What it tells, for people: "foundation chain", "repeats", "count".
    """

    span: Span
    was: Values
    now: Values
    what: str


def slot(amount: Amount, span: Span, now: Sequence[int | None], what: str) -> Slot:
    """A number that gets other values, one for each size wanted."""
    values = tuple(now)
    worked = {value for value in values if value is not None}
    if len(set(values)) == 1 and len(values) != len(amount.values):
        values = values[:1]  # a list that is one stays one
    elif len(worked) == 1 and len(amount.values) == 1:
        values = (worked.pop(),)  # a row that some of the sizes do not work
    return Slot(span, amount.values, values, what)


class Unwritten(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """A number that does not follow, or whose words are of no kind to be written anew.

    Attributes:
        span: Where it stands.
        said: A sentence for the designer.
    """

    def __init__(self, span: Span, said: str) -> None:
        super().__init__(said)
        self.span, self.said = span, said


def edits_for(text: str, slots: Sequence[Slot]) -> Iterator[Edit]:
    """The changes of a text that put other numbers in some places of it.

    Raises:
        Unwritten: If the words of a number cannot be written otherwise.
    """
    for one in slots:
        if one.was == one.now:
            continue
        words = text[one.span.start : one.span.end]
        said = _said(words, one)
        if said is None:
            raise Unwritten(one.span, f'No other number can be put in "{words}".')
        yield Edit(one.span, said)
        yield from _of_one_or_several(text, one)


def _said(words: str, one: Slot) -> str | None:
    """The words of a number with its new values."""
    if len(one.was) == len(one.now) == 1:
        value = one.now[0]
        return None if value is None else _as_before(words, value)
    if len(one.was) == len(one.now):
        return _list_as_before(words, one.now)
    if len(one.was) == 1:
        return _as_list(words, one.now)
    return str(one.now[0]) if len(one.now) == 1 else _as_list("0", one.now)


def _as_before(words: str, value: int) -> str | None:
    """A number as the old one is written: figures, a word, "twice"."""
    if words.isdigit():
        return str(value)
    lower = words.lower()
    if lower in _TIMES.values():
        said = _TIMES.get(value, f"{value} times") if value < 3 else f"{value} times"
    elif is_number_word(lower):
        said = _WORDS.get(value, str(value))
    else:
        return _among_words(words, value)
    return said.capitalize() if words[:1].isupper() else said


def _among_words(words: str, value: int) -> str | None:
    """The one number in some words: "These are for 28"; none that is worked out there."""
    found = list(re.finditer(r"\d+", words))
    if len(found) != 1 or words.startswith("="):
        return None
    return f"{words[: found[0].start()]}{value}{words[found[0].end() :]}"


def is_number_word(words: str) -> bool:
    """Whether a number is told in words: "nine", "thirty-three"."""
    return all(part in NUMBER_WORDS for part in re.split("[ -]", words.lower()))


def _list_as_before(words: str, now: Values) -> str | None:
    """A list with other numbers in its own brackets and commas."""
    found = list(re.finditer(r"\d+", words))
    if len(found) != len(now):
        found = list(_ONE_NUMBER.finditer(words))
    if len(found) != len(now):
        return None
    pieces, at = [], 0
    for number, value in zip(found, now, strict=True):
        none = "-" if number[0].isdigit() else number[0]
        pieces += [words[at : number.start()], none if value is None else str(value)]
        at = number.end()
    return "".join((*pieces, words[at:]))


def _as_list(words: str, now: Values) -> str | None:
    """A number that was one for all sizes, as a list: "9 (11, 14)"."""
    times = words.lower() in _TIMES.values()
    if not words.isdigit() and not times and not is_number_word(words):
        return None
    first, *others = ("-" if value is None else str(value) for value in now)
    return f"{first} ({', '.join(others)})" + (" times" if times else "")


def _of_one_or_several(text: str, one: Slot) -> Iterator[Edit]:
    """ "1 more time" for "2 more times", where a number becomes one, or was."""
    was_one, is_one = one.was == (1,), one.now == (1,)
    if was_one == is_one:
        return
    found = _COUNTED.match(text, one.span.end)
    if found is None:
        return
    lead, _, noun = found[2].rpartition(" ")
    other = (_ONE_OF if is_one else _SEVERAL_OF).get(noun)
    if other is None or noun in _SHORT or other in _SHORT:
        return
    yield Edit(Span(found.start(2), found.end(2)), f"{lead} {other}".strip())


def amounts_in(value: object) -> Iterator[Amount]:
    """Every number in some instructions, each as often as it stands there."""
    if isinstance(value, Amount):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from amounts_in(item)
    elif isinstance(value, Struct):
        for name in value.__struct_fields__:
            yield from amounts_in(getattr(value, name))
