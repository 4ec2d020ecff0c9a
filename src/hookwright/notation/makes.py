"""Stitches, chains and skips: the phrases that work something."""

from __future__ import annotations

from dataclasses import replace

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.targets import (
    CHAIN_NOUNS,
    EACH_WORDS,
    LAST_WORDS,
    NEXT_WORDS,
    PREPOSITIONS,
    REST_WORDS,
    SAME_WORDS,
    SPACE_NOUNS,
    STITCH_NOUNS,
    across,
    everything,
    read_between,
    read_ordinal_from_hook,
    read_rows_below,
    read_target,
)
from hookwright.notation.tree import Amount, Chain, Make, Skip, Target, Which
from hookwright.notation.vocabulary import StitchWord

_LEAD_WORDS = (
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
_MORE_WORDS = ("more", "other", "further")
_SKIP = ("skip", "sk", "miss", "skipping", "omit", "ms", "skp", "missing", "seek")


def starts_with_size_list(cursor: Cursor) -> bool:
    """Whether a bracket here is a list of sizes that begins a phrase: "(52, 58, 64) dc"."""
    return cursor.attempt(lambda c: c.number())


def read_chain(cursor: Cursor) -> Chain | None:
    """ "ch 3", "chain 36", "3ch", "5 chains"; None where a chain is only named."""
    start = cursor.at
    cursor.take_word(*_LEAD_WORDS)
    amount = cursor.number()
    if amount is not None:
        chained = cursor.token.text in CHAIN_NOUNS and not _names_place(cursor, 1)
        if not chained:
            cursor.at = start
            return None
        cursor.step()
        return Chain(amount, cursor.span_from(start))
    if not cursor.take_word("ch", "chain", "chs", "chains", "chained"):
        cursor.at = start
        return None
    named = cursor.token.kind is Kind.DASH and cursor.token.glued
    cursor.take_kind(Kind.DASH)
    one = cursor.take_word("a", "an") and not cursor.take_word("multiple")
    amount = cursor.number()
    if (
        amount is None
        or one
        or (named and _names_place(cursor, 0))
        or _names_place(cursor, 0)
    ):
        cursor.at = start
        return None
    return Chain(amount, cursor.span_from(start))


def _names_place(cursor: Cursor, ahead: int) -> bool:
    """Whether a space noun follows: "ch 2 sp" is a place, not an instruction."""
    token = cursor.peek(ahead)
    if token.kind is Kind.DASH:
        token = cursor.peek(ahead + 1)
    return token.text in SPACE_NOUNS or token.text in ("from",)


def read_skip(cursor: Cursor) -> Skip | None:
    """ "sk 2", "miss next st", "pass over 2 sts", "leave 3 sts unworked"."""
    start = cursor.at
    cursor.take_word("and", "then", "but")
    left = cursor.take_phrase("leave", "leaving") and cursor.token.kind is Kind.NUMBER
    if (
        not left
        and not cursor.take_word(*_SKIP)
        and not cursor.take_phrase("pass over", "passing over")
    ):
        cursor.at = start
        return None
    cursor.take_word("over")
    target = read_target(cursor)
    if target is None:
        target = Target("st", Which.NEXT, cursor.span_from(start))
    cursor.take_phrase("unworked", "free", "for now", "as before", "between")
    return Skip(target, cursor.span_from(start))


def read_make(cursor: Cursor, likely: str = "") -> list[Make] | None:
    """Stitches with their places. `likely` reads the next unknown word as that stitch."""
    start = cursor.at
    cursor.take_word(*_LEAD_WORDS)
    amount = cursor.number()
    if amount is not None:
        cursor.take_word(*_MORE_WORDS)
    elif cursor.is_word("a", "an", "another"):
        amount = _article(cursor)
    stitch = _stitch(cursor, likely)
    if stitch is None:
        cursor.at = start
        return _square(cursor, likely)
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
    make = _loop_behind(cursor, make)
    make = _placed(cursor, make, stitch)
    make = _times_behind(cursor, make)
    make = replace(make, span=cursor.span_from(start))
    return [make, *_more_places(cursor, make)]


_OPEN_SQUARES = frozenset("sp sps space spaces mesh meshes hole holes".split())
_SOLID_SQUARES = frozenset("block blocks bl bls blk blks".split())


def _square(cursor: Cursor, likely: str) -> list[Make] | None:
    """ "7 blocks", "4 open meshes", "9 sps": squares of filet, where they are what is worked."""
    start = cursor.at
    before = cursor.tokens[start - 1] if start else cursor.token
    amount = None if before.kind is Kind.DASH or before.text == "ch" else cursor.number()
    if amount is None or likely:
        cursor.at = start
        return None
    solid = cursor.take_word("solid", "filled", "closed")
    opened = cursor.take_word("open")
    word = cursor.token.text
    cursor.step()
    known = word in _SOLID_SQUARES or word in _OPEN_SQUARES
    ends = cursor.token.kind in (
        Kind.COMMA,
        Kind.STOP,
        Kind.SEMICOLON,
        Kind.END,
        Kind.LINE,
        Kind.CLOSE,
        Kind.STAR,
    ) or cursor.is_word("and", "turn")
    if not known or not ends:
        cursor.at = start
        return None
    solid = solid or (word in _SOLID_SQUARES and not opened)
    name = "solid mesh" if solid else "open mesh"
    return [Make(name, cursor.span_from(start), amount)]


def _article(cursor: Cursor) -> Amount:
    token = cursor.step()
    return Amount((1,), token.span)


def _stitch(cursor: Cursor, likely: str) -> StitchWord | None:
    at = cursor.at
    stitch = cursor.stitch()
    if stitch is None and cursor.take_word(*_KIND_WORDS):
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
    word = Token(Kind.WORD, likely, 0, 0, 0, False)
    return Cursor(
        [word, Token(Kind.END, "", 0, 0, 0, False)], own_words=cursor.own_words
    ).stitch()


def _number_behind(cursor: Cursor, make: Make) -> Make:
    """ "sc 5", "dc 2x", "inc x 6", "dec 7 times"."""
    if make.amount is not None:
        return make
    at = cursor.at
    if cursor.take_kind(Kind.DASH) and not cursor.tokens[at].glued:
        cursor.at = at
        return make
    if cursor.take_word("x", "×") or (cursor.token.text == "×" and cursor.step()):
        amount = cursor.number()
        if amount is not None:
            return replace(make, amount=amount)
        cursor.at = at
        return make
    amount = cursor.number()
    if amount is None or cursor.is_word("row", "rows", "rnd", "rnds", "round", "rounds"):
        cursor.at = at
        return make
    if cursor.take_word("x", "×", "times", "time"):
        return replace(make, amount=amount)
    if cursor.token.text in ("more", "st", "sts") and cursor.peek().text in (
        "times",
        "time",
    ):
        cursor.at = at
        return make
    return replace(make, amount=amount)


def _times_behind(cursor: Cursor, make: Make) -> Make:
    """ "dec (3 times)", "inc x 6", "dec 7 times" after a bare stitch."""
    if make.target is not None:
        return make
    at = cursor.at
    bracket = cursor.take_kind(Kind.OPEN)
    crossed = cursor.take_word("x") or (cursor.token.text == "×" and bool(cursor.step()))
    amount = cursor.number()
    if amount is not None and (cursor.take_word("times", "time", "x") or crossed):
        if not bracket or cursor.take_kind(Kind.CLOSE):
            return replace(make, amount=_product(make.amount, amount))
    cursor.at = at
    if cursor.take_word("twice") and make.amount is None:
        return replace(make, amount=Amount((2,), cursor.tokens[at].span))
    cursor.at = at
    return make


def _product(first: Amount | None, second: Amount) -> Amount:
    if first is None:
        return second
    values = tuple(
        None if value is None or first.at(i) is None else value * (first.at(i) or 0)
        for i, value in enumerate(second.values)
    )
    return Amount(values, first.span.to(second.span))


_LOOPS = {
    "blo": "back", "bl": "back", "flo": "front", "fl": "front", "blonly": "back",
    "tbl": "back", "blp": "back", "flp": "front",
}  # fmt: skip
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


def _loop_behind(cursor: Cursor, make: Make) -> Make:
    """ "hdc BLO in 8 sts", "sc in back loop of next st", "dc through back loops only"."""
    at = cursor.at
    cursor.take_word("in", "into", "through", "thru", "under")
    cursor.take_word("the", "each")
    token = cursor.token
    loop = _LOOPS.get(token.text, "")
    if loop:
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
        cursor.take_word("only")
    if not loop:
        cursor.at = at
        return make
    cursor.take_word("only")
    cursor.take_word("of", "in", "on")
    loop = loop.replace("both", "")
    if cursor.attempt(read_target):
        return replace(make, loop=loop, target=read_target(cursor))
    return replace(make, loop=loop)


_BARE_PLACE = (
    NEXT_WORDS | EACH_WORDS | LAST_WORDS | REST_WORDS | SAME_WORDS | {"first", "1st"}
)


def _placed(cursor: Cursor, make: Make, stitch: StitchWord) -> Make:
    """The place after a stitch: with a preposition, or bare ("dc next 4")."""
    at = cursor.at
    cursor.skip_lines()
    if make.target is not None:
        across(cursor)
        return make
    cursor.take_word(
        "together",
        "tog",
        "evenly",
        "only",
        "each",
        "all",
        "both",
        "worked",
        "made",
        "st",
        "sts",
    ) if _preposition(cursor, 1) else None
    if stitch.family == "slip" and _colour_between(cursor):
        cursor.step()
    target = _place(cursor, make) or read_rows_below(cursor)
    if (
        target is None
        and cursor.token.kind is Kind.WORD
        and cursor.token.text in _BARE_PLACE
    ):
        target = read_target(cursor)
    if target is None and cursor.token.text == "there" and cursor.peek().text != "are":
        target = read_target(cursor)
    if target is not None:
        _across_after(cursor, target)
        return replace(make, target=target)
    start = cursor.at
    if across(cursor) and not (stitch.post and _names_post(cursor)):
        return replace(make, target=_all_or_until(cursor, start))
    cursor.at = at
    return make


def _colour_between(cursor: Cursor) -> bool:
    """ "sl st rose into the st after it": the yarn is named in passing."""
    word = cursor.token
    plain = word.kind is Kind.WORD and word.text not in PREPOSITIONS
    return plain and cursor.peek().text in ("in", "into") and cursor.stitch_at() is None


def _all_or_until(cursor: Cursor, start: int) -> Target:
    """ "sc across", "sc across to last 2 sts"."""
    whole = everything(cursor.span_from(start))
    at = cursor.at
    if cursor.take_word("to", "until", "till"):
        until = read_target(cursor)
        if until is not None and until.which is Which.LAST:
            return replace(whole, until=until, span=cursor.span_from(start))
    cursor.at = at
    return whole


def _across_after(cursor: Cursor, target: Target) -> None:
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


def _place(cursor: Cursor, make: Make) -> Target | None:
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
        if cursor.take_word("between"):
            return read_between(cursor)
        found = read_ordinal_from_hook(cursor) or read_target(cursor)
        if found is None and cursor.take_phrase("the post of", "post of"):
            found = read_target(cursor)
        if found is not None:
            return found
        cursor.at = start
        return None
    if cursor.take_word("around", "round", "from", "across"):
        cursor.take_phrase(
            "the post of", "post of", "the posts of", "posts of", "the post", "post"
        )
        target = read_target(cursor)
        specific = target is not None and (target.noun != "here")
        if (
            specific
            and (make.post or word in ("around", "round"))
            and _is_post_place(target)
        ):
            return target
    cursor.at = start
    return None


def _is_post_place(target: Target | None) -> bool:
    return target is not None and target.noun not in ("tch", "ring", "gap")


def _more_places(cursor: Cursor, make: Make) -> list[Make]:
    """ "sc in 2nd ch from hook and in next 3 chs": the same stitch in further places."""
    result: list[Make] = []
    if make.target is None:
        return result
    while True:
        at = cursor.at
        cursor.skip_lines()
        cursor.take_kind(Kind.COMMA)
        if not cursor.take_word("and", "&", "then"):
            cursor.at = at
            return result
        cursor.take_word("then", "also")
        again = _number_then_place(cursor)
        prepared = cursor.take_word("in", "into", "on", "over", "around")
        bare = cursor.token.text in _BARE_PLACE or cursor.token.text in ("the", "all")
        target = read_target(cursor) if prepared or bare else None
        if target is None or cursor.is_word("work", "make", "sc", "dc", "hdc", "tr"):
            cursor.at = at
            return result
        _across_after(cursor, target)
        result.append(
            replace(
                make,
                target=target,
                span=cursor.span_from(at),
                amount=again or _carried(make),
            )
        )


def _number_then_place(cursor: Cursor) -> Amount | None:
    """ "and one in the top of the chain": the stitch is not named again."""
    at = cursor.at
    amount = cursor.number()
    if amount is not None and cursor.is_word("in", "into", "on"):
        return amount
    cursor.at = at
    return None


def _carried(make: Make) -> Amount | None:
    """Whether "2 dc in first and in each st" means two in each: only a plain 1 is carried."""
    return make.amount if make.amount and make.amount.values == (1,) else None
