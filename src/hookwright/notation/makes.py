"""Stitches, how many of them, and where: "2 dc in each of next 3 sts"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.make_places import (
    BARE_PLACE,
    is_third_loop,
    layers_behind,
    loop_behind,
    pass_across,
    placed,
    under_chains,
)
from hookwright.notation.place_words import (
    EACH_WORDS,
    STITCH_NOUNS,
    across_rest,
    everything,
)
from hookwright.notation.targets import (
    has_own_stitches,
    is_list_told,
    names_loop_of,
    pass_loop_of,
    read_target,
    space_ahead,
)
from hookwright.notation.tree import Amount, Make, Target, Which
from hookwright.notation.unnamed import (
    drawn_together,
    is_drawn_together,
    read_unnamed,
    several_as_one,
    together_behind,
)
from hookwright.notation.vocabulary import StitchWord

LEAD_WORDS = (
    "work",
    "make",
    "then",
    "and",
    "now",
    "do",
    "place",
    "put",
    "just",
    "also",
    "followed",
    "by",
    "putting",
)


_KIND_WORDS = (
    "standing",
    "beg",
    "beginning",
    "starting",
    "first",
    "half",
    "start",
    "ending",
    "small",
    "full",
    "plain",
    "end",
)


_HOW_WORKED = ("loosely", "tightly", "neatly", "firmly", "gently", "carefully", "snugly")
_MORE_WORDS = ("more", "other", "further")


def read_make(cursor: Cursor, likely: str = "") -> list[Make] | None:
    """Stitches with their places. `likely` reads the next unknown word as that stitch."""
    start = cursor.at
    cursor.take_word(*LEAD_WORDS)
    _pass_verb(cursor)
    amount = _pair_of(cursor) or cursor.number()
    if amount is not None:
        cursor.take_word(*_MORE_WORDS)
    elif cursor.is_word("a", "an", "another") and not _named_a(cursor):
        amount = _article(cursor)
    _pass_what_it_makes(cursor)
    stitch = _stitch(cursor, likely)
    if stitch is None:
        cursor.at = start
        return _square(cursor, likely) or read_unnamed(cursor)
    as_one = several_as_one(cursor, amount, stitch)
    if as_one is not None:
        amount, stitch = None, as_one
    cursor.take_word(*_HOW_WORKED)
    _pass_at_the_end(cursor)
    make = Make(
        stitch.id,
        cursor.span_from(start),
        amount,
        None,
        stitch.loop,
        stitch.legs,
        stitch.post,
    )
    make = _number_behind(cursor, make)
    make = loop_behind(cursor, make)
    make = layers_behind(cursor, placed(cursor, make, stitch))
    make = together_behind(cursor, make)
    make = _in_one_place(cursor, _times_behind(cursor, make), stitch)
    make = replace(make, span=cursor.span_from(start))
    return [make, *_more_places(cursor, make)]


_PAIR_OF = Sayings(("a pair of", "one pair of", "two of", "2 of", "a couple of"))


def _pair_of(cursor: Cursor) -> Amount | None:
    """ "(Put) a pair of sc into each st": two of them."""
    at = cursor.at
    if cursor.take_any(_PAIR_OF):
        span = cursor.span_from(at)
        if cursor.stitch_at() is not None:
            return Amount((2,), span)
    cursor.at = at
    return None


def _pass_verb(cursor: Cursor) -> None:
    """ "Pop 2 dc in each treble", "pop a dc in next": what is done, and no popcorn."""
    at = cursor.at
    told = cursor.take_word("pop") and cursor.is_kind(Kind.NUMBER, Kind.WORD)
    counted = told and (cursor.take_kind(Kind.NUMBER) or cursor.take_word("a", "an"))
    stitch = cursor.stitch_at() if counted else None
    cursor.at = at + 1 if stitch is not None and stitch.family == "plain" else at


_GROUPS = ("shell", "fan", "group", "cluster", "scallop", "set")


def _pass_what_it_makes(cursor: Cursor) -> None:
    """ "Shell of 5 dc in next st": the 5 dc that it is made of are what is worked."""
    at = cursor.at
    told = cursor.take_word(*_GROUPS) and cursor.take_word("of")
    if not told or not cursor.is_kind(Kind.NUMBER):
        cursor.at = at
        return
    number = cursor.at
    cursor.step()
    cursor.at, stitch = number, cursor.stitch()
    if stitch is None:
        cursor.at = at


_AT_THE_END = Sayings((
    "at the end", "at the very end", "to finish", "last of all", "to end", "at the last",
))  # fmt: skip


def _pass_at_the_end(cursor: Cursor) -> None:
    """ "A dc at the end in the top of the chain": the words tell no other place."""
    at = cursor.at
    if cursor.take_any(_AT_THE_END) and cursor.is_word("in", "into", "on"):
        return
    cursor.at = at


_NEUTRAL_SQUARES = frozenset("square squares sq sqs".split())


OPEN_SQUARES = frozenset("sp sps space spaces mesh meshes hole holes".split())


SOLID_SQUARES = frozenset("block blocks bl bls blk blks".split())


def _square(cursor: Cursor, likely: str) -> list[Make] | None:
    """ "7 blocks", "4 open meshes", "9 sps": squares of filet, worked and not named."""
    start = cursor.at
    before = cursor.tokens[start - 1] if start else cursor.token
    amount = None if before.kind is Kind.DASH or before.text == "ch" else cursor.number()
    behind = cursor.token.text in SOLID_SQUARES and cursor.peek().kind is Kind.NUMBER
    if (amount is None and not behind) or likely:
        cursor.at = start
        return None
    cursor.take_word("more", "further")
    solid = cursor.take_word("solid", "filled", "closed")
    opened = cursor.take_word("open")
    word = cursor.token.text
    known = word in SOLID_SQUARES or word in OPEN_SQUARES
    named = known or word in _NEUTRAL_SQUARES
    known = known or solid or opened
    if named:
        cursor.step()
    if amount is None:
        amount = cursor.number()
    ends = cursor.token.kind in (
        Kind.COMMA,
        Kind.STOP,
        Kind.SEMICOLON,
        Kind.END,
        Kind.LINE,
        Kind.OPEN,  # "1 sp (the eye), 4 blks"
        Kind.CLOSE,
        Kind.STAR,
    ) or cursor.is_word("and", "turn")
    if not known or not ends or amount is None:
        cursor.at = start
        return None
    solid = solid or (word in SOLID_SQUARES and not opened)
    name = "solid mesh" if solid else "open mesh"
    return [Make(name, cursor.span_from(start), amount)]


def _named_a(cursor: Cursor) -> bool:
    """Whether the pattern calls a stitch "A", and no stitch follows as "a dc" would."""
    if cursor.token.text not in cursor.own_words:
        return False
    at = cursor.at
    cursor.step()
    follows = cursor.stitch_at() is not None
    cursor.at = at
    return not follows


def read_square_name(cursor: Cursor) -> str | None:
    """ "OM = open mesh: ch 2, skip 2, dc in next dc": a square by its usual name."""
    cursor.take_word("a", "an", "one")
    solid = cursor.take_word("solid", "filled", "closed")
    opened = not solid and cursor.take_word("open", "empty")
    word = cursor.token.text
    named = word in OPEN_SQUARES or word in ("square", "squares", "sq")
    known = word in SOLID_SQUARES or (named and (solid or opened))
    cursor.step()
    if not known or not cursor.is_kind(*_BEHIND_NAME):
        return None
    return "solid mesh" if solid or (word in SOLID_SQUARES and not opened) else "open mesh"


OPEN_KINDS, SOLID_KINDS = (
    frozenset({"open", "empty"}),
    frozenset("solid filled closed".split()),
)


def is_square_of_net(words: list[str]) -> bool:
    """Whether some words name a square of filet as everybody does: "open mesh"."""
    noun = words[-1] if len(words) > 1 else ""
    squares = OPEN_SQUARES | SOLID_SQUARES | _NEUTRAL_SQUARES
    return noun in squares and words[-2] in OPEN_KINDS | SOLID_KINDS


_BEHIND_NAME = (
    Kind.COLON, Kind.COMMA, Kind.DASH, Kind.OPEN, Kind.STOP, Kind.LINE, Kind.END,
    Kind.SEMICOLON, Kind.EQUALS,
)  # fmt: skip


def _article(cursor: Cursor) -> Amount:
    token = cursor.step()
    return Amount((1,), token.span)


def _stitch(cursor: Cursor, likely: str) -> StitchWord | None:
    at = cursor.at
    stitch = cursor.stitch()
    if stitch is None and cursor.take_word(*_KIND_WORDS):
        cursor.take_kind(Kind.DASH)  # "beg-pc"
        stitch = cursor.stitch()
    if stitch is None and likely:
        cursor.at = at
        cursor.step()
        return _likely_stitch(cursor, likely)
    if stitch is None:
        cursor.at = at
        return None
    if cursor.token.kind is Kind.DASH and cursor.peek().text in STITCH_NOUNS:
        cursor.step()
        cursor.step()
    return stitch


def _likely_stitch(cursor: Cursor, likely: str) -> StitchWord | None:
    word = Token(Kind.WORD, likely, 0, 0, 0)
    return Cursor([word, Token(Kind.END, "", 0, 0, 0)], own_words=cursor.own_words).stitch()


def _number_behind(cursor: Cursor, make: Make) -> Make:
    """ "sc 5", "dc 2x", "inc x 6", "dec 7 times"."""
    if make.amount is not None:
        return make
    at = cursor.at
    if cursor.take_kind(Kind.DASH) and not cursor.tokens[at].glued:
        cursor.at = at
        return make
    if cursor.take_word("x"):
        amount = cursor.number()
        if amount is not None:
            cursor.take_word("times", "time")
            return replace(make, amount=amount)
        cursor.at = at
        return make
    dashed = cursor.at > at
    another = cursor.take_word("another")  # "sc another 2 together"
    amount = None if is_third_loop(cursor) else cursor.number()
    if dashed and (cursor.is_word(*STITCH_NOUNS) or cursor.stitch_at() is not None):
        cursor.at = at  # "hdc2tog-24 hdc": how many the row has
        return make
    if amount is not None and is_drawn_together(cursor):
        return drawn_together(make, amount)  # "sc 2 sts together"
    if (
        amount is None
        or another
        or cursor.is_word("row", "rows", "rnd", "rnds", "round", "rounds")
    ):
        cursor.at = at
        return make
    if _so_often(cursor):
        return replace(make, amount=amount)
    if cursor.token.text in ("more", "st", "sts") and cursor.peek().text in (
        "times",
        "time",
    ):
        cursor.at = at
        return make
    return replace(make, amount=amount)


def _so_often(cursor: Cursor) -> bool:
    """ "dc 2x", "dec 7 times"; behind "sc 4, dec 1 x 6" the list is told so often."""
    listed = cursor.is_word("x") and cursor.peek().kind is Kind.NUMBER
    return listed or cursor.take_word("x", "times", "time")


def _times_behind(cursor: Cursor, make: Make) -> Make:
    """ "dec (3 times)", "inc x 6", "dec 7 times" after a bare stitch."""
    if make.target is not None:
        return make
    at = cursor.at
    bracket = cursor.take_kind(Kind.OPEN)
    crossed = cursor.take_word("x")
    amount = cursor.number()
    told = amount is not None and (cursor.take_word("times", "time", "x") or crossed)
    if amount is not None and told and (not bracket or cursor.take_kind(Kind.CLOSE)):
        one = make.amount is not None and (bracket or make.amount.values == (1,))
        if one and cursor.is_kind(*_LIST_ENDS):
            cursor.at = at  # "sc 4, dec 1 (6x)": the whole list so often
            return make
        return replace(make, amount=_product(make.amount, amount))
    cursor.at = at
    bracket = cursor.take_kind(Kind.OPEN)
    token = cursor.token
    spelled = cursor.take_word("twice", "thrice")
    if spelled and (not bracket or cursor.take_kind(Kind.CLOSE)):
        twice = Amount((2 if token.text == "twice" else 3,), token.span)
        return replace(make, amount=_product(make.amount, twice))
    cursor.at = at
    return make


def _in_one_place(cursor: Cursor, make: Make, stitch: StitchWord) -> Make:
    """ "Sc twice in next st": so often in one place."""
    at = cursor.at
    often = cursor.tokens[at - 1].text in ("twice", "thrice", "times")
    if not often or make.target is not None or not cursor.is_word("in", "into", "there"):
        return make
    found = placed(cursor, make, stitch)
    target = found.target
    if target is None or target.amount is not None or target.noun == "ring":
        cursor.at = at
        return make
    return found


_LIST_ENDS = (Kind.STOP, Kind.OPEN, Kind.END, Kind.LINE, Kind.EQUALS, Kind.DASH)


def _product(first: Amount | None, second: Amount) -> Amount:
    if first is None:
        return second
    values = tuple(
        None if value is None or first.at(i) is None else value * (first.at(i) or 0)
        for i, value in enumerate(second.values)
    )
    return Amount(values, first.span.to(second.span))


def _more_places(cursor: Cursor, make: Make) -> list[Make]:
    """ "sc in 2nd ch from hook and in next 3 chs": the same stitch in further places.

    A slip stitch goes on without "and": "sl st over the 3 dc into the ch-3 sp". The loop
    told once is of all of them: "in the back loop of same st and of every st after it".
    """
    result: list[Make] = []
    if make.target is None:
        return result
    while True:
        at = cursor.at
        cursor.skip_lines()
        further = _another_number(cursor, result[-1] if result else make)
        if further is not None:
            result.append(further)
            continue
        listed = cursor.take_kind(Kind.COMMA) and _listed_place(cursor)
        slips_on = _slips_on(cursor, make)
        if not (cursor.take_word("and", "then") or listed or slips_on):
            cursor.at = at
            return result
        cursor.take_word("then", "also")
        if not cursor.is_word("so") and across_rest(cursor):
            # "sc in 2nd ch from hook and across"; "and so across" tells of a list
            span = cursor.span_from(at)
            rest = replace(make, target=everything(span), amount=None, span=span)
            return [*result, rest]
        again = _number_then_place(cursor)
        under = cursor.is_word("under")
        prepared = cursor.take_word("in", "into", "on", "over", "around", "under")
        prepared = (bool(make.loop) and cursor.take_word("of")) or prepared
        bare = cursor.token.text in BARE_PLACE or cursor.token.text in ("the", "all")
        bare = bare or (make.stitch == "sl st" and space_ahead(cursor))
        bare = bare or (_is_of_several(make) and cursor.is_kind(Kind.NUMBER))
        loop = _other_loop(cursor)
        bare = bare or loop is not None
        target = read_target(cursor) if prepared or bare or make.legs > 1 else None
        if target is not None and not (prepared or bare or target.noun == "tch"):
            target = None
        if target is not None and under:
            target = under_chains(target)
        own = target is None or _has_work_of_its_own(cursor) or _is_likened(cursor, target)
        if target is not None and not own:
            pass_across(cursor, target)
        if target is None or own or is_list_told(cursor):
            cursor.at = at
            return result
        result.append(
            replace(
                make,
                target=target,
                loop=make.loop if loop is None else loop,
                span=cursor.span_from(at),
                amount=again or _carried(make, target),
            )
        )


def _another_number(cursor: Cursor, before: Make) -> Make | None:
    """The "12" and "20" of "2 sc in sts 4, 12 and 20": each a place of its own."""
    at = cursor.at
    place = before.target
    number = cursor.tokens[at - 1].kind is Kind.NUMBER
    if place is None or place.which is not Which.NTH or place.noun != "st" or not number:
        return None
    cursor.take_kind(Kind.COMMA)
    cursor.take_word("and")
    told = cursor.token
    ends = cursor.peek().kind in _ENDS_NUMBERS or cursor.peek().text == "and"
    further = cursor.at > at and told.kind is Kind.NUMBER and ends
    if not further or told.spelled or told.value <= (place.ordinal or 0):
        cursor.at = at
        return None
    cursor.step()
    span = cursor.span_from(at)
    return replace(before, target=replace(place, ordinal=told.value, span=span), span=span)


_ENDS_NUMBERS = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.END, Kind.LINE)


def _slips_on(cursor: Cursor, make: Make) -> bool:
    """Whether slip stitches go on into a space, behind stitches they went over."""
    on = make.stitch == "sl st" and make.target and make.target.which is Which.NEXT
    at = cursor.at
    target = read_target(cursor) if on and cursor.take_word("into") else None
    cursor.at = at
    return target is not None and target.noun == "sp"


def _has_work_of_its_own(cursor: Cursor) -> bool:
    """ "and in next sp work 5 dc", "and in each arch 10 sc": work of its own."""
    named = cursor.is_word("work", "make", "sc", "dc", "hdc", "tr")
    return named or has_own_stitches(cursor)


def _is_likened(cursor: Cursor, target: Target) -> bool:
    """ "(2 sc in first st,) then the same as row 4": no place, but other work again."""
    return target.which is Which.SAME and cursor.is_word("as")


def _is_of_several(make: Make) -> bool:
    """Whether a stitch goes "in each of 4 ch": so "and 20 sts" are more such places."""
    target = make.target
    return target is not None and target.which is Which.EACH and target.amount is not None


def _other_loop(cursor: Cursor) -> str | None:
    """The loop of a further place, "" for one that is not told apart; None where none is.

    "Sc in blo of next 6 sts and flo of next 6", "and in the under loop of each of 4 ch".
    """
    if names_loop_of(cursor):
        side = cursor.peek(int(cursor.is_word("the", "that"))).text
        pass_loop_of(cursor)
        return side if side in ("back", "front") else ""
    loop = {"blo": "back", "bl": "back", "flo": "front", "fl": "front"}
    found = loop.get(cursor.token.text)
    if found is None or cursor.peek().text != "of":
        return None
    cursor.step()
    cursor.step()
    return found


def _listed_place(cursor: Cursor) -> bool:
    """ "sc in same st, in every st and in every sp": a place in a list of them."""
    return cursor.is_word("in", "into") and cursor.peek().text in EACH_WORDS


def _number_then_place(cursor: Cursor) -> Amount | None:
    """ "and one in the top of the chain": the stitch is not named again."""
    at = cursor.at
    amount = cursor.number()
    if amount is not None and cursor.is_word("in", "into", "on"):
        return amount
    cursor.at = at
    return None


def _carried(make: Make, further: Target) -> Amount | None:
    """The amount for a further place: of "2 dc in first and in each st" none is carried.

    "3 sc in same sp and in each sp around" fills all of them alike, and so does
    "2 dc in same st as join and in each st around".
    """
    one = make.amount is not None and make.amount.values == (1,)
    spaces = make.target is not None and make.target.noun == further.noun == "sp"
    same = make.target is not None and make.target.which is Which.SAME
    alike = same and further.which is Which.EACH
    ends = make.target is not None and make.target.which is Which.FIRST
    ends = ends and further.which is Which.LAST  # "2 dc in first and last st"
    alike = alike or (make.target is not None and _are_numbered(make.target, further))
    return make.amount if one or spaces or alike or ends else None


def _are_numbered(target: Target, further: Target) -> bool:
    """ "2 sc in st 1 and in st 26", "in the 9th and in the 18th": each gets as many."""
    return all(
        one.which is Which.NTH and one.noun == "st" and not one.of and not one.from_hook
        for one in (target, further)
    )
