"""Whose place is meant: "of next shell", "of first leg", "before next dc", "of ch 2"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, ReadPlace, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.named_places import read_named_place
from hookwright.notation.place_words import CHAIN_NOUNS, SPACE_NOUNS
from hookwright.notation.rows_below import names_row
from hookwright.notation.tree import Target, Which
from hookwright.notation.vocabulary import families_of


def take_whose(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """What a place is told to be in, of or before; the target itself where nothing is."""
    target = _behind_space(cursor, _before_stitch(cursor, target, read), read)
    target = _of_first_worked(cursor, target, read)
    of_leg = _of_leg(cursor, target)
    target = of_leg or _of_group(cursor, _of_chains(cursor, target), read)
    if target.noun == "tch" and target.of is not None:  # "2nd of the 3 ch of next loop"
        target = replace(target, noun="ch", chains=None)
    return target


_HOLDS = Sayings((
    "that holds", "which holds", "holding", "that has", "with", "under", "below", "beneath",
    "of", "at the base of", "at base of",
))  # fmt: skip


def _of_first_worked(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """ "The ch that holds the first 2 dc": the chain that an oval was begun in."""
    at = cursor.at
    if target.noun == "ch" and target.ordinal is None and cursor.take_any(_HOLDS):
        cursor.take_word("your", "those")
        first = read(cursor)
        named = first is not None and first.which is Which.FIRST
        if first is not None and named and first.noun not in ("ch", "sp", "tch"):
            return replace(target, which=Which.LAST)
    cursor.at = at
    return target


def _before_stitch(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """ "The space before next dc": between it and the stitch just worked."""
    at = cursor.at
    plain = target.noun in ("sp", "gap") and target.of is None
    plain = plain and target.chains is None and target.amount is None
    if plain and target.which is Which.NEXT and cursor.take_phrase("just before", "before"):
        beside = read(cursor)
        if beside is not None and beside.which is Which.NEXT and beside.noun != "sp":
            return replace(target, noun="gap", which=Which.SAME, of=beside)
    cursor.at = at
    return target


_BEHIND = Sayings((
    *(
        f"{comes}{just}after"
        for comes in ("", *(f"{that} {comes} " for that in ("that", "which")
                            for comes in ("comes", "is", "lies", "stands", "sits")))
        for just in ("", "just ", "right ", "directly ", "immediately ", "straight ")
    ),
    "to the left of", "following", "that follows", "which follows",
))  # fmt: skip


def _behind_space(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """ "The first dc after any corner sp": the stitch that follows it."""
    at = cursor.at
    one = target.which in (Which.FIRST, Which.NEXT, Which.ANY) and target.amount is None
    plain = one and target.of is None and target.noun not in _NO_STITCHES
    if plain and cursor.take_any(_BEHIND):
        beside = read(cursor)
        if beside is not None and beside.noun in ("sp", "corner") and not beside.amount:
            return replace(target, which=Which.BEHIND, of=beside)
    cursor.at = at
    return target


_NO_STITCHES = frozenset("sp ch tch gap corner ring base here underside group".split())


def _of_leg(cursor: Cursor, target: Target) -> Target | None:
    """ "next 12 sts of first leg", "any st at the inside of leg 1"."""
    at = cursor.at
    if cursor.take_word("of", "on", "at", "along", "around", "round", "from"):
        leg = read_named_place(cursor, cursor.at)
        if leg is not None and leg.noun == "leg":
            return replace(target, of=leg)
        begun = cursor.at
        if target.amount is not None and cursor.take_any(_PIECES):
            return replace(target, of=Target("piece", Which.SAME, cursor.span_from(begun)))
    cursor.at = at
    return None


_PIECES = Sayings(
    f"{the}{which} {piece}" for the in ("the ", "")
    for which in ("first", "1st", "second", "2nd", "other", "left", "right")
    for piece in (
        "post", "strap", "tab", "tower", "wing", "panel", "piece", "strip", "shoulder",
        "half", "flap", "section", "peak",
    )
)  # fmt: skip
"""Pieces of one part that stand side by side; common practice, no source."""


def _of_chains(cursor: Cursor, target: Target) -> Target:
    """ "next loop of 5 ch", "space of ch 2": a space told by its chains behind it.

    So is "each chain of three": a chain of several is one place to work under.
    """
    at = cursor.at
    if _is_whole_chain(target) and cursor.take_word("of"):
        number = cursor.token.value if cursor.is_kind(Kind.NUMBER) else 0
        goes_on = cursor.peek()
        ends = goes_on.kind is not Kind.WORD or goes_on.text in _BEHIND_LENGTH
        if number > 1 and ends:
            cursor.step()
            return replace(target, noun="sp", chains=number)
        cursor.at = at
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


def _is_whole_chain(target: Target) -> bool:
    """ "Each chain", "the next chain": which may be a chain of several."""
    plain = target.noun == "ch" and target.amount is None and target.ordinal is None
    return plain and target.which in (Which.EACH, Which.NEXT) and target.of is None


_BEHIND_LENGTH = frozenset("and across around along to then".split())


_BELOW_OR_HERE = Sayings((
    *(
        f"{of} {the}{row} below"
        for of in ("of", "in", "from") for the in ("the ", "")
        for row in ("row", "rnd", "round")
    ),
    "of the previous row", "of previous row",
    "of prev row", "of last row", "of the last row", "below it",
    "of all", "of previous round", "of previous rnd", "of prev rnd",
    "of the previous round", "from previous row",
    "of the block below", "made", "of row", "of this round",
    "of the corner", "of the point", "at the point", "at the corner",
))  # fmt: skip


def _of_group(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    at = cursor.at
    one = target.amount is None or target.amount.values == (1,)
    plain = one and target.which is Which.NEXT and target.of is None
    if plain and target.noun not in ("sp", "ch", "tch") and cursor.take_any(_AT_CORNERS):
        return replace(target, noun="corner", which=Which.EACH, amount=None)
    if cursor.token.text in SPACE_NOUNS and _is_group(cursor, target):  # "next shell sp"
        cursor.step()
        return replace(target, noun="sp", of=None if target.amount else target)
    base = read_named_place(cursor, at) if cursor.take_word("at") else None
    if base is not None and base.noun == "base":  # "the st at base of 3 ch"
        return base
    cursor.at = at
    middle = read(cursor) if cursor.take_any(_IN_THE_MIDDLE) else None
    if middle is not None:
        return replace(target, which=Which.CENTRE, of=middle)
    cursor.at = at
    if names_row(cursor) or cursor.take_any(_BELOW_OR_HERE):
        return target
    if _names_work_below(cursor) or _names_section(cursor):
        return target
    if cursor.take_word("of", "on") or (target.ordinal and cursor.take_word("in", "from")):
        inner = read(cursor)
        within = inner and _within(cursor, target, inner)
        if within is not None:
            return within
    cursor.at = at
    return target


_AT_CORNERS = Sayings(
    f"{at} {each} corner" for at in ("at", "of", "in", "on") for each in ("each", "every")
)
"""Behind "3 sc in one st", "2 sc in the st": what is done in every corner."""
_IN_THE_MIDDLE = Sayings(
    f"{lead} {the}{middle} of" for lead in ("in", "at") for the in ("the ", "")
    for middle in ("middle", "centre", "center")
)  # fmt: skip


def _within(cursor: Cursor, target: Target, inner: Target) -> Target | None:
    """A place in what is named behind "of"; None where that is no such thing."""
    if target.noun == "ch" and target.ordinal and _is_bare_number(cursor, inner):
        return replace(target, noun="tch", chains=inner.amount.at(0) if inner.amount else 0)
    if target.which is Which.FIRST and _is_the_chain(inner) and target.noun in ("st", "ch"):
        return replace(target, noun="ch")  # "the first stitch of the chain"
    chain = inner.noun in ("tch", "ch") or _is_same_chain(cursor, inner)
    if target.ordinal or target.which in (Which.CENTRE, Which.FIRST, Which.LAST):
        if chain and (target.noun == "ch" or (target.noun == "st" and target.ordinal)):
            return replace(target, noun="tch", chains=inner.chains)
        return replace(target, of=inner)
    if _along_group(cursor, target, inner):
        return replace(target, of=inner) if target.which is Which.EACH else target
    if target.amount is not None and inner.which is Which.FIRST and target.noun != "sp":
        return target  # "the 3 dc of the first block": the row begins with them
    if _is_space_of(target, inner):
        return replace(target, noun="sp", of=inner)
    if target.noun == "group" and inner.which is Which.NEXT:
        return target  # "two pairs of dc", "next group of 3 dc"
    if inner.noun == "tch" and target.noun in ("st", "ch"):
        return replace(target, noun="tch", chains=inner.chains, which=Which.NEXT)
    return None


def _is_the_chain(inner: Target) -> bool:
    """ "The chain", which is not told from others by a number."""
    told = (inner.amount, inner.ordinal, inner.chains, inner.of)
    return inner.noun == "ch" and inner.which is Which.NEXT and not any(told)


def _is_bare_number(cursor: Cursor, inner: Target) -> bool:
    """ "3rd ch of 5", "of the 5": a chain told by its length alone, and no "next 5"."""
    number, before = cursor.tokens[cursor.at - 1], cursor.tokens[cursor.at - 2]
    bare = inner.amount is not None and inner.which is Which.NEXT
    return bare and number.kind is Kind.NUMBER and before.text in _BEFORE_LENGTH


_BEFORE_LENGTH = frozenset("of the these those first turning beginning beg edge".split())


def _is_same_chain(cursor: Cursor, inner: Target) -> bool:
    """ "3rd st of same ch-5": the chain whose loop was worked into, and no "ch-5 sp"."""
    named = cursor.tokens[cursor.at - 1].text in SPACE_NOUNS
    told = inner.noun == "sp" and inner.chains is not None and not named
    return told and inner.which is Which.SAME


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


_SECTIONS = Sayings(
    f"{of} {the}{side}{section}"
    for of in ("of", "on", "across", "along") for the in ("the ", "")
    for side in ("", "left ", "right ", "first ", "second ")
    for section in ("front", "back", "sleeve", "shoulder", "body", "yoke")
)  # fmt: skip


def _names_section(cursor: Cursor) -> bool:
    """ "(Each st) of the front (to next sp)": the stitches lie there anyway."""
    at = cursor.at
    if cursor.take_any(_SECTIONS) and not cursor.is_word("loop", "loops", "lp", "lps"):
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
    families = families_of(target.noun, cursor.own_words)
    return target.noun == "group" or "group" in families


def _is_space_of(target: Target, inner: Target) -> bool:
    """ "ch-2 sp of next shell", "ch-1 of each V", "space of the turning ch"."""
    if inner.noun == "tch" and target.noun == "sp":
        return target.which is Which.NEXT
    named = inner.noun not in ("st", "sp", "ch", "tch")
    middle = target.noun == "ch" and target.which is Which.NEXT and not target.ordinal
    return named and (
        target.noun == "sp"
        or middle  # "in the chain of each V"
        or (target.noun == "tch" and target.chains is not None)
    )
