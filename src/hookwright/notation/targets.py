"""Where a stitch is worked: "next 4 sts", "each ch-1 sp across", "3rd dc of next shell"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.gaps import read_gap, take_gap
from hookwright.notation.how_far import take_how_far
from hookwright.notation.just_made import BEGUN_IN, take_just_closed, take_just_made
from hookwright.notation.lexer import Kind
from hookwright.notation.named_places import read_everything, read_named_place
from hookwright.notation.other_edges import along_foundation, read_other_edge
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    NEXT_WORDS,
    SPACE_NOUNS,
    STITCH_NOUNS,
    across,
    across_rest,
    take_chain_length,
)
from hookwright.notation.rows_below import LEFT_FREE, read_depth, take_rows_below
from hookwright.notation.target_nouns import (
    TargetWords,
    is_unknown_noun,
    modifiers_ahead,
    take_noun,
)
from hookwright.notation.tree import Amount, Target, Which
from hookwright.notation.whose_place import take_whose
from hookwright.source import Span

_BACK_OF = Sayings((
    "the back of", "back of", "the backs of", "the back side of",
    *(
        f"{the}{part} of"
        for the in ("the ", "")
        for part in ("eye", "eyelet", "head", "tip", "top loop", "closing loop",
                     "closing ch", "closing chain")
    ),
))  # fmt: skip
"""Which part of a stitch is meant: "2 sc in the eye of next star" goes into the star."""


def read_target(cursor: Cursor) -> Target | None:
    """The target that begins here; None, with the position kept, where there is none."""
    start = cursor.at
    cursor.skip_lines()
    cursor.take_any(_BACK_OF)
    target = _left_of_edge_chain(cursor, start)
    if target is None:
        words = modifiers_ahead(cursor)
        target = (
            read_other_edge(cursor, start, words)
            or read_named_place(cursor, start)
            or read_everything(cursor, start)
            or _ordinary(cursor, start, words)
        )
    if target is None:
        cursor.at = start
        return None
    return _after(cursor, target, start)


_LEFT_OF = Sayings((
    "what is left of", "what's left of", "what remains of", "whatever is left of",
    "the part left of", "the remainder of", "the rest of", "rest of",
))  # fmt: skip


def _left_of_edge_chain(cursor: Cursor, start: int) -> Target | None:
    """ "What is left of the 6 ch": the space of the chain that a row began with."""
    if not cursor.take_any(_LEFT_OF):
        return None
    whole = read_target(cursor)
    length = whole.amount.at(0) if whole is not None and whole.amount else None
    if whole is not None and whole.noun == "ch" and length and whole.which is Which.NEXT:
        whole = replace(whole, noun="tch", chains=length, amount=None)
    if whole is None or whole.noun != "tch" or whole.ordinal:
        cursor.at = start
        return None
    return Target("sp", Which.NEXT, cursor.span_from(start), of=whole)


def read_between(cursor: Cursor) -> Target | None:
    """After "between": "next 2 groups", "the first two groups and in each gap after"."""
    return read_gap(cursor, read_target)


def read_rows_below(cursor: Cursor) -> Target | None:
    """ "spike sc 1 row below next st": a place told only by how far down it lies."""
    return read_depth(cursor, read_target)


_FOLLOWS = Sayings((
    "that follows", "that follow", "which follows", "which follow", "following",
    "behind it",
    *(
        f"{lead}after {it}"
        for lead in ("", "that comes ", "that come ")
        for it in ("it", "that", "this", "them", "those", "these")
    ),
    "that comes next", "that come next", "that comes after", "that come after",
))  # fmt: skip


def read_what_follows(cursor: Cursor) -> Target | None:
    """ "The one that follows", "the two after that": counted on from where the hook is."""
    start = cursor.at
    the = cursor.take_word("the")
    amount = cursor.number() if the or cursor.is_word("one") else None
    cursor.take_word("ones") or cursor.take_word(*STITCH_NOUNS)
    if amount is None or not cursor.take_any(_FOLLOWS):
        cursor.at = start
        return None
    several = None if amount.values == (1,) else amount
    return Target("st", Which.NEXT, cursor.span_from(start), several)


def _ordinary(cursor: Cursor, start: int, draft: TargetWords) -> Target | None:
    counted = read_what_follows(cursor) or _from_number_to(cursor, start)
    counted = counted or _numbered_stitch(cursor)
    if counted is not None:
        return counted
    cursor.at = draft.end
    noun = _middle_one(cursor, draft) or take_noun(cursor, draft)
    if noun is None:
        return _elliptic(cursor, draft, start)
    name, chain_count = noun
    if name == "ch" and draft.ordinal is not None:
        return _ordinal_chain(cursor, draft, start)
    every = draft.which is Which.EACH and name not in ("ch", "tch", "gap", "group")
    if draft.corner and chain_count is None and (name == "sp" or every):
        name = "corner"
    which = draft.which or (Which.NTH if draft.ordinal else Which.NEXT)
    if draft.beginning and draft.which is None and name not in ("tch", "sp", "ch"):
        which = Which.FIRST
    if draft.centre:
        which = Which.CENTRE
    if name == "tch" and draft.amount is not None and chain_count is None:
        chain_count, draft.amount = draft.amount.at(0), None
    span = cursor.span_from(start)
    if name not in _NO_GROUPS and cursor.take_word(*SPACE_NOUNS):  # "each V-st sp"
        group = Target(name, which, span)
        return Target("sp", which, cursor.span_from(start), draft.amount, of=group)
    return Target(
        name, which, span, draft.amount, chain_count, draft.ordinal,
        of=_edge_chain(cursor, name, draft, start),
        alone=draft.alone,
        last=draft.last and which is Which.EACH and draft.amount is not None,
        ordinals=draft.ordinals,
    )  # fmt: skip


def _from_number_to(cursor: Cursor, start: int) -> Target | None:
    """ "(Hdc in) st 13 to 24", "sts 1-12": all from one number to another."""
    at = cursor.at
    cursor.take_word("the")
    named = cursor.take_word(*STITCH_NOUNS) and cursor.is_kind(Kind.NUMBER)
    first = cursor.step().value if named else 0
    through = first and (
        cursor.take_word("to", "through", "thru") or cursor.take_kind(Kind.DASH)
    )
    last = cursor.step().value if through and cursor.is_kind(Kind.NUMBER) else 0
    if last <= first:
        cursor.at = at
        return None
    span = cursor.span_from(start)
    return Target("st", Which.EACH, span, Amount((last - first + 1,), span))


def _middle_one(cursor: Cursor, draft: TargetWords) -> tuple[str, None] | None:
    """ "The middle one of each corner": a stitch, and no number of them."""
    one = draft.amount is not None and draft.amount.values == (1,)
    if not (draft.centre and one and cursor.is_word("of")):
        return None
    draft.amount = None
    return "st", None


_NUMBER_SIGNS = ("no", "number", "nr", "#")
_BEHIND_NUMBER = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.END, Kind.LINE, Kind.STAR, Kind.OPEN,
    Kind.CLOSE,
)  # fmt: skip


def _numbered_stitch(cursor: Cursor) -> Target | None:
    """ "(In) st 26", "stitch no. 26"; None where none is numbered."""
    at = cursor.at
    named = cursor.take_word("st", "stitch", "sts", "stitches")
    if named and cursor.take_word(*_NUMBER_SIGNS):
        cursor.take_kind(Kind.STOP)
    number = cursor.token
    if named and number.kind is Kind.NUMBER and not number.spelled:
        cursor.step()
        ends = cursor.is_kind(*_BEHIND_NUMBER) or cursor.is_word("and", "then")
        if ends and number.value > 0:
            span = cursor.span_from(at)
            return Target("st", Which.NTH, span, ordinal=number.value)
    cursor.at = at
    return None


_NO_GROUPS = frozenset("st sp ch tch gap corner ring base here underside".split())
_BEHIND_IT = Sayings(("after that", "after it", "after this", "that follows", "thereafter"))


def _edge_chain(cursor: Cursor, noun: str, draft: TargetWords, start: int) -> Target | None:
    """ "The turning chain space": the one that the chain at the edge leaves."""
    if noun != "sp" or draft.which is not None or draft.amount or draft.ordinal:
        return None
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    if not words & {"turning", "turn", "edge", "end"}:
        return None
    return Target("tch", Which.NEXT, cursor.span_from(start))


def _elliptic(cursor: Cursor, draft: TargetWords, start: int) -> Target | None:
    """ "in next", "in each of next 5", "in same": the noun is left out."""
    if not cursor.take_word("ones") and draft.which is Which.SAME:
        cursor.take_word("place", "spot", "point")
    if cursor.take_any(_BEHIND_IT) or cursor.take_word("after"):
        draft.which = draft.which or Which.NEXT
    counted = _ordinal_of(cursor, draft.ordinal, start) if draft.ordinal else None
    if counted is not None:
        return counted
    alone = draft.amount is not None and cursor.tokens[cursor.at - 1].text == "one"
    if draft.which is None and (draft.amount is None or (alone and draft.ordinal)):
        if draft.ordinal:
            return _ordinal_alone(cursor, draft.ordinal, start)
        return _bare_end(cursor, start)
    first = _first_of_several(cursor, draft, start)
    if first is not None:
        return first
    if draft.which is not None and is_unknown_noun(cursor):
        cursor.step()
        return Target("group", draft.which, cursor.span_from(start), draft.amount)
    which = draft.which or Which.NEXT
    nth = draft.ordinal if which is Which.EACH and draft.amount is None else None
    return Target("st", which, cursor.span_from(start), draft.amount, ordinal=nth)


def _ordinal_of(cursor: Cursor, ordinal: int, start: int) -> Target | None:
    """ "The 3rd of the 4 ch you turned with", "the fifth of the nine dc"."""
    at = cursor.at
    inner = read_target(cursor) if cursor.take_word("of") else None
    span = cursor.span_from(start)
    if inner is not None and inner.noun in ("tch", "ch"):
        if _take_from_hook(cursor):  # "the 2nd of these ch from hook"
            return Target("ch", Which.NTH, span, ordinal=ordinal, from_hook=True)
        if _is_of_opening(cursor, at):
            return Target("ch", Which.NTH, span, ordinal=ordinal)
        return Target("tch", Which.NTH, span, chains=inner.chains, ordinal=ordinal)
    if inner is not None and inner.amount is not None and inner.of is None:
        return _of_several(inner, ordinal, span)
    cursor.at = at
    return None


_OF_OPENINGS = frozenset("underarm underarms armhole armholes thumb handle".split())


def _is_of_opening(cursor: Cursor, at: int) -> bool:
    """ "The 3rd of the 4 underarm ch": chains over an opening, not those of a turn."""
    return any(token.text in _OF_OPENINGS for token in cursor.tokens[at : cursor.at])


def _first_of_several(cursor: Cursor, draft: TargetWords, start: int) -> Target | None:
    """ "The first of any 7 dc": where a round is joined, at the first of a group."""
    at = cursor.at
    if draft.which is not Which.FIRST or draft.amount or not cursor.take_word("of"):
        return None
    several = read_target(cursor) if cursor.is_word("any", "the", "each") else None
    if several is not None and several.amount is not None and several.of is None:
        return Target(several.noun, Which.FIRST, cursor.span_from(start))
    cursor.at = at
    return None


def _of_several(several: Target, ordinal: int, span: Span) -> Target:
    """ "the fifth of the nine dc": a stitch of a group told by what it is made of."""
    group = Target("group", several.which, several.span)
    return Target(several.noun, Which.NTH, span, ordinal=ordinal, of=group)


def _ordinal_alone(cursor: Cursor, ordinal: int, start: int) -> Target | None:
    """ "miss the first 3, 1 treble in the 4th": the noun was named before."""
    ends = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.END, Kind.STAR, Kind.CLOSE)
    listed = cursor.is_word("and") and cursor.peek().text in ("in", "into", "the")
    if cursor.token.kind not in ends and not (cursor.is_word("for", "as") or listed):
        return None
    return Target("st", Which.NTH, cursor.span_from(start), ordinal=ordinal)


def _bare_end(cursor: Cursor, start: int) -> Target | None:
    """ "3 sc in the end": the last chain, or stitch."""
    cursor.take_word("very")
    into = start > 0 and cursor.tokens[start - 1].text in ("in", "into")
    if into and cursor.take_word("end") and cursor.token.kind in _MARKS_BEHIND:
        return Target("st", Which.LAST, cursor.span_from(start))
    return None


_MARKS_BEHIND = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.END, Kind.LINE)


def _ordinal_chain(cursor: Cursor, draft: TargetWords, start: int) -> Target:
    """ "4th ch from hook", "3rd ch of beg ch-5"."""
    ordinal = draft.ordinal or 1
    if _take_from_hook(cursor):
        return Target(
            "ch", Which.NTH, cursor.span_from(start), ordinal=ordinal, from_hook=True
        )
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    told = draft.which is Which.SKIPPED and "of" in words
    noun = "tch" if cursor.take_any(_UP) or told else "ch"  # "3rd of the 7 skipped ch"
    span = cursor.span_from(start)
    return Target(noun, Which.NTH, span, ordinal=ordinal, ordinals=draft.ordinals)


_UP = Sayings((
    "up from the bottom", "up from the base", "up from below", "counted up", "up",
    "from the bottom", "from the base", "from below", "counted from the bottom",
))  # fmt: skip
"""Chains are counted upwards where a row began with them: "in the 3rd ch up"."""


def _take_from_hook(cursor: Cursor) -> bool:
    return cursor.take_phrase(
        "from the hook", "from hook", "from your hook", "away from hook",
        "away from the hook", "fr hook", "on hook",
    )  # fmt: skip


def read_ordinal_from_hook(cursor: Cursor) -> Target | None:
    """ "in ch 5 from hook", where the ordinal is written as a number."""
    start = cursor.at
    cursor.take_word("the")
    if cursor.take_word("ch", "chain") and cursor.token.kind in (Kind.NUMBER, Kind.ORDINAL):
        ordinal = cursor.step().value
        if _take_from_hook(cursor):
            span = cursor.span_from(start)
            return Target("ch", Which.NTH, span, ordinal=ordinal, from_hook=True)
    cursor.at = start
    return None


_AT_EDGE = Sayings(
    (
        "of the edge",
        "at the edge",
        "at edge",
        "at the very edge",
        "at the side",
        "at the end",
    )
)


_EDGE_CHAINS = tuple(
    f"{the} {which}"
    for the in ("the", "your")
    for ch in ("ch", "chs", "chain", "chains")
    for which in (f"edge {ch}", f"{ch} at the edge", f"turning {ch}")
)
_BY_EDGE_CHAIN = Sayings(
    (
        *(
            f"{made} {chains}"
            for made in ("made by", "formed by")
            for chains in _EDGE_CHAINS
        ),
        *(
            f"that {chains} {make}"
            for chains in _EDGE_CHAINS
            for make in ("make", "makes", "made", "form", "forms", "leave", "leaves")
        ),
    )
)


_ENDS_PLACE = frozenset({Kind.STOP, Kind.SEMICOLON, Kind.CLOSE, Kind.STAR, Kind.END})
_BEHIND_COMMA = frozenset("of from in on the".split())


def _is_all(cursor: Cursor, target: Target) -> bool:
    """Whether a mark ends the place here: behind a comma it may go on, "2 rows below"."""
    kind = cursor.token.kind
    if kind is Kind.COMMA and target.which is not Which.EACH:
        after = cursor.peek()
        return after.kind is Kind.WORD and after.text not in _BEHIND_COMMA
    return kind in _ENDS_PLACE


def _loops_left(cursor: Cursor, target: Target, start: int) -> Target:
    """ "The loops of Rnd 2 left free": those that another row went by, all of them."""
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    named = target.row and target.noun == "sp" and target.which is Which.NEXT
    if not named or target.amount or words.isdisjoint(("loops", "lps")):
        return target
    if not cursor.take_any(LEFT_FREE):
        return target
    return replace(target, noun="st", which=Which.EACH, loop="front")


def _pass_what_it_stands_for(cursor: Cursor) -> None:
    """ "(The top of the chain) htr at the end": the stitch that the chain stands for."""
    at = cursor.at
    stitch = cursor.stitch()
    if stitch is None or stitch.family != "plain":
        cursor.at = at
        return
    named = cursor.at
    if not cursor.take_any(_AT_EDGE):
        cursor.at = named if cursor.is_kind(*_KIND_ENDS, Kind.LINE) else at


def _after(cursor: Cursor, target: Target, start: int) -> Target:
    """What may follow the noun: "of next shell", "2 rows below", "and each sp"."""
    if _is_all(cursor, target):
        return replace(target, span=cursor.span_from(start))
    if target.noun == "st" and target.ordinal and _take_from_hook(cursor):
        target = replace(target, noun="ch", which=Which.NTH, from_hook=True)
    _same_as(cursor, target)
    if target.noun in ("ch", "corner") and along_foundation(cursor, target.ordinal):
        target = replace(target, noun="underside")
    if target.noun in ("ch", "sp") and cursor.take_any(_AT_EDGE):
        target = replace(target, noun="tch")
    target = _one_at_edge(cursor, target)
    if target.noun == "sp" and target.of is None and cursor.take_any(_BY_EDGE_CHAIN):
        target = replace(target, of=Target("tch", Which.NEXT, target.span))
    if target.noun == "tch" and target.chains is None:
        _pass_what_it_stands_for(cursor)
    target = take_just_made(cursor, take_just_closed(cursor, target))
    if target.noun in ("sp", "corner", "ch") and cursor.take_any(BEGUN_IN):
        back = Which.LAST if target.noun == "ch" else Which.FIRST  # from the other side
        target = replace(target, which=back)
    if target.noun == "st" and target.amount is None and cursor.take_any(BEGUN_IN):
        target = replace(target, which=Which.SAME)
    target = take_whose(cursor, target, read_target)
    target = _loops_left(cursor, take_rows_below(cursor, target, read_target), start)
    target = take_gap(cursor, target, read_target)
    if target.amount is not None or target.which is Which.EACH:
        cursor.take_any(_ARE_LEFT)
    target = _and_also(cursor, target)
    target = _or_chain(cursor, target)
    target = take_how_far(cursor, target, read_target)
    return replace(target, span=cursor.span_from(start))


_ARE_LEFT = Sayings((
    "that are left", "that remain", "which are left", "which remain", "still left",
    "left over", "that are left over", "remaining",
))  # fmt: skip


def _one_at_edge(cursor: Cursor, target: Target) -> Target:
    """ "(In every loop and in) the one at the edge": what the turning chain leaves."""
    one = target.noun == "st" and cursor.tokens[cursor.at - 1].text == "one"
    if not one or not cursor.take_any(_AT_EDGE):
        return target
    return Target("tch", Which.NEXT, target.span)


def _or_chain(cursor: Cursor, target: Target) -> Target:
    """ "Next dc or ch-1", "in next dc or in the ch-1": whichever is there, in a net.

    "Each st or ch-1 sp" are the ones and the others.
    """
    at = cursor.at
    if cursor.take_word("or"):
        cursor.take_word("in", "into")
        other = read_target(cursor)
        if other is not None and other.noun in ("ch", "sp", "tch"):
            every = target.which is Which.EACH and target.noun == "st"
            if not every or other.noun != "sp" or other.amount is not None:
                return target
            also = (*target.also, replace(other, which=Which.EACH, until=None))
            return replace(target, also=also, until=other.until or target.until)
        named = cursor.take_word("ch") and take_chain_length(cursor) is not None
        if named:
            return target
    cursor.at = at
    return target


def _same_as(cursor: Cursor, target: Target) -> None:
    """ "in same st as ch 3", "in same place as join": the words add nothing."""
    at = cursor.at
    if target.which is not Which.SAME or not cursor.take_word("as"):
        return
    cursor.take_word("the", "last", "previous")
    if cursor.take_phrase(
        "join", "joining", "sl st", "slip st", "ss", "slst", "last st", "before"
    ):
        return
    if read_target(cursor) is None:
        cursor.at = at


def _and_also(cursor: Cursor, target: Target) -> Target:
    """ "each dc and each ch-1 sp": more kinds of place taken by the same "each"."""
    if target.which is not Which.EACH:
        return target
    also = list(target.also)
    while True:
        at = cursor.at
        cursor.skip_lines()
        comma = cursor.take_kind(Kind.COMMA)
        if not cursor.take_word("and") and not cursor.take_kind(Kind.PLUS):
            listed = _listed_kinds(cursor) if comma else []
            if not listed:
                cursor.at = at
                break
            also.extend(listed)
            continue
        cursor.take_phrase("1 in")
        cursor.take_word("in", "into", "on", "also")
        each = cursor.is_word("each", "every", "all", "the")
        named = each or space_ahead(cursor) or _chains_too(cursor) or _kind_too(cursor)
        named = named and not names_loop_of(cursor)
        named = named and not (comma and _goes_round_chain(cursor))
        begun = cursor.at
        other = read_target(cursor) if named else None
        if (
            other is not None
            and other.noun == "ch"
            and (across(cursor) or _are_all_there_are(cursor, begun))
        ):
            other = replace(other, amount=None)  # "each st and each of the 5 ch around"
        ends = other is None or other.which not in (Which.EACH, Which.NEXT)
        if other is None or ends or other.amount or has_own_stitches(cursor):
            cursor.at = at
            break
        one = _is_the_one if each else _is_one_space
        again = not each and other.noun == target.noun and other.noun != "st"
        again = again and other.of is None  # but "each sp and sp of tch"
        if again or (target.amount is not None and one(cursor, other, begun)):
            cursor.at = at
            break
        if other.until is not None or other.left_out:
            target = replace(target, until=other.until, left_out=other.left_out)
        told = {token.text for token in cursor.tokens[begun : cursor.at]}
        if target.noun == "sp" and other.noun == "tch" and "one" in told:
            other = replace(other, noun="sp", of=other)
        also.append(replace(other, which=Which.EACH, until=None, left_out=0))
    return replace(target, also=tuple(also)) if also else target


def _is_one_space(cursor: Cursor, other: Target, start: int) -> bool:
    """ "(In each of next 2 dc and in) ch-1 sp": one space, which lies behind them."""
    told = {token.text for token in cursor.tokens[start : cursor.at]}
    return other.noun == "sp" and other.until is None and not told.isdisjoint(_ONE_SPACE)


def _is_the_one(cursor: Cursor, other: Target, start: int) -> bool:
    """ "(In each of next 4 tr and in) the dc", "the tch": one place, which lies behind."""
    told = cursor.tokens[start : cursor.at]
    alone = told[0].text == "the" and not told[-1].text.endswith("s")
    return alone and other.until is None


_ONE_SPACE = frozenset("sp space hole loop lp arch mesh arc handle".split())


def names_loop_of(cursor: Cursor) -> bool:
    """ "(In each st and in) the under loop of each ch": of it, and no loop of chains."""
    ahead = int(cursor.is_word("the", "that"))
    side, loop, of = (cursor.peek(ahead + i) for i in range(3))
    return side.text in _SIDES and loop.text in _LOOPS and of.text == "of"


def pass_loop_of(cursor: Cursor) -> None:
    """ "(Join yarn in) the under loop of (the 3rd ch)": how a yarn holds there."""
    if names_loop_of(cursor):
        cursor.take_word("the", "that")
        cursor.at += 3


_SIDES = frozenset("back front under bottom".split())
_LOOPS = frozenset("loop loops lp lps".split())


def _are_all_there_are(cursor: Cursor, start: int) -> bool:
    """ "(In each sc and in) each of the 8 ch.", wherever they are; not "of next 8 ch"."""
    told = {token.text for token in cursor.tokens[start : cursor.at]}
    last = cursor.is_kind(Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.OPEN, Kind.END)
    return {"each", "the"} <= told and told.isdisjoint(NEXT_WORDS) and last


def has_own_stitches(cursor: Cursor) -> bool:
    """Whether a place has stitches of its own: "each sc, and in each arch 10 sc"."""
    at = cursor.at
    cursor.take_word("work", "make", "put", "place")
    own = cursor.number() is not None and cursor.stitch() is not None
    cursor.at = at
    return own


def is_list_told(cursor: Cursor) -> bool:
    """ "(In each sp around) make 1 sc, 3 dc": not "(in each ch across) 29 hdc", a count."""
    return cursor.is_word("work", "make", "put", "place") and has_own_stitches(cursor)


def _goes_round_chain(cursor: Cursor) -> bool:
    """ "(Sc in each sc, and) hdc, ch 2, hdc in each corner": a list of its own."""
    at = cursor.at
    listed = cursor.stitch() is not None and cursor.take_kind(Kind.COMMA)
    listed = bool(listed) and cursor.is_word("ch", "chain")
    cursor.at = at
    return listed


def _chains_too(cursor: Cursor) -> bool:
    """Whether "each st and ch around" goes on; "and ch 2" is another instruction."""
    following = cursor.peek().kind
    return cursor.is_word(*CHAIN_NOUNS) and following not in (Kind.NUMBER, Kind.DASH)


def _kind_too(cursor: Cursor) -> bool:
    """Whether "each sc and bobble", "each ch and st" goes on, and names what it works in.

    "And dc in last st" is another instruction.
    """
    at = cursor.at
    stitch = cursor.stitch()
    named = stitch is not None and stitch.family in _LEAVES_A_TOP
    named = named or (stitch is None and cursor.take_word(*STITCH_NOUNS))
    ends = cursor.is_kind(*_KIND_ENDS) or across_rest(cursor)
    ends = ends or cursor.is_word("to", "turn")
    cursor.at = at
    return named and ends


_LEAVES_A_TOP = ("plain", "cluster", "group", "own")
_KIND_ENDS = (Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.OPEN, Kind.CLOSE, Kind.END)


def _listed_kinds(cursor: Cursor) -> list[Target]:
    """ "each dc, pc and ch-1 sp": the kinds behind a comma, up to the one behind "and"."""
    start, found = cursor.at, []
    while True:
        at = cursor.at
        known = space_ahead(cursor) or cursor.attempt(Cursor.stitch)
        target = _ordinary(cursor, at, modifiers_ahead(cursor)) if known else None
        if target is None or target.which is not Which.NEXT or target.amount:
            break
        found.append(replace(target, which=Which.EACH))
        if cursor.take_word("and"):
            last = _ordinary(cursor, cursor.at, modifiers_ahead(cursor))
            if last is None or cursor.is_word("in", "into", "over"):
                break
            return [*found, replace(last, which=Which.EACH)]
        if not cursor.take_kind(Kind.COMMA):
            break
    cursor.at = start
    return []


def space_ahead(cursor: Cursor) -> bool:
    """Whether a chain space is named here: "sp", "ch-2 sp", "2-ch sp"."""
    if cursor.token.text in SPACE_NOUNS:
        return True
    if cursor.is_kind(Kind.NUMBER):
        dashed = cursor.peek().kind is Kind.DASH
        named = cursor.peek(1 + dashed).text in CHAIN_NOUNS
        return named and cursor.peek(2 + dashed).text in SPACE_NOUNS
    return cursor.token.text in ("ch", "chain") and any(
        cursor.peek(step).text in SPACE_NOUNS for step in (1, 2, 3)
    )
