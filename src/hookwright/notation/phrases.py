"""Phrases beside the plain stitches: further places, rings, motions, rows again."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.make_places import LAYERS
from hookwright.notation.makes import read_make
from hookwright.notation.one_place import (
    WORKED_WORDS,
)
from hookwright.notation.place_words import across, across_rest, everything
from hookwright.notation.reader import Reader
from hookwright.notation.recalls import read_recall
from hookwright.notation.spread import along_edge, tells_ends
from hookwright.notation.targets import has_own_stitches, is_list_told, read_target
from hookwright.notation.tree import (
    InOnePlace,
    Loops,
    Make,
    Means,
    Recall,
    Remark,
    Target,
    Unworked,
    Which,
    Yarn,
)
from hookwright.source import Span

ROW_ENDS = (Kind.STOP, Kind.OPEN, Kind.LINE, Kind.END, Kind.DASH, Kind.EQUALS)


_LEAVES_OUT = Sayings(
    (
        "leave out",
        "leaving out",
        "leave off",
        "do not make",
        "do not work",
        "omit",
    )
)


def read_negated(reader: Reader) -> bool:
    """ "no starting block", "without a turning ch": what is not worked is a remark."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "but")
    left_out = not reader.has_work() and cursor.take_any(_LEAVES_OUT)
    if not left_out and not cursor.take_word("no", "without", "omitting"):
        cursor.at = start
        return False
    cursor.take_word("a", "an", "the", "any")
    if cursor.stitch() is None and not cursor.take_phrase("turning ch", "beg ch"):
        cursor.at = start
        return False
    return reader.add(Remark(cursor.span_from(start)))


def read_and_in(reader: Reader) -> bool:
    """ "dc in 4th ch (counts as dc) and in each ch across": the same stitch again."""
    cursor = reader.cursor
    start = cursor.at
    last = next(
        (i for i in reversed(reader.items) if not isinstance(i, (Means, Remark))), None
    )
    if (
        not isinstance(last, Make)
        or last.target is None
        or not cursor.take_word("and", "then")
    ):
        return False
    cursor.take_word("then", "also")
    if not cursor.is_word("so") and across_rest(
        cursor
    ):  # "sc in 2nd ch from hook (it counts) and across"
        span = cursor.span_from(start)
        return reader.add(replace(last, target=everything(span), amount=None, span=span))
    bare = cursor.is_word("each", "every", "all")  # "(it counts) and each ch across"
    if not bare and not cursor.take_word("in", "into", "on", "over", "around"):
        cursor.at = start
        return False
    target = read_target(cursor)
    own = cursor.is_word(*WORKED_WORDS) or has_own_stitches(cursor)
    ended = cursor.span_from(start)
    across(cursor)
    if target is None or own or is_list_told(cursor):
        cursor.at = start
        return False
    return reader.add(replace(last, target=target, amount=None, span=ended))


def read_bare_across(reader: Reader) -> bool:
    """ "Hdc across" was read with its stitch; "across" alone goes on with the last one."""
    cursor = reader.cursor
    start = cursor.at
    if not across(cursor):
        return False
    last = reader.last()
    if isinstance(last, Make) and last.target is None:
        reader.items[-1] = replace(last, target=everything(cursor.span_from(start)))
    elif isinstance(last, Make) and last.target is not None and last.target.from_hook:
        span = cursor.span_from(start)  # "sc in 2nd ch from hook, across"
        reader.add(replace(last, target=everything(span), amount=None, span=span))
    return True


_A_ROW = Sayings(
    f"{lead}{one} {row}{of}"
    for lead in ("work ", "make ", "do ", "")
    for one in ("1", "one", "a")
    for row in ("row", "rnd", "round")
    for of in (" of", " in", "")
)


def read_row_of(reader: Reader) -> bool:
    """ "Work 1 row sc", "a row of dc": one in each stitch, and nothing else told."""
    cursor = reader.cursor
    start = cursor.at
    if reader.has_work() or reader.depth or not cursor.take_any(_A_ROW):
        cursor.at = start
        return False
    stitch = cursor.stitch()
    ends = cursor.is_kind(*ROW_ENDS, Kind.COMMA, Kind.SEMICOLON) or cursor.is_word("turn")
    if stitch is None or stitch.family != "plain" or not (ends or across(cursor)):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    return reader.add(Make(stitch.id, span, None, everything(span), stitch.loop))


_RINGS = Sayings((
    "magic ring", "magic loop", "magic circle", "mr", "mc", "adjustable ring",
    "sliding loop", "slip ring", "magic adjustable ring", "adjustable loop", "thread ring",
    "thread loop", "yarn ring", "yarn loop",
))  # fmt: skip


def read_ring(reader: Reader) -> bool:
    """ "make a magic loop with 6 dc", "MR7", "magic ring, 6 sc": a round into a ring."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("make", "work", "start", "begin", "into", "in", "form", "using")
    cursor.take_word("with", "in", "into")
    cursor.take_word("a", "an", "the")
    is_yarn = cursor.is_word("mc") and "mc" in reader.yarns  # the main colour
    if is_yarn or not cursor.take_any(_RINGS):
        cursor.at = start
        return False
    place = Target("ring", Which.SAME, cursor.span_from(start))
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.COLON, Kind.DASH)
    cursor.take_word("with", "of", "work", "and", "put")
    amount = cursor.number()
    if amount is None:
        cursor.at = at
        if cursor.token.kind is Kind.OPEN:
            cursor.at = start
            return False
        return reader.remark(place.span)
    stitch = cursor.stitch()
    listed = cursor.is_word("ch", "chain", "chs", "chains")  # "work 3 ch, 2 tr"
    if listed or (stitch is not None and stitch.family != "plain"):
        cursor.at = start
        return False
    name = stitch.id if stitch is not None else "sc"
    cursor.take_phrase("in it", "into it", "in ring", "in the ring")
    return reader.add(Make(name, cursor.span_from(start), amount, place))


_EXPLAINS = ("work", "working", "place", "placing", "make", "making", "put", "putting")


_ITS_END = (Kind.COMMA, Kind.STOP, Kind.SEMICOLON, Kind.CLOSE, Kind.STAR)


def read_explained(reader: Reader) -> bool:
    """ "spike sc in next sp: work the sc down into the row below": how, and not another."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    made = last.stitch if isinstance(last, Make) else ""
    made = last.standing if isinstance(last, Yarn) else made
    if made and reader.mark is Kind.COLON and _tells_hook(cursor):
        return reader.remark(cursor.span_from(start))
    if not made or not cursor.take_word(*_EXPLAINS) or not cursor.take_word("the"):
        cursor.at = start
        return False
    stitch = cursor.stitch()
    if stitch is None or made.split()[-1] != stitch.id.split()[-1]:
        cursor.at = start
        return False
    while not cursor.done() and cursor.token.kind not in _ITS_END:
        cursor.step()
    return reader.remark(cursor.span_from(start))


_TO_HOOK = ("put", "insert", "push", "poke", "stick", "dip", "take", "bring", "the", "your")


_MORE_WORK = (
    "ch",
    "chain",
    "sk",
    "skip",
    "miss",
    "rep",
    "repeat",
    "join",
    "turn",
    "fasten",
)


_GOES_DOWN = Sayings(
    ("go down", "reach down", "go into", "reach into", "go in", "dig down")
)


def _tells_hook(cursor: Cursor) -> bool:
    """ ": put the hook in the sp below, and close the sc round the ch": up to more work."""
    start = cursor.at
    while cursor.take_word(*_TO_HOOK):
        pass
    hook = cursor.take_word("hook") and cursor.at - start > 1
    if not hook and not cursor.take_any(_GOES_DOWN):
        cursor.at = start
        return False
    while not cursor.done() and cursor.token.kind not in _ITS_END[1:]:
        goes_on = cursor.take_kind(Kind.COMMA)
        marked = cursor.is_kind(Kind.OPEN, Kind.STAR) or cursor.is_word(*_MORE_WORK)
        if goes_on and (marked or cursor.attempt(read_make)):
            break
        if not goes_on:
            cursor.step()
    return True


_CALLED = (
    "for a", "for one", "for the", "forming a", "forming one", "to form a", "to make a",
    "which forms a", "which makes a", "this forms a", "this makes a", "makes a", "forms a",
)  # fmt: skip


def read_called(reader: Reader) -> bool:
    """ "ch 3, sl st in 3rd ch from hook for a picot": what has been made has a name."""
    cursor = reader.cursor
    start = cursor.at
    if not isinstance(reader.last(), (Make, InOnePlace)) or not cursor.take_phrase(
        *_CALLED
    ):
        return False
    stitch = cursor.stitch()
    named = stitch is not None and stitch.family in ("picot", "group", "cluster", "own")
    if not named or not (cursor.done() or cursor.token.kind in _ENDED):
        cursor.at = start
        return False
    return reader.remark(cursor.span_from(start))


_ENDED = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.STAR, Kind.OPEN)


_MOTION_WORDS = frozenset("yo yoh yrh pull draw insert".split())


def read_motion_phrase(reader: Reader) -> bool:
    """ "pull up a loop in each of 3 sts, yo and off with all 4 loops": run on the hook."""
    cursor = reader.cursor
    if not cursor.is_word(*_MOTION_WORDS):
        return False
    start = cursor.at
    at = start
    while cursor.tokens[at].kind not in (Kind.STOP, Kind.END, Kind.SEMICOLON, Kind.STAR):
        if _works_on(cursor, start, at):
            break
        at += 1
    words = {token.text for token in cursor.tokens[start:at]}
    if not words & {"loop", "loops", "lp", "lps"}:
        return False
    # Few patterns tell motions, and reading them takes modules and tables of its own.
    from hookwright.notation.hook_motions import read_motions  # noqa: PLC0415

    first, last = cursor.tokens[start], cursor.tokens[at - 1]
    motions = read_motions(reader.text[first.start : last.end], first.start)
    if motions is None or not motions.heads:
        return False
    cursor.at = at
    span = Span(first.start, last.end)
    legs = motions.passes
    name = f"{motions.base}{legs}tog" if legs > 1 else motions.base
    return reader.add(Make(name, span, legs=max(1, legs)))


def _works_on(cursor: Cursor, start: int, at: int) -> bool:
    """ "... yo and through all 3 loops, sc in next st": behind the comma is other work."""
    loops = {token.text for token in cursor.tokens[at - 3 : at]} & _LOOP_WORDS
    closed = cursor.tokens[at - 1].kind is Kind.CLOSE
    if cursor.tokens[at].kind is not Kind.COMMA or not (loops or closed):
        return False
    cursor.at = at + 1
    works = cursor.is_word(*_MORE_WORK) or cursor.attempt(read_make)
    cursor.at = start
    return works and cursor.tokens[at + 1].text != "work"


_LOOP_WORDS = frozenset("loop loops lp lps hook".split())


_LOOPS = {loop: Sayings(phrases) for loop, phrases in {
    "back": ("in back loops only", "in the back loops only", "in back loop only",
             "into back loops only", "into the back loops only", "into back loops",
             "into the back loops", "into the back loop only",
             "in the back loop only", "through back loops only", "through back loop only",
             "in back loops", "in the back loops", "through the back loops", "in blo",
             "in bl", "back loops only", "back loop only", "blo", "through the back loop",
             "working in back loops only", "working in back loop only", "working in blo",
             "in back loop throughout", "in the back loop"),
    "front": ("in front loops only", "in the front loops only", "in front loop only",
              "into front loops only", "into the front loops only", "into front loops",
              "into the front loops", "into the front loop only",
              "in the front loop only", "in front loops", "in the front loops", "in flo",
              "in fl", "front loops only", "front loop only", "flo", "working in flo",
              "working in front loops only", "through the front loops"),
    "third": ("in third loop only", "in the third loop only", "in 3rd loop only",
              "in the 3rd loop", "in third loop", "in the third loop", "third loop only",
              "in 3 lo", "3 lo", "in the 3 lo", "working in 3 lo"),
    "layers": tuple(
        f"{lead} {layers}"
        for lead in ("through", "working through", "work through") for layers in LAYERS
    ),
    "": ("under both loops", "in both loops", "through both loops", "under both lps"),
}.items()}  # fmt: skip


def read_loops(cursor: Cursor) -> str | None:
    """Words for a part of the stitch; None where none stand here."""
    for loop, sayings in _LOOPS.items():
        if cursor.take_any(sayings):
            return loop
    return None


_THIS_ROW = Sayings(
    f"{this} {row}"
    for this in ("this", "this whole", "the whole", "all of this", "for this")
    for row in ("rnd", "round", "row")
)


def read_loops_phrase(reader: Reader) -> bool:
    """ "in back loops only" for what follows; "in back loops of ..." is a place."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("but", "only")  # "same as row 2 but in the back loop only"
    cursor.take_word("work", "working", "worked")
    cursor.take_any(_THIS_ROW)
    loop = read_loops(cursor)
    if loop is None:
        cursor.at = start
        return False
    if cursor.take_word("of"):
        cursor.at = start
        return False
    return reader.add(Loops(loop, cursor.span_from(start)))


def read_recall_phrase(reader: Reader) -> bool:
    """ "rep Row 2", "as Row 3": other rows again."""
    if reader.cursor.tokens[reader.cursor.at - 1].kind is Kind.EQUALS:
        return False  # "rep = repeat" explains a word
    recall = _same_again(reader) or read_recall(reader.cursor)
    return recall is not None and reader.add(recall)


_SAME_AGAIN = Sayings(
    f"{the}same {thing}{again}"
    for the in ("the ", "")
    for thing in ("", "thing ")
    for again in ("again", "once more", "one more time")
)


_AS_BEFORE = Sayings((
    "the same", "same", "as above", "as before", "ditto", "likewise", "as the last",
    "same as before", "same as above", "the same as before", "exactly the same",
    "as the row before", "like the row before", "same as the row before", "repeat",
))  # fmt: skip
"""What is said of a row that is the one before, and nothing more."""


def _same_again(reader: Reader) -> Recall | None:
    """ "Rnd 5: same again, but ...": the row before, where nothing was worked yet."""
    start = reader.cursor.at
    explained = [token.text for token in reader.cursor.tokens[max(0, start - 2) : start]]
    if reader.has_work() or explained in (["rep", "="], ["rpt", "="]):
        return None
    alone = reader.cursor.take_any(_AS_BEFORE) and reader.cursor.is_kind(*ROW_ENDS)
    if not alone:
        reader.cursor.at = start
    if alone or reader.cursor.take_any(_SAME_AGAIN):
        return Recall((-1,), reader.cursor.span_from(start))
    reader.cursor.at = start
    return None


_UNPROVEN = (
    "at the same time", "evenly", "short row", "short rows", "tunisian", "entrelac",
)  # fmt: skip


_COMPLETES = Sayings(
    f"{end}{the}{row}{alike}"
    for end in ("complete ", "finish ")
    for the in ("the ", "")
    for row in ("round ", "rnd ", "row ", "square ", "motif ", "hexagon ", "rest ", "")
    for alike in ("as", "like", "same as", "in the same way", "to match")
)


def _shapes_ends(cursor: Cursor) -> bool:
    """ "At the same time (increasing 1 st at each end of the row)": this row's shaping."""
    at = cursor.at
    cursor.take_word("and")
    if cursor.take_phrase("at the same time") and tells_ends(cursor):
        return True
    cursor.at = at
    return False


_SENTENCE_ENDS = (Kind.STOP, Kind.SEMICOLON, Kind.LINE, Kind.CLOSE, Kind.OPEN, Kind.END)


def read_unproven(reader: Reader) -> bool:
    """ "evenly", "at the same time": work that cannot be told stitch by stitch.

    Nor can the rest of a row that is like another's: "complete the round as Rnd 3".
    """
    cursor = reader.cursor
    start = cursor.at
    if reader.has_work() and cursor.take_any(_COMPLETES):
        while not cursor.is_kind(*_SENTENCE_ENDS):
            cursor.step()
        return reader.add(Unworked(cursor.span_from(start), "completed as another"))
    if _shapes_ends(cursor):
        return True
    for phrase in _UNPROVEN:
        if cursor.take_phrase(phrase):
            return reader.add(Unworked(cursor.span_from(start), phrase))
    made = reader.last()
    bare = isinstance(made, Make) and made.target is None and made.amount is None
    if bare and cursor.is_word("down", "up") and along_edge(cursor) == "side":
        return reader.add(Unworked(cursor.span_from(start), "along a side"))
    cursor.at = start
    return False
