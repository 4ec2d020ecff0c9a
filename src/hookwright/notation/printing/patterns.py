"""A whole pattern in words: what holds throughout, the special stitches, then its parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from hookwright.notation.printing.definitions import definition_words
from hookwright.notation.printing.rows import row_words
from hookwright.notation.printing.statements import multiple_words, statement_words
from hookwright.notation.printing.terms import translate
from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import amount_words, runs, stitch_words
from hookwright.notation.tree import Chain, Given, PartText, Pattern, RowText
from hookwright.regex import regex

_ONE_WORD = regex(r"[\w/½-]+")


def print_pattern(pattern: Pattern, *, terms: str | None = None) -> str:
    """A pattern in words, printed from its tree alone.

    What the tree does not hold (a title, materials, remarks between the rows) is not there.

    Args:
        pattern: The pattern as read.
        terms: "US" or "UK", to print it in these terms, which it then says; its own terms
            where nothing is asked for.
    """
    shown = pattern if terms is None else translate(pattern, terms)
    said = shown.terms if pattern.terms_said or shown is not pattern else None
    own_words = frozenset(name for d in shown.definitions for name in d.names)
    wording = Wording(shown.terms or "US", _mostly_rounds(shown), own_words)
    blocks = [
        _opening(shown, said),
        _under("Notes", (statement_words(s, wording) for s in shown.statements)),
        _under(
            "Special Stitches", (definition_words(d, wording) for d in shown.definitions)
        ),
        _under("Stripe Sequence", _stripes(shown)),
        ["## Instructions"],
        *(block for part in shown.parts for block in _part(part, wording)),
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _mostly_rounds(pattern: Pattern) -> bool:
    """Whether what is said of all rows is said of rounds."""
    labels = [row.label for part in pattern.parts for row in part.rows if row.label]
    return sum(label.is_round for label in labels) * 2 > len(labels)


def _opening(pattern: Pattern, terms_said: str | None) -> list[str]:
    terms = [f"Written in {terms_said} terms."] if terms_said else []
    sizes = [_sizes(pattern.sizes)] if pattern.sizes else []
    multiples = [multiple_words(multiple) for multiple in pattern.multiples]
    told = (*_foundation_told(pattern), *_given(pattern.given))
    return [*terms, *sizes, *multiples, *told]


def _sizes(names: tuple[str, ...]) -> str:
    """ "Sizes: S (M, L)."; a first name of several words stands in the brackets as well."""
    if not _ONE_WORD.fullmatch(names[0]):
        return f"Sizes: ({', '.join(names)})."
    return f"Sizes: {names[0]} ({', '.join(names[1:])})."


def _foundation_told(pattern: Pattern) -> Iterator[str]:
    """The chain of the sample, where no instruction before the first row makes one."""
    hint = pattern.foundation_hint
    if hint is not None and not any(_makes_chain(row) for row in _before_labels(pattern)):
        yield f"(The sample begins with ch {amount_words(hint)}.)"


def _given(given: Given | None) -> Iterator[str]:
    """The piece that the first row is worked on."""
    if given is None:
        return
    stitches = stitch_words(given.stitch, given.stitches)
    number = amount_words(given.stitches)
    if given.rows is None:
        yield f"The base is finished: {number} {stitches} around."
    else:
        rows = amount_words(given.rows)
        yield f"The panel is {number} {stitches} wide and {rows} rows high."


def _before_labels(pattern: Pattern) -> Iterator[RowText]:
    for part in pattern.parts:
        for row in part.rows:
            if row.label is not None:
                return
            yield row


def _makes_chain(row: RowText) -> bool:
    return any(isinstance(node, Chain) for node in row.body)


def _under(heading: str, lines: Iterable[str]) -> list[str]:
    kept = [line for line in lines if line]
    return [f"## {heading}", *kept] if kept else []


def _stripes(pattern: Pattern) -> Iterator[str]:
    """ "Rows 1-2: Kelp": rows that follow each other in one yarn share a line."""
    for yarn, stripes in groupby(pattern.stripes, key=lambda stripe: stripe[1]):
        for run in runs(number for number, _ in stripes):
            rows = f"Row {run[0]}" if len(run) == 1 else f"Rows {run[0]}-{run[-1]}"
            yield f"{rows}: {yarn}"


def _part(part: PartText, wording: Wording) -> list[list[str]]:
    """A part in blocks; a row without a label stands apart, or it would be read as one."""
    blocks: list[list[str]] = [_heading(part)]
    for row in part.rows:
        if row.label is None or not blocks or blocks[-1] == []:
            blocks.append([])
        blocks[-1].append(row_words(row, wording))
    if part.last_row:
        blocks.append([f"{wording.row} {part.last_row} is the last {wording.row.lower()}."])
    return [block for block in blocks if block]


def _heading(part: PartText) -> list[str]:
    if not part.name:
        return []
    make = f" (make {part.make})" if part.make > 1 else ""
    return [f"## {part.name}{make}"]
