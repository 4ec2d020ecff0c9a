"""Which words of a definition in hook motions mean something, and what?

A definition such as "yo, insert hook in next st, yo and pull up a loop" is prose with a
small vocabulary, which stands in `words.toml`. Words that move nothing stay in as "other",
so that a definition can be told from a remark.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from hookwright.regex import regex
from hookwright.source import Span

LONGEST_NUMBER = 9  # digits; a longer one is not meant

_TABLE = tomllib.loads(Path(__file__).with_name("words.toml").read_text(encoding="utf-8"))
_STITCHES: dict[str, str] = _TABLE["stitches"]
_NUMBERS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
)  # fmt: skip
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_OFTEN = ("once", "twice", "thrice")
_KIND_OF: dict[str, str] = (
    {word: kind for kind, words in _TABLE["kinds"].items() for word in words.split()}
    | dict.fromkeys(_NUMBERS, "number")
    | dict.fromkeys(_ORDINALS, "ordinal")
    | dict.fromkeys(_OFTEN, "often")
)
_VALUES = {
    word: value
    for row in (_NUMBERS, _ORDINALS, _OFTEN)
    for value, word in enumerate(row, 1)
}

_NAMES = "|".join(
    f"(?P<{name.replace(' ', '_')}>{words.replace(' ', '[ -]')})"
    for name, words in _STITCHES.items()
)
_WORD = regex(
    rf"(?<![^\W\d_])(?:(?:[fb]p|(?:front|back)[\s-]post[\s-])?(?:{_NAMES})(?![^\W\d_]))"
    r"|(?P<ordinal>\d+(?:st|nd|rd|th|d)(?![^\W\d_]))|(?P<number>\d+)"
    r"|(?P<word>[^\W\d_]+|\u00d7)"
    r"|(?P<open>[(\[{])|(?P<close>[)\]}])|(?P<star>[*\u2020\u2021]+)"
    r"|(?P<comma>[,&])|(?P<stop>[.;:!])",
    re.IGNORECASE,
)


class Word(Struct, frozen=True):
    """A word of a definition.

    Attributes:
        kind: What it is to the reader: "yo", "loop", "number", "stitch", "open" ...
        text: The word in small letters; of a stitch, its US name.
        span: Where it stands.
        number: What it counts, or its place in a row of ordinals; 0 for other words.
    """

    kind: str
    text: str
    span: Span
    number: int = 0


class Words:
    """The words of a definition with a finger on the next one."""

    def __init__(self, words: Sequence[Word]) -> None:
        self._words = words
        self.at = 0

    def __bool__(self) -> bool:
        return self.at < len(self._words)

    def take(self) -> Word:
        """The next word, and on."""
        self.at += 1
        return self._words[self.at - 1]

    def kind(self, ahead: int = 0) -> str:
        """The kind of the next word or one further on (behind, if below 0); "" for none."""
        at = self.at + ahead
        return self._words[at].kind if 0 <= at < len(self._words) else ""

    def text(self, ahead: int = 0) -> str:
        """The text of the next word or one further on; "" for none."""
        at = self.at + ahead
        return self._words[at].text if 0 <= at < len(self._words) else ""

    def stretch(self, kinds: Collection[str], texts: Collection[str] = ()) -> list[Word]:
        """Take the words that may go along; a number that counts something else may not."""
        taken = []
        while self and (self.kind() in kinds or self.text() in texts):
            if self.kind() == "number" and self.counts_other(kinds):
                break
            taken.append(self.take())
        return taken

    def counts_other(self, kinds: Collection[str]) -> bool:
        """Whether the number here counts times, or stitches that do not go along."""
        after = self.kind(2) if self.kind(1) == "more" else self.kind(1)
        if after == "stitch" and self.kind(-1) in {"hook", "noun", "stitch", "loop"}:
            return True
        return after in {"times", "stitch", "chain", "yo"} and after not in kinds

    def since(self, first: Word) -> Span:
        """The span from a word to the one just taken."""
        return first.span.to(self._words[self.at - 1].span)


def read_words(text: str, offset: int) -> Iterator[Word]:
    """Yield the words of a text in order; dashes and other marks are passed over."""
    words = _read(text, offset)
    return _bracketed(list(words)) if "following" in text else words


_BEGINS = ["work", "the", "following"]
_ENDS = ["end", "of", "repeat"]


def _bracketed(words: list[Word]) -> Iterator[Word]:
    """The words with "work the following twice: ...; end of repeat" as "(...) twice"."""
    times: list[list[Word]] = []
    at = 0
    while at < len(words):
        ahead = [word.text for word in words[at : at + 3]]
        if ahead == _BEGINS:
            end = next((i for i in range(at, len(words)) if words[i].kind == "stop"), at)
            times.append(words[at + 3 : end])
            yield Word("open", "(", words[at].span)
            at = max(end + 1, at + 3)
        elif ahead == _ENDS and times:
            yield Word("close", ")", words[at].span)
            yield from times.pop()
            at += 3
        elif (
            words[at].text in (";", ",")
            and [w.text for w in words[at + 1 : at + 4]] == _ENDS
        ):
            at += 1
        else:
            yield words[at]
            at += 1


def _read(text: str, offset: int) -> Iterator[Word]:
    for match in _WORD.finditer(text):
        span = Span(offset + match.start(), offset + match.end())
        yield _word(match.lastgroup or "word", match.group().lower(), span)


def _word(group: str, text: str, span: Span) -> Word:
    name = group.replace("_", " ")
    if name in _STITCHES:
        return Word("stitch", name, span)
    if group in {"ordinal", "number"}:
        return Word(group, text, span, _value(text))
    kind = _KIND_OF.get(text, "other") if group == "word" else group
    return Word(kind, text, span, _VALUES.get(text, 0))


def _value(text: str) -> int:
    digits = "".join(filter(str.isdecimal, text))
    return int(digits) if len(digits) <= LONGEST_NUMBER else 10**LONGEST_NUMBER - 1
