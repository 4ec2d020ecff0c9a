"""What is a bracket for: one place, a repeat, a count, a meaning, a name or a remark?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.by_turns import take_by_turns
from hookwright.notation.claims import read_claim, takes_change
from hookwright.notation.colour_counts import read_colour_bracket
from hookwright.notation.cursor import Cursor
from hookwright.notation.fold import fold
from hookwright.notation.label_words import ROUND_NAMES, ROW_NAMES
from hookwright.notation.lexer import Kind
from hookwright.notation.one_place import where_it_begins
from hookwright.notation.ordinals import counted_on
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.recalls import read_recall
from hookwright.notation.row_numbers import ROW_WORDS
from hookwright.notation.said_of_work import (
    meaning_in_claim,
    names_what_was_made,
    tells_meaning,
    tells_otherwise,
    tells_place_again,
    tells_which_it_is,
)
from hookwright.notation.spelled_out import names_group, take_lead, what_it_is
from hookwright.notation.stars import read_bracketed_times, take_bracketed_times
from hookwright.notation.targets import read_between, read_ordinal_from_hook, read_target
from hookwright.notation.times import read_times
from hookwright.notation.tree import (
    DEEPEST,
    TOO_DEEP,
    Chain,
    Evenly,
    InOnePlace,
    Make,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Target,
    Times,
    Turn,
    Unread,
    Which,
)
from hookwright.notation.work import is_work
from hookwright.source import Span


def read_bracket(reader: Reader) -> bool:
    """A bracket, whose job is told by the word after it, then by what it holds.

    False for a list with one number a size, which begins a phrase: "(52, 58, 64) dc".
    """
    cursor = reader.cursor
    start = cursor.at
    if _too_deep(reader):
        return True
    if take_lead(reader):
        return _group_bracket(reader, start)
    if tells_place_again(reader) or tells_meaning(reader) or _recall_bracket(reader):
        return True
    if names_what_was_made(reader) or tells_otherwise(reader) or tells_which_it_is(reader):
        return True
    if read_bracketed_times(reader) or _tells_change(reader):
        return True
    if cursor.attempt(lambda c: c.number()):
        return _counts_each_size(reader)
    if read_colour_bracket(reader):
        return True
    cursor.step()
    return _claim_bracket(reader, start) or _group_bracket(reader, start)


def _counts_each_size(reader: Reader) -> bool:
    """ "... in each st (66 (72, 78))", "(18, 24, 30)": a count, and the end of the row."""
    cursor = reader.cursor
    start = cursor.at
    amount = cursor.number()
    ends = cursor.is_kind(Kind.STOP, Kind.LINE, Kind.END)
    ends = ends and amount is not None and len(amount.values) == cursor.sizes
    cursor.at = start + 1
    if ends and reader.has_work() and not reader.depth and _claim_bracket(reader, start):
        return True
    cursor.at = start
    return False


def _tells_change(reader: Reader) -> bool:
    """ "(+2)", "(-1 st)", "(2 increases)": no count, but how far it differs."""
    cursor = reader.cursor
    start = cursor.at
    if reader.has_work() and cursor.take_kind(Kind.OPEN) and takes_change(cursor):
        cursor.step()
        if not _used_as_repeat(reader):
            return reader.remark(cursor.span_from(start))
    cursor.at = start
    return False


def _group_bracket(reader: Reader, start: int) -> bool:
    """What stands in a bracket, up to its end, as what the words behind it make of it."""
    inner = reader.inner()
    inner.read_all()
    closed = reader.cursor.take_kind(Kind.CLOSE)
    _use_bracket(reader, inner, reader.cursor.span_from(start), closed=closed)
    return True


def _too_deep(reader: Reader) -> bool:
    """Brackets deeper than anybody writes are passed over, not walked into."""
    if reader.depth < DEEPEST:
        return False
    cursor = reader.cursor
    start = cursor.at
    while not cursor.done():
        cursor.step()
    return reader.add(Unread(cursor.span_from(start), TOO_DEEP))


def _recall_bracket(reader: Reader) -> bool:
    """ "[Rep rows 2 and 3] 42 times", "[R2 and R3] 6 times"."""
    cursor = reader.cursor
    start = cursor.at
    told = cursor.peek().text in ("rep", "repeat", "rpt")
    if not told and cursor.peek().text not in ROW_WORDS:
        return False
    recall = read_recall(cursor)
    if recall is None or not (told or recall.times):
        cursor.at = start
        return False
    return reader.add(recall)


def _claim_bracket(reader: Reader, start: int) -> bool:
    cursor = reader.cursor
    at = cursor.at
    claim = read_claim(cursor)
    if claim is None or not _closes(cursor):
        cursor.at = at
        return False
    cursor.step()
    if _used_as_repeat(reader) or (not reader.has_work() and reader.depth == 0):
        cursor.at = at
        return False
    if reader.depth and not isinstance(reader.last(), Make):
        cursor.at = at
        return False
    reader.claims.append(replace(claim, span=cursor.span_from(start)))
    meaning_in_claim(reader, start)
    return True


def _closes(cursor: Cursor) -> bool:
    if cursor.token.kind is Kind.STOP and cursor.peek().kind is Kind.CLOSE:
        cursor.step()
    return cursor.token.kind is Kind.CLOSE


def _used_as_repeat(reader: Reader) -> bool:
    """Whether the next words make a bracket a group: "(24 sc) in ring", "(2 dc) twice"."""
    cursor = reader.cursor
    if cursor.is_word("in", "into", "all", "there") or cursor.attempt(_place_below):
        return True
    if cursor.is_word("around", "across"):  # "(24 sc) around." may be a count
        following = cursor.peek()
        return following.kind is Kind.WORD and following.text not in ("turn", "join")
    return cursor.attempt(read_times)


def _place_below(cursor: Cursor) -> Target | None:
    """ "*(3 tr, 2 ch, 3 tr)" at the end of a line, and "in next sp" below it."""
    if not cursor.is_kind(Kind.LINE) or cursor.token.value > 1:
        return None
    cursor.step()
    target = read_target(cursor) if cursor.take_word("in", "into") else None
    return None if cursor.is_word(*ROW_NAMES, *ROUND_NAMES) else target


def _use_bracket(reader: Reader, inner: Reader, span: Span, *, closed: bool) -> None:
    """A bracket as a group in one place, a repeat, part of the row, or a remark."""
    cursor = reader.cursor
    body = fold(inner.items)
    if not any(is_work(node) for node in body):
        if not body or not _keep_marks(reader, body):
            _remark(reader, span)
        return
    at = cursor.at
    cursor.skip_lines()
    times_found = take_by_turns(cursor)
    told = _along_so_often(cursor) or times_found is not None
    target = None if told else where_it_begins(reader, _place_after(reader))
    if target is not None:
        _put_in_place(reader, InOnePlace(body, target, cursor.span_from(at).to(span)), span)
        return
    if times_found is None:
        cursor.at = at
        times_found = _repeated(cursor)
    if times_found is None:
        led = cursor.take_word("rep", "repeat", "repeated")
        if led and cursor.is_word("from"):  # but "[ch 1, sk 1, dc in next] rep to end"
            cursor.at = at
        times_found = read_times(cursor)
        cursor.at = cursor.at if times_found else at
    if times_found is not None:
        full = span.to(times_found.span)
        repeat = Repeat(counted_on(body), times_found, full, mark="(")
        reader.add(_all_in_one(reader, repeat) or repeat)
        return
    if _is_remark(inner, reader, span):
        _remark(reader, span)
        return
    _forget_recall(reader, body)
    reader.items.extend(body)
    if not closed:
        reader.sentence = len(reader.items)


def _forget_recall(reader: Reader, body: tuple[Node, ...]) -> None:
    """Where a bracket tells all of a row, the row that it is like is worked no more."""
    if _tells_row_again(reader, body):
        reader.items[:] = [item for item in reader.items if not isinstance(item, Recall)]


def _tells_row_again(reader: Reader, body: tuple[Node, ...]) -> bool:
    """ "Like the first, but over sts (ch 1, turn, sc in every hdc)": all of the row."""
    quiet = (Recall, Remark, Chain, Turn)
    recalls = any(isinstance(item, Recall) for item in reader.items)
    if not recalls or not all(isinstance(item, quiet) for item in reader.items):
        return False
    begun = bool(body) and isinstance(body[0], (Chain, Turn))
    return begun and any(
        isinstance(node, Make)
        and node.target is not None
        and node.target.which is Which.EACH
        and node.target.amount is None
        for node in body
    )


def _put_in_place(reader: Reader, group: InOnePlace, bracket: Span) -> None:
    """The group, in the place of the name that it spells out, and in further places."""
    if names_group(reader, bracket):
        reader.items.pop()
        group = replace(group, body=what_it_is(group.body))
    reader.add(group)
    _further_places(reader, group.body)


def _along_so_often(cursor: Cursor) -> bool:
    """ "(Sc 4, sc2tog) around 4 times": no place is named, but how often."""
    at = cursor.at
    along = cursor.take_word("around", "round", "across") and cursor.is_kind(Kind.NUMBER)
    times = read_times(cursor) if along else None
    cursor.at = at
    return times is not None and times.often in (Often.TIMES, Often.MORE)


def _repeated(cursor: Cursor) -> Times | None:
    """ "(1 sc, inc) rep 6.", "(1 sc, inc) (6x)": right behind a bracket no row is named."""
    at = cursor.at
    bracketed = take_bracketed_times(cursor)
    if bracketed is not None:
        return bracketed
    amount = cursor.number() if cursor.take_word("rep", "repeat", "rpt") else None
    ends = (Kind.STOP, Kind.OPEN, Kind.END, Kind.LINE, Kind.COMMA, Kind.SEMICOLON)
    if amount is None or not cursor.is_kind(*ends):
        cursor.at = at
        return None
    return Times(Often.TIMES, cursor.span_from(at), amount)


def _remark(reader: Reader, span: Span) -> None:
    """A remark, also between a stitch and its place: "3 dc (instead of 5) in last sc"."""
    last = reader.last()
    at = len(reader.items) - 1
    reader.remark(span)
    cursor = reader.cursor
    start = cursor.at
    bare = isinstance(last, Make) and last.target is None and reader.items[at] is last
    target = _place_after(reader) if bare and cursor.is_word("in", "into") else None
    if isinstance(last, Make) and target is not None and target.amount is None:
        reader.items[at] = replace(last, target=target)
    else:
        cursor.at = start


def _further_places(reader: Reader, body: tuple[Node, ...]) -> None:
    """ "(dc, ch 1, dc) in same sp and in each sp around": the group in more places."""
    cursor = reader.cursor
    while True:
        at = cursor.at
        cursor.skip_lines()
        cursor.take_kind(Kind.COMMA)
        target = _place_after(reader) if cursor.take_word("and", "then") else None
        if target is None:
            cursor.at = at
            return
        across(cursor)
        reader.add(InOnePlace(body, target, cursor.span_from(at)))


def _all_in_one(reader: Reader, repeat: Repeat) -> InOnePlace | None:
    """ "(3 dc, ch 2) 4 times in ring", "(tr, ch 1) twice in next sp": all in one place."""
    cursor = reader.cursor
    at = cursor.at
    target = _place_after(reader) if cursor.is_word("all", "in", "into") else None
    one = target is not None and target.amount is None and target.which is not Which.EACH
    placeless = all(isinstance(n, Make | Chain) and not _placed(n) for n in repeat.body)
    if target is not None and (target.noun == "ring" or (one and placeless)):
        return InOnePlace((repeat,), target, cursor.span_from(at).to(repeat.span))
    cursor.at = at
    return None


def _placed(node: Make | Chain) -> bool:
    return isinstance(node, Make) and node.target is not None


def _keep_marks(reader: Reader, body: tuple[Node, ...]) -> bool:
    """Turns, yarns and loops said in a bracket still hold."""
    kept = [node for node in body if not isinstance(node, (Remark, Unread))]
    reader.items.extend(kept)
    return bool(kept)


def _is_remark(inner: Reader, reader: Reader, span: Span) -> bool:
    """An explanation in brackets: mostly other words, or right behind what it explains."""
    body = inner.items
    if any(isinstance(item, Remark) for item in body) or _tells_how(inner, reader, span):
        return True
    if _spells_out_picot(inner, reader, span):
        return True
    work = [item for item in body if is_work(item)]
    bare = all(isinstance(item, Make) and item.target is None for item in work)
    return bare and bool(reader.items) and isinstance(reader.items[-1], (Make, InOnePlace))


def _spells_out_picot(inner: Reader, reader: Reader, span: Span) -> bool:
    """ "picot (ch 3, sl st in 3rd ch from hook)": what it is, right behind its name."""
    last = reader.last()
    if not isinstance(last, Make) or last.stitch != "picot" or last.target is not None:
        return False
    if reader.text[last.span.end : span.start].strip():
        return False
    return bool(inner.items) and isinstance(inner.items[0], Chain)


def _tells_how(inner: Reader, reader: Reader, span: Span) -> bool:
    """Whether stitches along a side stand before: "40 sc up the side (2 in each row)"."""
    last = reader.last()
    if not isinstance(last, Evenly) or reader.text[last.span.end : span.start].strip():
        return False
    targets = [t for item in inner.items if (t := getattr(item, "target", None))]
    return all(target.which is Which.EACH for target in targets)


def _place_after(reader: Reader) -> Target | None:
    """The place named after a bracket: "in next sp", "all in next ch", "there"."""
    cursor = reader.cursor
    at = cursor.at
    if cursor.is_kind(Kind.COMMA) and cursor.peek().text == "always":
        cursor.step()  # "Spine: (2 dc, ch 2, 2 dc), always in the centre sp"
    cursor.take_word("always")
    cursor.take_word("all", "worked", "made", "work")
    if cursor.is_word("there"):
        return read_target(cursor)
    if cursor.take_word("between"):
        return read_between(cursor)
    if cursor.take_word("in", "into", "over", "on", "around", "under"):
        found = read_ordinal_from_hook(cursor) or read_target(cursor)
        if found is not None:
            return found
    cursor.at = at
    if cursor.is_word("next", "same") and cursor.peek(1).kind in (Kind.WORD, Kind.NUMBER):
        bare = read_target(cursor)  # "(3 tr, ch 2, 3 tr) next space"
        if bare is not None and bare.noun in ("sp", "corner", "gap"):
            return bare
    cursor.at = at
    return None
