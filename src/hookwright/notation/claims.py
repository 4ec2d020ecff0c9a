"""Printed counts: "(24 sc)", "— 24 sts", "(2 dc, 6 shells, 5 ch-1 sps)", "= 12 sc"."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.figure_units import BY_MARKERS, ROW_UNITS, count_ends
from hookwright.notation.figures import read_figure
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS, SPACE_NOUNS, take_chain_length
from hookwright.notation.tree import Amount, Claim, Figure
from hookwright.notation.vocabulary import base_stitch, families_of
from hookwright.source import Span

_BEFORE = Sayings((
    "you have worked", "you have now worked", "you will have worked", "you've worked",
    "you should now have", "you should have", "you now have", "you will have", "you have",
    "should now have", "should have", "will have", "there are now", "there are", "you get",
    "there will be", "you will now have", "there should now be", "there will now be",
    "you'll have", "total of", "total", "makes", "making", "made", "now", "for a total of",
    "in all", "in total", "altogether", "again", "once more", "once again",
    "still", "you still have", "that is still", "it is", "it makes", "it's",
    "that is", "that's", "this is", "this makes", "that leaves", "that makes",
    "which makes", "there should be", "giving",
    *(
        f"you {should}{verb}"
        for should in ("should ", "will ", "")
        for verb in ("see", "count", "get", "end with", "end up with", "be left with")
    ),
    "you'll see", "thats",
    "st count", "stitch count", "count", "you made", "sts made", "stitches made",
    "sts worked", "sts in all", "stitches in all", "that you made",
    "you will find that you made", "i have", "gives", "about", "now have", "have",
    "you'll get", "so you have", "so that's", "so that makes", "so", "a total of", "sts",
    "stitches", "=",
))  # fmt: skip
_AFTER = Sayings((
    "in all", "in total", "total", "altogether", "made", "around", "left", "completed",
    "in the row", "now", "across", "for this row", "remain", "remaining", "on hook",
    "when done", "done", "at end of row", "worked", "remains", "so far",
    "from the start", "from the beginning", "from start", "from beginning", "again",
    "as before", "still", "once more", "once again", "in the end",
    "since the start", "since the beginning",
    *(
        f"{on} {the}{row}"
        for on in ("in", "on", "to", "of")
        for the in ("", "the ", "this ", "each ", "every ")
        for row in ("row", "round", "rnd")
    ),
))  # fmt: skip
_AT_BOTH_ENDS = Sayings(
    f"{where}{which} {what}"
    for where in ("at ", "on ", "")
    for which in ("each", "either")
    for what in ("end", "edge", "side")
)
_ALONG_EACH_SIDE = Sayings((
    *(
        f"{where} {each}side{of}"
        for where in ("on", "along", "in", "for", "per", "to")
        for each in ("each ", "every ", "a ", "")
        for of in (" of the square", " of the hexagon", " of the motif", "")
    ),
    "a side", "each side",
))  # fmt: skip
MOTIF = " in each motif"
"""The end of a unit of a count that tells what one motif has, and nothing of the row."""


def read_claim(cursor: Cursor) -> Claim | None:
    """A count from here up to a stop, a bracket or a line end; None where none stands."""
    start = cursor.at
    if not cursor.attempt(Cursor.number):  # a dash may stand for a size without a number
        cursor.take_kind(Kind.EQUALS, Kind.DASH, Kind.COLON)
    said = cursor.take_any(_BEFORE)
    cursor.take_kind(Kind.EQUALS, Kind.COLON)
    _pass_growth(cursor)
    _pass_chain_before(cursor)
    figures = _figures(cursor, start)
    _pass_chain_behind(cursor)
    if figures and cursor.token.kind is Kind.EQUALS:
        cursor.step()
        sum_of_all = read_figure(cursor)
        figures = [sum_of_all] if sum_of_all is not None else figures
    figures = _one_a_size(figures, cursor, start)
    if figures:
        figures = [*figures, *_make_up(cursor, start)]
    if figures and cursor.is_word("when", "once"):  # "5 blocks when Row 5 is done"
        while not cursor.is_kind(Kind.STOP, Kind.CLOSE, Kind.END, Kind.LINE):
            cursor.step()
    of_some = bool(figures) and _only_if(cursor)
    _pass_reason(cursor) if figures and said else None
    if not figures or not (count_ends(cursor) or (said and _breaks(cursor))):
        cursor.at = start
        return None
    rows = of_some or any(
        figure.unit in ROW_UNITS or figure.unit.endswith(MOTIF) for figure in figures
    )
    in_all = not rows and _is_of_all(figures, cursor, start)
    return Claim(tuple(figures), cursor.span_from(start), rows, in_all=in_all)


_REASONS = ("for", "as", "since", "because")


def _pass_reason(cursor: Cursor) -> None:
    """ "(Sts made: 14), for the three ch at the start are a dc": why there are so many."""
    at = cursor.at
    told = cursor.take_kind(Kind.COMMA) and cursor.take_word(*_REASONS)
    chained = False
    while told and not cursor.is_kind(
        Kind.STOP, Kind.CLOSE, Kind.END, Kind.LINE, Kind.COMMA
    ):
        chained = cursor.step().text in CHAIN_NOUNS or chained
    if not chained:
        cursor.at = at


_CHANGED = ("increases", "incs", "decreases", "decs", "increase", "decrease")


def _pass_change(cursor: Cursor) -> bool:
    """The ", +2" of "(12, +2)"."""
    at = cursor.at
    if cursor.take_kind(Kind.COMMA, Kind.SEMICOLON) and takes_change(cursor):
        return True
    cursor.at = at
    return False


def takes_change(cursor: Cursor) -> bool:
    """ "+2)", "-1 st)", "2 increases)": by how many there are more or fewer than before."""
    at = cursor.at
    less = cursor.is_kind(Kind.DASH) and cursor.peek().glued
    signed = cursor.take_kind(Kind.PLUS) or (less and cursor.take_kind(Kind.DASH))
    signed = cursor.take_word("plus", "minus") or signed
    number = cursor.is_kind(Kind.NUMBER) and cursor.step()
    cursor.take_word("more", "fewer")
    if number and signed:
        cursor.take_word("st", "sts", "stitch", "stitches")
    told = number and (signed or cursor.take_word(*_CHANGED))
    if told and cursor.is_kind(Kind.CLOSE):
        return True
    cursor.at = at
    return False


def _pass_growth(cursor: Cursor) -> None:
    """ "(+6 = 24)", "(-3 = 15)": by how many the row has grown, before how many it has."""
    at = cursor.at
    signed = cursor.take_kind(Kind.PLUS, Kind.DASH) or cursor.tokens[at - 1].text == "-"
    number = cursor.number() if signed else None
    cursor.take_word("st", "sts")
    if number is None or not cursor.take_kind(Kind.EQUALS, Kind.COMMA, Kind.COLON):
        cursor.at = at


def _pass_chain_before(cursor: Cursor) -> None:
    """ "(Ch 3 + 11 dc = 12 sts)": the chain that the sum behind it takes in."""
    at = cursor.at
    if not _chain_told(cursor) or not cursor.take_kind(Kind.PLUS):
        cursor.at = at
        return
    behind = cursor.at
    summed = bool(_figures(cursor, behind)) and cursor.is_kind(Kind.EQUALS)
    cursor.at = behind if summed else at


def _pass_chain_behind(cursor: Cursor) -> None:
    """ "(11 dc + ch 3 = 12 sts)": as before, where the chain stands behind."""
    at = cursor.at
    told = _joined(cursor) and _chain_told(cursor)
    if not told or not cursor.is_kind(Kind.EQUALS):
        cursor.at = at


def _chain_told(cursor: Cursor) -> bool:
    """ "Ch 3", "the ch-3", "1 beg ch": the chain a row begins with."""
    cursor.take_word("the", "a", "one", "beg", "beginning", "turning", "starting")
    if cursor.token.value == 1 and cursor.peek().text in ("ch", "chain", "turning", "beg"):
        cursor.step()
    cursor.take_word("turning", "beg", "beginning", "starting")
    if not cursor.take_word("ch", "chain", "tch"):
        return False
    take_chain_length(cursor)
    return True


_OF_ALL = frozenset("all total altogether far".split())


def _is_of_all(figures: list[Figure], cursor: Cursor, start: int) -> bool:
    """ "40 scallops in all" may be of all rows; stitches are counted row by row."""
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    if _OF_ALL.isdisjoint(words):
        return False
    units = {figure.unit for figure in figures}
    plain = any("plain" in families_of(unit, cursor.own_words) for unit in units)
    return not plain and units.isdisjoint(("st", "sp", "mesh", "ch"))


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


def _make_up(cursor: Cursor, start: int) -> list[Figure]:
    """Behind the sum, what it is made up of: "(41 sts: 21 sc + 20 ch-1 sps)".

    Only stitches and spaces are held to it; "(68 dc: 21 fans and 5 dc at each end)" is not.
    """
    at = cursor.at
    closing = _CLOSINGS.get(cursor.tokens[start - 1].kind) if start > 0 else None
    dashed = cursor.is_kind(Kind.DASH) and cursor.peek().kind is Kind.NUMBER
    if closing is None or not (dashed or cursor.is_kind(Kind.COLON)):
        return []
    cursor.step()
    figures = _figures(cursor, cursor.at)
    if cursor.is_kind(closing) and all(map(_is_plain, figures)):
        return figures
    while not cursor.is_kind(closing, Kind.END, Kind.OPEN):
        cursor.step()
    if not cursor.is_kind(closing):
        cursor.at = at
    return []


_CLOSINGS = {Kind.OPEN: Kind.CLOSE, Kind.STAR: Kind.STAR}
"""What closes a count that stands in brackets, or in italics: "*40 sts: 36 sc, 4 sps*"."""


def _is_plain(figure: Figure) -> bool:
    """Whether a figure tells of stitches of one kind or of spaces."""
    word = base_stitch(figure.unit)
    return figure.unit in ("sp", "mesh", "ch") or (
        word is not None and word.family == "plain"
    )


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
    starred = False  # "22 dc after Row 3 and *38 dc after Row 5*": the last is emphasised
    while True:
        figure = read_figure(cursor)
        if figure is None:
            return figures
        of_sides = _is_of_sides(cursor, figures, figure)
        if not figures and cursor.take_any(_ALONG_EACH_SIDE):
            figure = replace(figure, unit=figure.unit + MOTIF)
        elif cursor.take_any(_AT_BOTH_ENDS):
            figure = _doubled(figure)
        if not of_sides and not (figures and _between_markers(cursor)):
            figures.append(figure)
        _pass_purpose(cursor)
        _pass_each_side(cursor)
        cursor.take_any(_AFTER)
        _pass_chain_counted(cursor)
        _pass_chain_between(cursor)
        _pass_in_several(cursor)
        figures[-1] = replace(figures[-1], row=_after_row(cursor))
        starred = starred and not cursor.take_kind(Kind.STAR)
        if _in_each(cursor):  # "5 sc and 4 sps in each pineapple" is no count of the row
            of_motif = {dropped.unit for dropped in figures[since:]}
            kept = [figure for figure in figures[:since] if figure.unit not in of_motif]
            bracketed = start > 0 and cursor.tokens[start - 1].kind is Kind.OPEN
            figures = kept or (
                [replace(figure, unit=figure.unit + MOTIF)] if bracketed else []
            )
        if cursor.token.kind is Kind.COMMA:
            since = len(figures)
        changed = _pass_change(cursor)
        at = cursor.at
        joined = not changed and _joined(cursor)
        of_row = bool(figures) and figures[-1].row > 0
        starred = joined and of_row and cursor.take_kind(Kind.STAR)
        if not joined or not cursor.attempt(read_figure):
            cursor.at = at
            if not (_pass_named_chain(cursor) or _pass_chains_beside(cursor)):
                _pass_unknown_figure(cursor, start, alone=len(figures) == 1)
            _passing_remark(cursor)
            return figures


def _is_of_sides(cursor: Cursor, figures: list[Figure], figure: Figure) -> bool:
    """ "60 sc; 10 sc on each side": how many of those that were counted a side has.

    "20 dc and 2 dc on each side" are those and four more.
    """
    start = cursor.at
    counted = next((one for one in figures if one.unit == figure.unit), None)
    if counted is None or not cursor.take_any(_ALONG_EACH_SIDE):
        return False
    before = next(
        token.text for token in reversed(cursor.tokens[:start])
        if token.end <= figure.amount.span.start
    )  # fmt: skip
    both = zip(counted.amount.values, figure.amount.values, strict=False)
    parted = all(a and b and not a % b and a // b in _SIDES for a, b in both)
    if not parted or before in ("and", "plus", "+"):
        cursor.at = start
        return False
    return True


_SIDES = (2, 3, 4, 5, 6, 8)
"""How many sides a piece worked in rounds may have, or lies on both sides of a spine."""


def _between_markers(cursor: Cursor) -> bool:
    """ "32 sc; 6 between the markers": how many of those that were counted lie there."""
    return cursor.take_any(BY_MARKERS)


def _pass_each_side(cursor: Cursor) -> None:
    """ "60 sc (10 on each edge), 6 ch-1 sps": how many of them one stretch has."""
    at = cursor.at
    opened = cursor.take_kind(Kind.OPEN)
    begun = opened or cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.DASH)
    told = begun and cursor.number() is not None and (opened or cursor.is_word(*_ON))
    words: set[str] = set()
    while told and cursor.is_kind(Kind.WORD) and len(words) < _MOST_OF_SIDE:
        words.add(cursor.step().text)
    of_side = not words.isdisjoint(_EACH) and not words.isdisjoint(_STRETCHES)
    ended = cursor.take_kind(Kind.CLOSE) if opened else cursor.is_kind(*_ENDS_SIDE)
    if not (of_side and ended):
        cursor.at = at


_ON = ("on", "along", "per", "for", "to", "a")
_ENDS_SIDE = (Kind.COMMA, Kind.PLUS, Kind.CLOSE, Kind.STOP, Kind.END, Kind.LINE)
_EACH = ("each", "every", "per", "a", "either", "both")
_STRETCHES = frozenset(
    "side sides edge edges corner corners section sections wedge".split()
)
_MOST_OF_SIDE = 8


def _pass_purpose(cursor: Cursor) -> None:
    """ "2 arches for the hands": what they are for."""
    at = cursor.at
    if cursor.take_word("for") and cursor.take_word("the", "your"):
        cursor.take_word("two", "second", "first", "other")
        if cursor.take_kind(Kind.WORD) and count_ends(cursor):
            return
    cursor.at = at


_THAT_TURNED = Sayings(
    f"{that} {turned}"
    for that in ("that", "which", "you", "that you")
    for turned in ("turned", "turns", "turned with", "turn with", "skipped", "missed",
                   "began with", "were skipped", "were missed")
)  # fmt: skip


def _pass_chain_counted(cursor: Cursor) -> None:
    """ "36 dc with the ch 3", "36 dc, the 3 ch counting as one": what is one of them."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    counted = cursor.take_word("with", "counting", "including", "incl")
    cursor.take_word("the", "your")
    cursor.take_word("first", "turning", "beginning", "beg", "starting", "skipped")
    cursor.number()
    if cursor.take_word("ch", "chain", "tch", "chs", "chains"):
        take_chain_length(cursor)
        counted = cursor.take_word("as", "counted", "counting", "being") or counted
        cursor.take_word("as")
        cursor.take_word("a", "an", "the", "first") or cursor.number()
        cursor.take_word("dc", "tr", "hdc", "htr", "st", "stitch")
        cursor.take_any(_THAT_TURNED)
        if counted and count_ends(cursor):
            return
    cursor.at = at


def _pass_chain_between(cursor: Cursor) -> None:
    """ "24 dc with ch 1 between", "18 tr, a ch 2 between each two": how they stand."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    led = cursor.take_word("with", "and")
    led = cursor.take_word("a", "an", "1", "one") or led
    chained = led and cursor.take_word("ch", "chain", "chs", "chains")
    if chained and take_chain_length(cursor) is not None:
        cursor.take_word(*SPACE_NOUNS)
        if cursor.take_word("between"):
            while cursor.is_kind(Kind.WORD, Kind.NUMBER) and not count_ends(cursor):
                cursor.step()
            if count_ends(cursor):
                return
    cursor.at = at


def _pass_in_several(cursor: Cursor) -> None:
    """ "36 sts in 6 points": how many of them lie together is no further number."""
    at = cursor.at
    several = cursor.take_word("in") and cursor.number()
    if several and cursor.is_kind(Kind.WORD):
        cursor.step()
        if count_ends(cursor):
            return
    cursor.at = at


def _after_row(cursor: Cursor) -> int:
    """The row of "42 dc after Row 7", "6 tiles at the end of Row 6"; 0 where none is told.

    "52 sts after the last row" says it in words that are passed.
    """
    at = cursor.at
    then = cursor.take_phrase("after", "at the end of", "at end of", "by the end of")
    last = then and cursor.take_phrase("the last", "last", "the final", "final")
    row = cursor.number() if then and cursor.take_word(*ROW_UNITS) and not last else None
    if row is not None:
        return row.at(0) or 0
    if not last or cursor.tokens[cursor.at - 1].text not in ROW_UNITS:
        cursor.at = at
    return 0


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
        if cursor.at > words and count_ends(cursor):
            return
    cursor.at = at


def _pass_chains_beside(cursor: Cursor) -> bool:
    """ "and 2 underarms of 2 ch", behind the stitches."""
    at = cursor.at
    several = _joined(cursor) and cursor.number() is not None
    if several and cursor.take_kind(Kind.WORD) and cursor.take_word("of"):
        chains = cursor.number() is not None and cursor.take_word("ch", "chain", "chains")
        if chains and count_ends(cursor):
            return True
    cursor.at = at
    return False


def _pass_named_chain(cursor: Cursor) -> bool:
    """ "and a thumb ch of 6 (7, 8)", behind the stitches: it is beside their number."""
    at = cursor.at
    if _joined(cursor):
        the = cursor.take_word("the")
        cursor.take_word("a", "an", "one")
        if cursor.token.value == 1:
            cursor.step()
        named = cursor.at - the
        while cursor.is_kind(Kind.WORD) and cursor.at - named < _MOST_WORDS:
            if cursor.at > named and cursor.take_word("ch", "chain", "chains"):
                if the or cursor.take_word("of") or cursor.take_kind(Kind.DASH):
                    cursor.number()
                cursor.take_word(*SPACE_NOUNS)
                if count_ends(cursor):
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
