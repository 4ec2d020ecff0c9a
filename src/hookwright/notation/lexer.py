"""Text into words, numbers and marks, each with its place.

The lexer knows how patterns are typed: numbers glued to words ("6sc", "x7"), letters set
apart ("d c"), stops inside abbreviations ("d.c."), fractions, ordinals in figures and in
words, curly quotes, long dashes. Nothing it meets is an error.
"""

from __future__ import annotations

import re
from enum import IntEnum
from functools import lru_cache

from msgspec import Struct

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


class Token(Struct, frozen=True):
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
        return Token(
            self.kind,
            self.text,
            self.value,
            self.start + by,
            self.end + by,
            self.glued,
            self.spelled,
        )


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

# A stop that only marks an abbreviation, within a sentence: "1 tr. into next sp.,".
_ABBREVIATED = frozenset(
    "ch chs st sts sp sps lp lps tr dtr htr dc sc hdc ss sl rep foll rem beg sk".split()
)
_GOES_ON = re.compile(r" ?(?!\w+ ?[=:])[a-z]|[,;)\]]")
_SHORT_WORDS = re.compile(
    rf"\b(?:{'|'.join(sorted(_ABBREVIATED))})\b(?P<stop>\.?)", re.IGNORECASE
)

# White space before a token belongs to no token. `spaced` are single letters that stand
# apart but are one abbreviation: "s c", "d c", "h d c", "t r", "s.s".
_TOKEN = re.compile(
    r"""
    [^\S\n]*
    (?:
      (?P<line>\n\s*)
    | (?P<spaced>(?<!\S)(?:(?:h[ .]\s?)?[sd][ .]\s?c\b|s\.\s?s\b|t[ ]r\b)(?![^\W_]))
    | (?P<fraction>[¼½¾⅓⅔⅛⅜⅝⅞])
    | (?P<word>[^\W\d_]+(?:['’][a-z]+)?(?:(?<=[csr])\d+tog\w*)?)
    | (?P<ordinal>\d+(?:st|nd|rd|th|d)(?:\b|(?=(?:ch|st|sts|sc|dc|hdc|tr|sp)\b)))
    | (?P<number>\d+(?:\.\d+)?)
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
    | (?P<other>\S)
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)

_KINDS = {
    "ordinal": Kind.ORDINAL,
    "number": Kind.NUMBER,
    "fraction": Kind.OTHER,
    "word": Kind.WORD,
    "spaced": Kind.WORD,
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
    add = result.append
    usual: bool | None = None  # whether abbreviations bear a stop throughout
    after = -1  # where the token before ended, if this one may be glued to it
    for match in _TOKEN.finditer(text, start, end):
        group = match.lastgroup or "other"
        at, stop = match.span(group)
        if group == "line":
            add(Token(Kind.LINE, "\n", match[0].count("\n"), at, stop, at == after))
            after = -1
            continue
        if group == "word":
            cut = _GLUED.get(match[group].lower())
            if cut:  # "innext": a space is missing
                add(
                    Token(Kind.WORD, *_known(group, text[at : at + cut])[1:3], at, at + cut)
                )
                at = after = at + cut
        kind, plain, value, spelled = _known(group, text[at:stop])
        marks = kind is Kind.STOP and at == after and result[-1].text in _ABBREVIATED
        if marks and plain == "." and _GOES_ON.match(text, stop, end):
            usual = _is_usual(text) if usual is None else usual
            if usual or text[stop] in ",;)]":
                after = stop
                continue
        add(Token(kind, plain, value, at, stop, at == after, spelled))
        after = stop
    add(Token(Kind.END, "", 0, end, end))
    return result


def _glued() -> dict[str, int]:
    """Two small words typed without a space, with the length of the first."""
    small = "in into each of the next last to first same and from rep".split()
    places = (
        "next each ea the last first same st sts ch sc dc hdc tr sp end row rows rnd"
    ).split()
    stitches = "sc dc hdc tr ss".split()
    behind = "in into across around each".split()
    pairs = [(a, b) for a in small for b in places if a != b]
    pairs += [(a, b) for a in stitches for b in behind]
    return {a + b: len(a) for a, b in pairs if a + b not in ("inch", "inst", "toss")}


_GLUED = _glued()


_STOPPED = re.compile(r"\b[sd]\. ?c\.", re.IGNORECASE)
"""Letters with a stop behind each, "d.c.": whoever writes so does it throughout."""


def _is_usual(text: str) -> bool:
    """Whether a writer sets a stop behind an abbreviation, as a rule."""
    if _STOPPED.search(text):
        return True
    stops = [bool(found["stop"]) for found in _SHORT_WORDS.finditer(text)]
    return sum(stops) * 2 > len(stops)


@lru_cache(maxsize=4096)  # a pattern uses few words, over and over
def _known(group: str, piece: str) -> tuple[Kind, str, int, bool]:
    """What a piece of text is: its kind, its plain form, its value, whether in words."""
    kind = _KINDS[group]
    plain = piece.lower().translate(_LOOKALIKES)
    if group == "number":
        whole, point, _ = plain.partition(".")
        return Kind.OTHER if point else kind, plain, _value(whole), False
    if group == "ordinal":
        return kind, plain, _value(plain.rstrip("stndrh")), False
    if group == "spaced":
        return kind, re.sub(r"[^a-z]", "", plain), 0, False
    if group == "star":
        return kind, "*" * len(piece), len(piece), False
    if kind is not Kind.WORD:
        return kind, plain, 0, False
    plain = _SIGNS.get(plain, plain)
    if plain in NUMBER_WORDS:
        return Kind.NUMBER, plain, NUMBER_WORDS[plain], True
    if plain in ORDINAL_WORDS:
        return Kind.ORDINAL, plain, ORDINAL_WORDS[plain], True
    return kind, plain, 0, False


def _value(digits: str) -> int:
    return int(digits) if len(digits) <= MOST_DIGITS else TOO_LARGE
