"""What do words in brackets say of what stands before them: a name, a meaning, where?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.chain_phrases import draw_together, give_meaning, speaks_of_chain
from hookwright.notation.chains import Meaning, meaning_of, says_what
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Item, TimesMark
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.makes import is_square_of_net
from hookwright.notation.place_words import CHAIN_NOUNS, INTO
from hookwright.notation.reader import Reader
from hookwright.notation.times import read_times
from hookwright.notation.tree import (
    Chain,
    InOnePlace,
    Make,
    Means,
    Often,
    Recall,
    Role,
    Skip,
    Turn,
)
from hookwright.source import Span

# To look a member up in its enumeration takes as long as a call: these are asked for at
# every token.
_OPEN, _CLOSE, _END = Kind.OPEN, Kind.CLOSE, Kind.END


def _inside(cursor: Cursor) -> tuple[list[Token], int]:
    """The tokens of the bracket here, and the position after it."""
    at, depth = cursor.at, 0
    tokens = []
    while cursor.tokens[at].kind is not _END:
        token = cursor.tokens[at]
        depth += (token.kind is _OPEN) - (token.kind is _CLOSE)
        at += 1
        if depth == 0:
            break
        tokens.append(token)
    return tokens[1:], at


_OTHERWISE = (("in", "place", "of"), ("instead", "of"))
_BEGUN = tuple((begin, "with") for begin in ("start", "begin", "starting", "beginning"))
"""What a bracket begins with that tells a first stitch otherwise."""


def tells_otherwise(reader: Reader) -> bool:
    """ "Work same as front, omitting bobbles (work sc in place of each bobble)"."""
    tokens, after = _inside(reader.cursor)
    words = tuple(token.text for token in tokens)
    begun = words[:2] in _BEGUN and isinstance(reader.last(), (Make, InOnePlace))
    part = any(isinstance(item, Recall) and item.part for item in reader.items)
    if not (begun or part):
        return False
    said = any(
        words[at : at + len(told)] == told
        for told in _OTHERWISE for at in range(len(words))
    )  # fmt: skip
    if not said:
        return False
    start, reader.cursor.at = reader.cursor.at, after
    return reader.remark(reader.cursor.span_from(start))


_VERBS = frozenset("is are was were".split())


def tells_which_it_is(reader: Reader) -> bool:
    """ "(The last sc of this round is the dc.)": of what is worked already."""
    tokens, after = _inside(reader.cursor)
    words = [token.text for token in tokens]
    listed = any(token.kind is Kind.COMMA for token in tokens)
    said = words[:1] == ["the"] and not _VERBS.isdisjoint(words[2:])
    if not said or listed or not reader.has_work():
        return False
    start, reader.cursor.at = reader.cursor.at, after
    return reader.remark(reader.cursor.span_from(start))


_IN_THE_MIDDLE = frozenset("middle centre center central".split())


def tells_place_again(reader: Reader) -> bool:
    """ "dc in next st (4th of the 7 tr in the shell)": the place, told once more."""
    last = reader.last()
    if not isinstance(last, (Make, InOnePlace)) or last.target is None:
        return False
    tokens, after = _inside(reader.cursor)
    words = [token.text for token in tokens]
    while words and words[0] in ("this", "that", "it", "is", "the", "which"):
        tokens, words = tokens[1:], words[1:]
    counted = bool(tokens) and tokens[0].kind is Kind.ORDINAL
    part = "of" in words[1:3] and (counted or words[0] in _IN_THE_MIDDLE)
    same = words[:1] == ["same"] and "as" in words[1:4]  # "(same ch as the first 2 hdc)"
    last_one = words[:1] == ["last"] and not {"in", "into", "on"}.isdisjoint(words[1:3])
    if not (part or same or last_one):  # "(the last one in top of the ch 3)"
        return False
    span = reader.cursor.token.span
    reader.cursor.at = after
    return reader.remark(span.to(reader.cursor.span_from(after - 1)))


_NAMES = frozenset({"made", "completed", "formed"})


_CALLS = (("this", "is"), ("that", "is"), ("it", "is"), ("makes",), ("called",))


_FIRST_ONES = ("new", "first", "beginning", "starting", "beg", "start", "opening")
_ARTICLES = ("a", "an", "the", "another", "one", "your")


def names_what_was_made(reader: Reader) -> bool:
    """ "7 dc in next ch (fan made)": the group has a name from here on."""
    tokens, after = _inside(reader.cursor)
    tokens = without_where(tokens)
    words = [t.text for t in tokens if t.kind is not Kind.STOP]
    called = next((c for c in _CALLS if tuple(words[: len(c)]) == c), ())
    if len(words) < 2 or not reader.items or is_square_of_net(words):
        return False
    own = words[0] in _ARTICLES and _is_own(reader, tokens[1:])
    own = own or (words[0] in _FIRST_ONES and _is_own(reader, tokens))
    own = own or (words[-1] in _NAMES and _is_own(reader, tokens[:-1]))
    own = own or (bool(called) and _is_own(reader, _without_article(tokens[len(called) :])))
    made = words[-1] in _NAMES and words[-2] != "just"  # not "(sc in the dc just made)"
    if not (made or called or own) or _is_counted(reader.cursor, after):
        return False
    tokens = tokens[len(called) :]
    if _counts(tokens, called=bool(called)):
        return False
    inner = Cursor([*tokens, Token(_END, "", 0, 0, 0)], own_words=reader.cursor.own_words)
    inner.take_word(*_ARTICLES)
    half = "half " * inner.take_word("half")
    stitch = inner.stitch()
    unnamed = words[-1] if called else words[-2]
    name = half + (stitch.id if stitch is not None else unnamed)
    give_name(reader, name, own=own)
    reader.cursor.at = after
    return True


def without_where(tokens: list[Token]) -> list[Token]:
    """ "(A new block at the edge)": what was made, without where it lies."""
    for at in range(2, len(tokens) - 1):
        if tokens[at].text in _LIES and tokens[-1].text in _BESIDE and len(tokens) - at < 4:
            return tokens[:at]
    return tokens


_LIES = frozenset("at on along to for in".split())
_BESIDE = frozenset("edge side start beginning end corner begin margin".split())


def _without_article(tokens: list[Token]) -> list[Token]:
    return tokens[1:] if tokens and tokens[0].text in _ARTICLES else tokens


def read_name_told(reader: Reader) -> bool:
    """ "Sc, ch 1 and sc, all in next ch: this is a seed": its name, in no brackets."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    named = isinstance(last, InOnePlace) or (
        isinstance(last, Make) and last.target is not None and last.amount is not None
    )
    called = named and reader.mark in NAME_MARKS and cursor.take_any(CALLED)
    stitch = cursor.stitch() if called and cursor.take_word(*_ARTICLES) else None
    if stitch is None or stitch.family != "own" or not cursor.is_kind(*NAME_ENDS):
        cursor.at = start
        return False
    give_name(reader, stitch.id, own=False)
    return reader.remark(cursor.span_from(start))


CALLED = Sayings((
    *(
        f"{this} {makes}"
        for this in ("this", "that", "it")
        for makes in ("is", "makes", "gives", "forms", "is called", "is now")
    ),
    "which is", "which makes", "call this", "call it", "call that", "we call this",
    "we call it", "i call this", "i call it", "i call that", "that's", "known as",
))  # fmt: skip
"""What leads to a name of what was just made, in no brackets."""
NAME_MARKS = (Kind.COLON, Kind.STOP, Kind.SEMICOLON, Kind.COMMA, Kind.DASH)
NAME_ENDS = (
    Kind.STOP, Kind.SEMICOLON, Kind.COMMA, Kind.END, Kind.LINE, Kind.OPEN, Kind.STAR,
)  # fmt: skip


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
    end = Token(_END, "", 0, 0, 0)
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


_AT_HOOK = frozenset(
    "skipped missed skip miss passed unused left before beginning start edge turned".split()
)


def meaning_in_claim(reader: Reader, start: int) -> None:
    """ "(16 linen stitches - the chains you skipped are number one)"."""
    _meaning_within(reader, start, start + 1, reader.cursor.at - 1)


def meaning_told(reader: Reader, start: int) -> None:
    """ "Sts made: 14, for the three ch at the start are a dc": without brackets."""
    _meaning_within(reader, start, start, reader.cursor.at)


def _meaning_within(reader: Reader, start: int, first: int, end: int) -> None:
    cursor = reader.cursor
    tokens = list(cursor.tokens[first:end])
    words = {token.text for token in tokens}
    if not words & _AT_HOOK or not words & {"ch", "chs", "chain", "chains"}:
        return
    counted = [i for i, token in enumerate(tokens[:-1]) if token.kind in _BEHIND_COUNT]
    said = tokens[counted[0] + 1 :] if counted else tokens  # not what is counted
    meaning = meaning_of(said, cursor.own_words) or meaning_of(tokens, cursor.own_words)
    if meaning is not None:
        reader.add(Means(cursor.span_from(start), meaning.role, meaning.stands))


_BEHIND_COUNT = (Kind.DASH, Kind.SEMICOLON, Kind.COLON)


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
    stitch = Cursor([*tokens, Token(_END, "", 0, 0, 0)]).stitch()
    alone = len(tokens) == 1 and stitch is not None and stitch.family == "plain"
    return Meaning(Role.COUNTS, stitch.id) if alone and stitch is not None else None


def _is_worked(item: Item) -> bool:
    """Whether an item works something; a slip stitch before the chain only travels."""
    slips = isinstance(item, Make) and item.stitch == "sl st"
    return isinstance(item, (Make, InOnePlace)) and not slips


def _of_skipped_chains(tokens: list[Token]) -> bool:
    """ "Join. 23 hdc. (skipped chs don't count)": of the chains at the hook, told late."""
    words = {token.text for token in tokens}
    return bool(words & CHAIN_NOUNS and words & _AT_HOOK - {"before", "start", "edge"})


def tells_meaning(reader: Reader) -> bool:
    """ "(counts as dc)", "(the skipped 3 ch count as st)" behind a chain or stitch."""
    cursor = reader.cursor
    if not reader.items:
        return False
    tokens, after = _inside(cursor)
    of_chains = isinstance(reader.items[-1], (Chain, Make, Turn, Skip))
    if not tokens or not (of_chains or _of_skipped_chains(tokens)):
        return False
    if cursor.tokens[after].text in INTO and any(t.kind is Kind.OPEN for t in tokens):
        return False  # "sl st in next dc, (sl st, ch 3 (counts as dc), dc) in next sp"
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
