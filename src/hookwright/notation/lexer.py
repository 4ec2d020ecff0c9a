"""Text into words, numbers and marks, each with its place.

The lexer knows how patterns are typed: numbers glued to words ("6sc", "x7"), letters set
apart ("d c"), stops inside abbreviations ("d.c."), fractions, ordinals in figures and in
words, curly quotes, long dashes. Nothing it meets is an error.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from enum import IntEnum

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.regex import regex
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
_GOES_ON = regex(r" ?(?!\w+ ?[=:])[a-z]|[,;)\]]")
_SHORT_WORDS = rf"\b(?:{'|'.join(sorted(_ABBREVIATED))})\b(?P<stop>\.?)"

# A piece is a token with the white space before it, so the pieces of a line lie side by
# side. Single letters that stand apart may be one abbreviation: "s c", "h d c", "t r".
# "Air stitches" and "lifting loops" are what translated patterns call chains, and the "2/2"
# of "2/2 FC" is part of a name.
_PIECE = regex(
    r"""
    \s*
    (?:
      (?=[hsdt][ .]|ai|li|cl)(?:
        (?<![^\s—–(*,;:])(?:(?:h[ .]\s?)?[sd][ .]\s?c\b|s\.\s?s\b|t[ ]r\b)(?![^\W_])
      | (?:(?:lifting|climbing)[ ])?air[ -](?:stitch(?:es)?|sts?|loops?|chains?)\b
      | (?:lifting|climbing)[ ](?:loops?|chains?|ch)\b
      )
    | [^\W\d_]+(?:['’][a-z]+)?(?:(?<=[csrt])\d+tog\w*)?
    | \d+(?:st|nd|rd|th|d)(?:\b|(?=(?:ch|st|sts|sc|dc|hdc|tr|sp)\b))
    | (?<![\d/])(?:1/1|2/2|3/3|4/4)(?![\d/])
    | \d+(?:\.\d+)?
    | \*+|[✱＊∗⁎]+
    | \.+
    | -+>? | =>
    | \S
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)

_MARKS = {
    "*": Kind.STAR, "✱": Kind.STAR, "＊": Kind.STAR, "∗": Kind.STAR, "⁎": Kind.STAR,
    "(": Kind.OPEN, "[": Kind.OPEN, "{": Kind.OPEN, "<": Kind.OPEN,
    ")": Kind.CLOSE, "]": Kind.CLOSE, "}": Kind.CLOSE, ">": Kind.CLOSE,
    ",": Kind.COMMA, ";": Kind.SEMICOLON, ":": Kind.COLON,
    ".": Kind.STOP, "!": Kind.STOP, "?": Kind.STOP, "…": Kind.STOP,
    "-": Kind.DASH, "–": Kind.DASH, "—": Kind.DASH, "−": Kind.DASH, "‐": Kind.DASH,
    "‑": Kind.DASH, "=": Kind.EQUALS, "+": Kind.PLUS, "&": Kind.WORD, "×": Kind.WORD,
    "→": Kind.DASH,
}  # fmt: skip
"""What a piece is that begins with a mark."""

_FRACTIONS = "¼½¾⅓⅔⅛⅜⅝⅞"

_CHAINS = ("air ", "air-", "lifting ", "climbing ")

_SIGNS = {"&": "and", "×": "x"}
"""Signs that are read as the word they stand for."""

# Letters of other alphabets that look Latin, met in copied texts.
_LOOKALIKES = str.maketrans("асеорхуѕіԁһ’‘", "aceopxysidh''")


def tokens_of(text: str) -> list[Token]:
    """All tokens of a text, ended by one END token."""
    lexer = _Lexer(text)
    at = gap = breaks = 0  # where a line begins, where the last one ended, line ends since
    for line in text.split("\n"):
        words = line.lstrip()
        if words:
            start = at + len(line) - len(words)
            lexer.end_line(breaks, gap, start)
            lexer.read(words, start)
            breaks = 0
        at += len(line) + 1
        gap = gap if breaks else at - 1
        breaks += 1
    lexer.end_line(breaks - 1, gap, len(text))
    lexer.tokens.append(Token(Kind.END, "", 0, len(text), len(text)))
    return _with_loops(lexer.tokens) if "strand" in text else lexer.tokens


def _with_loops(tokens: list[Token]) -> list[Token]:
    """ "The back strand of each st", "strands left free": the loops of a stitch's top."""
    result = list(tokens)
    for i, token in enumerate(tokens):
        loop = _STRANDS.get(token.text)
        if loop is None:
            continue
        before, after = tokens[max(0, i - 1)].text, [t.text for t in tokens[i + 1 : i + 3]]
        if before in _WHICH_LOOP or after[:1] == ["left"] or _of_row(after):
            result[i] = replace(token, text=loop)
    return result


def _of_row(after: list[str]) -> bool:
    """ "(The strands) of Rnd 2": of a row that is named, and no yarn."""
    return after[:1] == ["of"] and not _ROW_NAMES.isdisjoint(after[1:])


_STRANDS = {"strand": "loop", "strands": "loops"}
_WHICH_LOOP = frozenset("back front rear third 3rd free unused unworked".split())
_ROW_NAMES = frozenset("rnd round row".split())


class _Lexer(Struct):
    """A text that is cut into tokens.

    Attributes:
        text: The text.
        tokens: Those read so far.
        known: What stood between two spaces before, cut: a pattern uses few words, over and
            over. None for what may go on behind the space.
        usual: Whether abbreviations bear a stop throughout; None until that is asked.
        after: Where the token before ended, which this one may be glued to.
    """

    text: str
    tokens: list[Token] = field(default_factory=list)
    known: dict[str, _Pieces | None] = field(default_factory=dict)
    usual: bool | None = None
    after: int = -1

    def end_line(self, breaks: int, start: int, end: int) -> None:
        """Some line ends as one token, with the white space behind them."""
        if breaks:
            glued = start == self.after
            self.tokens.append(Token(Kind.LINE, "\n", breaks, start, end, glued))

    def read(self, line: str, start: int) -> None:
        """The tokens of a line that begins with a word."""
        chunks = line.split(" ")
        known = self.known
        cut = [known[one] if one in known else self._cut(one) for one in chunks]
        if None in cut:
            chunks, cut = [line], [_pieces(line)]
        at = start
        after = -1
        add = self.tokens.append
        for chunk, pieces in zip(chunks, cut, strict=True):
            for kind, plain, value, spelled, first, last, middle in pieces or ():
                begin, end = at + first, at + last
                if middle is None:
                    add(Token(kind, plain, value, begin, end, begin == after, spelled))
                elif kind is not Kind.STOP:  # "innext": a space is missing
                    self._part(plain, begin, middle, end)
                elif begin != after or not self._is_of_abbreviation(end):
                    add(Token(kind, plain, value, begin, end, begin == after))
                after = end
            at += len(chunk) + 1
        self.after = after

    def _cut(self, chunk: str) -> _Pieces | None:
        last = chunk.casefold().split()[-1:]
        goes_on = last and (last[0] in _GOES_ON_APART or last[0].endswith(_CHAINS_BEGIN))
        pieces = self.known[chunk] = None if goes_on else _pieces(chunk)
        return pieces

    def _part(self, plain: str, begin: int, middle: int, end: int) -> None:
        parted = begin + middle
        self.tokens.append(Token(*_known_word(plain[:middle])[:3], begin, parted))
        kind, word, value, spelled = _known_word(plain[middle:])
        self.tokens.append(
            Token(kind, word, value, parted, end, glued=True, spelled=spelled)
        )

    def _is_of_abbreviation(self, end: int) -> bool:
        """Whether a stop that ends here only marks the word before as an abbreviation."""
        word = self.tokens[-1].text
        if word not in _ABBREVIATED or not _GOES_ON.match(self.text, end):
            return False
        if self.usual is None:
            self.usual = _is_usual(self.text)
        return self.usual or self.text[end] in ",;)]"


_GOES_ON_APART = frozenset("h s d t h. s. d. h.s h.d h.s. h.d.".split())
"""How an abbreviation begins whose letters stand apart: "d. c."."""
_CHAINS_BEGIN = ("air", "lifting", "climbing")


def marks_of(tokens: Sequence[Token]) -> dict[Kind, list[int]]:
    """Where the marks of each kind stand; words and numbers are not told."""
    marks: dict[Kind, list[int]] = {kind: [] for kind in Kind}
    plain = (Kind.WORD, Kind.NUMBER)
    for at, kind in enumerate([token.kind for token in tokens]):
        if kind not in plain:
            marks[kind].append(at)
    return marks


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


def _slipped() -> dict[str, str]:
    """Small words mistyped: a letter doubled, left out, or changed about with the next.

    The first and the last letter stay, for "round" and "ever" are words of their own.
    """
    result: dict[str, str] = {}
    for word in ("across", "around", "every", "each", "stitch", "stitches", "repeat"):
        for i in range(1, len(word)):
            before, letter, after = word[:i], word[i], word[i + 1 :]
            swapped = before + after[:1] + letter + after[1:]
            result[swapped] = word
            if len(word) > _SHORT:
                result[before + letter + letter + after] = word
            if len(word) > _SHORT and after:
                result[before + after] = word
    return {slip: word for slip, word in result.items() if slip not in result.values()}


_SHORT = 4
"""A word so short is another one with a letter more or less: "ech", "eah", "ach"."""
_SLIPPED = _slipped()


_STOPPED = r"\b[sd]\. ?c\."
"""Letters with a stop behind each, "d.c.": whoever writes so does it throughout."""


def _is_usual(text: str) -> bool:
    """Whether a writer sets a stop behind an abbreviation, as a rule."""
    if re.search(_STOPPED, text, re.IGNORECASE):
        return True
    short = re.finditer(_SHORT_WORDS, text, re.IGNORECASE)
    stops = [bool(found["stop"]) for found in short]
    return sum(stops) * 2 > len(stops)


_Pieces = tuple[tuple[Kind, str, int, bool, int, int, int | None], ...]
"""Kind, plain form, value, whether in words, beginning, end, where a word is parted.

The last is None for a piece that is one token whatever stands around it.
"""


def _pieces(words: str) -> _Pieces:
    """Some words cut into pieces, with what each is by itself."""
    result = []
    end = 0
    for piece in _PIECE.findall(words):
        end += len(piece)
        word = piece.lstrip()
        known = _known_word(word)
        kind, plain = known[:2]
        middle = _GLUED.get(plain) if kind is Kind.WORD else 0 if plain == "." else None
        result.append((*known, end - len(word), end, middle))
    return tuple(result)


def _known_word(word: str) -> tuple[Kind, str, int, bool]:
    """Kind, plain form, value, and whether a number is in words."""
    first = word[0]
    plain = word.lower().translate(_LOOKALIKES)
    if first.isdecimal():
        return _in_figures(plain)
    if first in _FRACTIONS or not (first.isalnum() or first in _MARKS):
        return Kind.OTHER, plain, 0, False
    kind = _MARKS.get(first, Kind.WORD)
    if kind is Kind.STAR:
        return kind, "*" * len(word), len(word), False
    if kind is not Kind.WORD:
        return kind, plain, 0, False
    if plain.startswith(_CHAINS):
        return kind, "ch", 0, False
    if "." in plain or len(plain.split()) > 1:
        return kind, re.sub(r"[^a-z]", "", plain), 0, False
    plain = _SIGNS.get(plain) or _SLIPPED.get(plain, plain)
    if plain in NUMBER_WORDS:
        return Kind.NUMBER, plain, NUMBER_WORDS[plain], True
    if plain in ORDINAL_WORDS:
        return Kind.ORDINAL, plain, ORDINAL_WORDS[plain], True
    return kind, plain, 0, False


def _in_figures(plain: str) -> tuple[Kind, str, int, bool]:
    """What begins with a digit: a number, an ordinal, "2.5", or the "2/2" of a cable."""
    if "/" in plain:
        return Kind.WORD, plain, 0, False
    if not plain[-1].isdecimal():
        return Kind.ORDINAL, plain, _value(plain.rstrip("stndrh")), False
    whole, point, _ = plain.partition(".")
    return Kind.OTHER if point else Kind.NUMBER, plain, _value(whole), False


def _value(digits: str) -> int:
    return int(digits) if len(digits) <= MOST_DIGITS else TOO_LARGE
