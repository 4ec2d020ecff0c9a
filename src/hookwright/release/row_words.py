"""How is a row set: its name, its words with what is repeated, its count, its yarns?

The words are the designer's own. Only spaces change: a number keeps to its stitch, a size
list stays together, and lines broken in the draft are one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec.structs import replace

from hookwright.notation.tree import Claim, Node, Repeat, RowText
from hookwright.regex import regex
from hookwright.release.facts import Row, Run
from hookwright.source import Source, Span

_SPACES = regex(r"\s+")
_SIDE = regex(r"\s*[\[(]?\b(?:RS|WS|right side|wrong side)\b[\])]?\s*", re.IGNORECASE)
_AFTER_LABEL = regex(r"[\s:.)\]–—-]*")
_AT_END = regex(r"[\s.;,–—-]*")
_NUMBER = r"(?:\d{1,9}|[-–—])"
_SIZED = regex(
    rf"\(?\s*(?P<first>{_NUMBER})\s?[(\[](?P<others>{_NUMBER}(?:,\s?{_NUMBER})*)[)\]]"
    r"\s?(?P<unit>[A-Za-z][\w .-]{0,24}?)?\s*\)?"
)
_TIES = (
    (regex(r"(\d[\d,]*) (?=\(\d[\d, –-]*\))"), "\\1\u00a0"),
    (regex(r"\((\d[\d –-]*(?:, ?[\d –-]+)+)\)"), ""),
    (
        regex(r"(?<=[\d)]) (?=(?:ch|sts?|s?c|[hdt]?tr|h?dc|sps?|loops?|times|more)\b)"),
        "\u00a0",
    ),
    (regex(r"(?<=[a-z,]) (?=(?:Rows?|Rnds?|Rounds?)[ \u00a0]\d)"), "\u00a0"),
    (
        regex(
            r"\b(next|last|first|same|ch|Ch|Rows?|Rnds?|Rounds?|rep|from)"
            r" (?=[\d*(]|st\b|ch\b)"
        ),
        "\\1\u00a0",
    ),
)  # fmt: skip
_LONGEST_IN_COLUMN = 14
MOST_COLUMNS = 4
"""So many sizes have columns of their own for their counts."""


def set_row(row: RowText, source: Source, sizes: int) -> Row:
    """A row as it is set, its yarns left open."""
    name, side, start = _label(row, source)
    claim, stop = _count_at_end(row, source, start)
    said = Row(name, side, tuple(_runs(row, source, start, stop)))
    return said if claim is None else _counted(said, source.slice(claim), sizes)


def _label(row: RowText, source: Source) -> tuple[str, str, int]:
    """The name, the side, and where the words begin."""
    if row.label is None:
        return "", "", row.span.start
    lead = _lead(row, source)
    name = one_line(_SIDE.sub(" ", row.label.text)) if row.label.side else row.label.text
    behind = _AFTER_LABEL.match(source.text, row.label.span.end)
    return (
        tied(one_line(f"{lead} {name}")).rstrip(":.,"),
        row.label.side,
        behind.end() if behind else row.label.span.end,
    )


def begins_at(row: RowText, source: Source) -> int:
    """Where a row begins, with what stands on its line before the label."""
    if row.label is None or not _lead(row, source):
        return row.span.start
    return source.line_span(source.line_of(row.label.span.start)).start


def _lead(row: RowText, source: Source) -> str:
    """What stands on the line before the label: "Size L only:"."""
    assert row.label is not None
    line = source.line_span(source.line_of(row.label.span.start))
    lead = source.text[line.start : row.label.span.start].strip(" \t-*+•#.")
    return lead if any(map(str.isalpha, lead)) and lead.endswith(":") else ""


def _count_at_end(row: RowText, source: Source, start: int) -> tuple[Span | None, int]:
    """The printed count that ends the row, and where the words before it end."""
    stop = row.span.end
    found: Span | None = None
    for claim in reversed(row.claims):
        span = _bracketed(row.place(claim.span), source)
        if span.start < start or source.text[span.end : stop].strip(" \t\n.;,–—-"):
            break
        found = span if found is None else span.to(found)
        stop = span.start
        if not _is_lone(claim):
            break
    return found, stop


def _is_lone(claim: Claim) -> bool:
    return bool(claim.figures) and not claim.of_rows


def _bracketed(span: Span, source: Source) -> Span:
    """A count with the brackets around it, where they stand outside of it."""
    text = source.text
    pairs = {"(": ")", "[": "]"}
    before, after = text[span.start - 1 : span.start], text[span.end : span.end + 1]
    if pairs.get(before) == after and text[span.start : span.start + 1] not in pairs:
        return Span(span.start - 1, span.end + 1)
    return span


def _counted(row: Row, words: str, sizes: int) -> Row:
    """A row with its count, in columns where that is one list of numbers."""
    words = one_line(words).rstrip(".;,").strip()
    found = _SIZED.fullmatch(words)
    if found is None or sizes > MOST_COLUMNS:
        short = sizes <= 1 and len(words) <= _LONGEST_IN_COLUMN
        said = tied(words)
        return replace(row, counts=(said,)) if short else replace(row, count=said)
    others = found["others"].split(",")
    if len(others) != sizes - 1:
        return replace(row, count=tied(words))
    pieces = [found["first"], *(other.strip() for other in others)]
    pieces = [pieces[0], "(" + pieces[1], *pieces[2:]]
    pieces = [piece + "," if 0 < at < len(pieces) - 1 else piece
              for at, piece in enumerate(pieces)]  # fmt: skip
    pieces[-1] += ")"
    return replace(row, counts=tuple(pieces), unit=(found["unit"] or "").strip())


def _runs(row: RowText, source: Source, start: int, stop: int) -> Iterator[Run]:
    """The words, those underlined that are repeated."""
    text, at = source.text, start
    for repeated in _repeated(row, source):
        if repeated.start < at or repeated.end > stop:
            continue
        if before := _set(text[at : repeated.start]):
            yield Run(before)
        yield Run(_set(text[repeated.start : repeated.end]), "repeat")
        at = repeated.end
    if rest := _set(text[at:stop]).rstrip():
        yield Run(rest)


def _repeated(row: RowText, source: Source) -> Iterator[Span]:
    """What the row repeats, of repeats in one another the outermost."""
    for node in row.body:
        if isinstance(node, Repeat):
            span = row.place(Span(node.span.start, _end_of_group(node)))
            yield Span(_before_mark(source.text, span.start), span.end)


def _before_mark(text: str, at: int) -> int:
    """Where a group begins with the star or bracket in front of it."""
    mark = text[max(0, at - 4) : at].rstrip(" \t")
    return (
        max(0, at - 4) + len(mark.rstrip("*([")) if mark.endswith(("*", "(", "[")) else at
    )


def _end_of_group(repeat: Repeat) -> int:
    """Where the words stop that are worked over and over."""
    inner = [_span(node).end for node in repeat.body]
    end = max(inner, default=repeat.span.end)
    if repeat.mark in "([" and repeat.times.span.start > end:
        return end + 1
    return min(end, repeat.span.end)


def _span(node: Node) -> Span:
    return node.span


def _set(words: str) -> str:
    return tied(_SPACES.sub(" ", words))


def one_line(words: str) -> str:
    """Words on one line, with single spaces."""
    return _SPACES.sub(" ", words).strip()


def tied(words: str) -> str:
    """Words that no line ends within: numbers with what they count, lists of sizes."""
    for pattern, spaced in _TIES:
        if spaced:
            words = pattern.sub(spaced, words)
        else:
            words = pattern.sub(lambda found: found[0].replace(" ", "\u00a0"), words)
    return words
