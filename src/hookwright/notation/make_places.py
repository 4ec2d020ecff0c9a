"""The place behind a stitch: "in next st", "BLO across", "around the post of next dc"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.markers import read_up_to_marker
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    EACH_WORDS,
    LAST_WORDS,
    NEXT_WORDS,
    PREPOSITIONS,
    REST_WORDS,
    SAME_WORDS,
    STITCH_NOUNS,
    across,
    everything,
)
from hookwright.notation.targets import (
    read_between,
    read_ordinal_from_hook,
    read_rows_below,
    read_target,
    read_what_follows,
)
from hookwright.notation.times import read_times
from hookwright.notation.tree import Make, Often, Target, Which
from hookwright.notation.vocabulary import StitchWord

_LOOPS = {
    "blo": "back", "bl": "back", "flo": "front", "fl": "front", "blonly": "back",
    "tbl": "back", "blp": "back", "flp": "front",
}  # fmt: skip


LAYERS = Sayings((
    "both layers", "both thicknesses", "both sides", "both edges", "both halves",
    "the two layers", "two layers", "both pieces",
))  # fmt: skip


_LOOP_WORDS = {
    "back": "back",
    "front": "front",
    "third": "third",
    "bk": "back",
    "frt": "front",
    "3rd": "third",
    "both": "both",
    "under": "both",
    "bottom": "both",
    "unused": "both",
    "free": "both",
    "other": "both",
}


def loop_behind(cursor: Cursor, make: Make) -> Make:
    """ "hdc BLO in 8 sts", "sc in back loop of next st", "dc through back loops only"."""
    at = cursor.at
    cursor.take_word("in", "into", "through", "thru", "under")
    if _take_layers(cursor):
        cursor.take_word("at", "of", "in", "into")
        return replace(make, loop="layers", target=read_target(cursor))
    cursor.take_word("the", "each")
    token = cursor.token
    loop = _LOOPS.get(token.text, "")
    if loop:
        cursor.step()
    elif is_third_loop(cursor):
        loop = "third"
        cursor.step()
        cursor.step()
    elif token.text in _LOOP_WORDS and cursor.peek().text in (
        "loop",
        "loops",
        "lp",
        "lps",
        "ridge",
        "bump",
        "bar",
    ):
        loop = _LOOP_WORDS[token.text]
        cursor.step()
        cursor.step()
        cursor.take_word("only", "alone")
    if not loop:
        cursor.at = at
        return make
    cursor.take_word("only")
    cursor.take_word("of", "in", "on")
    loop = loop.replace("both", "")
    below = read_rows_below(cursor)
    if below is not None:
        return replace(make, loop=loop, target=below)
    if cursor.attempt(read_target):
        return replace(make, loop=loop, target=read_target(cursor))
    return replace(make, loop=loop)


def layers_behind(cursor: Cursor, make: Make) -> Make:
    """ "sc in next 6 sts through both layers": told behind the place."""
    at = cursor.at
    if cursor.take_word("through", "thru") and _take_layers(cursor):
        return replace(make, loop="layers")
    cursor.at = at
    return make


def _take_layers(cursor: Cursor) -> bool:
    """ "Through both layers", "through both discs", "through both in every dc"."""
    if cursor.take_any(LAYERS):
        return True
    through = cursor.at and cursor.tokens[cursor.at - 1].text in ("through", "thru")
    after = cursor.peek()
    if not through or not cursor.is_word("both") or after.text in _OF_A_STITCH:
        return False
    cursor.step()
    if after.kind is Kind.WORD and after.text not in PREPOSITIONS:
        cursor.step()
    return True


_OF_A_STITCH = frozenset("loop loops lp lps st sts stitch stitches".split())


def is_third_loop(cursor: Cursor) -> bool:
    """Whether "3LO" stands here: the bar behind the stitch, not three of them."""
    return cursor.token.text == "3" and cursor.peek().text in ("lo", "loop", "lp")


BARE_PLACE = (
    NEXT_WORDS | EACH_WORDS | LAST_WORDS | REST_WORDS | SAME_WORDS | {"first", "1st"}
)


_MANNER = (
    "together", "tog", "evenly", "only", "each", "all", "both", "worked", "made", "st",
    "sts", "once",
)  # fmt: skip


def placed(cursor: Cursor, make: Make, stitch: StitchWord) -> Make:
    """The place after a stitch: with a preposition, or bare ("dc next 4")."""
    at = cursor.at
    cursor.skip_lines()
    posted = _round_a_side(cursor, make)
    if posted is not None or make.target is not None:
        across(cursor)
        return posted or make
    evenly = cursor.is_word("evenly")
    along = _said_how(cursor)
    if along is not None:
        return replace(make, target=along)
    if stitch.family == "slip" and _colour_between(cursor):
        cursor.step()
    passes = stitch.family == "slip" and _travel(cursor)
    target = _up_to(cursor, make, stitch) or _place(cursor, make) or read_rows_below(cursor)
    target = target or _bare_place(cursor, passes=passes)
    if target is not None:
        pass_across(cursor, target)
        return _so_many_along(cursor, replace(make, target=target), at)
    start = cursor.at
    if across(cursor) and not (stitch.post and _names_post(cursor)):
        if make.amount is not None and _along_place(cursor):
            return make
        if _are_all(make):
            return make
        target = _all_or_until(cursor, make, stitch, start)
        return replace(make, target=target and replace(target, evenly=evenly))
    cursor.at = at
    return make


def _is_there(cursor: Cursor) -> bool:
    """Whether "there", or the "all" of "all there", names the place just used."""
    if cursor.is_word("all") and cursor.peek().text == "there":
        cursor.step()
    return cursor.is_word("there") and cursor.peek().text != "are"


def _bare_place(cursor: Cursor, *, passes: bool) -> Target | None:
    """ "(dc) next 4", "(sc) the two after that", "(2 sc) there"."""
    bare = cursor.token.text in BARE_PLACE and cursor.peek().text != "there"
    target = read_target(cursor) if passes or bare else None
    if target is None and cursor.token.text == "the":
        target = read_what_follows(cursor)
    if target is None and _is_there(cursor):
        target = read_target(cursor)
    return target


_SIDES_OF_POST = {
    side: Sayings(
        f"{the}{side}{post} of" for the in ("the ", "") for post in ("", " post", " side")
    )
    for side in ("front", "back")
}


def _round_a_side(cursor: Cursor, make: Make) -> Make | None:
    """ "1 tr round the front of next st": a post stitch, told by where it goes."""
    at = cursor.at
    if make.post or make.legs > 1 or make.target is not None:
        return None
    if not cursor.take_word("around", "round"):
        return None
    for side, sayings in _SIDES_OF_POST.items():
        target = read_target(cursor) if cursor.take_any(sayings) else None
        if target is not None:
            stitch = f"{'fp' if side == 'front' else 'bp'}{make.stitch}"
            return replace(make, stitch=stitch, post=side, target=target)
    cursor.at = at
    return None


def _said_how(cursor: Cursor) -> Target | None:
    """Passes "evenly", "once" before a place; "evenly along 20 row ends" is one."""
    along = _row_ends(cursor) if cursor.is_word("evenly") else None
    ahead = _preposition(cursor, 1) or cursor.peek().text in ("across", "along")
    if along is None and ahead:
        cursor.take_word(*_MANNER)
    return along


def _row_ends(cursor: Cursor) -> Target | None:
    """ "evenly along 20 row ends": one in each of them."""
    at = cursor.at
    cursor.step()
    if cursor.take_word("along", "across", "down", "up", "over"):
        target = read_target(cursor)
        if target is not None and target.noun == "row end" and target.amount is not None:
            return replace(target, which=Which.EACH)
    cursor.at = at
    return None


_MOST_IN_ONE = 4


def _are_all(make: Make) -> bool:
    """ "24 sc around" are 24 in all; "2 sc around" are two in each stitch."""
    values = make.amount.values if make.amount is not None else ()
    return any((value or 0) > _MOST_IN_ONE for value in values)


_LONG_PLACES = frozenset(
    "underarm armhole opening skipped unworked gap thumb chain ch chs chains".split()
)


def _so_many_along(cursor: Cursor, make: Make, at: int) -> Make:
    """ "12 sc along the foundation ch" are 12, one in each; "3 sc in each ch" are not."""
    target = make.target
    if _goes_along_stitches(cursor, make, at):
        return replace(make, target=None)
    if target is not None and _goes_along_chain(cursor, target, at):
        along = replace(target, which=Which.EACH)
        return replace(make, target=None if make.amount else along)
    beneath = target is not None and target.noun == "underside"
    if target is None or not beneath or target.which is not Which.EACH or target.amount:
        return make
    each = any(token.text in EACH_WORDS for token in cursor.tokens[at : cursor.at])
    if make.amount is None or make.amount.values == (1,) or each:
        return make
    return replace(make, amount=None, target=replace(target, amount=make.amount))


_MOST_IN_PLURAL = 3
"""So few "in the sts" may be meant in each of them."""


def _goes_along_stitches(cursor: Cursor, make: Make, at: int) -> bool:
    """ "9 sc on the stitches", "on the chain": one in each, and not all in the next."""
    words = [token.text for token in cursor.tokens[at : cursor.at]]
    many = make.amount is not None and (make.amount.values[0] or 0) > _MOST_IN_PLURAL
    on_chain = words[:1] == ["on"] and words[1:] in (["the", "chain"], ["the", "chains"])
    return many and (on_chain or words[1:] in (["the", "sts"], ["the", "stitches"]))


def _goes_along_chain(cursor: Cursor, target: Target, at: int) -> bool:
    """ "3 sc along the chain": one after the other, and not all of them in one."""
    if target.noun != "ch" or target.which is not Which.NEXT or target.amount:
        return False
    first = at + (cursor.tokens[at].text == "all")  # "sc all along the chain"
    named = cursor.tokens[first].text == "along" and target.ordinal is None
    return named and not any(t.text in NEXT_WORDS for t in cursor.tokens[at : cursor.at])


_LAST_ROW = Sayings(
    f"{edge}{of}"
    for edge in ("last row", "final row", "top edge", "top")
    for of in (*(f" of the {piece}" for piece in ("base", "panel", "piece", "square")), "")
)
"""Where a border goes along stitches that are there in any case."""


_OTHER_SIDE = Sayings(
    f"{other} side{of}" for other in ("other", "opposite", "second")
    for of in (" of the", " of", "")
)  # fmt: skip


def _along_place(cursor: Cursor) -> bool:
    """ "5 sc across underarm ch", "10 sc along the skipped sts": so many over the place."""
    at = cursor.at
    cursor.take_word("the", "these")
    if cursor.take_any(_OTHER_SIDE):
        cursor.take_word("chain", "ch", "chains")
        return True
    if cursor.take_any(_LAST_ROW):
        return True
    if cursor.token.kind is Kind.WORD and cursor.peek().text in ("sts", "stitches"):
        cursor.step()  # "6 sc over the toe sts"
    elif not cursor.is_word(*_LONG_PLACES):
        cursor.at = at
        return False
    while cursor.is_word(*_LONG_PLACES, *STITCH_NOUNS):
        cursor.step()
    return True


def _colour_between(cursor: Cursor) -> bool:
    """ "sl st rose into the st after it": the yarn is named in passing."""
    word = cursor.token
    plain = word.kind is Kind.WORD and word.text not in PREPOSITIONS
    return plain and cursor.peek().text in ("in", "into") and cursor.stitch_at() is None


def _travel(cursor: Cursor) -> bool:
    """ "sl st over to the corner sp", "ss across 2 sts": whether places are passed so."""
    at = cursor.at
    if not cursor.take_word(*_WAYS):
        return False
    if cursor.is_kind(Kind.NUMBER) or cursor.is_word("the", *NEXT_WORDS):
        return True
    if not cursor.is_word("to", "into"):
        cursor.at = at
    return False


_WAYS = ("over", "across", "along", "up", "forward", "forwards", "on", "back")


_TO = ("to", "until", "till", "til", "up", "as")


def _up_to(cursor: Cursor, make: Make, stitch: StitchWord) -> Target | None:
    """ "sc to last 2 sts", "dc until 3 sts remain", "sc to next corner": one in each."""
    if make.amount is not None or stitch.family == "slip" or not cursor.is_word(*_TO):
        return None
    start = cursor.at
    marker = read_up_to_marker(cursor)
    if marker is not None:
        return replace(everything(marker.span), until=marker)
    times = read_times(cursor)
    if times is None or times.often not in (Often.TO_LAST, Often.ACROSS):
        cursor.at = start
        return _up_to_nth(cursor)
    span = cursor.span_from(start)
    if times.until is not None:
        until = times.until
    elif times.noun in ("tch", "corner"):
        until = Target(times.noun, Which.NEXT, span)
    elif times.often is Often.TO_LAST:
        until = Target(times.noun, Which.LAST, span, times.amount)
    else:
        return everything(span)
    return replace(everything(span), until=until)


_UP_TO = Sayings(("to", "up to", "until", "till", "til", "as far as", "up until"))
_COMES_TO = Sayings(("you reach", "you get to", "you come to", "reaching", "before"))


def _up_to_nth(cursor: Cursor) -> Target | None:
    """ "Sc up to the 13th st", "until you come to stitch 8": counted along the edge."""
    start = cursor.at
    cursor.take_any(_UP_TO)
    cursor.take_any(_COMES_TO)
    until = read_target(cursor)
    nth = until is not None and until.which is Which.NTH and until.of is None
    if until is None or not nth or until.from_hook or until.noun in ("tch", "ch", "sp"):
        cursor.at = start
        return None
    return replace(everything(cursor.span_from(start)), until=until)


def _all_or_until(cursor: Cursor, make: Make, stitch: StitchWord, start: int) -> Target:
    """ "sc across", "sc across to last 2 sts"."""
    whole = _up_to(cursor, make, stitch) or everything(cursor.span_from(start))
    return replace(whole, span=cursor.span_from(start))


def pass_across(cursor: Cursor, target: Target) -> None:
    """ "in each st across": the words add nothing after "each"."""
    if target.which is Which.EACH and target.amount is None:
        across(cursor)


def _preposition(cursor: Cursor, ahead: int) -> bool:
    return cursor.peek(ahead).text in (
        "in",
        "into",
        "over",
        "around",
        "round",
        "on",
        "between",
    )


def _names_post(cursor: Cursor) -> bool:
    return cursor.attempt(read_target)


_BEFORE_IT = Sayings(("in front of", "over the front of", "behind"))


def _pass_way_down(cursor: Cursor) -> None:
    """ "dc down into", "dc in front of the ch-1 into": how the hook gets to its place."""
    start = cursor.at
    cursor.take_word("straight")
    if cursor.take_word("down") and cursor.is_word("in", "into", "to"):
        return
    cursor.at = start
    if not cursor.take_any(_BEFORE_IT):
        return
    while cursor.token.kind in (Kind.WORD, Kind.NUMBER, Kind.DASH) and not cursor.done():
        if cursor.is_word("in", "into"):
            return
        cursor.step()
    cursor.at = start


def _pass_way_back(cursor: Cursor) -> None:
    """ "Dc back in the skipped st": the place tells already that the hook goes back."""
    start = cursor.at
    if cursor.take_word("back") and cursor.take_word("in", "into"):
        behind = read_target(cursor)
        if behind is not None and behind.which is Which.SKIPPED:
            cursor.at = start + 1
            return
    cursor.at = start


_AS_BEFORE = Sayings(
    ("as before", "as above", "the same way", "in the same way", "just the same")
)


def _pass_manner(cursor: Cursor) -> None:
    """ "long sc as before over last ch-1": in a way told already."""
    at = cursor.at
    if cursor.take_any(_AS_BEFORE) and not cursor.is_word(*PREPOSITIONS):
        cursor.at = at


def _place(cursor: Cursor, make: Make) -> Target | None:
    _pass_manner(cursor)
    _pass_way_down(cursor)
    _pass_way_back(cursor)
    start = cursor.at
    word = cursor.token.text
    if cursor.take_word("between"):
        return read_between(cursor) or Target("gap", Which.SAME, cursor.span_from(start))
    if cursor.take_word(
        "in",
        "into",
        "on",
        "onto",
        "over",
        "at",
        "under",
        "to",
        "inside",
        "through",
        "along",
    ):
        cursor.take_word("to") if word == "in" else None
        if word == "through" and _names_two_pieces(cursor):
            cursor.at = start
            return None
        if cursor.take_word("between"):
            return read_between(cursor)
        found = read_ordinal_from_hook(cursor) or read_target(cursor)
        if found is None and cursor.take_phrase("the post of", "post of"):
            found = read_target(cursor)
        if found is not None:
            return under_chains(found) if word == "under" else found
        cursor.at = start
        return None
    if cursor.take_word("around", "round", "from", "across"):
        cursor.take_phrase(
            "the post of", "post of", "the posts of", "posts of", "the post", "post"
        )
        target = read_target(cursor)
        if target is not None and target.noun == "leg":
            return replace(target, which=Which.SAME if make.amount else Which.EACH)
        specific = target is not None and (target.noun != "here")
        if (
            specific
            and (make.post or word in ("around", "round"))
            and _is_post_place(target, make)
        ):
            return target
    cursor.at = start
    return None


_MOST_OF_PIECES = 8
_PLACES = STITCH_NOUNS | CHAIN_NOUNS | frozenset("loop loops lp lps sp sps post".split())


def _names_two_pieces(cursor: Cursor) -> bool:
    """ "(Through) the first arm and the body": two pieces laid together, and no place."""
    at = cursor.at
    words: list[str] = []
    while cursor.is_kind(Kind.WORD, Kind.ORDINAL) and len(words) < _MOST_OF_PIECES:
        if cursor.stitch_at() is not None:
            break
        words.append(cursor.step().text)
    joined = words[:1] == ["the"] and "and" in words[1:-1] and _PLACES.isdisjoint(words)
    ended = not cursor.is_kind(Kind.WORD, Kind.NUMBER)
    cursor.at = at
    return joined and ended


def under_chains(target: Target) -> Target:
    """ "2 dc under the 2 chain": under all of them at once is into their space."""
    if target.noun == "ch" and target.amount is None and _is_the_chain(target):
        return replace(target, noun="sp")  # "2 sc under the chain"
    if target.noun != "ch" or target.amount is None:
        return target
    return replace(target, noun="sp", chains=target.amount.at(0), amount=None)


def _is_the_chain(target: Target) -> bool:
    """Whether "the chain" is told, and no one of its chains."""
    return target.which is Which.NEXT and not target.ordinal and target.chains is None


def _is_post_place(target: Target | None, make: Make) -> bool:
    """ "FPdc around the turning ch" is around it; "sc around, ..." is along the round."""
    if target is not None and target.noun == "tch":
        return bool(make.post)
    return target is not None and target.noun not in ("ring", "gap")
