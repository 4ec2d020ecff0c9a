"""Which places are passed over: "sk 2", "leave 3 sts unworked", "starting in 2nd ch"?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Star
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import NEXT_WORDS, everything, take_chain_length
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import InOnePlace, Make, Node, Repeat, Skip, Target, Which
from hookwright.notation.work import is_work

SKIP_WORDS = ("skip", "sk", "miss", "skipping", "omit", "ms", "skp", "missing", "seek")


_PASSES = Sayings((
    "pass over", "passing over", "leave out", "leaving out", "jump over", "jumping over",
    "hop over", "hopping over", "go past", "going past", "pass by", "passing by",
    "leap over",
))  # fmt: skip
PASSING = frozenset(phrase.split()[0] for phrase in _PASSES)


def read_skip(cursor: Cursor) -> Skip | None:
    """ "sk 2", "miss next st", "pass over 2 sts", "leave 3 sts unworked"."""
    start = cursor.at
    cursor.take_word("and", "then", "but")
    passes = cursor.take_any(_PASSES)
    if not passes and cursor.take_word("leave", "leaving", "leaves"):
        return _left(cursor, start)
    if not passes and not cursor.take_word(*SKIP_WORDS):
        cursor.at = start
        return None
    cursor.take_word("over")
    target = _all_up_to(cursor) or read_target(cursor)
    if target is None:
        target = Target("st", Which.NEXT, cursor.span_from(start))
    target = _under_chain(cursor, target)
    if target.amount is not None:
        cursor.take_word("more", "others")
        _pass_whose(cursor)
    cursor.take_phrase("unworked", "free", "for now", "as before", "between")
    _take_neighbour(cursor)
    _take_purpose(cursor)
    return Skip(target, cursor.span_from(start))


_UNDER_CHAIN = Sayings((
    *(
        f"{that}{chain} {stands}"
        for that in ("that ", "which ", "")
        for chain in ("it", "the ch", "the chain", "this ch", "this chain")
        for stands in ("stands on", "stands in", "grows from", "grows out of", "comes from",
                       "comes out of", "springs from", "starts from", "rises from", "is in")
    ),
    *(
        f"{straight}{under}{chain}"
        for straight in ("directly ", "right ", "just ", "immediately ", "")
        for under in ("under", "below", "beneath", "underneath")
        for chain in (" the ch", " the chain", " it", " this ch", " these ch", "")
    ),
    "as the ch", "as the chain", "as ch",
))  # fmt: skip


def _under_chain(cursor: Cursor, target: Target) -> Target:
    """ "Miss the dc it stands on", "sk st below ch-3": the one under the chain."""
    single = target.which in (Which.NEXT, Which.SAME) and target.amount is None
    if not single or not cursor.take_any(_UNDER_CHAIN):
        return target
    take_chain_length(cursor)
    return Target("base", Which.SAME, target.span)


def _pass_whose(cursor: Cursor) -> None:
    """ "Skip 3 dc of the scallop": they are the next ones, of whatever they are part."""
    at = cursor.at
    of = cursor.take_word("of") and cursor.take_word("the", "that", "this", "same")
    if not (of and cursor.take_kind(Kind.WORD) and cursor.is_kind(*_AFTER_LIST)):
        cursor.at = at


_LONGEST_NAME = 5
_UP_TO = ("to", "until", "till", "up")


def _all_up_to(cursor: Cursor) -> Target | None:
    """ "all sts of the sleeve to next ch-2 sp", "to next corner": what lies before it."""
    start = cursor.at
    for _ in range(_LONGEST_NAME):
        if cursor.is_kind(Kind.WORD) and not cursor.is_word(*_UP_TO):
            cursor.step()
    if not cursor.take_phrase("up to", "to", "until", "till"):
        cursor.at = start
        return None
    span = cursor.span_from(start)
    until = read_target(cursor)
    if until is None or until.which is not Which.NEXT or until.noun not in _ENDS:
        cursor.at = start
        return None
    return replace(everything(span), span=cursor.span_from(start), until=until)


_ENDS = ("sp", "corner", "group", "tch")


def _left(cursor: Cursor, start: int) -> Skip | None:
    """ "leaving 12 sts unworked", "leave rem sts free": some, or all that are left."""
    target = read_target(cursor)
    if target is not None and cursor.take_word("alone"):  # "leave the first dc alone"
        told = {token.text for token in cursor.tokens[start : cursor.at]}
        left = not told.isdisjoint(_OTHERS)  # "leave the other 19 alone"
        return Skip(target, cursor.span_from(start), left=left)
    if target is not None and cursor.tokens[start + 1].text in ("these", "those", "them"):
        target = replace(target, noun="st", which=Which.EACH)
    some = target is not None and (target.amount or target.which is Which.EACH)
    one = target is not None and not some and _is_one(cursor, start)
    if target is not None and one and cursor.take_word(*_FREE):
        ends = cursor.is_kind(*_ENDS_PURPOSE[1:]) or _turns_behind(cursor)
        return Skip(target, cursor.span_from(start), left=ends)  # "leave next st unworked"
    if target is None or not some:
        cursor.at = start
        return None
    for_later = cursor.take_word(*_FREE, "behind")
    _take_neighbour(cursor)
    if not for_later and _goes_on(cursor, target):
        return Skip(target, cursor.span_from(start))
    return Skip(target, cursor.span_from(start), left=True)


def _turns_behind(cursor: Cursor) -> bool:
    """Whether the row is turned at once: ", turn"."""
    return cursor.is_kind(Kind.COMMA) and cursor.peek().text in ("turn", "fasten")


def _is_one(cursor: Cursor, start: int) -> bool:
    """Whether a single place was named: "leave next st", but not "leave the other sts"."""
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    return words.isdisjoint(_OTHERS) and not cursor.tokens[cursor.at - 1].text.endswith("s")


_FREE = ("unworked", "free", "open", "empty")


_OTHERS = frozenset("other others rest remaining".split())


def _goes_on(cursor: Cursor, target: Target) -> bool:
    """Whether work follows at once: "leave one, hdc in the one that follows" skips it."""
    few = target.amount is not None and (target.amount.at(0) or 0) <= _FEW
    at = cursor.at
    follows = cursor.take_kind(Kind.COMMA) and cursor.stitch_at() is not None
    cursor.at = at
    return few and follows


_FEW = 3


_LONGEST_NEIGHBOUR = 5


def _take_neighbour(cursor: Cursor) -> None:
    """ "next to the first ear", "beside that top": what lies by the places left out."""
    at = cursor.at
    behind = cursor.tokens[at - 1].text == "behind"  # taken with the place: "dc behind"
    if not behind and not cursor.take_phrase(
        "next to",
        "beside",
        "alongside",
        "right by",
        "behind",
        "in back of",
        "hidden behind",
    ):
        return
    for _ in range(_LONGEST_NEIGHBOUR):
        if not cursor.is_kind(Kind.WORD, Kind.ORDINAL):
            break
        cursor.step()
    if not cursor.is_kind(Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.LINE):
        cursor.at = at


_ENDS_PURPOSE = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.LINE, Kind.CLOSE, Kind.END)


def _take_purpose(cursor: Cursor) -> None:
    """ "for the front neck (and join A in the next st)": what places are left out for."""
    at = cursor.at
    if not cursor.take_word("for"):
        return
    cursor.take_word("the", "a", "an")
    begun = cursor.at
    while cursor.is_kind(Kind.WORD) and not cursor.is_word("and", "then"):
        if cursor.at - begun == _LONGEST_NEIGHBOUR or cursor.stitch_at() is not None:
            break
        cursor.step()
    more = cursor.is_word("and", "then")
    if cursor.at == begun or not (more or cursor.is_kind(*_ENDS_PURPOSE)):
        cursor.at = at


def read_skip_phrase(reader: Reader) -> bool:
    """A skip as an item of the row, or several told in one list."""
    bracketed = _in_brackets(reader.cursor)
    for node in bracketed:
        reader.add(node)
    if bracketed:
        return True
    skip = read_skip(reader.cursor)
    found = skip is not None
    while skip is not None:
        reader.add(skip)
        skip = None if skip.left else _listed(reader.cursor)
    return found


def _in_brackets(cursor: Cursor) -> list[Skip]:
    """ "Sk (next ch-1 sp, next 10 dc)": all places of a list; none, and nothing taken."""
    start = cursor.at
    nodes: list[Skip] = []
    if cursor.take_word(*SKIP_WORDS) and cursor.take_kind(Kind.OPEN):
        goes_on = True
        while goes_on:
            at = cursor.at
            target = read_target(cursor)
            if target is None:
                break
            nodes.append(Skip(target, cursor.span_from(at)))
            goes_on = cursor.take_kind(Kind.COMMA, Kind.PLUS)
            goes_on = cursor.take_word("and", "then") or goes_on
        if nodes and not goes_on and cursor.take_kind(Kind.CLOSE):
            return nodes
    cursor.at = start
    return []


_AFTER_LIST = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.LINE, Kind.END)


def _listed(cursor: Cursor) -> Skip | None:
    """ "Sk next ch-1 sp, next 20 dc and next ch-1 sp": a further place of the list."""
    at = cursor.at
    joined = cursor.take_kind(Kind.COMMA)
    joined = cursor.take_word("and") or joined
    start = cursor.at
    cursor.take_word("the")
    target = read_target(cursor) if joined and cursor.is_word(*NEXT_WORDS) else None
    ends = cursor.is_kind(*_AFTER_LIST) or cursor.is_word("and")
    if target is None or target.which is not Which.NEXT or not ends:
        cursor.at = at
        return None
    return Skip(target, cursor.span_from(start))


def read_first_only(reader: Reader) -> bool:
    """ "Sc in the first 10 sts only": what lies behind them is left for later."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    place = last.target if isinstance(last, (Make, InOnePlace)) else None
    first = place is not None and place.which is Which.FIRST and place.amount is not None
    told = first and cursor.take_any(_NO_MORE)
    if not told or not cursor.is_kind(*_AFTER_LIST):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    return reader.add(Skip(Target("st", Which.EACH, span), span, left=True))


_NO_MORE = Sayings(("only", "and no more", "and no further", "alone", "no more"))


def read_start_in(reader: Reader) -> bool:
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
    begins = cursor.tokens[start].text != "from"
    if begins and target is not None and target.which is Which.SAME:
        return reader.remark(cursor.span_from(start))  # "starting in same place as ss"
    if target is None or target.noun != "ch" or not target.ordinal:
        cursor.at = start
        return False
    cursor.take_word("on", "onwards", "onward")
    span = cursor.span_from(start)
    place = replace(target, ordinal=target.ordinal, from_hook=True, span=span)
    if is_all_before(reader):
        reader.items.insert(-1, Skip(place, span))
        return True
    return reader.add(Skip(place, span))


def is_all_before(reader: Reader) -> bool:
    """ "14 sc (beginning in the 2nd ch)": the first work, told before its place."""
    last = reader.last()
    if not isinstance(last, Make) or reader.depth:
        return False
    if any(
        isinstance(item, (Star, Make, InOnePlace, Repeat)) for item in reader.items[:-1]
    ):
        return False
    target = last.target
    return target is None or (target.which is Which.EACH and target.amount is None)


def told_once(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """ "Skip 4 chs, V-st in 5th ch from hook": the place tells what is skipped already."""
    at = next((i for i, node in enumerate(nodes) if isinstance(node, Skip)), None)
    if at is None or any(is_work(node) for node in nodes[:at]):
        return nodes
    skip = nodes[at]
    first = next((node for node in nodes[at + 1 :] if is_work(node)), None)
    target = getattr(first, "target", None)
    if not isinstance(skip, Skip) or target is None or not target.from_hook:
        return nodes
    amount = skip.target.amount
    skipped = amount.at(0) if amount is not None and skip.target.noun == "ch" else None
    same = skipped is not None and target.ordinal == skipped + 1
    return (*nodes[:at], *nodes[at + 1 :]) if same else nodes
