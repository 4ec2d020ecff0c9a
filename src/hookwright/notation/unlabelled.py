"""Is a line without a label a row of its own, a lead to the next row, or words?"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import takewhile

from hookwright.notation.collected import Collected, OpenRow
from hookwright.notation.continued import instruction_score, until_cut
from hookwright.notation.convention_words import stitch_named
from hookwright.notation.definitions import ARTICLES
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import Line
from hookwright.notation.makes import OPEN_SQUARES, SOLID_SQUARES
from hookwright.notation.place_words import CHAIN_NOUNS
from hookwright.notation.row_numbers import ROW_WORDS
from hookwright.notation.sections import Section
from hookwright.notation.statements import statements_in
from hookwright.notation.tree import (
    Chain,
    FinishOff,
    InOnePlace,
    Join,
    Loops,
    Make,
    Node,
    Recall,
    Remark,
    Repeat,
    Skip,
    Topic,
    Turn,
    Unread,
    Which,
    Yarn,
)
from hookwright.notation.vocabulary import families_of
from hookwright.regex import regex

OPTIONAL = regex(
    r"\b(?:if you (?:like|want|wish|prefer)|optional|would be nice|is nice|not needed|"
    r"feel free|you (?:can|could|may) (?:also|add))\b|\w\?(?:\s|$)",
    re.IGNORECASE,
)


_STATES = regex(
    r"[\W\d]*(?:there (?:are|is|will be|should be)|you (?:now |should )?(?:now )?have|"
    r"(?:the |your )?(?:stitch|st) counts?|(?:each|the|every) (?:square|motif|piece|block) "
    r"(?:has|have|is|measures?))\b",
    re.IGNORECASE,
)


def states_a_number(line: str) -> bool:
    """ "There are 17 sc along each side.": a count of what is there, and no row."""
    return _STATES.match(line) is not None


_MULTIPLES = frozenset("multiple multiples".split())


def is_unlabelled_row(draft: Collected, line: Line) -> bool:
    """Whether a line outside the rows holds a foundation, a row, or rows to repeat."""
    about = draft.section in (Section.WORDS, Section.NOTES, Section.MATERIALS)
    told = any(token.text in _MULTIPLES for token in draft.tokens_in(line))
    told = told and _OWN_CHAIN.search(line.text) is None
    if about and (told or not _begins_with_chain(draft, line)):
        return False
    nodes, claims = draft.read(line)
    if _tells_how_made(draft, line) or (nodes and all(map(_is_only_words, nodes))):
        return False
    if any(_is_recalled(draft, node) for node in nodes):
        return True
    if _begins_with_chain(draft, line) or _begins_with_ring(draft, line):
        return True
    if not draft.rows and _begins_with_foundation(nodes):
        return True
    if draft.parts and _begins_rejoined(nodes):
        return True
    if draft.section is not Section.ROWS or _is_custom(draft, line):
        return False
    if not draft.rows and not (draft.parts and _begins_with_work(nodes)):
        return False
    work = [node for node in nodes if isinstance(node, (Make, Repeat, InOnePlace))]
    if not work and any(isinstance(node, FinishOff) for node in nodes):
        return not any(isinstance(node, Unread) for node in nodes)
    counted = bool(claims) and len(work) > 1
    return bool(work) and instruction_score(nodes) > 0 and (counted or not _is_prose(nodes))


def _tells_how_made(draft: Collected, line: Line) -> bool:
    """ "To make a bl over a sp: 2 dc in the sp, ...": how a stitch is made, and no row.

    But "to make a block, ch 24" begins a piece.
    """
    cursor = draft.cursor(line.first)
    told = cursor.take_word("to") and cursor.take_word("make", "work")
    if not (told or cursor.take_word("for")) or not cursor.take_word(*ARTICLES, "every"):
        return False
    cursor.take_kind(Kind.NUMBER)
    named = cursor.is_word(*OPEN_SQUARES, *SOLID_SQUARES) or cursor.stitch() is not None
    over = False
    while named and cursor.is_kind(Kind.WORD, Kind.OPEN, Kind.CLOSE, Kind.NUMBER):
        over = cursor.step().text == "over" or over
    told = named and cursor.is_kind(Kind.COLON, Kind.COMMA, Kind.DASH)
    return told and (over or not _begins_with_chain(draft, line))


def _is_only_words(node: Node) -> bool:
    """ "*For the taller one*": words, and the stars about them set them off."""
    if isinstance(node, Repeat):
        return all(map(_is_only_words, node.body))
    return isinstance(node, Remark)


def _begins_with_work(nodes: tuple[Node, ...]) -> bool:
    """ "Sc in each st around until the foot measures 6 in", right below a heading."""
    begins = [node for node in nodes if not isinstance(node, (Turn, Yarn, Loops))]
    return bool(begins) and (_is_placed(begins[0]) or isinstance(begins[0], Repeat))


def _begins_rejoined(nodes: tuple[Node, ...]) -> bool:
    """ "Miss next 5 tr, rejoin yarn to next tr, 3 ch, 1 tr in each of next 45 tr"."""
    begins = [node for node in nodes if not isinstance(node, (Remark, Skip))]
    joined = bool(begins) and isinstance(begins[0], Yarn) and begins[0].target is not None
    return joined and any(isinstance(n, Repeat) or _is_placed(n) for n in begins[1:])


_OWN_CHAIN = regex(r"(?:^|[.!;] )\s*(?:ch|chain) \d+\b(?! ?\+)", re.IGNORECASE)
"""A chain of its own beside the multiple: "Multiple of 8 + 4. Ch 30 (28 sts + 2)."."""


def _is_recalled(draft: Collected, node: Node) -> bool:
    """Whether rows told before are worked again: of this part, or of one before it."""
    if not isinstance(node, Recall) or (node.onward and node.reached is None):
        return False  # "continue like this": for how many rows is not said
    return bool(draft.rows) or bool(node.part and draft.parts)


def _is_prose(nodes: tuple[Node, ...]) -> bool:
    """ "A row of sc along the other three sides is nice but not needed."."""
    nodes = until_cut(nodes)
    poor = sum(isinstance(node, (Remark, Unread)) for node in nodes)
    good = sum(
        isinstance(node, (Repeat, InOnePlace, Chain, Loops))
        or (isinstance(node, Make) and node.target is not None)
        for node in nodes
    )
    chained = any(isinstance(node, Chain) for node in nodes) and good > 1
    return poor >= good and not chained


def _begins_with_foundation(nodes: tuple[Node, ...]) -> bool:
    """ "Fsc 43.": stitches that are made with their own chain."""
    work = [node for node in nodes if not isinstance(node, (Remark, Yarn, Loops))]
    first = work[0] if work else None
    if not isinstance(first, Make) or first.amount is None:
        return False
    return "foundation" in families_of(first.stitch, {})


def _begins_with_ring(draft: Collected, line: Line) -> bool:
    nodes, _ = draft.read(line)
    work = [node for node in nodes if not isinstance(node, (Remark, Yarn, Loops))]
    first = work[0] if work else None
    if not isinstance(first, Make) or first.target is None:
        return False
    described = len(work) == 1 and first.amount is None  # "worked in dc on a magic ring"
    return first.target.noun == "ring" and not described


def _begins_with_chain(draft: Collected, line: Line) -> bool:
    """Whether a line begins a piece with a chain, and tells no meaning of a chain."""
    nodes, _ = draft.read(line)
    quiet = (Remark, Yarn, Loops)
    work: list[Node] = [node for node in nodes if not isinstance(node, quiet)]
    first = work[0] if work else None
    if isinstance(first, Repeat):  # "*ch 5, dc in 5th ch from hook; rep from * ..."
        work[:0] = first.body
    if not work or not isinstance(work[0], Chain) or not (work[0].amount.at(0) or 0):
        return False
    tokens = list(_up_to_stop(draft.tokens_in(line), line.start + work[0].span.end))
    told = {statement.topic for statement in statements_in(tokens)}
    if _adds_to_multiple(draft, line):
        return False
    if _tells_of_chain(draft, line) or Topic.BEGUN_TOGETHER in told:
        return False
    if any(isinstance(node, (Repeat, InOnePlace)) or _is_placed(node) for node in work):
        return True
    worded = nodes[0] is work[0] and any(isinstance(node, Remark) for node in nodes)
    if worded and work[0].amount.values == (1,):
        return False  # "ch 1 and work along the row ends": no foundation
    return told.isdisjoint(_OF_CHAINS) or _is_worked_into(draft, line)


_OF_CHAINS = (Topic.TURNING_CHAIN, Topic.SPACES)


def _up_to_stop(tokens: Iterable[Token], at: int) -> Iterator[Token]:
    """The sentences of a line up to the one that a place of the text is in."""
    return takewhile(lambda t: t.kind is not Kind.STOP or t.start < at, tokens)


def _adds_to_multiple(draft: Collected, line: Line) -> bool:
    """ "Pattern multiple: 10 + 2 chains.": the chains beside the repeats, and no chain."""
    tokens = draft.tokens_in(line)
    first = next((i for i, t in enumerate(tokens) if t.text in CHAIN_NOUNS), 0)
    added = first > 1 and tokens[first - 1].kind is Kind.NUMBER
    added = added and (
        tokens[first - 2].kind is Kind.PLUS or tokens[first - 2].text == "plus"
    )
    return added and any(token.text in _MULTIPLES for token in tokens[:first])


def _is_worked_into(draft: Collected, line: Line) -> bool:
    """ "Ch 5 (counts as dc and ch 1)." over a row that begins "dc in 5th ch from hook"."""
    if _CHAIN_IN_BRACKETS.search(line.text) is None:
        return False
    behind = line.start + len(line.text)
    return _FROM_HOOK.search(draft.source.text, behind, behind + _NEAR_BELOW) is not None


_CHAIN_IN_BRACKETS = regex(
    r"\bch(?:ain)?s?\.?\s*\d+\s*[(\[]|\b\d+\s*ch(?:ain)?s?\s*[(\[]", re.IGNORECASE
)
_NEAR_BELOW = 120  # characters
_FROM_HOOK = regex(r"\bch(?:ain)?s?\s+from\s+(?:the\s+)?hook\b", re.IGNORECASE)


def _is_custom(draft: Collected, line: Line) -> bool:
    """ "Ch 1 never counts.", with a list of stitches behind it: no row."""
    begins = [token.text for token in draft.tokens_in(line)[:_CHAIN_WORDS]]
    return not CHAIN_NOUNS.isdisjoint(begins) and _tells_of_chain(draft, line)


_CHAIN_WORDS = 3
"""In so many words "the ch 3" or "a turning chain" is named."""


def _tells_of_chain(draft: Collected, line: Line) -> bool:
    """ "Ch-3 always counts as one dc.": a custom, though a chain is named first.

    So is "at the beginning of a row ch 3 = 1 dc".
    """
    tokens = draft.tokens_in(line)
    first = next((i for i, t in enumerate(tokens) if t.text in CHAIN_NOUNS), 0)
    if _begins_rows(tokens[:first]):
        return True
    for i, token in enumerate(tokens[first:]):
        if token.kind is Kind.EQUALS and (
            first > 1 or _is_one_stitch(tokens[first + i + 1 :])
        ):
            return True
        if token.kind in (Kind.OPEN, Kind.COMMA, Kind.STOP, Kind.SEMICOLON):
            return False
        near = i < _NEAR and token.text in ("is", "does", "equals")
        if near or token.text in ("counts", "count", "stands"):
            return True
    return False


_NEAR = 8


def _is_one_stitch(meant: list[Token]) -> bool:
    """ "(Ch 3 =) 1 dc in the base": what a chain stands for; not "(ch 30 =) 28 sts"."""
    words = [token.text for token in meant[:_MEANING]]
    one = bool(words) and words[0] in _ONE
    return one and bool(stitch_named(meant[:_MEANING]))


_ONE = ("1", "one", "a", "the", "first")
_MEANING = 3
"""In so many words a stitch is named: "the first dc"."""


def _begins_rows(before: list[Token]) -> bool:
    """ "Each round begins with (ch 1)", "start every row with": told of all of them.

    But "begin with ch 30" begins a piece, and "begin the round with ch 3" a round.
    """
    near = [token.text for token in before[-_BEFORE_CHAIN:]]
    verb = next((i for i, word in enumerate(near) if word in _BEGIN), len(near))
    rows = next((i for i, word in enumerate(near) if word in ROW_WORDS), len(near))
    if max(verb, rows) == len(near):
        return False
    if rows < verb:
        return all(map(str.isalpha, near[rows + 1 : verb])) and verb - rows <= _ADVERB
    return not _ALL.isdisjoint(near[verb:rows])


_BEGIN = frozenset("begin begins start starts open opens begun started".split())
_ALL = frozenset("each every all".split())
_BEFORE_CHAIN = 8
_ADVERB = 2
"""How far the verb is from its rows, with a word between: "rounds always begin"."""


def _is_placed(node: Node) -> bool:
    return isinstance(node, Make) and node.target is not None


def is_lead(draft: Collected, line: Line | OpenRow) -> bool:
    """ "Miss 8 htr and join yarn in the next": where the next row begins."""
    nodes, _ = draft.read(line)
    return _leads(nodes) or _skips_on(draft, line, nodes)


def _skips_on(draft: Collected, line: Line | OpenRow, nodes: tuple[Node, ...]) -> bool:
    """ "Back at row 11, leave three sts free", and the sentence goes on in the next."""
    ended = draft.tokens[line.last - 1].kind in (Kind.STOP, Kind.CLOSE, Kind.COLON)
    work = [node for node in nodes if not isinstance(node, Remark)]
    only = work[0] if len(work) == 1 else None
    return not ended and isinstance(only, Skip) and only.target.amount is not None


def lead_behind_end(nodes: tuple[Node, ...]) -> int:
    """Where in the words of a line the next row is led to, behind "Fasten off."; else 0."""
    ends = [at for at, node in enumerate(nodes) if isinstance(node, FinishOff)]
    if not ends or not all(isinstance(n, (FinishOff, Remark)) for n in nodes[: ends[-1]]):
        return 0
    return ends[-1] + 1 if _leads(nodes[ends[-1] + 1 :]) else 0


def lead_behind_chain(nodes: tuple[Node, ...]) -> int:
    """Where "Ch 9. Start in the 2nd ch." tells how the next row begins; else 0.

    So does "Ch 12, miss one, then:", as nothing else is worked on the line.
    """
    quiet = (Remark, Yarn)
    chains = [at for at, node in enumerate(nodes) if isinstance(node, Chain)]
    last = chains[-1] if chains else len(nodes)
    skips = nodes[last + 1 :]
    begun = all(isinstance(node, (Chain, *quiet)) for node in nodes[:last])
    lead = any(isinstance(node, Skip) for node in skips)
    only = all(isinstance(node, (Skip, Remark)) for node in skips)
    return last + 1 if begun and lead and only and len(chains) == 1 else 0


def _leads(nodes: tuple[Node, ...]) -> bool:
    if _ends_spiral(nodes):
        return False
    joins = any(
        (isinstance(node, Yarn) and node.target is not None)
        or (isinstance(node, Join) and node.target is not None)
        or (isinstance(node, Make) and node.stitch == "sl st" and node.target is not None)
        for node in nodes
    ) and not any(isinstance(node, FinishOff) for node in nodes)  # fmt: skip
    works = (Repeat, InOnePlace, Chain, Recall)
    other = any(isinstance(n, works) or _is_stitch(n) for n in nodes)
    return joins and not other


def _ends_spiral(nodes: tuple[Node, ...]) -> bool:
    """ "Sl st in next st." by itself: the last round comes to its end on the level."""
    work = [node for node in nodes if not isinstance(node, Remark)]
    only = work[0] if len(work) == 1 else None
    if not isinstance(only, Make) or only.stitch != "sl st" or only.target is None:
        return False
    place = only.target
    several = only.amount or place.amount
    return place.which is Which.NEXT and place.noun == "st" and not several


def _is_stitch(node: Node) -> bool:
    return isinstance(node, Make) and node.stitch != "sl st"
