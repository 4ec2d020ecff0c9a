"""Which stitches are given a name where they are first worked: "(this is a shell)"?

A bracket behind an instruction may name what was just worked; from there on the name stands
for it, as a definition does.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.notation.bodies import is_block, stitches_of
from hookwright.notation.collected import Collected
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.definitions import beginning_names, is_stitch_name
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.makes import is_square_of_net
from hookwright.notation.one_place import grown_from_space
from hookwright.notation.place_words import INTO
from hookwright.notation.rows import read_row
from hookwright.notation.said_of_work import (
    CALLED,
    NAME_ENDS,
    NAME_MARKS,
    without_where,
)
from hookwright.notation.spelled_out import pass_lead, what_it_is
from hookwright.notation.tree import (
    Chain,
    Definition,
    InOnePlace,
    Make,
    Node,
    Remark,
    Turn,
    Which,
)
from hookwright.notation.vocabulary import Phrases
from hookwright.source import Span

_LEADS = Sayings(
    (
        "this is",
        "that is",
        "it is",
        "called",
        "makes",
        "this makes",
        "a",
        "an",
        "the",
        "another",
    )
)
_ENDS = frozenset("made completed formed".split())
_NO_NAMES = frozenset(
    "row rnd round corner ring hole space loop gap side edge end turn st stitch chain ch "
    "repeat group count increase decrease inc dec rs ws half foundation pattern".split()
)
_MOST_WORDS = 6


def named_on_the_way(draft: Collected, words: Phrases) -> Iterator[Definition]:
    """A definition for every name given in a bracket behind what it names."""
    tokens = draft.tokens
    for at in draft.marks[Kind.OPEN]:
        if tokens[at + 1].kind is Kind.NUMBER:  # a count, as most brackets hold
            continue
        name = name_in_bracket(tokens[at + 1 : at + 2 + _MOST_WORDS])
        if not name:
            continue
        first = _sentence_start(draft, at)
        definition = _named(draft, name, first, at, words)
        if definition is not None:
            yield definition
    yield from _named_in_clauses(draft, words)


def _named_in_clauses(draft: Collected, words: Phrases) -> Iterator[Definition]:
    """ "Sc, ch 1 and sc, all in next ch: this is a seed": named in no brackets.

    What is never worked by this name is only described: "this makes a point".
    """
    tokens = draft.tokens
    for at, token in enumerate(tokens[:-1]):
        if token.kind not in NAME_MARKS or tokens[at + 1].text not in _BEGIN_CLAUSE:
            continue
        name = _name_in_clause(tokens[at + 1 : at + 3 + _MOST_WORDS])
        if not name or not _is_worked(draft, name.split()):
            continue
        work = _of_one_place(name, *_work_before(draft, at, words))
        if work is not None:
            yield work


_BEGIN_CLAUSE = frozenset(CALLED.by_first_word)


def _name_in_clause(tokens: list[Token]) -> str:
    """The name that "this is a seed." gives; "" where nothing is named."""
    cursor = Cursor([*tokens, Token(Kind.END, "", 0, 0, 0)])
    called = cursor.take_any(CALLED) and cursor.take_word("a", "an", "one", "the")
    begun = cursor.at
    while called and cursor.is_kind(Kind.WORD):
        cursor.step()
    words = [token.text for token in cursor.tokens[begun : cursor.at]]
    if not called or not 0 < len(words) < _MOST_OF_NAME or not cursor.is_kind(*NAME_ENDS):
        return ""
    known = is_square_of_net(words) or (is_stitch_name(words) and not _is_group(words))
    return " ".join(words) if _may_name(words) and not known else ""


_MOST_OF_NAME = 4


def _is_worked(draft: Collected, name: list[str]) -> bool:
    """Whether a name is worked somewhere: "a seed in the next sp"."""
    tokens = draft.tokens
    size = len(name)
    return any(
        tokens[at].text == name[0]
        and [token.text for token in tokens[at : at + size]] == name
        and tokens[at + size].text in INTO
        for at in range(len(tokens) - size)
    )


def spelled_out(draft: Collected, words: Phrases) -> Iterator[Definition]:
    """A definition for "shell (2 dc, ch 2, 2 dc) in next st": later ones are like it."""
    tokens = draft.tokens
    for at in draft.marks[Kind.OPEN]:
        name = _group_before(tokens, at)
        if not name:
            continue
        closing = _closing(tokens, at)
        placed = closing and tokens[closing + 1].text in ("in", "into")
        if not closing or not (placed or _tells_one_place(tokens[at:closing])):
            continue
        end = Token(Kind.END, "", 0, tokens[closing].start, tokens[closing].start)
        cursor = Cursor([*tokens[at + 1 : closing], end], own_words=words)
        pass_lead(cursor)
        nodes = what_it_is(read_row(cursor, draft.source.text)[0])
        bare = [n for n in nodes if isinstance(n, Chain) or _is_bare(n)]
        if nodes and len(bare) == len(nodes):
            span = Span(tokens[at + 1].start, tokens[closing].start)
            body = tuple(bare)
            heads = stitches_of(body)
            yield Definition((name,), span, body, 1, heads, in_one_place=True)


def _tells_one_place(tokens: list[Token]) -> bool:
    """ "(6 dc in one st)", "(5 tr, all in the same place)": all that a group is."""
    words = [token.text for token in tokens[-_PLACE_WORDS:]]
    one = "one" in words or "same" in words
    return one and not {"in", "into"}.isdisjoint(words) and words[-1] in _PLACES


_PLACE_WORDS = 4
_PLACES = frozenset("st stitch place sp space ch loop spot".split())


def _group_before(tokens: list[Token], at: int) -> str:
    """The name of a group of stitches right before a bracket; "" where none stands."""
    if at == 0 or tokens[at - 1].kind is not Kind.WORD:
        return ""
    end = Token(Kind.END, "", 0, 0, 0)
    for first in range(max(0, at - _LONGEST_NAME), at):
        cursor = Cursor([*tokens[first:at], end])
        stitch = cursor.stitch()
        if stitch is not None and stitch.family == "group" and cursor.done():
            return " ".join(t.text for t in tokens[first:at] if t.kind is Kind.WORD)
    return ""


_LONGEST_NAME = 3  # tokens of "v-st"


def _closing(tokens: list[Token], at: int) -> int:
    """Where a short bracket without others in it closes; 0 where it does not."""
    for i in range(at + 1, min(at + _LONGEST_SPELLING, len(tokens) - 1)):
        if tokens[i].kind is Kind.CLOSE:
            return i
        if tokens[i].kind in (Kind.OPEN, Kind.END, Kind.LINE):
            return 0
    return 0


_LONGEST_SPELLING = 24  # tokens of "(2 dc, ch 2, 2 dc)" and the like


def _is_bare(node: Node) -> bool:
    return isinstance(node, Make) and node.target is None


def name_in_bracket(tokens: list[Token]) -> str:
    """The name that the words behind an opening bracket give; "" where they give none."""
    closing = next((i for i, t in enumerate(tokens) if t.kind is Kind.CLOSE), 0)
    inside = [token for token in tokens[:closing] if token.kind is not Kind.STOP]
    inside = without_where(inside)
    cursor = Cursor([*inside, Token(Kind.END, "", 0, 0, 0)])
    led = False
    while cursor.take_any(_LEADS):
        led = True
    led = led or bool(inside and inside[0].text in _FIRST_ONES)
    named = list(inside[cursor.at :])
    if named and named[-1].text in _ENDS:
        named, led = named[:-1], True
    words = [token.text for token in named]
    plain = all(token.kind is Kind.WORD or token.text == "first" for token in named)
    if not (led and plain and 0 < len(words) < 4) or not _may_name(words):
        return ""
    if is_square_of_net(words):
        return ""
    return "" if is_stitch_name(words) and not _is_group(words) else " ".join(words)


_FIRST_ONES = frozenset("new first beginning starting beg start opening".split())
"""What a block is called by in a bracket without an article: "(new tile)"."""

_BESIDE_NAME = frozenset("corner side edge end increase decrease inc dec".split())
"""What may tell a block from the others, and is no name of its own."""


def _may_name(words: list[str]) -> bool:
    """Whether some words may name a stitch: "edge tile", though no "edge" does."""
    return words[-1] not in _NO_NAMES and not set(words) & (_NO_NAMES - _BESIDE_NAME)


def _is_group(words: list[str]) -> bool:
    end = Token(Kind.END, "", 0, 0, 0)
    cursor = Cursor([*(Token(Kind.WORD, word, 0, 0, 0) for word in words), end])
    stitch = cursor.stitch()
    return stitch is not None and stitch.family == "group"


_SPEAKS_OF_ROW = frozenset("of from in into".split())
"""Words before "Row 1:" where a place is told, and no row begins."""


_STOPS = (Kind.STOP, Kind.SEMICOLON, Kind.LINE, Kind.CLOSE, Kind.STAR)


def _turns(tokens: list[Token], at: int) -> bool:
    """Whether a mark only stands behind the chain a row begins with, or its turn."""
    if tokens[at - 1].kind not in (Kind.STOP, Kind.SEMICOLON) or at < 3:
        return False
    words = [token.text for token in tokens[at - 3 : at - 1]]
    return words[1] == "turn" or words[0] in ("ch", "chain")


def _goes_on(draft: Collected, at: int) -> bool:
    """Whether the line end before a word only breaks a sentence."""
    before, word = draft.tokens[at - 2 : at - 1], draft.tokens[at]
    inside = before and before[0].kind in (Kind.WORD, Kind.NUMBER, Kind.COMMA)
    begins = draft.source.text[word.start : word.start + 1]
    return bool(inside) and draft.tokens[at - 1].kind is Kind.LINE and not begins.isupper()


def _sentence_start(draft: Collected, at: int) -> int:
    """Where the sentence begins that a bracket stands in."""
    tokens = draft.tokens
    first = at
    while first > 0 and (
        tokens[first - 1].kind not in _STOPS
        or _turns(tokens, first)
        or _goes_on(draft, first)
    ):
        numbered = [token.kind for token in tokens[first - 2 : first]]
        speaks = tokens[max(0, first - 4)].text in _SPEAKS_OF_ROW
        if numbered == [Kind.NUMBER, Kind.COLON] and not speaks:
            break  # behind a label
        first -= 1
    return first


def _named(
    draft: Collected, name: str, first: int, at: int, words: Phrases
) -> Definition | None:
    work, span = _work_of(draft, first, at, words)
    return _of_one_place(name, work, span) or _of_block(name, work, span)


def _work_before(
    draft: Collected, at: int, words: Phrases
) -> tuple[tuple[Node, ...], Span]:
    """What is worked in the sentence that ends here."""
    return _work_of(draft, _sentence_start(draft, at), at, words)


def _work_of(
    draft: Collected, first: int, at: int, words: Phrases
) -> tuple[tuple[Node, ...], Span]:
    """What is worked in a stretch of words, and where it stands."""
    tokens = [token for token in draft.tokens[first:at] if token.kind is not Kind.LINE]
    if not tokens:
        return (), Span(0, 0)
    end = Token(Kind.END, "", 0, tokens[-1].end, tokens[-1].end)
    cursor = Cursor([*tokens, end], own_words=words)
    nodes, _ = read_row(cursor, draft.source.text)
    work = tuple(node for node in nodes if not isinstance(node, (Remark, Turn)))
    return work, Span(tokens[0].start, tokens[-1].end)


def _of_one_place(name: str, work: tuple[Node, ...], span: Span) -> Definition | None:
    last = work[-1] if work else None
    body: tuple[Node, ...] = grown_from_space(work[-3:])
    if body:
        pass
    elif isinstance(last, InOnePlace):
        body = last.body
    elif isinstance(last, Make) and last.target is not None and last.amount is not None:
        single = last.target.amount is None and last.target.which is not Which.EACH
        body = (_bare(last),) if single and not last.target.from_hook else ()
    if not body:
        return None
    return Definition((name,), span, body, 1, stitches_of(body), in_one_place=True)


def _bare(make: Make) -> Make:
    return Make(make.stitch, make.span, make.amount, None, make.loop, make.legs, make.post)


def _of_block(name: str, work: tuple[Node, ...], span: Span) -> Definition | None:
    """A block that a row begins with: chains, and stitches worked into them."""
    begins = [i for i, node in enumerate(work) if isinstance(node, Chain)]
    body = work[begins[-1] :] if begins else ()
    if not is_block(body):
        return None
    names = (name, *beginning_names(name))
    return Definition(names, span, body, None, stitches_of(body))
