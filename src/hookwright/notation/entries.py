"""Where in a draft are stitches defined: in lists, in sentences, one after another?"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, pairwise

from hookwright.notation.collected import Collected
from hookwright.notation.definitions import (
    ARTICLES,
    GOES_ON,
    read_definition,
    without_quotes,
    words_for,
)
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import Line, is_line_mark
from hookwright.notation.makes import OPEN_SQUARES, SOLID_SQUARES, is_square_of_net
from hookwright.notation.named_in_brackets import named_in_brackets
from hookwright.notation.named_in_sentences import named_in_sentences
from hookwright.notation.named_on_the_way import named_on_the_way, spelled_out
from hookwright.notation.sections import Section, section_of
from hookwright.notation.tree import Chain, Definition, Make, Skip
from hookwright.notation.vocabulary import Phrases


def all_definitions(draft: Collected) -> list[Definition]:
    """All definitions, wherever they stand: a stitch may be defined after its use."""
    entries = _all_entries(draft)
    result: list[Definition] = []
    for _ in range(2):  # a definition may use a stitch that is defined after it
        words = words_for(result)
        result = []
        seen: set[str] = set()
        for first, last, section in entries:
            before = result[-1] if result else None
            definition = _definition(draft, first, last, words, section, before)
            if definition is not None and definition.names[0] not in seen:
                seen.update(definition.names)
                result.append(definition)
        for definition in chain(
            named_on_the_way(draft, words),
            named_in_sentences(draft, words),
            named_in_brackets(draft, words),
            spelled_out(draft, words),
        ):
            if definition.names[0] not in seen:
                seen.update(definition.names)
                result.append(definition)
        if not result:
            break
    return _without_squares(draft, result)


def _all_entries(draft: Collected) -> list[tuple[int, int, Section]]:
    """Stretches of tokens that may define something, each with the section it is in."""
    result = []
    section = Section.INTRODUCTION
    for line in draft.lines:
        section = _section_after(line, section)
        if (
            section is Section.WORDS
            and draft.label(draft.cursor(line.first), steps=False) is not None
        ):
            section = Section.ROWS  # the first row ends a list that no heading ends
        letters = _letters(draft, line)
        result += [(first, last, Section.WORDS) for first, last in letters]
        for first, last in () if letters else _entries(draft, line, section):
            result.append((first, last, section))
    return result


def _letters(draft: Collected, line: Line) -> list[tuple[int, int]]:
    """ "x sc, v inc (2 sc in one), a dec.": letters, each before a stitch."""
    tokens, depth = draft.tokens, 0
    begun = line.first
    found: list[tuple[int, int]] = []
    for at in range(line.first, line.last):
        token = tokens[at]
        depth += (token.kind is Kind.OPEN) - (token.kind is Kind.CLOSE)
        ended = token.kind in (Kind.COMMA, Kind.STOP) or at + 1 == line.last
        if depth or not ended:
            continue
        found.append((begun, at if token.kind in (Kind.COMMA, Kind.STOP) else at + 1))
        begun = at + 1
        if token.kind is Kind.STOP:
            break
    names = {tokens[first].text for first, _ in found}
    told = len(names) == len(found) > 1
    return found if told and all(_is_letter(draft, first) for first, _ in found) else []


def _is_letter(draft: Collected, at: int) -> bool:
    letter = draft.tokens[at]
    single = letter.kind is Kind.WORD and len(letter.text) == 1
    return single and draft.cursor(at + 1).stitch() is not None


def _without_squares(draft: Collected, definitions: list[Definition]) -> list[Definition]:
    """The two squares of filet are known, where a pattern explains both."""
    squares = [d for d in definitions if d.body and (_is_square(d) or _names_square(d))]
    opened = [d for d in squares if any(isinstance(node, Chain) for node in d.body)]
    if not opened or len(opened) == len(squares):
        return definitions
    draft.squares = frozenset(square.span.start for square in squares)
    kept = [definition for definition in definitions if definition not in squares]
    named = [(d, "open mesh" if d in opened else "solid mesh") for d in squares]
    if _have_own_width(opened):
        return [*kept, *(_square_as_told(definition, name) for definition, name in named)]
    aliases = [_square(definition, name) for definition, name in named]
    return [*kept, *(alias for alias in aliases if alias.names)]


def _names_square(definition: Definition) -> bool:
    """ "Mesh (M)", "block", "open square", "solid sq": a square by what it is called."""
    words = definition.names[0].split()
    return is_square_of_net(words) or bool({*words} & (OPEN_SQUARES | SOLID_SQUARES))


def _is_square(definition: Definition) -> bool:
    """ "Ch 2, skip 2, dc in next dc", "dc in next 3": squares, whatever they are called."""
    chains = [node for node in definition.body if isinstance(node, Chain)]
    makes = [node for node in definition.body if isinstance(node, Make)]
    if len(makes) != 1 or makes[0].target is None or definition.passes is not None:
        return False
    places = makes[0].target.amount.at(0) if makes[0].target.amount else 1
    if not chains:
        return places == USUAL_WIDTH + 1
    return places == 1 and len(chains) == 1 and chains[0].amount.at(0) == USUAL_WIDTH


USUAL_WIDTH = 2
"""How many chains, or stitches, lie between the posts of a square."""


def _have_own_width(opened: Sequence[Definition]) -> bool:
    """Whether all holes are told to be of one width, and not the usual one.

    "Ch 1, sk next st or ch-1 sp, dc in next dc" is one chain wide.
    """
    widths = {_width_told(definition) for definition in opened}
    return len(widths) == 1 and not widths & {0, USUAL_WIDTH}


def _width_told(opened: Definition) -> int:
    """How many chains stand over as many places passed; 0 where that is not told so."""
    first, *rest = opened.body
    chains = (first.amount.at(0) or 0) if isinstance(first, Chain) else 0
    skip = rest[0] if rest else None
    amount = skip.target.amount if isinstance(skip, Skip) else None
    passed = amount.at(0) if amount is not None else int(isinstance(skip, Skip))
    return chains if passed == chains and len(rest) == _SKIP_AND_POST else 0


_SKIP_AND_POST = 2


def _square_as_told(definition: Definition, name: str) -> Definition:
    """A square of such a net, which keeps what it is told to be made of."""
    names = (name, *_other_names(definition))
    return Definition(names, definition.span, definition.body, None, definition.heads)


def _square(definition: Definition, name: str) -> Definition:
    """A square of a usual net by its other names: "om", "cm"."""
    return Definition(_other_names(definition), definition.span, stitch=name)


def _other_names(definition: Definition) -> tuple[str, ...]:
    """The names of a square beside the usual ones."""
    usual = OPEN_SQUARES | SOLID_SQUARES
    return tuple(n for n in definition.names if not {*n.split()} & usual)


def _section_after(line: Line, section: Section) -> Section:
    name = line.text.strip()
    found = section_of(name)
    if found is None and ":" in name:
        found = section_of(name.partition(":")[0])
        if found is not Section.WORDS:
            found = None
    return found or section


def _entries(draft: Collected, line: Line, section: Section) -> list[tuple[int, int]]:
    """The entries of a line that may define something: split at "/" and ";" in lists."""
    if draft.label(draft.cursor(line.first), steps=draft.steps) is not None:
        return []
    first = line.first
    while first < line.last and is_line_mark(draft.tokens[first]):
        first += 1
    colon = next(
        (i for i in range(line.first, min(line.last, line.first + 8))
         if draft.tokens[i].kind is Kind.COLON),
        None,
    )  # fmt: skip
    if colon is not None and _section_after(line, Section.ROWS) is Section.WORDS:
        first = colon + 1
    slashes = [i for i in range(first, line.last) if _splits(draft.tokens, i, section)]
    commas = _comma_list(draft, first, line.last)
    stops = _sentence_starts(draft, first, line.last)
    cuts = [first - 1, *(slashes or commas or stops), line.last]
    return [(a + 1, b) for a, b in pairwise(cuts) if b > a + 1]


def _splits(tokens: Sequence[Token], at: int, section: Section) -> bool:
    """Whether an entry ends here; "...; working in front of these, dc in" goes on."""
    if tokens[at].kind is Kind.SEMICOLON and section is Section.WORDS:
        return tokens[at + 1].text not in GOES_ON and not _moves_on(tokens, at + 1)
    return tokens[at].text == "/"


def _moves_on(tokens: Sequence[Token], first: int) -> bool:
    """ "...; yo and draw through all 6 loops": the hook goes on with the stitch before.

    "...; yo yarn over" is an entry of its own.
    """
    if tokens[first].text not in _BEGIN_MOTIONS:
        return False
    for token in tokens[first : first + _LONGEST_MOTION]:
        if token.kind in (Kind.SEMICOLON, Kind.STOP, Kind.COLON, Kind.EQUALS, Kind.LINE):
            return False
        if token.text in _MOTIONS:
            return True
    return False


_BEGIN_MOTIONS = frozenset(
    "yo yoh yrh yarn wool thread cotton insert draw pull work finish complete close".split()
)
_MOTIONS = frozenset("through thru insert".split())
_LONGEST_MOTION = 12


def _sentence_starts(draft: Collected, first: int, last: int) -> list[int]:
    """Stops before a further definition: "V = ...; a pair is 2 tr in one place."""
    tokens = draft.tokens
    result: list[int] = []
    for i in range(first + 1, last - 2):
        if tokens[i].kind not in (Kind.STOP, Kind.SEMICOLON):
            continue
        named = i == first + 1 and tokens[first].text not in ("us", "uk")
        if named and not result:  # "rtf. Raised treble at the front: work ..."
            continue
        cut = i + _led_in(tokens, i + 1)
        if _told_at(tokens, cut + 1, last) or _names_at(tokens, cut + 1, last):
            result.append(cut)
    return result


def _led_in(tokens: Sequence[Token], first: int) -> int:
    """How many tokens lead to a definition: "(Terms: US.) Special stitch: Cr2 = ..."."""
    words = 0
    while tokens[first + words].text in _LEADING and words < _MOST_LEADING:
        words += 1
    colon = words > 0 and tokens[first + words].kind is Kind.COLON
    return words + 1 if colon else 0


_LEADING = frozenset(
    "special stitch stitches abbreviation abbreviations term terms used".split()
)
_MOST_LEADING = 3


def _told_at(tokens: Sequence[Token], first: int, last: int) -> bool:
    """Whether a definition in a sentence begins: "A solid is", "To make a block (blk),"."""
    near = [token.text for token in tokens[first : min(last, first + 5)]]
    if near[:2] in (["to", "make"], ["to", "work"]) or near[:1] == ["for"]:
        return bool({*near[1:3]} & {*ARTICLES})
    return near[:1] != [] and near[0] in ARTICLES and bool({*near[2:]} & {"is", "means"})


def _names_at(tokens: Sequence[Token], first: int, last: int) -> bool:
    """Whether a name and its mark stand here: "V =", "Closed mesh (cm):", "'Tile' ="."""
    near = without_quotes(list(tokens[first : min(last, first + 9)]))
    at = 0
    while at < min(len(near), 6) and (near[at].kind in _IN_NAMES or _is_glued(near[at])):
        at += 1
    named = at > 0 and near[0].kind is Kind.WORD
    return named and at < len(near) and near[at].kind in (Kind.EQUALS, Kind.COLON)


def _is_glued(token: Token) -> bool:
    """Whether a number belongs to a word: the 2 of "Cr2"."""
    return token.kind is Kind.NUMBER and token.glued


_IN_NAMES = (Kind.WORD, Kind.OPEN, Kind.CLOSE)


def _comma_list(draft: Collected, first: int, last: int) -> list[int]:
    """ "ch = chain, dc = double crochet, tr = treble": commas part the entries."""
    equals = [i for i in range(first, last) if draft.tokens[i].kind is Kind.EQUALS]
    if len(equals) < 2:
        return []
    commas = [
        i
        for i in range(first, last)
        if draft.tokens[i].kind in (Kind.COMMA, Kind.SEMICOLON, Kind.STOP)
    ]
    return [i for i in commas if any(i < e <= i + 4 for e in equals)]


def _definition(
    draft: Collected,
    first: int,
    last: int,
    words: Phrases,
    section: Section,
    before: Definition | None,
) -> Definition | None:
    tokens = draft.tokens[first:last]
    listed = section is Section.WORDS
    if listed and _is_letter(draft, first):  # "v inc" is "v = inc"
        end = tokens[0].end
        tokens = [tokens[0], Token(Kind.EQUALS, "=", 0, end, end), *tokens[1:]]
    return read_definition(tokens, draft.source.text, words, listed=listed, before=before)
