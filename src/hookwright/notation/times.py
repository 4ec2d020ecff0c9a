"""How often: "9 more times", "twice", "across", "to last 4 sts", "until 3 sts are left"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import (
    ACROSS_PHRASES,
    STITCH_NOUNS,
    across,
    is_chain_length,
)
from hookwright.notation.target_nouns import names_size_of_group
from hookwright.notation.targets import read_target
from hookwright.notation.tree import Amount, Often, Target, Times, Which

TOTAL = "in all"
"""What `Times` counts where a number of times takes in what was worked by hand."""
GOAL = "made in all"
"""What it counts where the number is that of things made, those before it too."""

_WORDS = {"once": 1, "twice": 2, "thrice": 3}
_TIME_WORDS = ("time", "times", "x", "xs", "tms")
_MORE = ("more", "further", "extra", "additional")
_TOTAL = Sayings(("in all", "in total", "altogether", "total", "all together", "overall"))


def read_times(cursor: Cursor) -> Times | None:
    """The words for how often, if they stand here; else None with the position kept."""
    start = cursor.at
    cursor.skip_lines()
    times = _numbered(cursor, start) or _to_last(cursor, start) or _goal(cursor, start)
    if times is not None:
        return times
    if across(cursor):
        at = cursor.at
        told = _numbered(cursor, start)
        if told is not None:  # "across 4 times"
            return told
        cursor.at = at
        cursor.take_kind(Kind.COMMA)
        last = _to_last(cursor, start) or _goal(cursor, start)
        if last is not None:
            return last
        cursor.at = at
        return Times(Often.ACROSS, cursor.span_from(start))
    cursor.at = start
    return None


_A_TOTAL = Sayings((
    "a total of", "in all", "in total", "total of", "total", "altogether", "all in all",
    "all together",
))  # fmt: skip


_ABOUT = Sayings(("another", "a further", "for", "about"))


def _numbered(cursor: Cursor, start: int) -> Times | None:
    cursor.take_any(_ABOUT)
    total = cursor.take_any(_A_TOTAL)
    amount, more = _how_many(cursor)
    if amount is None:
        cursor.at = start
        return None
    more = more or cursor.take_word(*_MORE)
    cursor.take_any(_RUNNING)
    total = total or cursor.take_phrase(*_TOTAL, "(in all)", "( in all )")
    often = Often.MORE if more else Often.TIMES
    times = Times(often, cursor.span_from(start), amount)
    return replace(times, noun=TOTAL) if total else times


_RUNNING = Sayings((
    "in succession", "in a row", "running", "one after the other", "one after another",
    "on end",
))  # fmt: skip
"""What is said of times that follow on each other: "six times in succession"."""


def _how_many(cursor: Cursor) -> tuple[Amount | None, bool]:
    """A number of times and whether it says "more"."""
    at = cursor.at
    token = cursor.token
    if token.text in _WORDS:
        cursor.step()
        return Amount((_WORDS[token.text],), token.span), False
    if cursor.take_word("x"):
        amount = cursor.number()
        if amount is not None:
            cursor.take_word(*_TIME_WORDS)
            return amount, False
        cursor.at = at
        return None, False
    closed = cursor.at > 0 and cursor.tokens[cursor.at - 1].kind is Kind.CLOSE
    amount = cursor.number()
    if amount is None:
        return None, False
    more = cursor.take_word(*_MORE)
    if cursor.take_word(*_TIME_WORDS):
        return amount, more
    if closed and not more and cursor.is_kind(*_BEHIND_BARE):
        return amount, False  # "[sc, inc] 6 (18)"
    cursor.at = at
    return None, False


_BEHIND_BARE = (Kind.OPEN, Kind.EQUALS)
"""What stands behind a bare number of times: the count."""


_REACHED = Sayings((
    *(
        f"{you}{verb}"
        for you in ("you ", "")
        for verb in ("reach", "reaching", "meet", "meeting", "get to", "come to", "hit")
    ),
    "you arrive at", "you find", "you are at", "you have", "you are left with",
    "getting to", "coming to",
))  # fmt: skip


_TO = Sayings((
    "to within", "until", "till", "til", "to", "up to", "as far as", "before", "over to"
))  # fmt: skip


_LEFT = Sayings((
    "are left", "is left", "remain", "remains", "left", "rem", "remaining", "of end",
    "of the end", "of the other end", "of the far end", "of the edge", "of the other edge",
    "from the other end", "from the far end",
    "from end", "from the end", "are reached", "before end", "unworked",
    "of row", "are still unworked",
))  # fmt: skip


_THERE_ARE = Sayings(("there are only", "there are", "there is", "only", "about", "within"))


def _to_last(cursor: Cursor, start: int) -> Times | None:
    """ "to last 4 sts", "to within 3 sts of end", "as far as the last one"."""
    at = cursor.at
    if not cursor.take_any(_TO):
        return None
    reached = cursor.take_any(_REACHED)
    cursor.take_any(_THERE_ARE)
    the = cursor.take_word("the", "your")
    last = cursor.take_word("last", "final")
    sized = is_chain_length(cursor) or names_size_of_group(cursor, counted=False)
    amount = None if sized else cursor.number()
    noun_at = cursor.at
    target = _what_is_left(cursor, counted=amount is not None)
    noun = target.noun if target is not None else "st"
    if target is None and (last or amount):
        cursor.take_word("ones")
    if (amount or last) and noun not in _NO_STITCHES and cursor.take_word("before"):
        corner = read_target(cursor)  # "to 1 st before centre ch-2 sp", "to last dc before"
        if corner is not None and corner.noun in ("sp", "corner"):
            return Times(Often.ACROSS, cursor.span_from(start), noun="corner")
    left = cursor.take_any(_LEFT)
    if target is not None and target.which is Which.LAST:
        last, amount = True, amount or target.amount
    if the and target is not None and noun == "ch" and amount and not (last or left):
        until = replace(target, amount=amount)  # "to the 3 ch"
        return Times(Often.ACROSS, cursor.span_from(start), until=until)
    if target is not None and (noun == "corner" or not amount):
        placed = _to_place(cursor, start, target, reached=reached)
        if placed is not None and not (placed.until and (last or left)):
            return placed
    if (last or left) and noun != "gap":
        amount = amount or Amount((1,), cursor.tokens[noun_at].span)
        across(cursor)
        return Times(Often.TO_LAST, cursor.span_from(start), amount, noun)
    cursor.at = at
    return None


_NO_STITCHES = ("sp", "corner", "gap", "group", "tch")


def _to_place(cursor: Cursor, start: int, target: Target, *, reached: bool) -> Times | None:
    """ "To turning ch", "to next corner", "to ch-2 sp": up to one place; else None."""
    span = cursor.span_from(start)
    if _is_at_edge(target):
        return Times(Often.TO_LAST, span, _one(cursor), "sp")
    beginning = ("tch", "ch") if reached else ("tch",)
    if target.noun in beginning:
        return _to_turning_chain(cursor, start)
    if target.noun == "corner" or target.which is Which.CENTRE:
        return Times(Often.ACROSS, span, noun="corner")
    return Times(Often.ACROSS, span, until=target) if _is_next_space(target) else None


def _what_is_left(cursor: Cursor, *, counted: bool) -> Target | None:
    """What is told to be left; None where a number alone tells it.

    In "repeat to last 2 dc in last 2" no comma stands before the stitch that is worked.
    """
    at = cursor.at
    target = read_target(cursor)
    stitch = cursor.at > at and cursor.tokens[at].text not in STITCH_NOUNS
    placed = cursor.peek().text in ("last", "next", "each", "these", "those", "top")
    if counted and stitch and cursor.is_word("in") and placed:
        cursor.at = at
        return None
    return target


def _is_at_edge(target: Target) -> bool:
    """ "To the edge space", "to turning chain sp": a space that is the last one."""
    return target.noun == "sp" and target.of is not None and target.of.noun == "tch"


def _is_next_space(target: Target) -> bool:
    """ "To next ch-2 sp", "to ch-2 sp": the first there is, of a length."""
    single = target.which is Which.NEXT and target.amount is None
    return single and target.noun == "sp" and target.chains is not None


def _one(cursor: Cursor) -> Amount:
    return Amount((1,), cursor.tokens[cursor.at - 1].span)


def _to_turning_chain(cursor: Cursor, start: int) -> Times:
    span = cursor.span_from(start)
    return Times(Often.TO_LAST, span, Amount((1,), span), "tch")


_THINGS = ("sp", "group", "block")
"""What "rep from * for 7 loops" and "to make 4 blocks" may number, and no stitches."""


def _pass_chain_counted(cursor: Cursor) -> bool:
    """ ", the first 3 of the ch-5 being counted for one", "counting the ch 3 as one"."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.OPEN)
    counted = cursor.take_word("counting", "including", "with")
    cursor.take_word("the")
    if cursor.take_word("first"):
        cursor.number()
        cursor.take_phrase("of the", "of")
    cursor.take_word("beg", "beginning", "starting", "turning")
    if cursor.take_word("ch", "chain", "chs"):
        cursor.take_kind(Kind.DASH)
        cursor.number()
        cursor.take_word("being")
        counted = cursor.take_word("counted", "counting", "counts") or counted
        one = not cursor.take_word("for", "as") or cursor.take_word("one", "a", "1", "the")
        cursor.take_word("first", "one")
        cursor.stitch()
        cursor.take_kind(Kind.CLOSE)
        if counted and one:
            return True
    cursor.at = at
    return False


_DONE = Sayings(
    ("have been made", "have been worked", "are made", "are done", "made", "worked")
)


_UNTIL = Sayings((
    "until there are", "until you have a total of", "until you have", "until",
    "for a total of", "to a total of", "to make a total of", "for", "to make",
))  # fmt: skip
NUMBER_BEGINS = frozenset(
    ("x", *_WORDS, *(word for said in (_ABOUT, _A_TOTAL, _UNTIL, ACROSS_PHRASES)
                     for word in said.by_first_word))
)  # fmt: skip
"""What words for a number of times begin with, but for the number: "across 4 times"."""


def _goal(cursor: Cursor, start: int) -> Times | None:
    """ "until there are 20 shells": up to a number of what is made."""
    at = cursor.at
    if cursor.take_any(_UNTIL):
        reached = cursor.tokens[cursor.at - 1].text in ("are", "have", "of")
        amount = cursor.number()
        for_things = cursor.tokens[at].text in ("for", "to")
        target = read_target(cursor) if amount is not None else None
        named = target is not None
        done = cursor.take_any(_DONE) | cursor.take_any(_TOTAL)
        done = done or (target is not None and for_things and target.noun in _THINGS)
        if amount is not None and _pass_chain_counted(cursor):
            amount = replace(amount, values=tuple(n and n - 1 for n in amount.values))
        if amount is not None and named and (reached or done):
            return Times(Often.TIMES, cursor.span_from(start), amount, GOAL)
    cursor.at = at
    return None
