"""Where a stitch is worked: "next 4 sts", "each ch-1 sp across", "3rd dc of next shell"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.gaps import read_gap, take_gap
from hookwright.notation.just_made import BEGUN_IN, take_just_closed, take_just_made
from hookwright.notation.lexer import Kind
from hookwright.notation.markers import read_up_to_marker
from hookwright.notation.named_places import read_everything, read_named_place
from hookwright.notation.other_edges import along_foundation, read_other_edge
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    SPACE_NOUNS,
    across,
)
from hookwright.notation.rows_below import names_row, read_depth, take_rows_below
from hookwright.notation.target_nouns import (
    TargetWords,
    is_unknown_noun,
    take_modifiers,
    take_noun,
)
from hookwright.notation.tree import Target, Which
from hookwright.notation.vocabulary import standard_words
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
    target = (
        read_other_edge(cursor, start)
        or read_named_place(cursor, start)
        or read_everything(cursor, start)
        or _ordinary(cursor, start)
    )
    if target is None:
        cursor.at = start
        return None
    return _after(cursor, target, start)


def read_between(cursor: Cursor) -> Target | None:
    """After "between": "next 2 groups", "the first two groups and in each gap after"."""
    return read_gap(cursor, read_target)


def read_rows_below(cursor: Cursor) -> Target | None:
    """ "spike sc 1 row below next st": a place told only by how far down it lies."""
    return read_depth(cursor, read_target)


_WHAT_FOLLOWS = Sayings(
    f"{the}one {follows}"
    for the in ("the ", "")
    for follows in ("that follows", "that comes next", "that comes after it", "following",
                    "that comes after", "behind it", "which follows")
)  # fmt: skip


def _ordinary(cursor: Cursor, start: int) -> Target | None:
    if cursor.take_any(_WHAT_FOLLOWS):
        return Target("st", Which.NEXT, cursor.span_from(start))
    draft = TargetWords()
    take_modifiers(cursor, draft)
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


def _middle_one(cursor: Cursor, draft: TargetWords) -> tuple[str, None] | None:
    """ "The middle one of each corner": a stitch, and no number of them."""
    one = draft.amount is not None and draft.amount.values == (1,)
    if not (draft.centre and one and cursor.is_word("of")):
        return None
    draft.amount = None
    return "st", None


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
    if draft.ordinal and cursor.is_word("of"):
        at = cursor.at
        cursor.step()
        inner = read_target(cursor)
        if inner is not None and inner.noun in ("tch", "ch"):
            span = cursor.span_from(start)
            return Target(
                "tch", Which.NTH, span, chains=inner.chains, ordinal=draft.ordinal
            )
        if inner is not None and inner.amount is not None and inner.of is None:
            return _of_several(inner, draft.ordinal, cursor.span_from(start))
        cursor.at = at
    if draft.which is None and draft.amount is None:
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
    return Target("st", which, cursor.span_from(start), draft.amount)


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
    if cursor.token.kind not in ends:
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


_EDGE_CHAINS = (
    "the edge chains", "the edge chain", "the chains at the edge", "the chain at the edge",
    "the turning chain", "the turning chains", "your turning chain",
)  # fmt: skip
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


def _after(cursor: Cursor, target: Target, start: int) -> Target:
    """What may follow the noun: "of next shell", "2 rows below", "and each sp"."""
    if target.noun == "st" and target.ordinal and _take_from_hook(cursor):
        target = replace(target, noun="ch", which=Which.NTH, from_hook=True)
    _same_as(cursor, target)
    if target.noun in ("ch", "corner") and along_foundation(cursor, target.ordinal):
        target = replace(target, noun="underside")
    if target.noun in ("ch", "sp") and cursor.take_any(_AT_EDGE):
        target = replace(target, noun="tch")
    if target.noun == "sp" and target.of is None and cursor.take_any(_BY_EDGE_CHAIN):
        target = replace(target, of=Target("tch", Which.NEXT, target.span))
    target = take_just_made(cursor, take_just_closed(cursor, target))
    if target.noun in ("sp", "corner", "ch") and cursor.take_any(BEGUN_IN):
        back = Which.LAST if target.noun == "ch" else Which.FIRST  # from the other side
        target = replace(target, which=back)
    target = _of_first_worked(cursor, _before_stitch(cursor, target))
    target = _of_leg(cursor, target) or _of_group(cursor, _of_chains(cursor, target))
    if target.noun == "tch" and target.of is not None:  # "2nd of the 3 ch of next loop"
        target = replace(target, noun="ch", chains=None)
    target = take_rows_below(cursor, target, read_target)
    target = take_gap(cursor, target, read_target)
    target = _and_also(cursor, target)
    target = _until(cursor, target)
    target = _left_out(cursor, target)
    return replace(target, span=cursor.span_from(start))


_HOLDS = Sayings((
    "that holds", "which holds", "holding", "that has", "with", "under", "below", "beneath",
    "of", "at the base of", "at base of",
))  # fmt: skip


def _of_first_worked(cursor: Cursor, target: Target) -> Target:
    """ "The ch that holds the first 2 dc": the chain that an oval was begun in."""
    at = cursor.at
    if target.noun == "ch" and target.ordinal is None and cursor.take_any(_HOLDS):
        cursor.take_word("your", "those")
        first = read_target(cursor)
        named = first is not None and first.which is Which.FIRST
        if first is not None and named and first.noun not in ("ch", "sp", "tch"):
            return replace(target, which=Which.LAST)
    cursor.at = at
    return target


def _before_stitch(cursor: Cursor, target: Target) -> Target:
    """ "The space before next dc": between it and the stitch just worked."""
    at = cursor.at
    plain = target.noun == "sp" and target.chains is None and target.amount is None
    if plain and target.which is Which.NEXT and cursor.take_phrase("just before", "before"):
        beside = read_target(cursor)
        if beside is not None and beside.which is Which.NEXT and beside.noun != "sp":
            return replace(target, noun="gap", which=Which.SAME, of=beside)
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


def _of_leg(cursor: Cursor, target: Target) -> Target | None:
    """ "next 12 sts of first leg", "any st at the inside of leg 1"."""
    at = cursor.at
    if cursor.take_word("of", "on", "at", "along", "around", "round", "from"):
        leg = read_named_place(cursor, cursor.at)
        if leg is not None and leg.noun == "leg":
            return replace(target, of=leg)
    cursor.at = at
    return None


def _of_chains(cursor: Cursor, target: Target) -> Target:
    """ "next loop of 5 ch", "space of ch 2": a space told by its chains behind it."""
    at = cursor.at
    if target.noun == "sp" and target.chains is None and cursor.take_word("of"):
        cursor.take_word("the")
        before = cursor.take_word(*CHAIN_NOUNS)
        number = cursor.token.value if cursor.is_kind(Kind.NUMBER) else 0
        if number > 0:
            cursor.step()
            if before or cursor.take_word(*CHAIN_NOUNS):
                return replace(target, chains=number)
    cursor.at = at
    return target


_BELOW_OR_HERE = Sayings((
    "of the row below", "of row below", "of the previous row", "of previous row",
    "of prev row", "of last row", "of the last row", "in the row below", "below it",
    "of all", "of previous round", "of previous rnd", "of prev rnd",
    "of the previous round", "from previous row", "of the rnd below",
    "from the row below", "of the block below", "made", "of row", "of this round",
    "of the corner", "of the point", "at the point", "at the corner",
))  # fmt: skip


def _of_group(cursor: Cursor, target: Target) -> Target:
    at = cursor.at
    if cursor.token.text in SPACE_NOUNS and _is_group(cursor, target):  # "next shell sp"
        cursor.step()
        return replace(target, noun="sp", of=None if target.amount else target)
    base = read_named_place(cursor, at) if cursor.take_word("at") else None
    if base is not None and base.noun == "base":  # "the st at base of 3 ch"
        return base
    cursor.at = at
    middle = read_target(cursor) if cursor.take_any(_IN_THE_MIDDLE) else None
    if middle is not None:
        return replace(target, which=Which.CENTRE, of=middle)
    cursor.at = at
    if names_row(cursor) or cursor.take_any(_BELOW_OR_HERE):
        return target
    if _names_work_below(cursor):
        return target
    if cursor.take_word("of", "on") or (target.ordinal and cursor.take_word("in", "from")):
        inner = read_target(cursor)
        within = inner and _within(cursor, target, inner)
        if within is not None:
            return within
    cursor.at = at
    return target


_IN_THE_MIDDLE = Sayings(
    f"{lead} {the}{middle} of" for lead in ("in", "at") for the in ("the ", "")
    for middle in ("middle", "centre", "center")
)  # fmt: skip


def _within(cursor: Cursor, target: Target, inner: Target) -> Target | None:
    """A place in what is named behind "of"; None where that is no such thing."""
    chain = inner.noun in ("tch", "ch")
    if target.ordinal or target.which in (Which.CENTRE, Which.FIRST, Which.LAST):
        if chain and (target.noun == "ch" or (target.noun == "st" and target.ordinal)):
            return replace(target, noun="tch", chains=inner.chains)
        return replace(target, of=inner)
    if _along_group(cursor, target, inner):
        return replace(target, of=inner) if target.which is Which.EACH else target
    if _is_space_of(target, inner):
        return replace(target, noun="sp", of=inner)
    if target.noun == "group" and inner.which is Which.NEXT:
        return target  # "two pairs of dc", "next group of 3 dc"
    if inner.noun == "tch" and target.noun in ("st", "ch"):
        return replace(target, noun="tch", chains=inner.chains, which=Which.NEXT)
    return None


_BELOW = Sayings((
    "below", "from the row below", "from the last row", "from the previous row",
    "of the row below", "of the last row", "of the previous row", "made before",
))  # fmt: skip


_ROW_NAMES = frozenset("row rnd round".split())


def _names_work_below(cursor: Cursor) -> bool:
    """ "of the tile below", "of the shell from Row 1": whose place it is, and where."""
    at = cursor.at
    whose = cursor.take_word("of") and cursor.take_word("the", "each", "every", "that")
    older = cursor.take_word("old", "older", "previous", "earlier", "finished")
    if whose and cursor.token.kind is Kind.WORD and cursor.token.text not in _ROW_NAMES:
        cursor.step()
        if cursor.take_any(_BELOW) or older:
            return True
        rows = cursor.take_word("from", "of", "in") and cursor.take_word(*_ROW_NAMES)
        if rows and cursor.take_kind(Kind.NUMBER):
            return True
    cursor.at = at
    return False


def _along_group(cursor: Cursor, target: Target, group: Target) -> bool:
    """ "each dc of next fan"; "next dc of the fan" is no more than the next one."""
    if target.noun in ("sp", "gap", "corner", "ch", "tch") or target.amount is not None:
        return False
    return target.which in (Which.EACH, Which.NEXT) and _is_group(cursor, group)


def _is_group(cursor: Cursor, target: Target) -> bool:
    """Whether a noun names a group of stitches: of the trade, or of the pattern's own."""
    return target.noun == "group" or any(
        stitch.id == target.noun and stitch.family == "group"
        for words in (cursor.own_words, standard_words())
        for _, stitch in words.get(target.noun.split()[0], ())
    )


def _is_space_of(target: Target, inner: Target) -> bool:
    """ "ch-2 sp of next shell", "ch-1 of each V", "space of the turning ch"."""
    if inner.noun == "tch" and target.noun == "sp":
        return target.which is Which.NEXT
    named = inner.noun not in ("st", "sp", "ch", "tch")
    return named and (
        target.noun == "sp" or (target.noun == "tch" and target.chains is not None)
    )


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
        other = read_target(cursor) if named else None
        if other is not None and other.noun == "ch" and across(cursor):
            other = replace(other, amount=None)  # "each st and each of the 5 ch around"
        if other is None or other.which not in (Which.EACH, Which.NEXT) or other.amount:
            cursor.at = at
            break
        if other.until is not None or other.left_out:
            target = replace(target, until=other.until, left_out=other.left_out)
        also.append(replace(other, which=Which.EACH, until=None, left_out=0))
    return replace(target, also=tuple(also)) if also else target


def _chains_too(cursor: Cursor) -> bool:
    """Whether "each st and ch around" goes on; "and ch 2" is another instruction."""
    following = cursor.peek().kind
    return cursor.is_word(*CHAIN_NOUNS) and following not in (Kind.NUMBER, Kind.DASH)


def _kind_too(cursor: Cursor) -> bool:
    """Whether "each sc and bobble" goes on; "and dc in last st" is another instruction."""
    at = cursor.at
    stitch = cursor.stitch()
    ends = cursor.is_kind(*_KIND_ENDS) or across(cursor) or cursor.is_word("to", "turn")
    cursor.at = at
    return stitch is not None and stitch.family in _LEAVES_A_TOP and ends


_LEAVES_A_TOP = ("plain", "cluster", "group", "own")
_KIND_ENDS = (Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.OPEN, Kind.CLOSE, Kind.END)


def _listed_kinds(cursor: Cursor) -> list[Target]:
    """ "each dc, pc and ch-1 sp": the kinds behind a comma, up to the one behind "and"."""
    start, found = cursor.at, []
    while True:
        at = cursor.at
        known = space_ahead(cursor) or cursor.attempt(Cursor.stitch)
        target = _ordinary(cursor, at) if known else None
        if target is None or target.which is not Which.NEXT or target.amount:
            break
        found.append(replace(target, which=Which.EACH))
        if cursor.take_word("and"):
            last = _ordinary(cursor, cursor.at)
            if last is None or cursor.is_word("in", "into", "over"):
                break
            return [*found, replace(last, which=Which.EACH)]
        if not cursor.take_kind(Kind.COMMA):
            break
    cursor.at = start
    return []


def space_ahead(cursor: Cursor) -> bool:
    """Whether a chain space is named here: "sp", "ch-2 sp"."""
    if cursor.token.text in SPACE_NOUNS:
        return True
    return cursor.token.text in ("ch", "chain") and any(
        cursor.peek(step).text in SPACE_NOUNS for step in (1, 2, 3)
    )


_ALONG_SIDE = tuple(
    f"{way} {side}"
    for way in ("of", "along", "on", "down", "up")
    for side in (
        "the side",
        "this side",
        "that side",
        "each side",
        "this edge",
        "each edge",
    )
)


def _until(cursor: Cursor, target: Target) -> Target:
    """ "each st to the last 2 sts", "to next ch-2 sp", "up to the last st"."""
    if target.which is not Which.EACH or target.until is not None:
        return target
    at = cursor.at
    cursor.skip_lines()
    if cursor.take_phrase(*_ALONG_SIDE):
        corner = Target("corner", Which.NEXT, cursor.span_from(at))
        return replace(target, until=corner)
    across(cursor)
    cursor.skip_lines()
    marker = read_up_to_marker(cursor)
    if marker is not None:
        return replace(target, until=marker)
    if cursor.take_phrase(
        "up to", "until", "to", "till", "til", "as far as", "up until", "down to"
    ):
        cursor.take_phrase(
            "you reach", "you get to", "you come to", "within", "before", "there are"
        )
        begun = cursor.at
        until = read_target(cursor)
        if until is not None and _is_corner_stitch(cursor, begun, until):
            until = replace(until, noun="corner")
        if until is not None and (until.which is not Which.EACH):
            left = cursor.take_phrase(
                "are left", "is left", "remain", "remains", "left", "are reached"
            )
            if left and until.which is Which.NEXT:
                until = replace(until, which=Which.LAST)
            return replace(target, until=until)
    cursor.at = at
    return target


def _is_corner_stitch(cursor: Cursor, start: int, target: Target) -> bool:
    """ "(Each sc to) next corner sc": the stitch in which the fabric turns."""
    plain = target.which is Which.NEXT and target.of is None and target.amount is None
    if not plain or target.noun in ("sp", "ch", "tch", "gap", "group", "corner"):
        return False
    return any(token.text == "corner" for token in cursor.tokens[start : cursor.at])


def _left_out(cursor: Cursor, target: Target) -> Target:
    if target.which is not Which.EACH:
        return target
    at = cursor.at
    across(cursor)
    if cursor.take_phrase(
        "except the last",
        "except for the last",
        "but the last",
        "except last",
        "excluding the last",
        "leaving the last",
        "save the last",
        "save for the last",
        "apart from the last",
        "bar the last",
        "other than the last",
    ):
        amount = cursor.number()
        cursor.take_word("st", "sts", "stitch", "sp", "space")
        return replace(target, left_out=(amount.at(0) if amount else 1) or 1)
    cursor.at = at
    return target
