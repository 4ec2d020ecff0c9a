"""What is a bracket for: one place, a repeat, a count, a meaning, a name or a remark?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.chain_phrases import draw_together, give_meaning, speaks_of_chain
from hookwright.notation.chains import Meaning, meaning_of, says_what
from hookwright.notation.claims import read_claim
from hookwright.notation.colour_counts import read_colour_bracket
from hookwright.notation.cursor import Cursor
from hookwright.notation.fold import Item, TimesMark, fold
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.one_place import where_it_begins
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.recalls import read_recall
from hookwright.notation.targets import read_between, read_ordinal_from_hook, read_target
from hookwright.notation.times import read_times
from hookwright.notation.tree import (
    DEEPEST,
    TOO_DEEP,
    Chain,
    Evenly,
    InOnePlace,
    Make,
    Means,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Role,
    Skip,
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
    if _meaning(reader) or _recall_bracket(reader) or _naming(reader):
        return True
    if _place_again(reader) or _tells_otherwise(reader):
        return True
    if cursor.attempt(lambda c: c.number()):
        return False
    if read_colour_bracket(reader):
        return True
    cursor.step()
    if _claim_bracket(reader, start):
        return True
    inner = reader.inner()
    inner.read_all()
    closed = cursor.take_kind(Kind.CLOSE)
    span = cursor.span_from(start)
    _use_bracket(reader, inner, span, closed=closed)
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


def _inside(cursor: Cursor) -> tuple[list[Token], int]:
    """The tokens of the bracket here, and the position after it."""
    at, depth = cursor.at, 0
    tokens = []
    while cursor.tokens[at].kind is not Kind.END:
        token = cursor.tokens[at]
        depth += (token.kind is Kind.OPEN) - (token.kind is Kind.CLOSE)
        at += 1
        if depth == 0:
            break
        tokens.append(token)
    return tokens[1:], at


def _recall_bracket(reader: Reader) -> bool:
    """ "[Rep rows 2 and 3] 42 times"."""
    cursor = reader.cursor
    if cursor.peek().text not in ("rep", "repeat", "rpt"):
        return False
    recall = read_recall(cursor)
    return recall is not None and reader.add(recall)


_OTHERWISE = (("in", "place", "of"), ("instead", "of"))


def _tells_otherwise(reader: Reader) -> bool:
    """ "Work same as front, omitting bobbles (work sc in place of each bobble)"."""
    if not any(isinstance(item, Recall) and item.part for item in reader.items):
        return False
    tokens, after = _inside(reader.cursor)
    words = tuple(token.text for token in tokens)
    said = any(
        words[at : at + len(told)] == told
        for told in _OTHERWISE for at in range(len(words))
    )  # fmt: skip
    if not said:
        return False
    start, reader.cursor.at = reader.cursor.at, after
    return reader.remark(reader.cursor.span_from(start))


_IN_THE_MIDDLE = frozenset("middle centre center central".split())


def _place_again(reader: Reader) -> bool:
    """ "dc in next st (4th of the 7 tr in the shell)": the place, told once more."""
    last = reader.last()
    if not isinstance(last, (Make, InOnePlace)) or last.target is None:
        return False
    tokens, after = _inside(reader.cursor)
    words = [token.text for token in tokens]
    while words and words[0] in ("this", "that", "it", "is", "the", "which"):
        tokens, words = tokens[1:], words[1:]
    counted = bool(tokens) and tokens[0].kind is Kind.ORDINAL
    if not (counted or (words and words[0] in _IN_THE_MIDDLE)) or "of" not in words[1:3]:
        return False
    span = reader.cursor.token.span
    reader.cursor.at = after
    return reader.remark(span.to(reader.cursor.span_from(after - 1)))


_NAMES = frozenset({"made", "completed", "formed"})


_CALLS = (("this", "is"), ("that", "is"), ("it", "is"), ("makes",), ("called",))


_FIRST_ONES = ("new", "first", "beginning", "starting", "beg", "start", "opening")
_ARTICLES = ("a", "an", "the", "another", "one", "your")


def _naming(reader: Reader) -> bool:
    """ "7 dc in next ch (fan made)": the group has a name from here on."""
    tokens, after = _inside(reader.cursor)
    words = [t.text for t in tokens if t.kind is not Kind.STOP]
    called = next((c for c in _CALLS if tuple(words[: len(c)]) == c), ())
    if len(words) < 2 or not reader.items:
        return False
    own = words[0] in _ARTICLES and _is_own(reader, tokens[1:])
    own = own or (words[0] in _FIRST_ONES and _is_own(reader, tokens))
    own = own or (words[-1] in _NAMES and _is_own(reader, tokens[:-1]))
    made = words[-1] in _NAMES and words[-2] != "just"  # not "(sc in the dc just made)"
    if not (made or called or own) or _is_counted(reader.cursor, after):
        return False
    tokens = tokens[len(called) :]
    if _counts(tokens, called=bool(called)):
        return False
    inner = Cursor(
        [*tokens, Token(Kind.END, "", 0, 0, 0)], own_words=reader.cursor.own_words
    )
    inner.take_word(*_ARTICLES)
    half = "half " * inner.take_word("half")
    stitch = inner.stitch()
    unnamed = words[-1] if called else words[-2]
    name = half + (stitch.id if stitch is not None else unnamed)
    give_name(reader, name, own=own)
    reader.cursor.at = after
    return True


def _is_counted(cursor: Cursor, after: int) -> bool:
    """Whether a bracket is worked some times: "(... sl st in last sc made) 6 times"."""
    start = cursor.at
    cursor.at = after
    times = read_times(cursor)
    cursor.at = start
    return times is not None and times.often is not Often.ACROSS


def _counts(tokens: list[Token], *, called: bool) -> bool:
    """ "(that is 20 pairs)", "(12 shells made)" are counts; "(1 loop made)" names one."""
    first = tokens[0] if tokens else None
    return first is not None and first.kind is Kind.NUMBER and (called or first.value != 1)


def _is_own(reader: Reader, tokens: list[Token]) -> bool:
    """Whether some words are a stitch of the writer's own."""
    end = Token(Kind.END, "", 0, 0, 0)
    cursor = Cursor([*tokens, end], own_words=reader.cursor.own_words)
    stitch = cursor.stitch()
    return stitch is not None and stitch.family == "own" and cursor.done()


def give_name(reader: Reader, name: str, *, own: bool) -> None:
    """Names the group just worked, or the block of one's own that the row began with."""
    last = reader.items[-1]
    if isinstance(last, InOnePlace):
        reader.items[-1] = last if last.name else replace(last, name=name)
        return
    if (
        isinstance(last, Make)
        and last.target
        and last.target.amount is None
        and last.amount
    ):
        bare = replace(last, target=None)
        reader.items[-1] = InOnePlace((bare,), last.target, last.span, name)
        return
    backwards = range(len(reader.items) - 1, -1, -1)
    begin = next((i for i in backwards if isinstance(reader.items[i], Chain)), None)
    if reader.depth:
        reader.called = name
        return
    if not own or begin is None:
        return
    turns = [item for item in reader.items[begin:] if isinstance(item, Turn)]
    reader.items[begin:] = [*turns, Make(name, _span_of(reader, begin))]


def _span_of(reader: Reader, begin: int) -> Span:
    spans = [item.span for item in reader.items[begin:] if not isinstance(item, TimesMark)]
    return spans[0].to(spans[-1])


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
    _meaning_in_claim(reader, start)
    return True


_AT_HOOK = frozenset(
    "skipped missed skip miss passed unused left before beginning start edge".split()
)


def _meaning_in_claim(reader: Reader, start: int) -> None:
    """ "(16 linen stitches - the chains you skipped are number one)"."""
    cursor = reader.cursor
    tokens = list(cursor.tokens[start + 1 : cursor.at - 1])
    words = {token.text for token in tokens}
    if not words & _AT_HOOK or not words & {"ch", "chs", "chain", "chains"}:
        return
    meaning = meaning_of(tokens, cursor.own_words)
    if meaning is not None:
        reader.add(Means(cursor.span_from(start), meaning.role, meaning.stands))


def _closes(cursor: Cursor) -> bool:
    if cursor.token.kind is Kind.STOP and cursor.peek().kind is Kind.CLOSE:
        cursor.step()
    return cursor.token.kind is Kind.CLOSE


def _used_as_repeat(reader: Reader) -> bool:
    """Whether the next words make a bracket a group: "(24 sc) in ring", "(2 dc) twice"."""
    cursor = reader.cursor
    if cursor.is_word("in", "into", "all", "there"):
        return True
    if cursor.is_word("around", "across"):  # "(24 sc) around." may be a count
        following = cursor.peek()
        return following.kind is Kind.WORD and following.text not in ("turn", "join")
    return cursor.attempt(read_times)


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
    if cursor.take_times_star():
        amount = cursor.number()
        cursor.take_word("times", "time", "x")
        times = Times(Often.TIMES, cursor.span_from(at), amount)
        reader.add(Repeat(body, times, span.to(times.span), mark="("))
        return
    told = _along_so_often(cursor)
    target = None if told else where_it_begins(reader, _place_after(reader))
    if target is not None:
        reader.add(InOnePlace(body, target, cursor.span_from(at).to(span)))
        _further_places(reader, body)
        return
    cursor.at = at
    if cursor.take_word("rep", "repeat", "repeated") and not cursor.is_word("from"):
        at = cursor.at  # "[ch 1, sk 1, dc in next] rep to end"
    cursor.at = at
    times_found = read_times(cursor)
    if times_found is not None:
        full = span.to(times_found.span)
        repeat = Repeat(body, times_found, full, mark="(")
        reader.add(_all_in_one(reader, repeat) or repeat)
        return
    if _is_remark(inner, reader, span):
        _remark(reader, span)
        return
    reader.items.extend(body)
    if not closed:
        reader.sentence = len(reader.items)


def _along_so_often(cursor: Cursor) -> bool:
    """ "(Sc 4, sc2tog) around 4 times": no place is named, but how often."""
    at = cursor.at
    along = cursor.take_word("around", "round", "across") and cursor.is_kind(Kind.NUMBER)
    times = read_times(cursor) if along else None
    cursor.at = at
    return times is not None and times.often in (Often.TIMES, Often.MORE)


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
    return None


_GROUP_AFTER = frozenset("in into twice all x".split())


_ASIDES = frozenset("also here throughout always now as so too in from".split())


def _without_aside(tokens: list[Token]) -> list[Token]:
    """ "(a dc, also in Rnds 2 and 5)": what is said, without where else it holds."""
    for at, token in enumerate(tokens[:-1]):
        if at and token.kind is Kind.COMMA and tokens[at + 1].text in _ASIDES:
            return tokens[:at]
    return tokens


def _named_alone(reader: Reader, tokens: list[Token]) -> Meaning | None:
    """ "Ch 3 (dc)": what a chain at the beginning stands for, in one word."""
    last = reader.items[-1]
    chains = (last.amount.at(0) or 0) if isinstance(last, Chain) else 0
    if chains < 2 or any(map(_is_worked, reader.items)):
        return None
    stitch = Cursor([*tokens, Token(Kind.END, "", 0, 0, 0)]).stitch()
    alone = len(tokens) == 1 and stitch is not None and stitch.family == "plain"
    return Meaning(Role.COUNTS, stitch.id) if alone and stitch is not None else None


def _is_worked(item: Item) -> bool:
    """Whether an item works something; a slip stitch before the chain only travels."""
    slips = isinstance(item, Make) and item.stitch == "sl st"
    return isinstance(item, (Make, InOnePlace)) and not slips


def _meaning(reader: Reader) -> bool:
    """ "(counts as dc)", "(the skipped 3 ch count as st)" behind a chain or stitch."""
    cursor = reader.cursor
    if not reader.items or not isinstance(reader.items[-1], (Chain, Make, Turn, Skip)):
        return False
    tokens, after = _inside(cursor)
    if not tokens:
        return False
    span = tokens[0].span.to(tokens[-1].span)
    if draw_together(reader, tokens, span):
        cursor.at = after
        return True
    if not speaks_of_chain(reader, tokens):
        return False
    named = _named_alone(reader, tokens)
    meaning = named or meaning_of(_without_aside(tokens), cursor.own_words)
    if meaning is None:
        return False
    start = cursor.at
    names = named or tokens[0].kind is Kind.NUMBER or not says_what(tokens)
    if names and isinstance(reader.items[-1], Chain):
        apart = cursor.tokens[start - 1].kind in (Kind.COMMA, Kind.STOP)
        following = cursor.tokens[after]
        if apart or following.kind is Kind.NUMBER or following.text in _GROUP_AFTER:
            return False  # "ch 4, (1 dc, ch 1) in next sp"
    cursor.at = after
    return give_meaning(reader, meaning, cursor.span_from(start))
