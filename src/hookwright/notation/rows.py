"""The instructions of one row: phrases in order, stars and brackets, counts at the end.

Reading never fails. What is not an instruction becomes a remark; a word that stands where a
stitch should stand becomes `Unread`, with the word most likely meant.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from hookwright.notation import makes
from hookwright.notation.chains import Meaning, meaning_of
from hookwright.notation.claims import read_claim
from hookwright.notation.cursor import Cursor
from hookwright.notation.fold import Again, EndAt, Item, Star, TimesMark, fold
from hookwright.notation.hook_motions import read_motions
from hookwright.notation.lexer import TOO_LARGE, Kind, Token
from hookwright.notation.recalls import read_recall
from hookwright.notation.spelling import likely_word
from hookwright.notation.targets import (
    INTO,
    across,
    everything,
    read_between,
    read_ordinal_from_hook,
    read_target,
)
from hookwright.notation.times import read_times
from hookwright.notation.tree import (
    Chain,
    Claim,
    FinishOff,
    InOnePlace,
    Join,
    Loops,
    Make,
    Means,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Skip,
    Tail,
    Target,
    Times,
    Turn,
    Unread,
    Unworked,
    Which,
    Yarn,
)
from hookwright.source import Span

DEEPEST = 60


@dataclass(slots=True)
class Reader:
    """One row being read.

    Attributes:
        cursor: Where it stands.
        text: The whole text, for names in their own letters.
        items: What has been read at this level.
        claims: Counts printed so far.
        depth: Brackets around this place.
        sentence: Where the present sentence begins among the items.
        mark: The last mark passed, which tells a count from an instruction.
    """

    cursor: Cursor
    text: str
    items: list[Item] = field(default_factory=list)
    claims: list[Claim] = field(default_factory=list)
    depth: int = 0
    sentence: int = 0
    mark: Kind = Kind.LINE
    yarns: frozenset[str] = frozenset()

    def add(self, item: Item) -> bool:
        """Keep an item; true, so that a reader can end with it."""
        self.items.append(item)
        return True

    def inner(self) -> Reader:
        """A reader for what stands inside brackets here."""
        return Reader(
            self.cursor,
            self.text,
            claims=self.claims,
            depth=self.depth + 1,
            yarns=self.yarns,
        )


def read_row(
    cursor: Cursor, text: str, yarns: frozenset[str] = frozenset()
) -> tuple[tuple[Node, ...], tuple[Claim, ...]]:
    """The nodes and printed counts of a row."""
    reader = Reader(cursor, text, yarns=yarns)
    while not cursor.done():
        read_items(reader)
        if not cursor.done():  # a closing bracket that was never opened
            cursor.step()
    return fold(reader.items), tuple(reader.claims)


def read_items(reader: Reader) -> None:
    """Items up to the end, or up to a closing bracket."""
    cursor = reader.cursor
    while not cursor.done() and cursor.token.kind is not Kind.CLOSE:
        before = cursor.at
        _read_item(reader)
        if cursor.at == before:
            cursor.step()


_MARKS = (Kind.LINE, Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.COLON, Kind.PLUS)


def _read_item(reader: Reader) -> None:
    cursor = reader.cursor
    token = cursor.token
    if token.kind in (Kind.DASH, Kind.EQUALS):
        _dash(reader)
    elif token.kind in _MARKS:
        cursor.step()
        _pass_mark(reader, token)
    elif token.kind is Kind.STAR:
        _star(reader)
    elif token.kind is Kind.OPEN:
        _bracket(reader)
    else:
        _element(reader)


def _pass_mark(reader: Reader, token: Token) -> None:
    if token.kind is Kind.LINE and reader.mark is not Kind.LINE:
        return
    reader.mark = token.kind
    if token.kind in (Kind.SEMICOLON, Kind.STOP):
        reader.sentence = len(reader.items)


def _dash(reader: Reader) -> None:
    claim = read_claim(reader.cursor)
    if claim is not None and _some_work(reader):
        reader.claims.append(claim)
        return
    if claim is None:
        reader.cursor.step()
    reader.mark = Kind.DASH


def _some_work(reader: Reader) -> bool:
    """Whether anything has been worked: a count needs something to count."""
    return any(
        isinstance(item, (Make, InOnePlace, Repeat, Recall, Tail)) for item in reader.items
    )


def _star(reader: Reader) -> None:
    cursor = reader.cursor
    token = cursor.token
    if _star_to_star(reader):
        return
    cursor.step()
    reader.add(Star(token.value, token.span))
    opened = sum(isinstance(item, Star) for item in reader.items)
    if opened % 2 == 0 or cursor.tokens[cursor.at - 2].kind is not Kind.LINE:
        times = _times_after_mark(reader) if opened % 2 == 0 else None
        if times is not None:
            reader.add(TimesMark(times))


def _times_after_mark(reader: Reader) -> Times | None:
    """A number of times right after a closing mark; "keep repeating" is across."""
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    cursor.skip_lines()
    if cursor.is_phrase("rep from") or cursor.is_phrase("repeat from"):
        cursor.at = at
        return None
    start = cursor.at
    repeated = cursor.take_phrase(
        "keep repeating",
        "rep",
        "repeat",
        "repeated",
        "repeating",
        "work",
        "worked",
        "all the way",
        "over and over",
    )
    if repeated and cursor.token.kind is Kind.STAR:
        cursor.at = at
        return None
    times = read_times(cursor)
    if times is not None:
        return times
    if repeated and cursor.token.kind in (Kind.COMMA, Kind.STOP, Kind.END, Kind.SEMICOLON):
        return Times(Often.ACROSS, cursor.span_from(start))
    cursor.at = at
    return None


def _star_to_star(reader: Reader) -> bool:
    """ "* to * across until 3 sts are left", "* to ** once": a repeat told by its stars."""
    cursor = reader.cursor
    if cursor.peek().text != "to" or cursor.peek(2).kind is not Kind.STAR:
        return False
    start = cursor.at
    mark = cursor.step().value
    cursor.step()
    to = cursor.step().value
    times = read_times(cursor)
    return reader.add(Again(mark, to, times, cursor.span_from(start)))


def _bracket(reader: Reader) -> None:
    """A bracket, whose job is told by the word after it, then by what it holds."""
    cursor = reader.cursor
    start = cursor.at
    if _too_deep(reader):
        return
    if _meaning(reader) or _recall_bracket(reader) or _naming(reader):
        return
    amount_at = cursor.at
    if makes.starts_with_size_list(cursor) and _element(reader):
        return
    cursor.at = amount_at
    cursor.step()
    if _claim_bracket(reader, start):
        return
    inner = reader.inner()
    read_items(inner)
    closed = cursor.take_kind(Kind.CLOSE)
    span = cursor.span_from(start)
    _use_bracket(reader, inner, span, closed=closed)


def _too_deep(reader: Reader) -> bool:
    """Brackets deeper than anybody writes are passed over, not walked into."""
    if reader.depth < DEEPEST:
        return False
    cursor = reader.cursor
    start = cursor.at
    while not cursor.done():
        cursor.step()
    return reader.add(Unread(cursor.span_from(start), "brackets"))


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


def _meaning(reader: Reader) -> bool:
    """ "(counts as dc)", "(the skipped 3 ch count as st)" after a chain or a first stitch."""
    cursor = reader.cursor
    if not reader.items or not isinstance(reader.items[-1], (Chain, Make, Turn, Skip)):
        return False
    tokens, after = _inside(cursor)
    if not tokens or not _speaks_of_chain(reader, tokens):
        return False
    meaning = meaning_of(tokens, cursor.own_words)
    if meaning is None:
        return False
    start = cursor.at
    cursor.at = after
    return _give_meaning(reader, meaning, cursor.span_from(start))


def _speaks_of_chain(reader: Reader, tokens: list[Token]) -> bool:
    last = reader.items[-1]
    if isinstance(last, Chain):
        return tokens[0].kind is not Kind.NUMBER
    words = {token.text for token in tokens}
    if isinstance(last, Turn) and tokens[0].kind in (Kind.NUMBER, Kind.OPEN):
        return False
    if isinstance(last, (Turn, Skip)) and not words & {"ch", "chain", "chs", "chains"}:
        return bool(words & {"counts", "count", "counting", "acts", "stands"})
    return bool(words & {"ch", "chs", "chain", "chains"}) and bool(
        words
        & {
            "count",
            "counts",
            "counting",
            "are",
            "is",
            "counted",
            "form",
            "forms",
            "as",
            "linen",
            "stand",
            "stands",
        }
    )


def _give_meaning(reader: Reader, meaning: Meaning, span: Span) -> bool:
    last = reader.items[-1]
    if isinstance(last, Chain):
        reader.items[-1] = replace(
            last, role=meaning.role, stands=meaning.stands, stands_chains=meaning.chains
        )
        return True
    return reader.add(
        Means(span, meaning.role, meaning.stands, meaning.chains, meaning.stitches)
    )


_NAMES = frozenset({"made", "completed", "formed"})
_CALLS = (("this", "is"), ("that", "is"), ("it", "is"), ("makes",), ("called",))


def _naming(reader: Reader) -> bool:
    """ "7 dc in next ch (fan made)": the group has a name from here on."""
    tokens, after = _inside(reader.cursor)
    words = [t.text for t in tokens if t.kind is not Kind.STOP]
    called = next((c for c in _CALLS if tuple(words[: len(c)]) == c), ())
    if len(words) < 2 or not reader.items or not (words[-1] in _NAMES or called):
        return False
    tokens = tokens[len(called) :]
    inner = Cursor(
        [*tokens, Token(Kind.END, "", 0, 0, 0, False)], own_words=reader.cursor.own_words
    )
    inner.take_word("a", "an", "one", "1", "first")
    stitch = inner.stitch()
    unnamed = words[-1] if called else words[-2]
    name = stitch.id if stitch is not None else unnamed
    last = reader.items[-1]
    if isinstance(last, InOnePlace) and not last.name:
        reader.items[-1] = replace(last, name=name)
    elif (
        isinstance(last, Make)
        and last.amount
        and last.target
        and last.target.amount is None
    ):
        bare = replace(last, target=None)
        reader.items[-1] = InOnePlace((bare,), last.target, last.span, name)
    reader.cursor.at = after
    return True


def _recall_bracket(reader: Reader) -> bool:
    """ "[Rep rows 2 and 3] 42 times"."""
    cursor = reader.cursor
    if cursor.peek().text not in ("rep", "repeat", "rpt"):
        return False
    recall = read_recall(cursor)
    return recall is not None and reader.add(recall)


def _claim_bracket(reader: Reader, start: int) -> bool:
    cursor = reader.cursor
    at = cursor.at
    claim = read_claim(cursor)
    if claim is None or not _closes(cursor):
        cursor.at = at
        return False
    cursor.step()
    if _used_as_repeat(reader) or (not _some_work(reader) and reader.depth == 0):
        cursor.at = at
        return False
    if reader.depth and not isinstance(reader.items[-1] if reader.items else None, Make):
        cursor.at = at
        return False
    reader.claims.append(replace(claim, span=cursor.span_from(start)))
    _meaning_in_claim(reader, start)
    return True


def _meaning_in_claim(reader: Reader, start: int) -> None:
    """ "(16 linen stitches - the chains you skipped are number one)"."""
    cursor = reader.cursor
    tokens = [t for t in cursor.tokens[start + 1 : cursor.at - 1]]
    words = {token.text for token in tokens}
    if not words & {"skipped", "missed"} or not words & {"ch", "chs", "chain", "chains"}:
        return
    meaning = meaning_of(tokens, cursor.own_words)
    if meaning is not None:
        reader.add(Means(cursor.span_from(start), meaning.role, meaning.stands))


def _closes(cursor: Cursor) -> bool:
    if cursor.token.kind is Kind.STOP and cursor.peek().kind is Kind.CLOSE:
        cursor.step()
    return cursor.token.kind is Kind.CLOSE


def _used_as_repeat(reader: Reader) -> bool:
    """Whether the words after a bracket make it a group: "(24 sc) in ring", "(2 dc) twice"."""
    cursor = reader.cursor
    if cursor.is_word("in", "into", "all", "there"):
        return True
    return cursor.attempt(
        lambda c: None if c.is_word("around", "across") else read_times(c)
    )


def _use_bracket(reader: Reader, inner: Reader, span: Span, *, closed: bool) -> None:
    """What a bracket is for: a group in one place, a repeat, part of the row, or a remark."""
    cursor = reader.cursor
    body = fold(inner.items)
    if not any(_is_work(node) for node in body):
        if not body or not _keep_marks(reader, body):
            reader.add(Remark(span))
        return
    at = cursor.at
    cursor.skip_lines()
    glued_star = cursor.token.kind is Kind.STAR and cursor.peek().kind is Kind.NUMBER
    if (
        (glued_star
        and not cursor.token.glued)
        or (glued_star
        and cursor.peek(2).kind
        in (Kind.CLOSE, Kind.COMMA, Kind.STOP, Kind.END, Kind.LINE, Kind.OPEN))
    ):  # "(inc, sc) * 3"
        cursor.step()
        amount = cursor.number()
        times = Times(Often.TIMES, cursor.span_from(at), amount)
        reader.add(Repeat(body, times, span.to(times.span), mark="("))
        return
    target = _place_after(reader)
    if target is not None:
        reader.add(InOnePlace(body, target, cursor.span_from(at).to(span)))
        return
    cursor.at = at
    times_found = read_times(cursor)
    if times_found is not None:
        full = span.to(times_found.span)
        reader.add(Repeat(body, times_found, full, mark="("))
        return
    if _is_remark(inner, reader):
        reader.add(Remark(span))
        return
    reader.items.extend(body)
    if not closed:
        reader.sentence = len(reader.items)


def _keep_marks(reader: Reader, body: tuple[Node, ...]) -> bool:
    """Turns, yarns and loops said in a bracket still hold."""
    kept = [node for node in body if not isinstance(node, (Remark, Unread))]
    reader.items.extend(kept)
    return bool(kept)


def _is_work(node: Node) -> bool:
    return isinstance(node, (Make, Chain, Skip, InOnePlace, Repeat, Recall))


def _is_remark(inner: Reader, reader: Reader) -> bool:
    """An explanation in brackets: mostly other words, or right behind what it explains."""
    body = inner.items
    if any(isinstance(item, Remark) for item in body):
        return True
    work = [item for item in body if _is_work(item)]  # type: ignore[arg-type]
    bare = all(isinstance(item, Make) and item.target is None for item in work)
    return bare and bool(reader.items) and isinstance(reader.items[-1], (Make, InOnePlace))


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


def _element(reader: Reader) -> bool:
    """One phrase; false where nothing could be read and nothing was taken."""
    return any(read(reader) for read in _READERS) or _other_word(reader)


def _repeat_phrase(reader: Reader) -> bool:
    """ "rep from * 9 more times", "go on from * to *", "repeat to end"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then")
    cursor.skip_lines()
    said = cursor.take_word("rep", "repeat", "rpt", "repeating", "repeats", "reps") or (
        cursor.take_phrase(
            "go on",
            "continue",
            "carry on",
            "keep repeating",
            "keep on",
            "work again",
            "cont",
            "keep going",
        )
    )
    at = cursor.at
    cursor.take_phrase(
        "this pattern",
        "the pattern",
        "this patt",
        "pattern",
        "working",
        "work",
        "the above",
        "this",
        "these",
        "in this way",
        "like this",
        "in this manner",
        "in pattern",
        "in patt",
        "once",
    )
    from_word = cursor.take_word("from", "between")
    cursor.take_phrase("instructions", "instruction", "the", "first", "what is between")
    if cursor.token.kind is Kind.STAR:
        return _again(reader, start, from_word=from_word or said)
    quotes = cursor.token.text in ('"', "“", "”")
    if said and quotes:  # the star was lost in copying
        cursor.step()
        if cursor.token.text in ('"', "“", "”"):
            cursor.step()
        return _again_times(reader, start, 1, 0)
    cursor.at = at
    if said and not from_word:
        return _repeat_to_end(reader, start)
    cursor.at = start
    return False


def _again(reader: Reader, start: int, *, from_word: bool) -> bool:
    cursor = reader.cursor
    mark = cursor.step().value
    to = 0
    at = cursor.at
    if cursor.take_word("to", "through", "and") and cursor.token.kind is Kind.STAR:
        to = cursor.step().value
    else:
        cursor.at = at
    if not from_word and not to:
        cursor.at = start
        return False
    return _again_times(reader, start, mark, to)


def _again_times(reader: Reader, start: int, mark: int, to: int) -> bool:
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    times = read_times(cursor)
    if times is None:
        cursor.at = at
    elif times.often is Often.TIMES and times.noun != "in all":
        times = replace(times, often=Often.UNCLEAR)
    span = cursor.span_from(start)
    return reader.add(Again(mark, to, times, span))


def _repeat_to_end(reader: Reader, start: int) -> bool:
    """ "rep to end", "repeat across": without a star."""
    cursor = reader.cursor
    at = cursor.at
    cursor.take_phrase("this pattern", "the pattern", "this patt", "pattern", "this")
    times = read_times(cursor)
    if times is None or cursor.is_word("rows", "row"):
        cursor.at = start
        return False
    del at
    often = times if times.often is not Often.TIMES else replace(times, often=Often.UNCLEAR)
    return reader.add(Again(0, 0, often, cursor.span_from(start)))


def _ending(reader: Reader) -> bool:
    """ "ending last rep at **", "ending with dc in tch", "omitting last ch 1"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("but", "and", "noting", "only")
    cursor.take_phrase("that", "on", "work")
    named = cursor.take_phrase(
        "the last rep",
        "last rep",
        "last repeat",
        "the last repeat",
        "for last rep",
        "on last rep",
        "on the last repeat",
        "in last rep",
        "in the last repeat",
    )
    cursor.take_kind(Kind.COLON, Kind.COMMA) if named else None
    omit = cursor.take_word("omit", "omitting", "leaving")
    if omit and not cursor.take_phrase("out"):
        pass
    ends = cursor.take_word("ending", "end", "ends", "finish", "finishing", "finishes")
    if not (ends or omit):
        if named:
            return _tail(reader, start, replaces=True)
        cursor.at = start
        return False
    if cursor.is_word("off"):
        cursor.at = start
        return False
    named = (
        cursor.take_phrase(
            "last rep",
            "the last rep",
            "last repeat",
            "the last repeat",
            "final repeat",
            "the final repeat",
            "final rep",
        )
        or named
    )
    if (
        cursor.take_phrase("at", "with", "on", "after", "in")
        and cursor.token.kind is Kind.STAR
    ):
        mark = cursor.step().value
        return reader.add(EndAt(mark, cursor.span_from(start)))
    cursor.take_word("with", "by", "in", "on")
    if omit:
        return _omission(reader, start)
    return _tail(reader, start, replaces=True if named else None)


def _when_left(reader: Reader) -> bool:
    """ "..., and when one ch is left put only 2 dc there": the end of the repeat before it."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "but")
    if not cursor.take_word("when", "once") or not reader.items:
        cursor.at = start
        return False
    cursor.take_phrase("there is", "there are", "only", "you have", "just")
    number = cursor.number()
    target = read_target(cursor)
    if (
        number is None
        or target is None
        or not cursor.take_phrase("is left", "are left", "left", "remains", "remain")
    ):
        cursor.at = start
        return False
    inner = reader.inner()
    while not cursor.done() and cursor.token.kind not in (
        Kind.COMMA,
        Kind.STOP,
        Kind.CLOSE,
    ):
        before = cursor.at
        _read_item(inner)
        if cursor.at == before:
            cursor.step()
    last = replace(target, which=Which.LAST, amount=number)
    body = tuple(
        _in_last(node, last) for node in fold(inner.items) if isinstance(node, Make)
    )
    return reader.add(Tail(body, cursor.span_from(start), None))


def _in_last(node: Make, last: Target) -> Make:
    here = node.target is None or node.target.noun == "here"
    single = (
        replace(last, amount=None) if last.amount and last.amount.values == (1,) else last
    )
    return replace(node, target=single) if here else node


def _conditional(reader: Reader) -> bool:
    """ "if the next st is a sc, dc in it": what is worked goes by what is met."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "but", "or", "then")
    if not cursor.take_word("if", "where", "when"):
        cursor.at = start
        return False
    cursor.take_phrase(
        "you come to",
        "you meet",
        "the next st is",
        "the next stitch is",
        "next st is",
        "next stitch is",
        "it is",
        "it's",
        "the st is",
        "the next st was",
        "next st was",
        "it was",
        "the next is",
    )
    cursor.take_word("a", "an", "the")
    met = read_target(cursor)
    if met is None:
        cursor.at = start
        return False
    cursor.take_word("instead")
    cursor.take_kind(Kind.COMMA)
    made = makes.read_make(cursor)
    if made is None:
        cursor.at = start
        return False
    cursor.take_phrase("around it", "in it", "into it", "in that", "too", "on it")
    across(cursor)
    span = cursor.span_from(start)
    return reader.add(
        replace(
            made[0],
            target=replace(met, which=Which.EACH, amount=None, span=span),
            span=span,
        )
    )


def _working_last(reader: Reader) -> bool:
    """ "..., working the last sc in the 3rd ch of the ch 4": of a repeat before it."""
    cursor = reader.cursor
    start = cursor.at
    if not reader.items or not isinstance(reader.items[-1], (Again, TimesMark, Repeat)):
        return False
    cursor.take_word("working", "placing", "making", "with", "work", "putting")
    cursor.take_word("the")
    if not cursor.take_word("last", "final"):
        cursor.at = start
        return False
    stitch = cursor.stitch()
    if stitch is None:
        cursor.at = start
        return False
    cursor.take_word(
        "going", "goes", "worked", "being", "placed", "falls", "falling", "made"
    )
    if cursor.take_word("between"):
        target = read_between(cursor)
        target = replace(target, which=Which.LAST) if target is not None else None
    else:
        target = read_target(cursor) if cursor.take_word(*INTO, "on") else None
    if target is None:
        cursor.at = start
        return False
    span = cursor.span_from(start)
    made = Make(stitch.id, span, None, target, stitch.loop, stitch.legs, stitch.post)
    return reader.add(Tail((made,), span, None))


def _omission(reader: Reader, start: int) -> bool:
    cursor = reader.cursor
    cursor.take_word("the")
    cursor.take_word("last", "final")
    inner = reader.inner()
    before = cursor.at
    _read_item(inner)
    if cursor.at == before:
        cursor.step()
    cursor.take_phrase(
        "on last rep",
        "on the last rep",
        "on last repeat",
        "in last rep",
        "at end of last rep",
        "at the end",
    )
    return reader.add(Tail((), cursor.span_from(start), replaces=True, dropped=1))


def _tail(reader: Reader, start: int, *, replaces: bool | None) -> bool:
    """The words after "ending", up to the end of the sentence."""
    cursor = reader.cursor
    inner = reader.inner()
    while not cursor.done() and cursor.token.kind not in (Kind.CLOSE, Kind.STOP):
        if cursor.is_word("turn", "join", "fasten") or _instead(cursor):
            break
        if cursor.token.kind is Kind.LINE and cursor.token.value > 1:
            break
        before = cursor.at
        _read_item(inner)
        if cursor.at == before:
            cursor.step()
    dropped = 0
    if cursor.take_phrase("instead of", "in place of", "rather than", "and not"):
        dropped, replaces = 1, True
        spare = reader.inner()
        _read_item(spare)
    body = fold(inner.items)
    if not any(_is_work(node) or isinstance(node, Join) for node in body):
        reader.items.extend(body)
        return cursor.at > start
    return reader.add(Tail(body, cursor.span_from(start), replaces, dropped))


def _instead(cursor: Cursor) -> bool:
    return bool(cursor.is_phrase("instead of") or cursor.is_phrase("in place of"))


def _recall(reader: Reader) -> bool:
    recall = read_recall(reader.cursor)
    if recall is None:
        return False
    return reader.add(recall)


_COUNT_AFTER = (Kind.STOP, Kind.DASH, Kind.EQUALS)


def _claim(reader: Reader) -> bool:
    """A count that stands without brackets, where one may stand."""
    cursor = reader.cursor
    if not _some_work(reader) or reader.depth:
        return False
    said = cursor.is_word(
        "total",
        "you",
        "should",
        "there",
        "makes",
        "making",
        "for",
        "giving",
        "now",
        "st",
        "stitch",
        "count",
    )
    last = reader.items[-1] if reader.items else None
    before = cursor.tokens[cursor.at - 1].text if cursor.at else ""
    unmarked = before in ("across", "around", "end", "all") and isinstance(
        last, (Make, Repeat)
    )
    placed = (
        reader.mark in _COUNT_AFTER or unmarked or isinstance(last, (Join, FinishOff, Turn))
    )
    if not said and not (placed and cursor.token.kind in (Kind.NUMBER, Kind.OPEN)):
        return False
    word = cursor.at and cursor.tokens[cursor.at - 1].kind is Kind.WORD
    if not said and word and not unmarked and not isinstance(last, (Join, FinishOff, Turn)):
        return False
    claim = read_claim(cursor)
    if claim is None:
        return False
    reader.claims.append(claim)
    return True


def _turn(reader: Reader) -> bool:
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and")
    if cursor.take_phrase(
        "do not turn",
        "don't turn",
        "without turning",
        "never turn",
        "no turn",
        "not turn",
        "do not rotate",
    ):
        return reader.add(Turn(cursor.span_from(start), turned=False))
    if cursor.take_phrase(
        "turn round",
        "turn the work",
        "turn your work",
        "turn work",
        "turn over",
        "turn",
        "turning",
        "to turn",
        "turned",
    ):
        return reader.add(Turn(cursor.span_from(start)))
    if cursor.is_word("to") and cursor.peek().kind in (Kind.END, Kind.STOP):
        cursor.step()
        return reader.add(Turn(cursor.span_from(start)))
    cursor.at = start
    return False


def _finish(reader: Reader) -> bool:
    cursor = reader.cursor
    start = cursor.at
    if cursor.take_phrase(
        "fasten off", "finish off", "end off", "break off", "cut the yarn", "cut yarn",
        "cut off", "tie off", "fasten", "cut thread", "bind off", "cut the thread",
        "break yarn", "break the yarn", "break thread", "cut", "fo",
    ):  # fmt: skip
        cursor.take_word("yarn", "off", "thread", "colour", "color")
        return reader.add(FinishOff(cursor.span_from(start)))
    return False


_JOIN = (
    "join", "close", "joining", "closed", "closing", "joined", "to join", "to close", "ssj",
    "join rnd", "join round", "close the round", "close round", "close the rnd",
)  # fmt: skip


def _join(reader: Reader) -> bool:
    """ "join with sl st in first dc", "close", "ss into top of 3ch"; not joining a yarn."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then")
    if not cursor.take_phrase(*_JOIN):
        cursor.at = start
        return False
    if _joins_yarn(reader):
        cursor.at = start
        return False
    if cursor.take_phrase("the last", "last") and cursor.is_word("ch", "chain"):
        read_target(cursor)
    cursor.take_phrase("round", "rnd", "the round", "this round", "the rnd", "up")
    stitch = "sl st"
    cursor.take_kind(Kind.COMMA)
    cursor.take_word("with", "by", "using")
    cursor.take_word("a", "an", "one", "1")
    found = cursor.stitch()
    if found is not None:
        stitch = found.id
    target = _join_place(reader)
    cursor.take_phrase("to join", "to close", "to form ring", "to form a ring")
    ring = any(
        cursor.take_phrase(p)
        for p in (
            "to make a ring",
            "to form a ring",
            "to form ring",
            "for a ring",
            "into a ring",
            "in a ring",
            "for a loop",
            "in ring",
            "to make ring",
        )
    )
    return reader.add(Join(cursor.span_from(start), target, stitch, ring))


def _join_place(reader: Reader) -> Target | None:
    cursor = reader.cursor
    at = cursor.at
    if cursor.take_word("in", "into", "to", "on", "at", "around"):
        if cursor.is_word("form", "make"):
            cursor.at = at
            return None
        target = read_target(cursor)
        if target is not None:
            return target
    cursor.at = at
    return None


def _joins_yarn(reader: Reader) -> bool:
    cursor = reader.cursor
    token = cursor.token
    if token.kind is not Kind.WORD:
        return False
    if token.text in ("yarn", "thread", "new", "color", "colour", "wool", "mc", "cc"):
        return True
    if token.text in reader.yarns:
        return True
    own = reader.text[token.start : token.end]
    return own[:1].isupper() and token.text not in ("with", "to", "in", "sl", "ss")


def _yarn(reader: Reader) -> bool:
    """ "with B", "change to Moss", "join B with a standing dc in any ch-2 sp"."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.take_phrase(
        "change to", "changing to", "switch to", "switching to", "swap to", "join in", "join",
        "attach", "tie in", "using", "with", "in colour", "in color", "drop", "pick up", "now",
        "in", "change colour to", "change color to", "colour", "color",
    ):  # fmt: skip
        lead = cursor.tokens[cursor.at - 1].text
        cursor.take_word("the", "new")
        name = _yarn_name(
            reader,
            must=lead
            in ("in", "now", "with", "using", "join", "drop", "pick", "up", "attach"),
        )
        if name:
            target, standing = _yarn_place(reader)
            if lead in ("to", "drop"):  # "change to B in the last st" goes nowhere
                target = None
            return reader.add(Yarn(name, cursor.span_from(start), target, standing))
    cursor.at = start
    return _hook_words(reader, start)


def _hook_words(reader: Reader, start: int) -> bool:
    """ "using larger hook", "with 4mm hook": nothing is worked."""
    cursor = reader.cursor
    if not cursor.take_word("using", "with"):
        return False
    for step in range(6):
        if cursor.peek(step).text in ("hook", "hooks", "strands", "strand"):
            for _ in range(step + 1):
                cursor.step()
            if cursor.take_word("and") and (name := _yarn_name(reader, must=True)):
                return reader.add(Yarn(name, cursor.span_from(start)))
            return reader.add(Remark(cursor.span_from(start)))
    cursor.at = start
    return False


_GENERIC_YARN = frozenset("yarn thread wool colour color shade mc cc".split())


def _yarn_name(reader: Reader, *, must: bool) -> str:
    """The name of a yarn here; "" where none stands. `must`: only names known or capital."""
    cursor = reader.cursor
    at = cursor.at
    generic = False
    if cursor.token.text in ("yarn", "thread", "wool") and cursor.peek().text in (
        "in",
        "to",
        "with",
    ):
        return cursor.step().text
    if cursor.token.text in (
        "yarn",
        "colour",
        "color",
        "shade",
        "main",
        "contrast",
        "contrasting",
    ):
        generic = True
        first = cursor.step()
        if first.text in ("main", "contrast", "contrasting") and cursor.token.text in (
            "shade",
            "colour",
            "color",
            "yarn",
        ):
            second = cursor.step()
            return reader.text[first.start : second.end]
    token = cursor.token
    own = reader.text[token.start : token.end]
    known = token.text in reader.yarns or token.text in ("mc", "cc")
    capital = own[:1].isupper() and token.kind is Kind.WORD
    plain = (
        at
        and cursor.tokens[at - 1].text == "with"
        and cursor.peek().text in (",", "ch", ":")
    )
    if token.kind is Kind.WORD and (known or generic or capital or plain or not must):
        if cursor.stitch() is None and token.text not in _NOT_YARNS:
            cursor.step()
            return _second_word(reader, token)
    cursor.at = at
    return ""


_NOT_YARNS = frozenset(
    "rs ws right wrong a the sl ch sc it next first last each back front row rnd yarn hook "
    "same st sts both to in into with and".split()
)


def _second_word(reader: Reader, token: Token) -> str:
    """Two-word colours: "Sea Glass"."""
    cursor = reader.cursor
    following = cursor.token
    own = reader.text[following.start : following.end]
    if following.text in reader.yarns and following.kind is Kind.WORD and own[:1].isupper():
        cursor.step()
        return reader.text[token.start : following.end]
    return reader.text[token.start : token.end]


def _yarn_place(reader: Reader) -> tuple[Target | None, str]:
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COLON)
    cursor.take_phrase("join it")
    standing = ""
    if cursor.take_word("with"):
        cursor.take_word("a", "an", "1", "one")
        cursor.take_word("standing")
        stitch = cursor.stitch()
        if stitch is None:
            cursor.at = at
        else:
            standing = stitch.id
    middle = cursor.at
    if cursor.take_word("in", "into", "to", "at"):
        target = read_target(cursor)
        if target is not None:
            return target, standing
    cursor.at = middle if standing else at
    return None, standing


_LOOP_PHRASES = {
    "back": ("in back loops only", "in the back loops only", "in back loop only",
             "in the back loop only", "through back loops only", "through back loop only",
             "in back loops", "in the back loops", "through the back loops", "in blo", "in bl",
             "back loops only", "back loop only", "blo", "through the back loop",
             "working in back loops only", "working in back loop only", "working in blo",
             "in back loop throughout", "in the back loop"),
    "front": ("in front loops only", "in the front loops only", "in front loop only",
              "in the front loop only", "in front loops", "in the front loops", "in flo",
              "in fl", "front loops only", "front loop only", "flo", "working in flo",
              "working in front loops only", "through the front loops"),
    "third": ("in third loop only", "in the third loop only", "in 3rd loop only",
              "in the 3rd loop", "in third loop", "in the third loop", "third loop only"),
    "": ("under both loops", "in both loops", "through both loops", "under both lps"),
}  # fmt: skip


def read_loops(cursor: Cursor) -> str | None:
    """Words for a part of the stitch; None where none stand here."""
    for loop, phrases in _LOOP_PHRASES.items():
        if cursor.take_phrase(*phrases):
            return loop
    return None


def _loops(reader: Reader) -> bool:
    cursor = reader.cursor
    start = cursor.at
    loop = read_loops(cursor)
    if loop is None:
        return False
    if cursor.take_word("of"):
        cursor.at = start
        return False
    return reader.add(Loops(loop, cursor.span_from(start)))


def _chain(reader: Reader) -> bool:
    """Chains, with what they are said to stand for."""
    start = reader.cursor.at
    node = makes.read_chain(reader.cursor)
    if node is None:
        return False
    if reader.cursor.take_phrase("to start", "to begin"):  # "ch 3 to start a solid mesh"
        return reader.add(Remark(reader.cursor.span_from(start)))
    reader.add(node)
    _comma_meaning(reader)
    return True


def _comma_meaning(reader: Reader) -> None:
    """ "ch 3, counts as first dc, ..." without brackets."""
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.DASH, Kind.COLON)
    if not cursor.is_word(
        "counts",
        "counting",
        "count",
        "does",
        "not",
        "to",
        "for",
        "as",
        "acts",
        "stands",
        "doesn't",
        "counted",
        "which",
    ):
        cursor.at = at
        return
    tokens = []
    start = cursor.at
    while cursor.token.kind not in (
        Kind.COMMA,
        Kind.STOP,
        Kind.SEMICOLON,
        Kind.END,
        Kind.LINE,
        Kind.OPEN,
        Kind.STAR,
        Kind.CLOSE,
        Kind.COLON,
    ):
        ends = cursor.is_word("turn") or (cursor.is_word("and") and not _chains_too(cursor))
        if tokens and ends:
            break
        tokens.append(cursor.step())
    meaning = meaning_of(tokens, cursor.own_words)
    if meaning is None:
        cursor.at = at
        return
    _give_meaning(reader, meaning, cursor.span_from(start))


def _chains_too(cursor: Cursor) -> bool:
    """Whether "and" goes on with chains: "counts as dc and ch 1", "a treble and 2 chain"."""
    ahead = cursor.peek(2) if cursor.peek().kind is Kind.NUMBER else cursor.peek()
    return ahead.text in ("ch", "chain", "chs", "chains", "a")


def _skip(reader: Reader) -> bool:
    node = makes.read_skip(reader.cursor)
    return node is not None and reader.add(node)


def _last_of_repeat(reader: Reader, node: Make) -> Make:
    """ "... to last tr, 1 tr in it": "it" is what the repeat has left."""
    before = reader.items[-1] if reader.items else None
    times = before.times if isinstance(before, (Again, Repeat, TimesMark)) else None
    named = node.target is not None and node.target.noun == "here"
    if times is None or times.often is not Often.TO_LAST or not named:
        return node
    amount = times.amount if times.amount and times.amount.values != (1,) else None
    place = Target("st", Which.LAST, node.span, amount)
    return replace(node, target=place)


def _make(reader: Reader) -> bool:
    """Stitches, with their place; several places joined by "and" give several nodes."""
    cursor = reader.cursor
    before = cursor.tokens[cursor.at - 1].text if cursor.at else ""
    joined = "and" in (before, cursor.token.text) or "&" in (before, cursor.token.text)
    made = makes.read_make(cursor)
    if made is None:
        return False
    made[0] = _last_of_repeat(reader, made[0])
    for node in made:
        reader.add(node)
    target = made[0].target
    if joined and len(made) == 1 and target is not None and _is_one_space(target):
        reader.items[-1] = replace(made[0], target=None)
        _gather(reader, target)
        return True
    return _all_in_one(reader)


def _is_one_space(target: Target) -> bool:
    """A single chain space: "1 sc, 5 dc and 1 sc in next loop" all go into it."""
    single = target.which in (Which.NEXT, Which.FIRST, Which.LAST, Which.CENTRE, Which.NTH)
    return target.noun == "sp" and target.amount is None and single


def _all_in_one(reader: Reader) -> bool:
    """ "work 1 sc, ch 2 and 2 dc all in next ch": the list since the sentence began."""
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if not cursor.take_phrase("all in", "all into", "all worked in", "all worked into"):
        cursor.at = at
        return True
    target = read_target(cursor)
    if target is None:
        cursor.at = at
        return True
    _gather(reader, target)
    return True


def _gather(reader: Reader, target: Target) -> None:
    """Folds the bare items of this sentence into one place."""
    begin = len(reader.items)
    while begin > reader.sentence:
        item = reader.items[begin - 1]
        if not (
            isinstance(item, Chain) or (isinstance(item, Make) and item.target is None)
        ):
            break
        begin -= 1
    body = fold(reader.items[begin:])
    only = body[0] if len(body) == 1 else None
    if isinstance(only, Make):
        reader.items[begin:] = [replace(only, target=target)]
    elif body:
        span = body[0].span.to(target.span)
        reader.items[begin:] = [InOnePlace(body, target, span)]


_WORKED = ("make", "work", "do", "put", "place", "worked")


def _and_in(reader: Reader) -> bool:
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
    if not cursor.take_word("in", "into", "on", "over", "around"):
        cursor.at = start
        return False
    target = read_target(cursor)
    if target is None or cursor.is_word(*_WORKED):
        cursor.at = start
        return False
    again = replace(last, target=target, amount=None, span=cursor.span_from(start))
    across(cursor)
    return reader.add(again)


def _start_in(reader: Reader) -> bool:
    """ "from the 2nd ch on", "starting in the 2nd chain from hook": chains are passed."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.take_phrase(
        "from",
        "starting in",
        "starting from",
        "starting with",
        "beginning in",
        "beginning with",
        "begin in",
        "start in",
        "beginning from",
        "starting at",
        "beginning at",
        "start with",
    ):
        return False
    target = read_target(cursor)
    if target is None or target.noun != "ch" or not target.ordinal:
        cursor.at = start
        return False
    cursor.take_word("on", "onwards", "onward")
    span = cursor.span_from(start)
    place = replace(target, ordinal=target.ordinal, from_hook=True, span=span)
    return reader.add(Skip(place, span))


def _place_first(reader: Reader) -> bool:
    """ "in next sp make 2 dc, ch 2 and 2 dc", "into the ch-2 sp: sl st, ch 2, 3 hdc"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then", "working", "work")
    if not cursor.take_word(*INTO):
        cursor.at = start
        return False
    target = read_ordinal_from_hook(cursor) or read_target(cursor)
    if target is None:
        cursor.at = start
        return False
    listed = cursor.take_kind(Kind.COLON)
    cursor.take_kind(Kind.COMMA)
    listed = cursor.take_word(*_WORKED) or listed
    inner = reader.inner()
    body = _list_for_place(inner, listed=listed)
    if not any(isinstance(node, (Make, InOnePlace, Repeat)) for node in body):
        cursor.at = start
        return False
    return _put_in_place(reader, body, target, cursor.span_from(start))


def _list_for_place(inner: Reader, *, listed: bool) -> tuple[Node, ...]:
    """What is worked in a place named first: a bracket, a list, or one phrase."""
    cursor = inner.cursor
    while not cursor.done() and cursor.token.kind not in (
        Kind.SEMICOLON,
        Kind.STOP,
        Kind.CLOSE,
        Kind.STAR,
    ):
        if cursor.is_word("rep", "repeat", "turn", "join", "skip", "sk", "miss"):
            break
        before = (cursor.at, len(inner.items), inner.sentence)
        _read_item(inner)
        if cursor.at == before[0]:
            cursor.step()
        if any(_has_place(item) for item in inner.items[before[1] :]):
            del inner.items[before[1] :]
            cursor.at = before[0]
            break
        if not listed and inner.items:
            break
    return fold(inner.items)


def _has_place(item: Item) -> bool:
    placed = (
        isinstance(item, Make)
        and item.target is not None
        and item.target.which not in (Which.SAME,)
    )
    return (
        placed or (isinstance(item, (InOnePlace, Repeat)) and not (isinstance(item, Repeat)))
    )


def _put_in_place(
    reader: Reader, body: tuple[Node, ...], target: Target, span: Span
) -> bool:
    first = body[0]
    if len(body) == 1 and isinstance(first, Make):
        return reader.add(replace(first, target=target, span=span))
    return reader.add(InOnePlace(body, target, span))


_RINGS = (
    "magic ring", "magic loop", "magic circle", "mr", "mc", "adjustable ring", "sliding loop",
    "slip ring", "magic adjustable ring",
)  # fmt: skip


def _ring(reader: Reader) -> bool:
    """ "make a magic loop with 6 dc", "MR7", "magic ring, 6 sc": a round into a ring."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("make", "work", "start", "begin", "into", "in", "form", "using")
    cursor.take_word("with", "in", "into")
    cursor.take_word("a", "an", "the")
    if not cursor.take_phrase(*_RINGS):
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
        return reader.add(Remark(place.span))
    stitch = cursor.stitch()
    if stitch is not None and stitch.family != "plain":
        cursor.at = start
        return False
    name = stitch.id if stitch is not None else "sc"
    cursor.take_phrase("in it", "into it", "in ring", "in the ring")
    return reader.add(Make(name, cursor.span_from(start), amount, place))


_MOTION_WORDS = frozenset("yo yoh yrh pull draw insert".split())


def _motions(reader: Reader) -> bool:
    """ "pull up a loop in each of the 3 sts, yo and off with all 4 loops": run on the hook."""
    cursor = reader.cursor
    if not cursor.is_word(*_MOTION_WORDS):
        return False
    start = cursor.at
    at = start
    while cursor.tokens[at].kind not in (Kind.STOP, Kind.END, Kind.SEMICOLON, Kind.STAR):
        at += 1
    words = {token.text for token in cursor.tokens[start:at]}
    if not words & {"loop", "loops", "lp", "lps"}:
        return False
    first, last = cursor.tokens[start], cursor.tokens[at - 1]
    motions = read_motions(reader.text[first.start : last.end], first.start)
    if motions is None or not motions.heads:
        return False
    cursor.at = at
    span = Span(first.start, last.end)
    legs = motions.passes
    name = f"{motions.base}{legs}tog" if legs > 1 else motions.base
    return reader.add(Make(name, span, legs=max(1, legs)))


def _bare_across(reader: Reader) -> bool:
    """ "Hdc across" was read with its stitch; "across" alone goes on with the last one."""
    cursor = reader.cursor
    start = cursor.at
    if not across(cursor):
        return False
    last = reader.items[-1] if reader.items else None
    if isinstance(last, Make) and last.target is None:
        reader.items[-1] = replace(last, target=everything(cursor.span_from(start)))
    return True


_UNPROVEN = (
    "at the same time", "evenly", "short row", "short rows", "tunisian", "entrelac",
)  # fmt: skip


def _unworked(reader: Reader) -> bool:
    cursor = reader.cursor
    start = cursor.at
    for phrase in _UNPROVEN:
        if cursor.take_phrase(phrase):
            return reader.add(Unworked(cursor.span_from(start), phrase))
    return False


_FILLER = frozenset(
    "work make then and now also please more again just only put place do worked made each "
    "begin beginning start starting with continue followed by next finally first a an the "
    "one this it you your there so into in to from of for at on as that is are was be or if "
    "here same last slowly another go going carry to be across working worked join".split()
)


def _other_word(reader: Reader) -> bool:
    """A word that begins no phrase: filler, a misspelt stitch, or the start of a remark."""
    cursor = reader.cursor
    token = cursor.token
    if token.kind is Kind.NUMBER and token.value == TOO_LARGE:
        cursor.step()
        return reader.add(Unread(token.span, "a number of nine digits or fewer"))
    if _unknown_stitch(reader):
        return True
    if token.kind is not Kind.WORD or token.text in _FILLER:
        cursor.step()
        return True
    return _remark(reader)


def _unknown_stitch(reader: Reader) -> bool:
    """ "1 de in top of ch 3": a word nobody knows, where a stitch should stand."""
    cursor = reader.cursor
    start = cursor.at
    amount = cursor.number()
    word = cursor.token
    if word.kind is not Kind.WORD or not word.text.isalpha() or word.text in _FILLER:
        cursor.at = start
        return False
    cursor.step()
    likely = likely_word(word.text, cursor.own_words)
    short = len(word.text) <= 6
    figure = amount is not None and not cursor.tokens[start].spelled
    short = short and (bool(likely) or figure or not set(word.text) & set("aeiou"))
    placed = short and cursor.is_word("in", "into", "around") and cursor.attempt(_place)
    listed = (
        reader.depth > 0 and bool(likely) and cursor.token.kind in (Kind.CLOSE, Kind.COMMA)
    )
    listed = listed and reader.mark is Kind.COMMA and bool(reader.items)
    if not (placed or listed) and not (amount and likely):
        cursor.at = start
        return False
    made = None
    if likely:
        cursor.at = start
        made = makes.read_make(cursor, likely=likely)
    if made:
        reader.add(Unread(word.span, likely))
        for node in made:
            reader.add(node)
        return True
    cursor.step() if cursor.at == start else None
    cursor.take_word("in", "into", "around")
    target = read_target(cursor)
    reader.add(Unread(word.span, likely))
    return reader.add(Make("?" + word.text, cursor.span_from(start), amount, target))


def _place(cursor: Cursor) -> Target | None:
    cursor.step()
    return read_target(cursor)


_STOPS = (
    Kind.COMMA,
    Kind.SEMICOLON,
    Kind.STOP,
    Kind.CLOSE,
    Kind.OPEN,
    Kind.STAR,
    Kind.COLON,
)


def _remark(reader: Reader) -> bool:
    """Words up to the next mark; instructions inside them are still found."""
    cursor = reader.cursor
    start = cursor.at
    cursor.step()
    while not cursor.done() and cursor.token.kind not in _STOPS:
        if cursor.token.kind is Kind.LINE and cursor.token.value > 1:
            break
        if _work_ahead(cursor):
            break
        cursor.step()
    return reader.add(Remark(cursor.span_from(start)))


def _work_ahead(cursor: Cursor) -> bool:
    """Whether an instruction begins here, in the middle of a remark."""
    token = cursor.token
    if token.kind is Kind.NUMBER:
        return cursor.attempt(makes.read_make) and cursor.peek().text not in ("st", "sts")
    if token.kind is not Kind.WORD:
        return False
    if token.text in ("turn", "skip", "sk", "rep", "repeat", "fasten"):
        return True
    if token.text in ("ch", "chain") and cursor.peek().kind is Kind.NUMBER:
        return not cursor.tokens[cursor.at - 1].text == "the"
    return False


_READERS = (
    _repeat_phrase,
    _recall,
    _ending,
    _conditional,
    _working_last,
    _when_left,
    _claim,
    _motions,
    _ring,
    _turn,
    _finish,
    _join,
    _loops,
    _chain,
    _skip,
    _make,
    _yarn,
    _start_in,
    _and_in,
    _place_first,
    _unworked,
    _bare_across,
)


def work_in(nodes: Sequence[Node]) -> bool:
    """Whether some nodes hold any work at all."""
    return any(_is_work(node) or isinstance(node, (Tail, Join)) for node in nodes)
