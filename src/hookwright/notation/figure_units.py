"""What the numbers of a count are of: "dc", "ch-1 sps", "3-dc groups", "underarm chs"."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    GAP_NOUNS,
    GROUP_NOUNS,
    SPACE_NOUNS,
    STITCH_NOUNS,
)
from hookwright.notation.vocabulary import singular

_NO_UNITS = frozenset("time times once twice thrice more size".split())
ROW_UNITS = frozenset("row rows rnd rnds round rounds stripes stripe".split())
BY_MARKERS = Sayings(
    f"{where} {the}{marker}"
    for where in ("between", "before", "after", "inside", "outside")
    for the in ("the two ", "the 2 ", "the ", "")
    for marker in ("markers", "marker", "m")
)
_AFTER_ROW = Sayings(
    f"{after} {row}" for after in ("after", "at the end of", "at end of", "by the end of")
    for row in ("row", "rnd", "round")
)  # fmt: skip


def count_ends(cursor: Cursor) -> bool:
    """Whether a count could end here."""
    token = cursor.token
    if token.kind in (Kind.STOP, Kind.CLOSE, Kind.END, Kind.LINE, Kind.SEMICOLON):
        return True
    if token.kind in (Kind.OPEN, Kind.STAR) or token.text == "|":
        return True
    if token.kind is Kind.COMMA:
        return cursor.peek().text in (
            "turn",
            "ch",
            "join",
            "fasten",
            "then",
            "and",
            "chain",
            "do",
            "with",
            "change",
            "not",
            "cut",
            "end",
        )
    return cursor.is_word("turn", "join", "fasten", "ch", "finish", "end", "cut", "break")


def is_own_word(cursor: Cursor) -> bool:
    """Whether the word here is one that the pattern defines."""
    return cursor.token.text in cursor.own_words


def read_unit(cursor: Cursor) -> tuple[str | None, int | None]:
    """The unit behind a number, and the chains of a space; (None, None) if no count."""
    at = cursor.at
    cursor.skip_lines()
    if cursor.token.kind is not Kind.WORD:
        cursor.at = at
    token = cursor.token
    if token.kind is Kind.NUMBER:  # "9 3-dc groups", "6 5-ch loops"
        return _measured_unit(cursor)
    if token.kind is not Kind.WORD:
        ends = (
            count_ends(cursor) or _joins(cursor) or token.kind is Kind.COLON
        )  # "(36: 24 sc,"
        return ("st", None) if ends else (None, None)
    if _goes_without_unit(cursor):
        return "st", None
    where = token.text in _WHERE_CHAINED and cursor.peek().text in CHAIN_NOUNS
    if token.text in CHAIN_NOUNS or token.text == "underarm" or where:
        return _chain_unit(cursor)
    if token.text in STITCH_NOUNS and not is_own_word(cursor):
        cursor.step()
        return "st", None
    named = cursor.at
    stitch = cursor.stitch()
    if token.text in SPACE_NOUNS and cursor.at <= named + 1:  # but "10 sp-sc"
        cursor.at = named
        return _spaces_from(cursor, at), None
    if stitch is not None:
        return _in_stitches(cursor, stitch.id), None
    several = token.text.removesuffix("s")
    if several != token.text and several in cursor.own_words:  # "3 Vs"
        cursor.step()
        return several, None
    return _other_unit(cursor)


def _spaces_from(cursor: Cursor, at: int) -> str:
    """Spaces, or squares of a net; not "handles now" on the line below "... - 48"."""
    square = cursor.step().text in _SQUARES
    if cursor.tokens[at].kind is Kind.LINE and not count_ends(cursor):
        cursor.at = at
        return "st"
    return "mesh" if square else "sp"


_SQUARES = ("mesh", "meshes")
"""What is a space, and in a filet net an open or a solid square."""


def _in_stitches(cursor: Cursor, name: str) -> str:
    """The unit behind the name of a stitch: "3 dc-groups", "9 v-stitches"."""
    dashed = cursor.take_kind(Kind.DASH)
    if cursor.take_word(*GROUP_NOUNS):
        return "group"
    if not cursor.take_word(*STITCH_NOUNS) and dashed:
        cursor.at -= 1  # "50 sc - 10 on each side", "12 puffs - the chain is none"
    return name


def _goes_without_unit(cursor: Cursor) -> bool:
    """ "(4, 5 and 6 blocks)" has one number a row; "4 between the markers" are stitches.

    So are "6 after Row 9".
    """
    goes_on = cursor.token.text in ("and", "then") and cursor.peek().kind is Kind.NUMBER
    return goes_on or cursor.is_any(BY_MARKERS) or cursor.is_any(_AFTER_ROW)


def _joins(cursor: Cursor) -> bool:
    return cursor.token.kind in (Kind.COMMA, Kind.PLUS)


def _other_unit(cursor: Cursor) -> tuple[str | None, int | None]:
    """Groups, rows, or a unit named nowhere else, which must close its bracket."""
    if cursor.take_word("block", "blocks", "bl", "bls", "blk", "blks"):
        return "block", None
    if cursor.take_word("pair", "pairs"):
        return "pair", None
    grouped = _take_group(cursor)
    if grouped:
        return grouped, None
    if cursor.is_word(*ROW_UNITS):
        return cursor.step().text, None
    headed = _head_of_own_name(cursor)
    if headed:
        cursor.step()
        return headed, None
    if cursor.is_word("in", "of", "turn", "join", "fasten"):
        return ("st", None) if cursor.is_word("turn", "join", "fasten") else (None, None)
    at = cursor.at
    word = cursor.step().text
    if word in _TURNING_POINTS and count_ends(cursor):
        return word, None
    if (
        cursor.token.kind in (Kind.CLOSE, Kind.COMMA)
        and len(word) > 2
        and word not in _NO_UNITS
    ):
        return word, None
    cursor.at = at
    return None, None


def _take_group(cursor: Cursor) -> str:
    """Groups, the gaps between them, and in "4 shells + 2 halves" half ones."""
    if cursor.take_word(*GROUP_NOUNS):
        return "group"
    if cursor.take_word("halves"):
        return "half group"
    return "gap" if cursor.take_word(*GAP_NOUNS) else ""


_TURNING_POINTS = frozenset("corner corners point points petal petals".split())
"""What a motif has besides its stitches: "12 dc, 4 corners."."""


def _head_of_own_name(cursor: Cursor) -> str:
    """What some stitches of one's own are: "tile", of "edge tile" and "plain tile"."""
    words = set(singular(cursor.token.text)) if cursor.token.kind is Kind.WORD else set()
    heads = (
        name[-1]
        for named in cursor.own_words.values()
        for name, _ in named
        if len(name) > 1 and name[-1] in words
    )
    return next(heads, "")


def _measured_unit(cursor: Cursor) -> tuple[str | None, int | None]:
    at = cursor.at
    value = cursor.step().value
    cursor.take_kind(Kind.DASH)
    if cursor.take_word("ch", "chain"):
        cursor.take_kind(Kind.DASH)
        if cursor.take_word(*SPACE_NOUNS):
            return "sp", value
    elif cursor.stitch() is not None:
        cursor.take_kind(Kind.DASH)
        if cursor.take_word(*GROUP_NOUNS, "shells", "shell", "fans", "fan"):
            return "group", None
    cursor.at = at
    return None, None


_WHERE_CHAINED = tuple(
    f"{place}{s}"
    for place in ("corner", "underarm", "point", "handle", "thumb", "armhole")
    for s in ("", "s")
)
"""What chains are called by where they lie: "2 ch-4 underarms", "4 ch-2 corners"."""


def _chain_unit(cursor: Cursor) -> tuple[str | None, int | None]:
    cursor.take_word("underarm", *_WHERE_CHAINED)
    cursor.take_word(*CHAIN_NOUNS)
    chains = None
    at = cursor.at
    dashed = cursor.take_kind(Kind.DASH)
    by_size = False
    if cursor.token.kind is Kind.NUMBER:
        number = cursor.number()
        by_size = number is not None and len(number.values) > 1
        chains = number.values[0] if number is not None else None
        cursor.take_kind(Kind.DASH)
    else:
        at = cursor.at
    cursor.skip_lines()
    if by_size and cursor.take_word(*SPACE_NOUNS):
        return "sp", None  # "a ch-6 (7, 8) sp": of another length in each size
    named = chains is not None and cursor.take_word(*_WHERE_CHAINED)
    if cursor.take_word(*SPACE_NOUNS) or named:
        return "sp", chains
    if chains is not None and dashed and count_ends(cursor):  # "44 sc, 2 ch-30"
        return "sp", chains
    if chains is not None:
        cursor.at = at
    if cursor.is_word("of") and cursor.peek().kind is Kind.NUMBER:
        cursor.step()  # "2 underarm chs of 4"
        cursor.number()
        return "sp", None
    return "ch", None
