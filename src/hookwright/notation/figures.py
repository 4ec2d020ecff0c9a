"""One number of a count with what it is of: "22 dc", "5 ch-1 sps", "9 v-stitches"."""

from __future__ import annotations

from hookwright.notation.counts_by_size import number_of_each
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.figure_units import (
    ROW_UNITS,
    count_ends,
    is_own_word,
    read_unit,
)
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    GAP_NOUNS,
    GROUP_NOUNS,
    SPACE_NOUNS,
    STITCH_NOUNS,
    take_chain_length,
)
from hookwright.notation.tree import Amount, Figure

_FIGURE_LEADS = Sayings(("each with", "the", "about"))


def read_figure(cursor: Cursor) -> Figure | None:
    """One number with its unit: "22 dc", "5 ch-1 sps", "24", "13tr", "9 v-stitches"."""
    start = cursor.at
    cursor.take_any(_FIGURE_LEADS)
    amount = _article(cursor) or _bare_space(cursor) or number_of_each(cursor)
    amount = amount or cursor.number()
    if amount is None:
        cursor.at = start
        return None
    corner = cursor.is_word("corner")
    where = corner and cursor.peek().text in SPACE_NOUNS  # though corners may be defined
    own = is_own_word(cursor) and not where
    named = own and cursor.stitch_at() is not None  # "open square", but "9 open meshes"
    square = "" if named else _kind_of_square(cursor)
    small = cursor.is_word(*_SMALL) and cursor.peek().text in SPACE_NOUNS
    if not (square or own or cursor.take_word("linen", "new", "more")):
        _pass_adjective(cursor)
    half = not is_own_word(cursor) and cursor.is_word("half") and cursor.stitch_at() is None
    half = half and cursor.take_word("half")
    alone = cursor.at
    unit, chains = read_unit(cursor)
    if unit is None:
        cursor.at = start
        return None
    bare = unit == "st" and cursor.at == alone  # "4 open, 5 solid"
    if square and chains is None and (bare or unit in _SQUARES):
        unit = square
    if corner and unit == "sp" and chains is None:
        unit = "corner"  # "4 corner sps, 8 ch-1 sps": not all of the spaces
    if small and unit == "sp" and chains is None:
        unit = "eyelet"  # "8 little holes" beside a large one in the middle
    of_chains = _chains_of(cursor) if unit in _LOOPS and chains is None else None
    if of_chains is not None:
        unit, chains = "sp", of_chains
    if unit not in ROW_UNITS:
        _pass_size(cursor)
    return Figure(amount, f"half {unit}" if half else unit, chains)


_LOOPS = ("sp", "gap", "gaps")


def _chains_of(cursor: Cursor) -> int | None:
    """ "10 gaps of ch 2", "12 loops of 3 ch": how long each of the spaces is."""
    at = cursor.at
    if cursor.take_word("of"):
        cursor.take_word("a")
        number = cursor.step().value if cursor.is_kind(Kind.NUMBER) else None
        if number is not None:
            cursor.take_kind(Kind.DASH)
        if cursor.take_word(*CHAIN_NOUNS):
            number = take_chain_length(cursor) if number is None else number
            cursor.take_word("each")
            if number is not None:
                return number
    cursor.at = at
    return None


_SMALL = ("small", "little", "tiny", "wee")
_SQUARES = frozenset("sp block mesh square window group".split())


def _kind_of_square(cursor: Cursor) -> str:
    """ "2 open meshes, 13 solid meshes": which squares of a filet net are counted."""
    if cursor.take_word("open", "empty"):
        return "open mesh"
    return "solid mesh" if cursor.take_word("solid", "filled", "closed") else ""


def _pass_size(cursor: Cursor) -> None:
    """ "7 shells of 5 dc": how many stitches each of the groups has."""
    at = cursor.at
    size = cursor.take_word("of") and cursor.number()
    if not size or cursor.stitch() is None:
        cursor.at = at
        return
    cursor.take_word("each")


_COUNTED = STITCH_NOUNS | SPACE_NOUNS | GROUP_NOUNS | GAP_NOUNS


def _pass_adjective(cursor: Cursor) -> None:
    """ "2 handle loops", "6 big groups": a word that only describes what is counted."""
    word = cursor.token
    describes = word.kind is Kind.WORD and len(word.text) > 2 and word.text.isalpha()
    counted = cursor.peek().text in _COUNTED or _chain_length_at(cursor, 1)
    own = is_own_word(cursor) or not cursor.attempt(Cursor.stitch)
    if describes and counted and word.text != "half" and own:
        cursor.step()


def _chain_length_at(cursor: Cursor, ahead: int) -> bool:
    """Whether a chain with its length stands so many words further on: "ch-2"."""
    dashed = cursor.peek(ahead + 1).kind is Kind.DASH
    number = cursor.peek(ahead + 1 + dashed).kind is Kind.NUMBER
    return cursor.peek(ahead).text in ("ch", "chain") and number


def _article(cursor: Cursor) -> Amount | None:
    """ "8 ch-3 sps and a ch-1 sp", "a half shell at each end", "20 pairs and a sc"."""
    token = cursor.token
    if token.text in ("a", "an") and cursor.at and _is_one_more(cursor):
        cursor.step()
        return Amount((1,), token.span)
    if token.text not in ("a", "an") or cursor.peek().text not in ("ch", "single", "half"):
        return None
    cursor.step()
    dashed = cursor.peek().kind is Kind.DASH  # "18 sc and a ch-3"
    if cursor.is_word("ch") and not dashed and not _measured_space(cursor):
        cursor.at -= 1
        return None  # "15 tr, a ch 2 in every gap"
    return Amount((1,), token.span)


def _is_own_unit(cursor: Cursor) -> bool:
    """Takes a stitch or group of the writer's own, or a block."""
    stitch = cursor.stitch()
    own = stitch is not None and stitch.family == "own"
    return own or (stitch is None and cursor.take_word("block", "tile", "square"))


def _is_one_more(cursor: Cursor) -> bool:
    """Whether a single stitch ends a count: "(20 pairs and a sc)"."""
    at = cursor.at
    before = cursor.tokens[at - 1].text
    told = before in ("is", "makes") and at > 2  # "... after it. This is a block."
    told = told and cursor.tokens[at - 3].kind is Kind.STOP
    cursor.step()
    single = before in ("and", "plus", "+") and cursor.stitch() is not None
    single = single or (told and _is_own_unit(cursor))
    single = single and count_ends(cursor)
    cursor.at = at
    return single


def _measured_space(cursor: Cursor) -> bool:
    """Whether a space with its length stands here: "ch-2 sp"."""
    at = cursor.at
    measured = cursor.take_word("ch", "chain") and take_chain_length(cursor) is not None
    dashed = cursor.at > at + 1 and cursor.tokens[at + 1].kind is Kind.DASH
    alone = dashed and cursor.is_kind(Kind.CLOSE, Kind.STOP, Kind.END)  # "24 hdc + ch-6"
    found = measured and (alone or cursor.is_word(*SPACE_NOUNS))
    cursor.at = at
    return found


def _bare_space(cursor: Cursor) -> Amount | None:
    """ "6 dc + ch-2 sp", "8 sc, ch-2": one of them, behind another figure."""
    joined = cursor.at and cursor.tokens[cursor.at - 1]
    listed = joined and joined.kind in (Kind.PLUS, Kind.COMMA)
    if not joined or not (listed or joined.text == "and"):
        return None
    first = cursor.token
    return Amount((1,), first.span) if _measured_space(cursor) else None
