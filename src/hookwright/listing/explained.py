"""What does the word at some place of a pattern mean?

A stitch is told by its name in full, what it uses and makes, its name in the other terms,
and where the pattern defines it; any other word of the trade by what it stands for.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.trade_words import plain_form, trade_word
from hookwright.listing.summary import counted
from hookwright.notation.printing.terms import translate_words
from hookwright.notation.tree import (
    Definition,
    InOnePlace,
    Make,
    Node,
    Repeat,
    RowText,
    Tail,
)
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.working.stitches import facts_of

_WORD = regex(r"[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z]+)?")
_BESIDE = 60
"""So far from its beginning a word may be looked at."""


class Explained(Struct, frozen=True):
    """A word with its meaning.

    Attributes:
        span: The word.
        word: The word as it stands there.
        says: What it means, a sentence.
        more: Further sentences.
        stitch: The stitch as the pattern names it; "" for other words.
    """

    span: Span
    word: str
    says: str
    more: tuple[str, ...] = ()
    stitch: str = ""


def explained(checked: Checked, offset: int) -> Explained | None:
    """The word at an offset of the text; None where there is nothing to say of it."""
    made = _made_at(checked, offset)
    if made is not None:
        return _stitch(checked, *made)
    span = _word_at(checked.source.text, offset)
    if span is None:
        return None
    word = checked.source.slice(span)
    if _is_measure(word) and any(span in row.span for row in _rows(checked)):
        return None
    meaning = _meaning(checked, word)
    if not meaning:
        return None
    return Explained(span, word, f"{word}: {meaning}.", tuple(_other_terms(checked, word)))


def _word_at(text: str, offset: int) -> Span | None:
    start = max(0, offset - _BESIDE)
    for found in _WORD.finditer(text, start, offset + _BESIDE):
        if found.start() <= offset <= found.end():
            return Span(*found.span())
    return None


def _made_at(checked: Checked, offset: int) -> tuple[Make, Span, RowText] | None:
    """The stitch whose name stands at an offset, where its name stands, and its row."""
    for row in _rows(checked):
        if not row.span.start <= offset <= row.span.end:
            continue
        found: Make | None = None
        for node in row.body:
            found = _within(node, offset - row.at) or found
        span = _word_at(checked.source.text, offset)
        if found is None or span is None:
            return None
        named = checked.source.slice(span).lower()
        word = plain_form(named)
        same = word in {found.stitch, f"{found.stitch}s"} or word.startswith(found.stitch)
        target = found.target
        in_target = target is not None and offset - row.at >= target.span.start
        return (found, span, row) if same and not in_target else None
    return None


def _rows(checked: Checked) -> Iterator[RowText]:
    for part in checked.reading.pattern.parts:
        yield from part.rows


def _within(node: Node, offset: int) -> Make | None:
    """The innermost stitch around an offset."""
    if not node.span.start <= offset <= node.span.end:
        return None
    for inner in _inside(node):
        found = _within(inner, offset)
        if found is not None:
            return found
    return node if isinstance(node, Make) else None


def _inside(node: Node) -> tuple[Node, ...]:
    return node.body if isinstance(node, Repeat | InOnePlace | Tail) else ()


def _stitch(checked: Checked, make: Make, span: Span, row: RowText) -> Explained:
    own = _own(checked)
    facts = facts_of(make.stitch, make.legs, own)
    word = checked.source.slice(span)
    meaning = _meaning(checked, word) or _meaning(checked, make.stitch)
    named = f"{word}, {meaning}" if meaning else word
    uses = f"Uses {facts.passes}, makes {facts.heads}." if facts.known else ""
    more = [*_other_terms(checked, word)]
    defined = own.get(make.stitch)
    if defined is not None:
        words = checked.source.slice(defined.span).strip()
        more.append(f"Defined in this pattern: {words}")
    times = sum(found.stitch == make.stitch for found in _makes(row.body))
    if times > 1:
        more.append(f"Named {counted(times, 'time')} in this row.")
    return Explained(span, word, f"{named}. {uses}".strip(), tuple(more), make.stitch)


def _makes(nodes: tuple[Node, ...]) -> Iterator[Make]:
    for node in nodes:
        if isinstance(node, Make):
            yield node
        yield from _makes(_inside(node))


def _own(checked: Checked) -> dict[str, Definition]:
    return {
        name: found for found in checked.reading.pattern.definitions for name in found.names
    }


def _meaning(checked: Checked, word: str) -> str:
    """What the pattern's own list says of a word, else the trade."""
    plain = plain_form(word)
    for entry in checked.design.abbreviations:
        if plain_form(entry.word) in {plain, plain.removesuffix("s")}:
            return entry.meaning.strip(" .")
    known = trade_word(plain)
    return known.meaning_in(checked.terms) if known is not None else ""


def _is_measure(word: str) -> bool:
    """Whether a word may be a unit; "in" and "m" are none within a row."""
    known = trade_word(plain_form(word))
    return known is not None and known.kind == "measure"


def _other_terms(checked: Checked, word: str) -> Iterator[str]:
    terms = checked.terms
    if terms is None:
        return
    other = "UK" if terms == "US" else "US"
    there = translate_words(word, other)
    if there.lower() != word.lower():
        yield f"{other}: {there}."
