"""Chains as instructions, with what they are said to count as: "ch 3 (counts as dc)"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.chained_to_turn import with_turning
from hookwright.notation.chains import (
    SAID_OF_ALL,
    Meaning,
    chains_beside,
    is_told_of_all,
    meaning_of,
)
from hookwright.notation.chains_over import read_over_spaces
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.makes import LEAD_WORDS
from hookwright.notation.one_place import gather_with_chain
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    EACH_WORDS,
    SPACE_NOUNS,
    STITCH_NOUNS,
)
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Amount,
    Chain,
    Join,
    Make,
    Means,
    Remark,
    Role,
    Skip,
    Turn,
    Which,
    Yarn,
)
from hookwright.notation.vocabulary import StitchWord
from hookwright.source import Span


def read_chain_phrase(reader: Reader) -> bool:
    """Chains, with what they are said to stand for."""
    start = reader.cursor.at
    if _told_for_all(reader):
        return True
    node = read_chain(reader.cursor)
    if node is None:
        return False
    if _is_to_start(reader.cursor):  # "ch 3 to start a solid mesh"
        return reader.remark(reader.cursor.span_from(start))
    if not reader.has_work() and not reader.depth:
        node = with_turning(reader.cursor, node)
    elif read_over_spaces(reader, node):
        return True
    reader.add(node)
    if gather_with_chain(reader):
        return True
    if not _equals_stitch(reader):
        _comma_meaning(reader)
    return True


def _is_to_start(cursor: Cursor) -> bool:
    """ "(Ch 3) to start a solid mesh" tells how one is begun; "(ch 17) to start" works."""
    started = cursor.take_phrase("to start", "to begin", "to start with", "to begin with")
    return started and not (cursor.done() or cursor.is_kind(*_ENDS_CLAUSE))


_FOR = Sayings(("in place of", "instead of", "in lieu of", "as"))


def _equals_stitch(reader: Reader) -> bool:
    """ "Ch 3 = dc.", "the ch 4 is a dc and ch 1": what the chain stands for."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.take_kind(Kind.EQUALS) or cursor.take_word("is") or cursor.take_any(_FOR):
        cursor.take_word("a", "1", "one", "the", "your")
        cursor.take_word("1st", "first")
        stitch = cursor.stitch()
        above = _chains_above(cursor)
        ends = cursor.is_kind(
            Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.LINE, Kind.CLOSE, Kind.END
        )
        if stitch is not None and stitch.family == "plain" and ends:
            meaning = Meaning(Role.COUNTS, stitch.id, above)
            return give_meaning(reader, meaning, cursor.span_from(start))
    cursor.at = start
    return False


def _chains_above(cursor: Cursor) -> int:
    """The 1 of "(a dc) and ch 1", "and a ch 1", "and 1 ch"; 0 where none is told."""
    at = cursor.at
    joined = cursor.take_word("and", "plus") or cursor.take_kind(Kind.PLUS)
    cursor.take_word("a", "one")
    node = read_chain(cursor) if joined else None
    if node is not None:
        return node.amount.at(0) or 0
    cursor.at = at
    return 0


_ENDS_CLAUSE = (Kind.STOP, Kind.SEMICOLON, Kind.COMMA, Kind.OPEN, Kind.LINE, Kind.END)


def _told_for_all(reader: Reader) -> bool:
    """ "Ch 3 at the beginning of a round is the first dc.": a custom, no instruction."""
    cursor = reader.cursor
    if reader.mark not in (Kind.STOP, Kind.SEMICOLON, Kind.LINE) or reader.depth:
        return False
    start = at = cursor.at
    if not any(token.text in CHAIN_NOUNS for token in cursor.tokens[start : start + 3]):
        return False
    while cursor.tokens[at].kind not in _ENDS_CLAUSE:
        at += 1
    words = [token.text for token in cursor.tokens[start:at]]
    founded = bool(reader.items) and all(isinstance(i, Chain) for i in reader.items)
    alone = cursor.tokens[at].kind in (Kind.STOP, Kind.LINE, Kind.END)
    founded = founded or (alone and _only_ring(reader))
    if not is_told_of_all(words, founded=founded) and not _is_first_of(reader, words):
        return False
    cursor.at = at
    return reader.remark(cursor.span_from(start))


def _is_first_of(reader: Reader, words: list[str]) -> bool:
    """ "(Dc in each ch;) ch 3 is dc number one": the first of the stitches told."""
    first = "first" in words or words[-2:] in (["number", "one"], ["number", "1"])
    said = first and not SAID_OF_ALL.isdisjoint(words)
    return said and reader.has_work() and not reader.number_of(Chain)


def _only_ring(reader: Reader) -> bool:
    """ "Ch 4, join to form a ring. (Ch 3 counts as a dc.)": nothing is worked yet."""
    quiet = (Chain, Yarn, Remark)
    others = [item for item in reader.items if not isinstance(item, quiet)]
    return bool(others) and all(map(_closes_ring, others))


def _closes_ring(item: object) -> bool:
    """ "Join to form a ring", "sl st in first ch"."""
    if isinstance(item, Make) and item.stitch == "sl st" and item.target is not None:
        return item.target.noun == "ch" and item.target.which is Which.FIRST
    return isinstance(item, Join) and item.to_ring


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
    if cursor.is_word("for") and cursor.peek().text in EACH_WORDS:
        cursor.at = at  # "ch 1, for every 3 sts do ...": where, not what for
        return
    tokens: list[Token] = []
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
    give_meaning(reader, meaning, cursor.span_from(start))


_IT = Sayings((
    "that is", "that's", "this is", "it is", "it's", "that counts", "this counts",
    "it counts", "they count", "these count", "that stands", "this stands", "which is",
    "that will be", "this will be", "that makes", "this makes", "they are", "these are",
    "that was", "that does", "this does", "it does", "they do",
    *(
        f"{these} {number}{chains} {are}"
        for these in ("these", "those", "the")
        for number in ("2", "3", "4", "5", "two", "three", "four", "five")
        for chains in ("", " ch", " chs", " chain", " chains")
        for are in ("are", "count", "stand", "make", "form", "do", "is", "counts")
    ),
))  # fmt: skip
_SAYS_END = (Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.LINE, Kind.END, Kind.COLON)


def read_said_of_chain(reader: Reader) -> bool:
    """ "Chain 3 and turn. That is your first dc.": what the chain stands for.

    At the end of a row it is that of the next one: "ch 2, turn, these 2 are its edge st".
    """
    cursor = reader.cursor
    start = cursor.at
    behind = (item for item in reversed(reader.items) if not isinstance(item, Turn))
    chain = next(behind, None)
    begins = isinstance(reader.last(), Turn) or not reader.has_work()
    if not isinstance(chain, Chain) or not begins or not cursor.take_any(_IT):
        cursor.at = start
        return False
    cursor.at = start
    tokens: list[Token] = []
    while not cursor.is_kind(*_SAYS_END, Kind.OPEN, Kind.CLOSE):
        tokens.append(cursor.step())
    meaning = meaning_of(tokens, cursor.own_words)
    if meaning is None or chain.role is not Role.UNSAID:
        cursor.at = start
        return False
    at = reader.items.index(chain)
    reader.items[at] = _meant(chain, meaning)
    return True


def _chains_too(cursor: Cursor) -> bool:
    """Whether "and" goes on with chains: "counts as dc and ch 1", "a tr and 2 chain"."""
    ahead = cursor.peek(2) if cursor.peek().kind is Kind.NUMBER else cursor.peek()
    return ahead.text in ("ch", "chain", "chs", "chains", "a")


_COUNTING = frozenset(
    "count counts counting counted are is form forms as linen stand stands".split()
)


def speaks_of_chain(reader: Reader, tokens: list[Token]) -> bool:
    """Whether words in brackets are about the chain, turn or stitch before them."""
    last = reader.items[-1]
    if isinstance(last, Chain):
        return True
    if tokens[0].kind is Kind.NUMBER and tokens[0].value > 1 and not _is_chain(tokens[1:2]):
        return False  # "(39 tr counting the 3 ch)" is a count
    words = {token.text for token in tokens}
    chain = bool(words & CHAIN_NOUNS)
    if isinstance(last, Turn) and tokens[0].kind in (Kind.NUMBER, Kind.OPEN):
        return False
    if isinstance(last, (Turn, Skip)) and not chain:
        return bool(words & {"counts", "count", "counting", "acts", "stands"})
    counting = _COUNTING | {"for"} if words & _SKIPPED else _COUNTING
    return chain and bool(words & counting)


def _is_chain(tokens: list[Token]) -> bool:
    return bool(tokens) and tokens[0].text in CHAIN_NOUNS | _SKIPPED | _OF_CHAIN


_SKIPPED = frozenset("skipped missed unused".split())
"""Words of chains at the hook: "(skipped chs: 3 for a dc, 1 left empty)"."""
_OF_CHAIN = frozenset("of t turning beginning beg starting".split())


def draw_together(reader: Reader, tokens: list[Token], span: Span) -> bool:
    """ "Ch 2, dc in next st (counts as dc2tog)": chain and stitch are one decrease.

    So they are one cluster: "ch 3, 2-dc cluster in ring (counts as first 3-dc cl)".
    """
    decrease = _decrease_named(reader, tokens)
    if decrease is None:
        return False
    worked = [item for item in reader.items if not isinstance(item, (Remark, Yarn))]
    while len(worked) > 1 and isinstance(worked[0], Make) and worked[0].stitch == "sl st":
        worked = worked[1:]  # on the way to where the round starts
    last, others = worked[-1], worked[:-1]
    begins = others and isinstance(others[0], Chain) and not reader.depth
    if not isinstance(last, Make) or not begins:
        return False
    if not all(isinstance(item, Skip) for item in others[1:]):
        return False
    chain = replace(others[0], role=Role.COUNTS_NOT)
    one_more = _one_leg_more(last)
    if decrease.family != "together" and one_more is not None:
        reader.items[reader.items.index(others[0]) :] = [chain, one_more]
        return True
    loop = last.loop or (last.target.loop if last.target else "")
    both = Make(
        decrease.id, last.span.to(span), loop=loop, legs=decrease.legs, post=last.post
    )
    if decrease.family != "together":
        both = replace(last, stitch=decrease.id, span=both.span, legs=1)
    reader.items[reader.items.index(others[0]) :] = [chain, both]
    return True


def _one_leg_more(last: Make) -> Make | None:
    """ "Ch 3, dc3tog over next 3 dc (first cluster)": the chain is one leg of four."""
    number = last.target.amount if last.target is not None else None
    if last.legs < _FEWEST_LEGS or number is None or number.values != (last.legs,):
        return None
    legs = last.legs + 1
    stitch = last.stitch.replace(str(last.legs), str(legs))
    return replace(last, stitch=stitch, legs=legs, target=None)


_FEWEST_LEGS = 2


def _decrease_named(reader: Reader, tokens: list[Token]) -> StitchWord | None:
    """The decrease that words in brackets say something counts as."""
    cursor = Cursor(
        [*tokens, Token(Kind.END, "", 0, 0, 0)], own_words=reader.cursor.own_words
    )
    counts = cursor.take_word("counts", "count", "counting", "counted", "is", "makes")
    first = not counts and cursor.take_word("first", "1st", "beg", "beginning", "starting")
    if not first and not counts and not cursor.take_kind(Kind.EQUALS):
        return None
    cursor.take_word("as", "for")
    cursor.take_word("a", "an", "the", "first", "1")
    if cursor.is_kind(Kind.NUMBER) and cursor.peek().kind is Kind.DASH:
        cursor.step()
        cursor.step()
    stitch = cursor.stitch()
    one = stitch is not None and (stitch.legs > 1 or stitch.family == "cluster")
    cursor.take_word("made", "complete", "completed", "formed")
    return stitch if one and (cursor.done() or not first) else None


def give_meaning(reader: Reader, meaning: Meaning, span: Span) -> bool:
    """Keep what a chain is said to stand for: with the chain, or as words of their own."""
    last = reader.items[-1]
    if isinstance(last, Chain):
        reader.items[-1] = _meant(last, meaning)
        return True
    return reader.add(
        Means(span, meaning.role, meaning.stands, meaning.chains, meaning.stitches)
    )


def _meant(chain: Chain, meaning: Meaning) -> Chain:
    """A chain with what it is said to stand for: a stitch, and a space beside it."""
    beside = chains_beside(chain.amount.at(0) or 0, meaning)
    return replace(chain, role=meaning.role, stands=meaning.stands, stands_chains=beside)


_CAST_ON = Sayings((
    "cast on", "cast up", "strike up", "put on", "start with", "crochet", "we crochet",
    *(
        f"{begin} {making}"
        for begin in ("begin by", "begin with", "start by", "start off by")
        for making in ("making", "working", "crocheting", "")
    ),
))  # fmt: skip


_CHAINING = Sayings(
    f"{begin} by chaining" for begin in ("begin", "start", "start off", "begin off")
)


_KNOT = Sayings(
    f"{make}{a}{knot}"
    for make in ("make ", "begin with ", "start with ", "")
    for a in ("a ", "")
    for knot in ("slip knot", "slipknot", "slip loop", "loop on the hook")
)


_CHAIN_OF = Sayings(
    f"{a}{kind}chain of"
    for a in ("a ", "your ", "the ", "")
    for kind in ("foundation ", "starting ", "base ", "loose ", "loose foundation ", "")
)


_OF_FOUNDATION = ("loose", "foundation", "starting", "base", "slack", "beginning")
"""What chains may be called that a piece begins with: "17 loose chains"."""


def read_chain(cursor: Cursor) -> Chain | None:
    """ "ch 3", "chain 36", "3ch", "5 chains"; None where a chain is only named."""
    start = cursor.at
    if cursor.take_any(_KNOT):
        cursor.take_kind(Kind.COMMA)
        cursor.take_word("and")
    chaining = cursor.take_any(_CHAINING)
    if not chaining:
        cursor.take_word(*LEAD_WORDS) or cursor.take_any(_CAST_ON)
        chaining = cursor.take_any(_CHAIN_OF)
    if chaining:
        amount = cursor.number()
        if amount is None:
            cursor.at = start
            return None
        cursor.take_word(*STITCH_NOUNS, *CHAIN_NOUNS)
        return Chain(amount, cursor.span_from(start))
    amount = cursor.number()
    if amount is not None:
        return _so_many_chains(cursor, amount, start)
    if not cursor.take_word("ch", "chain", "chs", "chains", "chained"):
        cursor.at = start
        return None
    cursor.take_kind(Kind.DASH)
    one = cursor.take_word("a", "an") and not cursor.take_word("multiple")
    amount = cursor.number()
    if (
        amount is None
        or one
        or _names_place(cursor, 0)
        or cursor.is_word("you")  # "the ch 1 you turn with" is only spoken of
        or (cursor.is_word("more") and cursor.peek().text == "than")
    ):
        cursor.at = start
        return None
    return Chain(amount, cursor.span_from(start))


def _so_many_chains(cursor: Cursor, amount: Amount, start: int) -> Chain | None:
    """ "3ch", "5 chains", "17 loose chains", "15 chain stitches", its number taken."""
    compared = cursor.is_word("more") and cursor.peek().text == "than"
    turning = not compared and cursor.is_word("turning", "lifting") and cursor.step()
    spoken = compared or (turning and cursor.peek().kind is Kind.WORD)
    if spoken:  # "the 5 turning ch of Row 2" is no instruction
        cursor.at = start
        return None
    called = cursor.is_word(*_OF_FOUNDATION) and cursor.peek().text in CHAIN_NOUNS
    if called and not _names_place(cursor, 2):
        cursor.step()
    if cursor.token.text not in CHAIN_NOUNS or _names_place(cursor, 1):
        cursor.at = start
        return None
    cursor.step()
    cursor.take_word(*STITCH_NOUNS)
    return Chain(amount, cursor.span_from(start))


def _names_place(cursor: Cursor, ahead: int) -> bool:
    """Whether a space noun follows: "ch 2 sp" is a place, not an instruction."""
    token = cursor.peek(ahead)
    if token.kind is Kind.DASH:
        token = cursor.peek(ahead + 1)
    return token.text in SPACE_NOUNS or token.text == "from"
