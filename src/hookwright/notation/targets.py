"""Where a stitch is worked: "next 4 sts", "each ch-1 sp across", "3rd dc of next shell"."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.tree import Amount, Target, Which
from hookwright.source import Span

PREPOSITIONS = frozenset(
    "in into on onto over around round in2 inside under through thru to at from between".split()
)
INTO = frozenset("in into on onto over around under inside through at".split())
STITCH_NOUNS = frozenset("st sts stitch stitches sti stich stiches sch".split())
CHAIN_NOUNS = frozenset("ch chs chain chains".split())
SPACE_NOUNS = frozenset(
    "sp sps space spaces hole holes loop loops lp lps arch arches mesh meshes arc arcs".split()
)
GAP_NOUNS = frozenset("gap gaps".split())
GROUP_NOUNS = frozenset("group groups grp grps block blocks trio trios".split())
EACH_WORDS = frozenset("each every ea all".split())
NEXT_WORDS = frozenset("next following foll nearest nxt follow subsequent".split())
LAST_WORDS = frozenset("last final".split())
REST_WORDS = frozenset("remaining rem rest others remainder".split())
SAME_WORDS = frozenset("same".split())
CENTRE_WORDS = frozenset("center centre middle central".split())
UNUSED_WORDS = frozenset("skipped unused unworked free missed".split())
SMALL_WORDS = frozenset(
    "the a an of both top this these those that your its very lonely other own "
    "previous prev turning turn beg beginning begin starting start initial opening joining "
    "underarm corner side top-most".split()
)
BEGINNING_WORDS = frozenset(
    "turning turn beg beginning begin starting start initial opening t".split()
)
ACROSS_PHRASES = (
    "all the way across", "all the way around", "all the way to the end", "all along",
    "all across", "all around", "all round", "right along the row", "right across",
    "right along", "along the row", "along row", "to the end of the row", "to the end of row",
    "to end of row", "to end of rnd", "to end of round", "to the end of the round",
    "to the end of the rnd", "to the end", "to end", "till the end", "until the end",
    "until end", "till end", "the length of the row", "the whole row", "the whole way",
    "across the row", "across the top", "across row", "across to end", "across", "around",
    "along", "round", "the rest of the way", "to the join", "to the very end",
)  # fmt: skip


def across(cursor: Cursor) -> bool:
    """Takes the words for "until the places run out", if they stand here."""
    return cursor.take_phrase(*ACROSS_PHRASES)


@dataclass(slots=True)
class _Draft:
    """What has been said of a target so far."""

    which: Which | None = None
    amount: Amount | None = None
    ordinal: int | None = None
    beginning: bool = False
    rest: bool = False
    top: bool = False
    corner: bool = False
    words: int = 0
    centre: bool = False


def read_target(cursor: Cursor) -> Target | None:
    """The target that begins here; None, with the position kept, where there is none."""
    start = cursor.at
    cursor.skip_lines()
    target = _special(cursor, start) or _ordinary(cursor, start)
    if target is None:
        cursor.at = start
        return None
    return _after(cursor, target, start)


def _special(cursor: Cursor, start: int) -> Target | None:
    """Targets that are named by a phrase of their own."""
    span = cursor.token.span
    if cursor.take_phrase(
        "the base of the ch", "base of the ch", "the base of the chain", "base of the chain",
        "base of ch", "the base of it", "base of it", "the base of ch", "the base", "base of",
        "the foot of the ch", "foot of the ch", "the foot of ch", "the foot", "foot of ch",
        "base",
    ):  # fmt: skip
        _take_chain_name(cursor)
        return Target("base", Which.SAME, cursor.span_from(start))
    if cursor.is_word("there", "it", "them", "here") and not _names_more(cursor):
        cursor.step()
        return Target("here", Which.SAME, span)
    if cursor.take_phrase(
        "the top of it", "top of it", "the top of that", "top of this chain"
    ):
        return Target("tch", Which.NEXT, cursor.span_from(start))
    if cursor.take_phrase(
        "the joining sp", "joining sp", "the joining st", "joining st", "the joining stitch",
        "joining stitch", "the joining space", "joining space", "the st of the join",
        "the same st as join", "st of last join", "the st of the last join",
    ):  # fmt: skip
        return Target("base", Which.SAME, cursor.span_from(start))
    if cursor.take_phrase(
        "the other side of the ch", "the other side of ch", "other side of the ch",
        "other side of ch", "the other side of the chain", "other side of the chain",
    ) or _leg(cursor):  # fmt: skip
        return Target("elsewhere", Which.SAME, cursor.span_from(start))
    if cursor.take_phrase("where you are", "the st you are in"):
        return Target("base", Which.SAME, cursor.span_from(start))
    if cursor.take_word("mr", "mc") or cursor.take_phrase(
        "the magic ring", "magic ring", "a magic ring", "the magic loop", "a magic loop",
        "magic loop", "magic circle", "a magic circle", "the magic circle",
        "the ring", "ring", "the circle", "centre of ring", "center of ring", "ring made",
        "the center of the ring", "the centre of the ring", "center of the ring", "the loop made",
    ):  # fmt: skip
        return Target("ring", Which.SAME, cursor.span_from(start))
    return None


def _leg(cursor: Cursor) -> bool:
    """ "the 1st leg", "the other leg", "leg two": another part's open edge."""
    at = cursor.at
    cursor.take_word("the", "each")
    while cursor.token.kind is Kind.ORDINAL or cursor.is_word(
        "other", "second", "next", "left", "right"
    ):
        cursor.step()
    if cursor.take_word("leg", "legs", "foot"):
        cursor.take_kind(Kind.NUMBER)
        return True
    cursor.at = at
    return False


def _names_more(cursor: Cursor) -> bool:
    return cursor.peek().text in ("and",) and cursor.peek(2).text == "the"


def _ordinary(cursor: Cursor, start: int) -> Target | None:
    draft = _Draft()
    _take_modifiers(cursor, draft)
    noun = _noun(cursor, draft)
    if noun is None:
        return _elliptic(cursor, draft, start)
    name, chain_count = noun
    if name == "ch" and draft.ordinal is not None:
        return _ordinal_chain(cursor, draft, start)
    which = draft.which or (Which.NTH if draft.ordinal else Which.NEXT)
    if draft.beginning and draft.which is None and name not in ("tch", "sp", "ch"):
        which = Which.FIRST
    if draft.centre:
        which = Which.CENTRE
    if name == "tch" and draft.amount is not None and chain_count is None:
        chain_count, draft.amount = draft.amount.at(0), None
    return Target(
        name, which, cursor.span_from(start), draft.amount, chain_count, draft.ordinal
    )


def _take_modifiers(cursor: Cursor, draft: _Draft) -> None:
    while True:
        token = cursor.token
        if token.kind is Kind.WORD:
            if not _take_modifier_word(cursor, draft):
                return
        elif token.kind is Kind.ORDINAL:
            cursor.step()
            if token.text == "first" or (token.text == "1st" and not _is_chain_noun(cursor)):
                draft.which = draft.which or Which.FIRST
            else:
                draft.ordinal = token.value
        elif token.kind in (Kind.NUMBER, Kind.OPEN) and draft.amount is None:
            if is_chain_length(cursor):
                return
            amount = cursor.number()
            if amount is None:
                return
            draft.amount = amount
        elif (token.kind is Kind.DASH and cursor.peek().kind is Kind.WORD and token.glued) or (token.kind is Kind.LINE and draft.words):
            cursor.step()
        else:
            return
        draft.words += 1


def _take_modifier_word(cursor: Cursor, draft: _Draft) -> bool:
    word = cursor.token.text
    if word in EACH_WORDS:
        draft.which = Which.EACH
    elif word in NEXT_WORDS:
        draft.which = draft.which or Which.NEXT
    elif word in LAST_WORDS:
        draft.which = draft.which if draft.which is Which.EACH else Which.LAST
    elif word == "end" and cursor.peek().text in CHAIN_NOUNS | STITCH_NOUNS:
        draft.which = Which.LAST
    elif word in REST_WORDS:
        draft.which, draft.rest = Which.EACH, True
    elif word in SAME_WORDS:
        draft.which = Which.SAME
    elif word in CENTRE_WORDS:
        draft.centre = cursor.peek().text != "of"
    elif word in UNUSED_WORDS:
        draft.which = Which.SKIPPED
    elif word == "any":
        draft.which = Which.ANY
    elif word == "that":
        draft.which = draft.which or Which.SAME
    elif word in SMALL_WORDS:
        if word == "of" and draft.ordinal:
            return False
        draft.beginning = draft.beginning or word in BEGINNING_WORDS
        draft.top = draft.top or word == "top"
        draft.corner = draft.corner or word == "corner"
        if word == "t" and cursor.peek().kind is not Kind.DASH:
            return False
    elif word == "single" and cursor.peek().text != "crochet":
        pass
    else:
        return False
    cursor.step()
    return True


def _is_chain_noun(cursor: Cursor) -> bool:
    return cursor.token.text in CHAIN_NOUNS


def is_chain_length(cursor: Cursor) -> bool:
    """Whether a number begins "2-ch sp" or "3ch": the length of a chain, not how many."""
    if cursor.token.kind is not Kind.NUMBER:
        return False
    ahead = 2 if cursor.peek().kind is Kind.DASH else 1
    if cursor.peek(ahead).text not in ("ch", "chain"):
        return False
    return cursor.peek(ahead + 1).text in SPACE_NOUNS


def _noun(cursor: Cursor, draft: _Draft) -> tuple[str, int | None] | None:
    """The noun here: its name and, for spaces and beginning chains, the chains named."""
    cursor.skip_lines() if draft.words else None
    token = cursor.token
    if token.kind is Kind.NUMBER and is_chain_length(cursor):
        return _space_of_chains(cursor, token.value)
    if token.kind is not Kind.WORD:
        return None
    if token.text in STITCH_NOUNS:
        cursor.step()
        return _stitch_noun(cursor)
    if token.text in ("tch", "tchain"):
        cursor.step()
        return "tch", _hyphen_number(cursor)
    if token.text in CHAIN_NOUNS:
        return _chain_noun(cursor, draft)
    if token.text in SPACE_NOUNS:
        return _space_noun(cursor)
    if token.text in GAP_NOUNS:
        cursor.step()
        return "gap", None
    if token.text in GROUP_NOUNS and not cursor.own_words.get(token.text):
        cursor.step()
        return "group", None
    if token.text in ("row", "rnd", "round") and cursor.peek().kind is Kind.DASH:
        return _row_end(cursor)
    if token.text in ("row", "rnd") and cursor.peek().text in ("end", "ends"):
        return _row_end(cursor)
    return _stitch_name(cursor)


def _stitch_noun(cursor: Cursor) -> tuple[str, int | None]:
    if cursor.take_phrase("or sp", "or space", "or ch"):
        return "st", None
    return "st", None


def _row_end(cursor: Cursor) -> tuple[str, int | None] | None:
    at = cursor.at
    cursor.step()
    cursor.take_kind(Kind.DASH)
    if cursor.take_word("end", "ends"):
        return "row end", None
    cursor.at = at
    return None


def _space_noun(cursor: Cursor) -> tuple[str, int | None] | None:
    word = cursor.step().text
    if word in ("mesh", "meshes"):
        return "sp", None
    return "sp", None


def _chain_noun(cursor: Cursor, draft: _Draft) -> tuple[str, int | None] | None:
    cursor.step()
    at = cursor.at
    length = _hyphen_number(cursor)
    cursor.take_kind(Kind.DASH)
    cursor.skip_lines()
    if cursor.token.text in SPACE_NOUNS:
        cursor.step()
        return "sp", length
    cursor.at = at
    length = _hyphen_number(cursor)
    if draft.beginning or draft.top or (length is not None and draft.which is None):
        return "tch", length
    if length is not None:  # "in each ch-6 around"
        return "sp", length
    return "ch", None


def _hyphen_number(cursor: Cursor) -> int | None:
    """The length in "ch-2", "ch 2", "ch2"; None, with the position kept, where there is none."""
    at = cursor.at
    dash = cursor.token
    if dash.kind is Kind.DASH and (not dash.glued or len(dash.text) > 1):
        return None
    cursor.take_kind(Kind.DASH)
    if cursor.token.kind is Kind.NUMBER:
        return cursor.step().value
    cursor.at = at
    return None


def _space_of_chains(cursor: Cursor, length: int) -> tuple[str, int | None]:
    cursor.step()
    cursor.take_kind(Kind.DASH)
    cursor.step()
    cursor.take_kind(Kind.DASH)
    cursor.step()
    return "sp", length


def _stitch_name(cursor: Cursor) -> tuple[str, int | None] | None:
    at = cursor.at
    stitch = cursor.stitch()
    if stitch is None:
        return None
    cursor.take_kind(Kind.DASH)
    if cursor.token.text in GROUP_NOUNS:
        cursor.step()
        return "group", None
    if cursor.token.text in STITCH_NOUNS:
        cursor.step()
    elif cursor.tokens[cursor.at - 1].kind is Kind.DASH:
        cursor.at -= 1
    if cursor.at == at:
        return None
    return stitch.id, None


def _elliptic(cursor: Cursor, draft: _Draft, start: int) -> Target | None:
    """ "in next", "in each of next 5", "in same": the noun is left out."""
    if cursor.take_word("one", "ones"):
        pass
    elif cursor.is_word("place", "spot", "point") and draft.which is Which.SAME:
        cursor.step()
    if cursor.take_word("after"):
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
        cursor.at = at
    if draft.which is None and draft.amount is None:
        return None
    if draft.which is not None and _unknown_noun(cursor):
        cursor.step()
        return Target("group", draft.which, cursor.span_from(start), draft.amount)
    which = draft.which or Which.NEXT
    if draft.which is Which.EACH and draft.amount is not None and not draft.rest:
        which = Which.NEXT
    return Target("st", which, cursor.span_from(start), draft.amount)


_NO_NOUNS = frozenset(
    "row rnd round rows rounds side end hook time times way one ones and or then turn join with "
    "to in from of until as work working across around along rep repeat for but last next that "
    "loop loops edge corner place after before left more total only together sc dc ch".split()
)
_AFTER_NOUN = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.STAR, Kind.END)


def _unknown_noun(cursor: Cursor) -> bool:
    """A name of the writer's own for a group: "each tuft", "next petal"."""
    token = cursor.token
    if token.kind is not Kind.WORD or token.text in _NO_NOUNS or len(token.text) < 3:
        return False
    following = cursor.peek()
    return following.kind in _AFTER_NOUN or following.text in ("across", "around", "and")


def _ordinal_chain(cursor: Cursor, draft: _Draft, start: int) -> Target:
    """ "4th ch from hook", "3rd ch of beg ch-5"."""
    ordinal = draft.ordinal or 1
    if _take_from_hook(cursor):
        return Target(
            "ch", Which.NTH, cursor.span_from(start), ordinal=ordinal, from_hook=True
        )
    return Target("ch", Which.NTH, cursor.span_from(start), ordinal=ordinal)


def _take_from_hook(cursor: Cursor) -> bool:
    return cursor.take_phrase(
        "from the hook", "from hook", "from your hook", "away from hook", "away from the hook",
        "fr hook", "on hook",
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


def _after(cursor: Cursor, target: Target, start: int) -> Target:
    """What may follow the noun: "of next shell", "2 rows below", "and each sp", "to last st"."""
    if target.noun == "st" and target.ordinal and _take_from_hook(cursor):
        target = replace(target, noun="ch", which=Which.NTH, from_hook=True)
    _same_as(cursor, target)
    target = _of_group(cursor, target)
    target = _rows_below(cursor, target)
    target = _gaps(cursor, target)
    target = _and_also(cursor, target)
    target = _until(cursor, target)
    target = _left_out(cursor, target)
    return replace(target, span=cursor.span_from(start))


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


def _of_group(cursor: Cursor, target: Target) -> Target:
    at = cursor.at
    if cursor.take_phrase(
        "of the row below", "of row below", "of the previous row", "of previous row",
        "of prev row", "of last row", "of the last row", "in the row below", "below it",
        "of all", "of previous round", "of previous rnd", "of prev rnd", "of the previous round",
        "from previous row", "of the rnd below", "from the row below", "of the block below",
        "made", "of row", "of this round", "of the corner",
    ):  # fmt: skip
        return target
    if cursor.take_word("of", "on") or (target.ordinal and cursor.take_word("in", "from")):
        inner = read_target(cursor)
        if inner is not None and (
            target.ordinal or target.which in (Which.CENTRE, Which.FIRST, Which.LAST)
        ):
            if inner.noun in ("tch", "ch") and target.noun == "ch":
                return replace(target, noun="tch", chains=inner.chains)
            if inner.noun in ("tch", "ch") and target.noun == "st" and target.ordinal:
                return replace(target, noun="tch", chains=inner.chains)
            return replace(target, of=inner)
        if inner is not None and _is_space_of(target, inner):
            return replace(target, noun="sp", of=inner)
        if inner is not None and inner.noun == "tch" and target.noun in ("st", "ch"):
            return replace(target, noun="tch", chains=inner.chains, which=Which.NEXT)
    cursor.at = at
    return target


def _is_space_of(target: Target, inner: Target) -> bool:
    """ "ch-2 sp of next shell", "ch-1 of each V"."""
    named = inner.noun not in ("st", "sp", "ch", "tch")
    return named and (
        target.noun == "sp" or (target.noun == "tch" and target.chains is not None)
    )


def _take_chain_name(cursor: Cursor) -> None:
    """The chain in "base of the 3ch", whose length says nothing new."""
    cursor.take_word("the", "beg", "beginning", "turning", "same", "starting")
    at = cursor.at
    if cursor.token.kind is Kind.NUMBER:
        cursor.step()
        cursor.take_kind(Kind.DASH)
    if cursor.take_word("ch", "chain", "chs", "chains", "it", "tch"):
        _hyphen_number(cursor)
    else:
        cursor.at = at


_NEARBY = ("below", "beneath", "down", "lower", "underneath")


def _rows_below(cursor: Cursor, target: Target) -> Target:
    at = cursor.at
    cursor.take_word("of", "from", "in", "on")
    cursor.take_word("the")
    amount = cursor.number()
    if amount and cursor.take_word("row", "rows", "rnd", "rnds", "rounds", "round"):
        if cursor.take_word(*_NEARBY):
            return _over(cursor, target, max(0, (amount.at(0) or 1) - 1))
        if cursor.take_phrase("before last"):
            return replace(target, rows_below=1)
    cursor.at = at
    if cursor.take_phrase("from row", "of row", "in row", "of rnd", "in rnd", "of round"):
        if cursor.token.kind is Kind.NUMBER:
            cursor.step()
            return replace(target, rows_below=1)
    cursor.at = at
    cursor.take_word("below", "beneath", "behind")
    return target


def _over(cursor: Cursor, target: Target, down: int) -> Target:
    """ "the tr 2 rows below next dc": the place of the working edge is the one named last."""
    at = cursor.at
    cursor.take_word("in", "over", "under", "of")
    above = read_target(cursor) if cursor.token.text in NEXT_WORDS | EACH_WORDS else None
    if above is not None:
        return replace(above, rows_below=down)
    cursor.at = at
    return replace(target, noun="st", rows_below=down)


def read_rows_below(cursor: Cursor) -> Target | None:
    """ "spike sc 1 row below next st": a place told only by how far down it lies."""
    start = cursor.at
    amount = cursor.number()
    if amount and cursor.take_word("row", "rows", "rnd", "rnds", "rounds", "round"):
        if cursor.take_word(*_NEARBY):
            here = Target("st", Which.NEXT, cursor.span_from(start))
            found = _over(cursor, here, max(0, (amount.at(0) or 1) - 1))
            return replace(found, span=cursor.span_from(start))
    cursor.at = start
    return None


def _gaps(cursor: Cursor, target: Target) -> Target:
    """ "the gap between the groups", "every space between the groups"."""
    at = cursor.at
    if target.noun in ("sp", "gap") and cursor.is_word("before", "after"):
        which = Which.FIRST if cursor.step().text == "before" else Which.LAST
        inner = read_target(cursor)
        if inner is not None and inner.which in (Which.FIRST, Which.LAST):
            return replace(target, noun="gap", which=which, of=inner)
        cursor.at = at
    if cursor.take_word("between") and target.noun in ("sp", "gap"):
        cursor.take_word("the")
        inner = read_target(cursor)
        if inner is not None or cursor.take_word("it", "them"):
            other = read_target(cursor) if cursor.take_word("and") else None
            which = target.which
            if other is not None and inner is not None and inner.noun in ("tch", "ch"):
                which = Which.FIRST
            elif other is not None and other.noun in ("tch", "ch"):
                which = Which.LAST
            return replace(target, noun="gap", which=which, of=inner)
    cursor.at = at
    return target


def read_between(cursor: Cursor) -> Target | None:
    """After "between": "next 2 groups", "the first two groups and in each gap after that"."""
    start = cursor.at
    from_chain = cursor.take_word("it") and cursor.take_word("and")
    inner = read_target(cursor)
    if inner is None:
        cursor.at = start
        return None
    if from_chain:
        return Target("gap", Which.FIRST, cursor.span_from(start), of=inner)
    if inner.noun == "tch" and cursor.take_word("and"):
        read_target(cursor)
        return Target("gap", Which.FIRST, cursor.span_from(start), of=inner)
    if cursor.take_word("and"):
        after = cursor.at
        cursor.take_word("in", "into")
        other = read_target(cursor)
        if other is not None and other.noun == "gap" and other.which is Which.EACH:
            cursor.take_phrase("after that", "after it", "after them", "thereafter")
            return replace(other, span=cursor.span_from(start))
        if other is None:
            cursor.at = after - 1
    which = Which.NEXT if inner.amount else inner.which
    if inner.which in (Which.FIRST, Which.LAST, Which.EACH):
        which = inner.which
    return Target("gap", which, cursor.span_from(start), of=inner)


def _and_also(cursor: Cursor, target: Target) -> Target:
    """ "each dc and each ch-1 sp": more kinds of place taken by the same "each"."""
    if target.which is not Which.EACH:
        return target
    also = list(target.also)
    while True:
        at = cursor.at
        cursor.skip_lines()
        cursor.take_kind(Kind.COMMA)
        if not cursor.take_word("and", "&") and not cursor.take_kind(Kind.PLUS):
            cursor.at = at
            break
        cursor.take_phrase("1 in")
        cursor.take_word("in", "into", "on", "also")
        each = cursor.is_word("each", "every", "all", "the")
        other = read_target(cursor) if each or _space_ahead(cursor) else None
        if other is None or other.which not in (Which.EACH, Which.NEXT) or other.amount:
            cursor.at = at
            break
        also.append(replace(other, which=Which.EACH))
    return replace(target, also=tuple(also)) if also else target


def _space_ahead(cursor: Cursor) -> bool:
    if cursor.token.text in SPACE_NOUNS:
        return True
    return cursor.token.text == "ch" and any(
        cursor.peek(step).text in SPACE_NOUNS for step in (1, 2, 3)
    )


def _until(cursor: Cursor, target: Target) -> Target:
    """ "each st to the last 2 sts", "to next ch-2 sp", "up to the last st"."""
    if target.which is not Which.EACH or target.until is not None:
        return target
    at = cursor.at
    cursor.skip_lines()
    across(cursor)
    cursor.skip_lines()
    if cursor.take_phrase(
        "up to", "until", "to", "till", "til", "as far as", "up until", "down to"
    ):
        cursor.take_phrase(
            "you reach", "you get to", "you come to", "within", "before", "there are"
        )
        until = read_target(cursor)
        if until is not None and (until.which is not Which.EACH):
            left = cursor.take_phrase(
                "are left", "is left", "remain", "remains", "left", "are reached"
            )
            if left and until.which is Which.NEXT:
                until = replace(until, which=Which.LAST)
            return replace(target, until=until)
    cursor.at = at
    return target


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
    ):
        amount = cursor.number()
        cursor.take_word("one", "st", "sts", "stitch", "sp", "space")
        return replace(target, left_out=(amount.at(0) if amount else 1) or 1)
    cursor.at = at
    return target


def everything(span: Span) -> Target:
    """All stitches that are left: "sc across"."""
    return Target("st", Which.EACH, span)
