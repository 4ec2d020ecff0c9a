"""Stitches that are not named, only told by their places: "work the next 2 together".

What they are is the row's own stitch, or the one named before them: "2 in the last one",
"work twice into next st". A stitch that is named may be told so as well: "sc the first 2
sts together".
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings, together
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    STITCH_NOUNS,
    across,
    everything,
)
from hookwright.notation.targets import read_target
from hookwright.notation.tree import Amount, Make, Target, Which
from hookwright.notation.vocabulary import StitchWord, base_stitch, compound

UNNAMED = "st"
"""What a stitch is called in the tree that is the row's own and not named."""
_WORK = (
    "work",
    "working",
    "make",
    "making",
    "draw",
    "drawing",
    "crochet",
    "take",
    "taking",
)
_TOGETHER = ("together", "tog")
_ENDS = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.STAR, Kind.END, Kind.LINE,
    Kind.OPEN,
)  # fmt: skip
_GOES_ON = ("and", "then", "across", "around", "turn", "twice", "to", "for", "as")
_MOST_IN_ONE = 20


def read_unnamed(cursor: Cursor) -> list[Make] | None:
    """ "Work twice into next st", "2 in last st", "work these 2 together"."""
    start = cursor.at
    cursor.take_word("then", "and")
    one = _make_one(cursor, start)
    if one is not None:
        return [one]
    worked = cursor.take_word(*_WORK)
    make = _together(cursor, start) if worked else _bare_together(cursor, start)
    make = make or _so_many_together(cursor, start)
    make = make or _one_more(cursor, start) or _number_by_shaping(cursor, start)
    make = make or _several_in_one(cursor, start, worked=worked)
    if not make:
        cursor.at = start
        return None
    return [make]


def _together(cursor: Cursor, start: int) -> Make | None:
    """ "(work) the next 2 sts together", "(work) 2 together"."""
    at = cursor.at
    pairs = _in_pairs(cursor, start)
    if pairs is not None:
        return pairs
    target = read_target(cursor)
    further = (
        read_target(cursor) if target is not None and cursor.take_word("and") else None
    )
    if target is not None and further is not None:
        target = all_places([target, further])
    if target is None or target.amount is None or not cursor.take_word(*_TOGETHER):
        cursor.at = at
        return None
    stitch = _in_stitch(cursor)
    span = cursor.span_from(start)
    if stitch is None:
        return _over(Make(UNNAMED, span), target)
    made = Make(stitch.id, span, None, None, stitch.loop, stitch.legs, stitch.post)
    return _over(made, target)


def _in_stitch(cursor: Cursor) -> StitchWord | None:
    """ "(Draw 2 ch together) in dc": the stitch they are worked as, and no place."""
    at = cursor.at
    stitch = cursor.stitch() if cursor.take_word("in", "as", "with") else None
    if stitch is None or stitch.family != "plain" or cursor.token.kind not in _ENDS:
        cursor.at = at
        return None
    return stitch


def _bare_together(cursor: Cursor, start: int) -> Make | None:
    """ "Sc in next 5, last two together": with no word of working."""
    at = cursor.at
    ahead = cursor.is_word("the") + at
    told = cursor.tokens[ahead].text in _WHERE
    make = _together(cursor, start) if told else None
    if make is None or cursor.token.kind not in _ENDS:
        cursor.at = at
        return None
    return make


_WHERE = ("first", "next", "last", "final")


def _so_many_together(cursor: Cursor, start: int) -> Make | None:
    """ "2 sts together", and of a writer who calls sc "firm loop" "2 sts firm together"."""
    at = cursor.at
    amount = cursor.number()
    counted = amount is not None and cursor.take_word(*STITCH_NOUNS)
    if counted and cursor.token.text in cursor.own_words:
        cursor.step()
    if not counted or not cursor.take_any(_MADE_ONE) or cursor.token.kind not in _ENDS:
        cursor.at = at
        return None
    assert amount is not None
    return drawn_together(Make(UNNAMED, cursor.span_from(start)), amount)


_MADE_ONE = Sayings(
    f"{how}{one}"
    for how in (
        "",
        "worked ",
        "crocheted ",
        "taken ",
        "drawn ",
        "closed ",
        "joined ",
        "made ",
    )
    for one in ("together", "tog", "as one", "into one")
    if how or one not in ("as one", "into one")
)


def _in_pairs(cursor: Cursor, start: int) -> Make | None:
    """ "(crochet) two and two together", "(take) the sc together in pairs": all the way."""
    at = cursor.at
    cursor.take_word("always", "the", "all")
    several = cursor.take_word(*STITCH_NOUNS) or cursor.stitch()
    first = several and cursor.take_word(*_TOGETHER)
    paired = cursor.take_any(_BY_TWO if first else _PAIRS) or _every_two(cursor)
    if not paired or not (first or cursor.take_word(*_TOGETHER)):
        cursor.at = at
        return None
    comma = cursor.at
    cursor.take_kind(Kind.COMMA)
    if not across(cursor):
        cursor.at = comma
    span = cursor.span_from(start)
    return Make("dec", span, None, everything(span), legs=2)


def _every_two(cursor: Cursor) -> bool:
    """ "(Work) every two stitches (together)"."""
    at = cursor.at
    two = cursor.take_word("every", "each") and cursor.token.value == 2
    if two and cursor.take_kind(Kind.NUMBER):
        cursor.take_word(*STITCH_NOUNS)
        return True
    cursor.at = at
    return False


_TWO_BY_TWO = tuple(
    f"{two} {joined} {two}" for two in ("two", "2") for joined in ("and", "by", "x")
)
_IN_PAIRS = ("in pairs", "in twos", "by twos", "by pairs", "pair by pair")
_BY_TWO = Sayings((*_IN_PAIRS, "two at a time", "2 at a time", *_TWO_BY_TWO))
_PAIRS = Sayings((*_TWO_BY_TWO, *_IN_PAIRS))


def _several_in_one(cursor: Cursor, start: int, *, worked: bool) -> Make | None:
    """ "(work) twice into next st", "2 in the corner", "2 sts in last st"."""
    at = cursor.at
    often = _SO_OFTEN.get(cursor.token.text, 0)
    twice = often and (worked or cursor.peek().text in ("in", "into")) and cursor.step()
    amount = Amount((often,), cursor.tokens[at].span) if twice else cursor.number()
    if amount is None or cursor.tokens[at].kind is Kind.OPEN or _too_many(amount):
        return None
    if worked:
        cursor.take_word("times")
    cursor.take_word(*STITCH_NOUNS)
    cursor.take_word("made", "worked")
    if not cursor.take_word("in", "into"):
        return None
    target = read_target(cursor)
    ends = cursor.token.kind in _ENDS or cursor.is_word(*_GOES_ON)
    if target is None or target.which is Which.ANY or not ends:
        return None
    return Make(UNNAMED, cursor.span_from(start), amount, target)


_SO_OFTEN = {"once": 1, "twice": 2, "thrice": 3}


def _number_by_shaping(cursor: Cursor, start: int) -> Make | None:
    """ "(4, dec)", "(inc, 5)", "3, inc": so many plain ones beside a shaping."""
    if cursor.at != start or cursor.token.spelled:
        return None
    before = cursor.at > 1 and cursor.tokens[start - 1].kind is Kind.COMMA
    shaping = _SHAPING.union(cursor.own_words)  # "(3, V)" with a V of one's own
    behind = bool(before) and cursor.tokens[start - 2].text in shaping
    amount = cursor.number()
    cursor.take_word(*STITCH_NOUNS)  # "(2 sts, dec)"
    ends = cursor.is_kind(Kind.CLOSE, Kind.COMMA, Kind.OPEN)
    follows = cursor.is_kind(Kind.COMMA) and cursor.peek().text in shaping
    if amount is None or not (follows or (behind and ends)):
        cursor.at = start
        return None
    return Make(UNNAMED, cursor.span_from(start), amount)


def _make_one(cursor: Cursor, start: int) -> Make | None:
    """ "15 sc, make one (= 2 sc in one st), make one": an increase, as knitters say."""
    at = cursor.at
    told = cursor.take_word("make", "making") and cursor.take_word("one")
    if not told or not cursor.is_kind(Kind.COMMA, Kind.OPEN):
        cursor.at = at
        return None
    span = cursor.span_from(start)
    if cursor.is_kind(Kind.OPEN) and cursor.peek().kind is Kind.EQUALS:
        while not cursor.done() and not cursor.take_kind(Kind.CLOSE):
            cursor.step()
    return Make("inc", span)


_SHAPING = frozenset("inc dec incs decs increase decrease".split())


_ONE_MORE = Sayings((
    "a second one", "a second", "another one", "an extra one", "one extra", "one more",
    "an additional one", "an extra st", "a second st", "another st",
))  # fmt: skip


def _one_more(cursor: Cursor, start: int) -> Make | None:
    """ "(Dc in each dc,) a second one in every 8th": two in such a place."""
    at = cursor.at
    told = cursor.take_any(_ONE_MORE) and cursor.take_word("in", "into")
    target = read_target(cursor) if told else None
    every = target is not None and target.which is Which.EACH and target.ordinal
    if not every or cursor.token.kind not in _ENDS:
        cursor.at = at
        return None
    span = cursor.span_from(start)
    return Make(UNNAMED, span, Amount((2,), span), target)


def _too_many(amount: Amount) -> bool:
    return any((value or 0) > _MOST_IN_ONE for value in amount.values)


def is_drawn_together(cursor: Cursor) -> bool:
    """Takes the "sts together" of "sc 2 sts together" and "sc 2 ch tog", if it is here."""
    at = cursor.at
    cursor.take_word("more", "further", "other")
    stitch = None if cursor.take_word(*STITCH_NOUNS, *CHAIN_NOUNS) else cursor.stitch()
    if _tog_told(cursor, stitch) if stitch else cursor.take_word(*_TOGETHER):
        return True
    cursor.at = at
    return False


def drawn_together(make: Make, amount: Amount) -> Make:
    """A stitch over so many of the next places."""
    return _over(make, Target("st", Which.NEXT, amount.span, amount))


def several_as_one(
    cursor: Cursor, amount: Amount | None, stitch: StitchWord
) -> StitchWord | None:
    """ "2 dc together", "three sc tog": one stitch of so many; None of any others."""
    legs = amount.values[0] if amount is not None and len(amount.values) == 1 else None
    plain = legs and 1 < legs <= _MOST_IN_ONE and _tog_told(cursor, stitch)
    return together(plain, legs) if plain and legs else None


def _tog_told(cursor: Cursor, stitch: StitchWord) -> StitchWord | None:
    """The plain stitch of "dc together", or of a "dc tog" that has been taken already."""
    if stitch.family == "plain":
        return stitch if cursor.take_word(*_TOGETHER) else None
    name, _, rest = stitch.id.partition(str(_PAIR))
    told = [token.text for token in cursor.tokens[max(0, cursor.at - 2) : cursor.at]]
    apart = rest == "tog" and told[1:] == ["tog"] and not told[0].isdecimal()
    return base_stitch(name) if apart else None


_PAIR = 2


def together_behind(cursor: Cursor, make: Make) -> Make:
    """ "sc next 2 sts together", "dc in first 3 sts tog": one stitch over all of them."""
    at = cursor.at
    target = make.target
    if target is None and make.amount is None and cursor.is_word("the", "these", "those"):
        target = read_target(cursor)
    of_stitches = None if target is None else _of_stitches(cursor, target)
    if of_stitches is not None:
        return _over(make, of_stitches)
    if target is None or target.amount is None or not cursor.take_word(*_TOGETHER):
        cursor.at = at
        return make
    return _over(make, target)


def _of_stitches(cursor: Cursor, target: Target) -> Target | None:
    """ "(Dc) next 2 dc tog": the "tog" was taken for the stitch that is worked into."""
    stitch = compound(target.noun) if target.amount is not None else None
    plain = _tog_told(cursor, stitch) if stitch is not None and stitch.legs > 1 else None
    return replace(target, noun=plain.id) if plain is not None else None


def all_places(targets: Sequence[Target]) -> Target:
    """ "next 2 tr and top of turning ch": places side by side, as one target."""
    numbers = [target.amount.values[0] if target.amount else 1 for target in targets]
    span = targets[0].span.to(targets[-1].span)
    amount = Amount((sum(number or 0 for number in numbers),), span)
    return replace(targets[0], noun="st", amount=amount, span=span)


def _over(make: Make, target: Target) -> Make:
    """One stitch over the places of a target; as many as the words name draw together."""
    assert target.amount is not None
    legs = target.amount.values[0] or 0
    if make.legs > 1 or not 1 < legs <= _MOST_IN_ONE or len(target.amount.values) > 1:
        return replace(make, target=target)
    if make.stitch == UNNAMED and legs == 2:
        return replace(make, stitch="dec", legs=legs, amount=None, target=target)
    return replace(
        make, stitch=f"{make.stitch}{legs}tog", legs=legs, amount=None, target=target
    )
