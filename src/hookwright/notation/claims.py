"""Printed counts: "(24 sc)", "— 24 sts", "(2 dc, 6 shells, 5 ch-1 sps)", "= 12 sc"."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import (
    GAP_NOUNS,
    GROUP_NOUNS,
    SPACE_NOUNS,
    STITCH_NOUNS,
    take_chain_length,
)
from hookwright.notation.tree import Amount, Claim, Figure
from hookwright.notation.vocabulary import singular
from hookwright.source import Span

_BEFORE = Sayings((
    "you have worked", "you have now worked", "you will have worked", "you've worked",
    "you should now have", "you should have", "you now have", "you will have", "you have",
    "should now have", "should have", "will have", "there are now", "there are", "you get",
    "there will be", "you will now have", "there should now be", "there will now be",
    "you'll have", "total of", "total", "makes", "making", "made", "now", "for a total of",
    "that is", "that's", "this is", "this makes", "that leaves", "that makes",
    "which makes", "there should be", "giving",
    "st count", "stitch count", "count", "you made", "that you made",
    "you will find that you made", "i have", "gives", "about", "now have", "have",
    "you'll get", "so you have", "so that's", "so that makes", "so", "a total of", "sts",
    "stitches", "=",
))  # fmt: skip
_AFTER = Sayings((
    "in all", "in total", "total", "altogether", "made", "around", "left", "completed",
    "in the row", "now", "across", "for this row", "remain", "remaining", "on hook",
    "when done", "done", "at end of row", "worked", "remains", "so far",
    "from the start", "from the beginning", "from start", "from beginning",
    "since the start", "since the beginning",
))  # fmt: skip
_AT_BOTH_ENDS = Sayings(
    f"{where}{which} {what}"
    for where in ("at ", "on ", "")
    for which in ("each", "either")
    for what in ("end", "edge", "side")
)
_NO_UNITS = frozenset("time times once twice thrice more size".split())
MOTIF = " in each motif"
"""The end of a unit of a count that tells what one motif has, and nothing of the row."""
_ROWS = frozenset("row rows rnd rnds round rounds stripes stripe".split())


def read_claim(cursor: Cursor) -> Claim | None:
    """A count from here up to a stop, a bracket or a line end; None where none stands."""
    start = cursor.at
    if not cursor.attempt(Cursor.number):  # a dash may stand for a size without a number
        cursor.take_kind(Kind.EQUALS, Kind.DASH, Kind.COLON)
    said = cursor.take_any(_BEFORE)
    cursor.take_kind(Kind.EQUALS, Kind.COLON)
    figures = _figures(cursor, start)
    if figures and cursor.token.kind is Kind.EQUALS:
        cursor.step()
        sum_of_all = read_figure(cursor)
        figures = [sum_of_all] if sum_of_all is not None else figures
    figures = _one_a_size(figures, cursor, start)
    if figures:
        _pass_make_up(cursor, start)
    if figures and cursor.is_word("when", "once"):  # "5 blocks when Row 5 is done"
        while not cursor.is_kind(Kind.STOP, Kind.CLOSE, Kind.END, Kind.LINE):
            cursor.step()
    of_some = bool(figures) and _only_if(cursor)
    if not figures or not (_ends(cursor) or (said and _breaks(cursor))):
        cursor.at = start
        return None
    rows = of_some or any(
        figure.unit in _ROWS or figure.unit.endswith(MOTIF) for figure in figures
    )
    return Claim(tuple(figures), cursor.span_from(start), rows)


def _one_a_size(figures: list[Figure], cursor: Cursor, start: int) -> list[Figure]:
    """ "(40, 48, 56 dc)" in a pattern of three sizes is one number for each of them."""
    if cursor.sizes < 2 or len(figures) != cursor.sizes:
        return figures
    *bare, last = figures
    told = cursor.tokens[start : cursor.at]
    alone = {a.end for a, b in pairwise(told) if b.kind in (Kind.COMMA, Kind.SEMICOLON)}
    if any(figure.amount.span.end not in alone for figure in bare):
        return figures
    if any(len(figure.amount.values) > 1 for figure in figures):
        return figures
    values = tuple(figure.amount.values[0] for figure in figures)
    span = Span(figures[0].amount.span.start, last.amount.span.end)
    return [replace(last, amount=Amount(values, span))]


def _pass_make_up(cursor: Cursor, start: int) -> None:
    """ "(68 dc: 21 fans and 5 dc at each end)": behind the sum, what it is made up of."""
    at = cursor.at
    bracketed = start > 0 and cursor.tokens[start - 1].kind is Kind.OPEN
    dashed = cursor.is_kind(Kind.DASH) and cursor.peek().kind is Kind.NUMBER
    if not bracketed or not (dashed or cursor.is_kind(Kind.COLON)):
        return
    while not cursor.is_kind(Kind.CLOSE, Kind.END, Kind.OPEN):
        cursor.step()
    if not cursor.is_kind(Kind.CLOSE):
        cursor.at = at


def _only_if(cursor: Cursor) -> bool:
    """ "(31 shells, if you stopped where I did)", "(96 dc in my size)": of one working.

    Another that ends elsewhere has another number, so the row is not held to this one.
    """
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.DASH)
    told = cursor.take_word("if", "assuming", "provided") or cursor.take_any(_IN_MINE)
    while told and not cursor.is_kind(Kind.CLOSE, Kind.END, Kind.STOP):
        cursor.step()
    if told and cursor.is_kind(Kind.CLOSE):
        return True
    cursor.at = at
    return False


_IN_MINE = Sayings((
    "in mine", "on mine", "for mine", "in my case", "in my sample", "in the sample",
    "in my version", "in the one shown", "in the piece shown", "for the size shown",
    "for the length shown", "in my size", "for my size", "for me",
))  # fmt: skip


def _figures(cursor: Cursor, start: int) -> list[Figure]:
    """The numbers of a count with their units, as far as they go."""
    figures: list[Figure] = []
    since = 0
    while True:
        figure = read_figure(cursor)
        if figure is None:
            return figures
        if cursor.take_any(_AT_BOTH_ENDS):
            figure = _doubled(figure)
        if not (figures and _between_markers(cursor)):
            figures.append(figure)
        cursor.take_any(_AFTER)
        _after_row(cursor)
        if _in_each(cursor):  # "5 sc and 4 sps in each pineapple" is no count of the row
            of_motif = {dropped.unit for dropped in figures[since:]}
            kept = [figure for figure in figures[:since] if figure.unit not in of_motif]
            bracketed = start > 0 and cursor.tokens[start - 1].kind is Kind.OPEN
            figures = kept or (
                [replace(figure, unit=figure.unit + MOTIF)] if bracketed else []
            )
        if cursor.token.kind is Kind.COMMA:
            since = len(figures)
        at = cursor.at
        if not _joined(cursor) or not cursor.attempt(read_figure):
            cursor.at = at
            if not _pass_named_chain(cursor):
                _pass_unknown_figure(cursor, start, alone=len(figures) == 1)
            _passing_remark(cursor)
            return figures


_BY_MARKERS = Sayings(
    f"{where} {the}{marker}"
    for where in ("between", "before", "after", "inside", "outside")
    for the in ("the two ", "the 2 ", "the ", "")
    for marker in ("markers", "marker", "m")
)


def _between_markers(cursor: Cursor) -> bool:
    """ "32 sc; 6 between the markers": how many of those that were counted lie there."""
    return cursor.take_any(_BY_MARKERS)


def _after_row(cursor: Cursor) -> None:
    """ "42 dc after Row 7", "6 tiles at the end of Row 6", "52 sts after the last row"."""
    at = cursor.at
    then = cursor.take_phrase("after", "at the end of", "at end of", "by the end of")
    last = then and cursor.take_phrase("the last", "last", "the final", "final")
    if not (then and cursor.take_word(*_ROWS) and (last or cursor.number())):
        cursor.at = at


_MOST_WORDS = 3


def _pass_unknown_figure(cursor: Cursor, start: int, *, alone: bool) -> None:
    """ "= 24 sc and 2 handles", "turn. 14 dc, 1 buttonhole": in words of the writer's."""
    at = cursor.at
    begun = cursor.tokens[start]
    bracketed = start > 0 and cursor.tokens[start - 1].kind is Kind.OPEN
    bare = alone and not bracketed and begun.kind in (Kind.DASH, Kind.NUMBER)
    numbered = bare or begun.kind is Kind.EQUALS
    if _joined(cursor) and (cursor.take_word("the") or (numbered and cursor.number())):
        if begun.kind is not Kind.EQUALS and _is_worked(cursor):
            cursor.at = at
            return
        _pass_measure(cursor)
        words = cursor.at
        while cursor.is_kind(Kind.WORD) and cursor.at - words < _MOST_WORDS:
            cursor.step()
        if cursor.at > words and _ends(cursor):
            return
    cursor.at = at


def _pass_named_chain(cursor: Cursor) -> bool:
    """ "and a thumb ch of 6 (7, 8)", behind the stitches: it is beside their number."""
    at = cursor.at
    if _joined(cursor):
        cursor.take_word("a", "an", "one")
        if cursor.token.value == 1:
            cursor.step()
        named = cursor.at
        while cursor.is_kind(Kind.WORD) and cursor.at - named < _MOST_WORDS:
            if cursor.at > named and cursor.take_word("ch", "chain", "chains"):
                if cursor.take_word("of") or cursor.take_kind(Kind.DASH):
                    cursor.number()
                cursor.take_word(*SPACE_NOUNS)
                if _ends(cursor):
                    return True
                break
            if cursor.stitch_at() is not None:
                break
            cursor.step()
    cursor.at = at
    return False


def _pass_measure(cursor: Cursor) -> None:
    """The "3-chain" of "four 3-chain corners"."""
    at = cursor.at
    measured = cursor.number() and cursor.take_kind(Kind.DASH)
    if not (measured and cursor.take_word("ch", "chain")):
        cursor.at = at


_WORKED_WORDS = frozenset(
    "in into ch chs chain chains sl ss inc dec more times time x".split()
)


def _is_worked(cursor: Cursor) -> bool:
    """Whether the words behind a number are work, or how often it is done."""
    return cursor.token.text in _WORKED_WORDS or cursor.stitch_at() is not None


def _doubled(figure: Figure) -> Figure:
    """ "1 dc at each edge" are two of them."""
    values = tuple(value and 2 * value for value in figure.amount.values)
    return replace(figure, amount=Amount(values, figure.amount.span))


def _in_each(cursor: Cursor) -> bool:
    at = cursor.at
    if (
        cursor.take_phrase("in each", "in every", "per", "on each")
        and cursor.token.kind is Kind.WORD
    ):
        cursor.step()
        return True
    cursor.at = at
    return False


def _passing_remark(cursor: Cursor) -> None:
    """ "(18 tr, a ch 1 in every gap.)": a comma and words that are no figure."""
    at = cursor.at
    between = cursor.is_word("with") and cursor.peek().kind is Kind.NUMBER
    if not cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.DASH) and not between:
        return
    cursor.at, behind = at, cursor.at
    if _only_if(cursor):
        cursor.at = at
        return
    cursor.at = behind
    if cursor.is_word("counting", "including", "incl"):  # "34 tr, counting the 3 ch."
        while not cursor.is_kind(Kind.CLOSE, Kind.END, Kind.STOP, Kind.LINE):
            cursor.step()
        return
    works = cursor.is_word(
        "ch", "chain", "sk", "skip", "miss", "turn", "sl", "ss", "inc", "dec"
    )
    if not cursor.is_kind(Kind.WORD) or works or cursor.stitch() is not None:
        cursor.at = at
        return
    while not cursor.is_kind(Kind.CLOSE, Kind.END, Kind.LINE, Kind.OPEN):
        cursor.step()
    if not cursor.is_kind(Kind.CLOSE):
        cursor.at = at


def _joined(cursor: Cursor) -> bool:
    found = False
    while cursor.take_kind(Kind.COMMA, Kind.PLUS, Kind.SEMICOLON) or cursor.take_word(
        "and", "plus", "then", "with"
    ):
        found = True
    if found:
        cursor.skip_lines()
    return found


def _breaks(cursor: Cursor) -> bool:
    """Whether a count that was announced in words may stop here."""
    return cursor.token.kind is Kind.COMMA or cursor.is_word(
        "and", "because", "which", "with", "so"
    )


def _ends(cursor: Cursor) -> bool:
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


_FIGURE_LEADS = Sayings(("each with", "the", "about"))


def read_figure(cursor: Cursor) -> Figure | None:
    """One number with its unit: "22 dc", "5 ch-1 sps", "24", "13tr", "9 v-stitches"."""
    start = cursor.at
    cursor.take_any(_FIGURE_LEADS)
    amount = _article(cursor) or _bare_space(cursor) or cursor.number()
    if amount is None:
        cursor.at = start
        return None
    corner = cursor.is_word("corner")
    square = "" if _own(cursor) else _kind_of_square(cursor)
    if not square and not _own(cursor) and not cursor.take_word("linen", "new", "more"):
        _pass_adjective(cursor)
    half = not _own(cursor) and cursor.is_word("half") and cursor.stitch_at() is None
    half = half and cursor.take_word("half")
    unit, chains = _unit(cursor)
    if unit is None:
        cursor.at = start
        return None
    if square and unit in _SQUARES and chains is None:
        unit = square
    if corner and unit == "sp" and chains is None:
        unit = "corner"  # "4 corner sps, 8 ch-1 sps": not all of the spaces
    if unit not in _ROWS:
        _pass_size(cursor)
    return Figure(amount, f"half {unit}" if half else unit, chains)


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
    if describes and counted and not cursor.attempt(Cursor.stitch):
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


def _is_one_more(cursor: Cursor) -> bool:
    """Whether a single stitch ends a count: "(20 pairs and a sc)"."""
    at = cursor.at
    before = cursor.tokens[at - 1].text
    cursor.step()
    single = before in ("and", "plus", "+") and cursor.stitch() is not None
    single = single and _ends(cursor)
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


def _own(cursor: Cursor) -> bool:
    return cursor.token.text in cursor.own_words


def _unit(cursor: Cursor) -> tuple[str | None, int | None]:
    at = cursor.at
    cursor.skip_lines()
    if cursor.token.kind is not Kind.WORD:
        cursor.at = at
    token = cursor.token
    if token.kind is Kind.NUMBER:  # "9 3-dc groups", "6 5-ch loops"
        return _measured_unit(cursor)
    if token.kind is not Kind.WORD:
        ends = _ends(cursor) or _joins(cursor) or token.kind is Kind.COLON  # "(36: 24 sc,"
        return ("st", None) if ends else (None, None)
    if _goes_without_unit(cursor):
        return "st", None
    if token.text in ("ch", "chs", "chain", "chains", "underarm"):
        return _chain_unit(cursor)
    if token.text in STITCH_NOUNS and not _own(cursor):
        cursor.step()
        return "st", None
    if token.text in SPACE_NOUNS:
        cursor.step()
        return "sp", None
    stitch = cursor.stitch()
    if stitch is not None:
        return _in_stitches(cursor, stitch.id), None
    several = token.text.removesuffix("s")
    if several != token.text and several in cursor.own_words:  # "3 Vs"
        cursor.step()
        return several, None
    return _other_unit(cursor)


def _in_stitches(cursor: Cursor, name: str) -> str:
    """The unit behind the name of a stitch: "3 dc-groups", "9 v-stitches"."""
    dashed = cursor.take_kind(Kind.DASH)
    if cursor.take_word(*GROUP_NOUNS):
        return "group"
    if dashed and cursor.is_kind(Kind.NUMBER):
        cursor.at -= 1  # "50 sc - 10 on each side and 2 at each corner"
    cursor.take_word(*STITCH_NOUNS)
    return name


def _goes_without_unit(cursor: Cursor) -> bool:
    """ "(4, 5 and 6 blocks)" has one number a row; "4 between the markers" are stitches."""
    goes_on = cursor.token.text in ("and", "then") and cursor.peek().kind is Kind.NUMBER
    return goes_on or cursor.is_any(_BY_MARKERS)


def _joins(cursor: Cursor) -> bool:
    return cursor.token.kind in (Kind.COMMA, Kind.PLUS)


def _other_unit(cursor: Cursor) -> tuple[str | None, int | None]:
    """Groups, rows, or a unit named nowhere else, which must close its bracket."""
    if cursor.take_word("block", "blocks", "bl", "bls", "blk", "blks"):
        return "block", None
    if cursor.take_word("pair", "pairs"):
        return "pair", None
    if cursor.take_word(*GROUP_NOUNS, *GAP_NOUNS):
        return "group", None
    if cursor.take_word("halves"):  # "4 shells + 2 halves"
        return "half group", None
    if cursor.is_word(*_ROWS):
        return cursor.step().text, None
    headed = _head_of_own_name(cursor)
    if headed:
        cursor.step()
        return headed, None
    if cursor.is_word("in", "of", "turn", "join", "fasten"):
        return ("st", None) if cursor.is_word("turn", "join", "fasten") else (None, None)
    at = cursor.at
    word = cursor.step().text
    if word in _TURNING_POINTS and _ends(cursor):
        return word, None
    if (
        cursor.token.kind in (Kind.CLOSE, Kind.COMMA)
        and len(word) > 2
        and word not in _NO_UNITS
    ):
        return word, None
    cursor.at = at
    return None, None


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
    f"{place}{s}" for place in ("corner", "underarm", "point", "handle") for s in ("", "s")
)
"""What chains are called by where they lie: "2 ch-4 underarms", "4 ch-2 corners"."""


def _chain_unit(cursor: Cursor) -> tuple[str | None, int | None]:
    cursor.take_word("underarm")
    cursor.take_word("ch", "chs", "chain", "chains")
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
    if chains is not None and dashed and _ends(cursor):  # "44 sc, 2 ch-30"
        return "sp", chains
    if chains is not None:
        cursor.at = at
    if cursor.is_word("of") and cursor.peek().kind is Kind.NUMBER:
        cursor.step()  # "2 underarm chs of 4"
        cursor.number()
        return "sp", None
    return "ch", None
