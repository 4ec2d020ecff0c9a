"""A list that goes on without stars, as a sentence behind it tells.

"Sc in 3, 2 sc in next st, over and over till you reach the edge", "... Keep this up to the
end of the row": what was told since the sentence began is worked until the places run out.
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Again, Item, Star, TimesMark, fold
from hookwright.notation.lexer import Kind
from hookwright.notation.ordinals import counted_on
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Chain,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Skip,
    Times,
    Turn,
    Which,
)

_ON = (
    "keep on", "keep going", "go on", "carry on", "continue", "keep changing",
    "keep alternating", "keep swapping", "keep working", "keep repeating", "keep it going",
)  # fmt: skip
_SO = ("like this", "like that", "this way", "that way", "in this way", "in that way", "so")
_KEEPS_ON = Sayings((
    "over and over again", "over and over", "again and again", "on and on",
    "time after time", "and so on", "so on", "and so forth", "keep this up", "keep that up",
    "keep it up", "keep this going", "and repeat this", "repeating this",
    *(f"{on} {so}" for on in _ON for so in _SO),
    *(f"{alternate}{these}"
      for alternate in ("alternate", "keep alternating", "keep on alternating",
                        "and so on in turn", "and so on by turns")
      for these in (" these", " these two", " these 2", " these sts", " these stitches",
                    " the two", " both", "")),
))  # fmt: skip
_UNTIL = ("till", "until", "til")
_ENDS = Sayings((
    *(
        f"{until} {the}{what} {is_} {over}"
        for until in _UNTIL
        for the in ("the ", "your ", "")
        for what in ("chain", "ch", "row", "sts", "stitches", "chains", "chs")
        for is_ in ("is", "are")
        for over in ("used up", "full", "done", "finished", "all used", "gone", "complete",
                     "all used up", "worked")
    ),
    *(
        f"{until} {you} {end}"
        for until in _UNTIL
        for you in ("you reach", "you get to", "you come to", "you are at", "you arrive at",
                    "you meet")
        for end in ("the edge", "the end of the row", "the end of the chain", "the end",
                    "the other end", "the other edge", "the far end", "the other side")
    ),
    *(
        f"{until} {out}"
        for until in _UNTIL
        for out in ("you run out of stitches", "you run out of sts",
                    "you run out of chains", "you run out of chain", "the chain runs out",
                    "no sts are left", "no stitches are left", "the sts run out",
                    "the stitches run out")
    ),
    "as far as the edge", "as far as the end", "right to the end", "right to the edge",
    "to the edge", "to the other edge", "to the other end", "to the far end",
))  # fmt: skip
TO_THE_END_SIGNS = frozenset(
    "till until til keep over again on so edge end alternate".split()
)


def read_to_the_end(reader: Reader) -> bool:
    """ "..., over and over", "... Keep this up to the end": the sentence before, again."""
    cursor = reader.cursor
    start = cursor.at
    if reader.depth or not reader.has_work() or _has_marks(reader):
        return False
    first = _sentence_before(reader, start)
    told = cursor.take_any(_KEEPS_ON)
    if told:
        cursor.take_kind(Kind.COMMA)
    ended = across(cursor) if told else False
    ended = cursor.take_any(_ENDS) or ended
    ended = (told and _pass_what_comes(cursor)) or ended
    over = cursor.is_kind(*_STOPS, Kind.OPEN) or cursor.is_word("and", "then")
    behind_mark = cursor.tokens[start - 1].kind in (*_STOPS, Kind.COMMA, Kind.DASH)
    if not (told or ended) or not behind_mark or not (over or ended):
        cursor.at = start
        return False
    body = _list_from(reader, first)
    if not _is_list(body):
        cursor.at = start
        return False
    times = Times(Often.ACROSS, cursor.span_from(start))
    del reader.items[len(reader.items) - len(body) :]
    group = counted_on(_of_any_place(fold(body)))
    return reader.add(Repeat(group, times, group[0].span.to(times.span)))


_COMES = Sayings(
    f"and {you} {get}"
    for you in ("you", "you will", "you'll", "you should")
    for get in ("get", "have", "end with", "end up with", "make", "finish with")
)


def _pass_what_comes(cursor: Cursor) -> bool:
    """ "(Keep this up) and you get four scallops out of the row": no further work."""
    if not cursor.take_any(_COMES):
        return False
    while not cursor.is_kind(*_STOPS, Kind.OPEN, Kind.COMMA):
        cursor.step()
    return True


_STOPS = (Kind.STOP, Kind.SEMICOLON, Kind.COLON, Kind.LINE, Kind.END)


def _has_marks(reader: Reader) -> bool:
    """Whether stars tell already what is repeated."""
    return any(isinstance(item, (Star, Again, TimesMark)) for item in reader.items)


def _sentence_before(reader: Reader, at: int) -> int:
    """Where in the text the sentence begins that ends here, or has just ended."""
    tokens = reader.cursor.tokens
    at -= 1
    if at >= 0 and tokens[at].kind in _STOPS:
        at -= 1
    while at >= 0 and tokens[at].kind not in _STOPS:
        at -= 1
    return tokens[at].end if at >= 0 else 0


def _list_from(reader: Reader, first: int) -> list[Item]:
    """What was told from a place of the text on, without what a row begins with."""
    items = reader.items
    begin = next((i for i, item in enumerate(items) if _start(item) >= first), len(items))
    turns = [i for i, item in enumerate(items) if isinstance(item, Turn)]
    if turns and turns[-1] >= begin:
        begin = turns[-1] + 1
        if begin < len(items) and isinstance(items[begin], Chain) and begin < _EARLY:
            begin += _begins_row(items, begin)
    elif begin == 0 and isinstance(items[0], Chain):
        begin += _begins_row(items, 0)
    while begin < len(items) and isinstance(items[begin], Remark):
        begin += 1
    return items[begin:]


_EARLY = 2


def _begins_row(items: list[Item], at: int) -> bool:
    """Whether a chain is the one of the turn, and none that stands over a gap."""
    behind = items[at + 1] if at + 1 < len(items) else None
    return not isinstance(behind, Skip)


def _start(item: Item) -> int:
    return -1 if isinstance(item, TimesMark) else item.span.start


def _is_list(body: list[Item]) -> bool:
    """Whether several things are told, and none of them goes over the whole row."""
    work = [item for item in body if not isinstance(item, Remark)]
    several = len(work) > 1 and any(isinstance(item, Make) for item in work)
    whole = any(
        isinstance(item, Make)
        and item.target is not None
        and (
            item.target.from_hook
            or item.target.which is Which.LAST
            or (item.target.which is Which.EACH and item.target.amount is None)
        )
        for item in work
    )
    return several and not whole and all(isinstance(i, (Make, Chain, Skip)) for i in work)


def _of_any_place(body: tuple[Node, ...]) -> tuple[Node, ...]:
    """ "In the first dc 1 dc, in the next ...": each time it is the next one."""
    first = next((i for i, node in enumerate(body) if isinstance(node, Make)), 0)
    node = body[first]
    if not isinstance(node, Make) or node.target is None:
        return body
    if node.target.which is not Which.FIRST or node.target.amount is not None:
        return body
    each_time = replace(node, target=replace(node.target, which=Which.NEXT))
    return (*body[:first], each_time, *body[first + 1 :])
