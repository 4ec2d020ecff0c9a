"""Text into words, numbers and marks, each with its place.

The lexer knows how patterns are typed: numbers glued to words ("6sc", "x7"), letters set
apart ("d c"), stops inside abbreviations ("d.c."), fractions, ordinals in figures and in
words, curly quotes, long dashes. Nothing it meets is an error.
"""

from __future__ import annotations

import re
from enum import IntEnum
from typing import NamedTuple

from hookwright.source import Span


class Kind(IntEnum):
    """What a token is."""

    WORD = 1
    NUMBER = 2
    ORDINAL = 3
    STAR = 4
    OPEN = 5
    CLOSE = 6
    COMMA = 7
    SEMICOLON = 8
    STOP = 9
    COLON = 10
    DASH = 11
    EQUALS = 12
    PLUS = 13
    LINE = 14
    OTHER = 15
    END = 16


class Token(NamedTuple):
    """A word or mark.

    Attributes:
        kind: What it is.
        text: Lower case, with plain quotes and dashes.
        value: The number of a NUMBER or ORDINAL; stars of a STAR; line ends of a LINE.
        start: Where it begins.
        end: Where it ends.
        glued: Whether it follows the token before it without a space.
        spelled: Whether a number was written in words.
    """

    kind: Kind
    text: str
    value: int
    start: int
    end: int
    glued: bool = False
    spelled: bool = False

    @property
    def span(self) -> Span:
        """Where it stands."""
        return Span(self.start, self.end)

    def moved(self, by: int) -> Token:
        """The same token in a text that begins elsewhere."""
        kind, text, value, start, end, glued, spelled = self
        return Token(kind, text, value, start + by, end + by, glued, spelled)


MOST_DIGITS = 15
TOO_LARGE = -1

NUMBER_WORDS = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen "
        "fourteen fifteen sixteen seventeen eighteen nineteen twenty".split()
    )
} | {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "hundred": 100}

ORDINAL_WORDS = {
    word: value + 1
    for value, word in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh "
        "twelfth".split()
    )
}

# Single letters that stand apart but are one abbreviation: "s c", "d c", "h d c", "t r".
_SPACED = re.compile(r"(?:h[ .]\s?)?[sd][ .]\s?c\b\.?|t[ ]r\b", re.IGNORECASE)

_TOKEN = re.compile(
    r"""
    (?P<line>[ \t\f\v]*\n\s*)
  | (?P<blank>[^\S\n]+)
  | (?P<ordinal>\d+(?:st|nd|rd|th|d)\b)
  | (?P<number>\d+(?:\.\d+)?)
  | (?P<fraction>[¼½¾⅓⅔⅛⅜⅝⅞])
  | (?P<word>[^\W\d_]+(?:['’][a-z]+)?(?:(?<=[csr])\d+tog\w*)?)
  | (?P<star>\*+|[✱＊∗⁎]+)
  | (?P<open>[(\[{])
  | (?P<close>[)\]}])
  | (?P<comma>,)
  | (?P<semicolon>;)
  | (?P<stop>\.+|[!?…])
  | (?P<colon>:)
  | (?P<dash>--+|[-–—−‐‑])
  | (?P<equals>=)
  | (?P<plus>\+)
  | (?P<and>&)
  | (?P<times>×)
  | (?P<other>.)
    """,
    re.VERBOSE | re.IGNORECASE,
)

_KINDS = {
    "ordinal": Kind.ORDINAL,
    "number": Kind.NUMBER,
    "fraction": Kind.OTHER,
    "word": Kind.WORD,
    "star": Kind.STAR,
    "open": Kind.OPEN,
    "close": Kind.CLOSE,
    "comma": Kind.COMMA,
    "semicolon": Kind.SEMICOLON,
    "stop": Kind.STOP,
    "colon": Kind.COLON,
    "dash": Kind.DASH,
    "equals": Kind.EQUALS,
    "plus": Kind.PLUS,
    "and": Kind.WORD,
    "times": Kind.WORD,
    "other": Kind.OTHER,
}

_SIGNS = {"&": "and", "×": "x"}
"""Signs that are read as the word they stand for."""

# Letters of other alphabets that look Latin, met in copied texts.
_LOOKALIKES = str.maketrans("асеорхуѕіԁһ’‘", "aceopxysidh''")


def tokens_of(text: str, start: int = 0, end: int | None = None) -> list[Token]:
    """All tokens of a stretch of text, ended by one END token."""
    end = len(text) if end is None else end
    result: list[Token] = []
    glued = False
    at = start
    match_spaced, match_token = _SPACED.match, _TOKEN.match
    while at < end:
        if text[at] in "sSdDhHtT" and not glued:
            spaced = match_spaced(text, at, end)
            if spaced and _stands_apart(text, at, spaced.end()):
                letters = re.sub(r"[^a-z]", "", spaced[0].lower())
                result.append(Token(Kind.WORD, letters, 0, at, spaced.end(), glued))
                at, glued = spaced.end(), True
                continue
        match = match_token(text, at, end)
        if match is None:  # the pattern takes any character, so this is the end of the text
            break
        group = match.lastgroup or "other"
        piece = match[0]
        at = match.end()
        if group == "blank":
            glued = False
            continue
        if group == "line":
            result.append(
                Token(Kind.LINE, "\n", piece.count("\n"), match.start(), at, glued)
            )
            glued = False
            continue
        result.append(_token(_KINDS[group], piece, match.start(), at, glued=glued))
        glued = True
    result.append(Token(Kind.END, "", 0, end, end))
    return result


def _stands_apart(text: str, start: int, end: int) -> bool:
    before = text[start - 1] if start else " "
    after = text[end] if end < len(text) else " "
    return not before.isalpha() and not after.isalnum()


def _token(kind: Kind, piece: str, start: int, end: int, *, glued: bool) -> Token:
    lower = piece.lower().translate(_LOOKALIKES)
    if kind is Kind.NUMBER:
        whole = lower.partition(".")[0]
        value = int(whole) if len(whole) <= MOST_DIGITS else TOO_LARGE
        return Token(
            kind if "." not in lower else Kind.OTHER, lower, value, start, end, glued
        )
    if kind is Kind.ORDINAL:
        digits = re.match(r"\d+", lower)
        number = digits[0] if digits else "0"
        value = int(number) if len(number) <= MOST_DIGITS else TOO_LARGE
        return Token(kind, lower, value, start, end, glued)
    if kind is Kind.WORD:
        lower = _SIGNS.get(lower, lower)
        if lower in NUMBER_WORDS:
            return Token(
                Kind.NUMBER, lower, NUMBER_WORDS[lower], start, end, glued, spelled=True
            )
        if lower in ORDINAL_WORDS:
            return Token(
                Kind.ORDINAL, lower, ORDINAL_WORDS[lower], start, end, glued, spelled=True
            )
        return Token(kind, lower, 0, start, end, glued)
    if kind is Kind.STAR:
        return Token(kind, "*" * len(piece), len(piece), start, end, glued)
    return Token(kind, lower, 0, start, end, glued)
