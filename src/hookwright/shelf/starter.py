"""The pattern that a design begins with: the sample of a fabric, with all its sections.

It is whole, in US or in UK terms, and passes the tech edit. What only the designer can know
is left for her to write: her yarn, her gauge, the size of her piece.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from hookwright.notation.printing import translate_words
from hookwright.shelf.facts import Fabric
from hookwright.shelf.word_list import word_list

_GROWING = re.compile(r"\{(?P<each>\d*)k(?P<extra>[+-]\d+)?\}")
_GAUGE = (
    "To be measured: lay the blocked sample flat and write here how many stitches and rows "
    "come to 10 cm (4 in)."
)


def starter(fabric: Fabric, terms: str = "US", repeats: int | None = None) -> str:
    """The pattern, as the text of a pattern.md.

    Args:
        fabric: The fabric.
        terms: "US" or "UK".
        repeats: How many repeats the sample has; those of the shelf if not told.
    """
    told = [
        f"# {fabric.title}\n\n{fabric.looks}",
        *_headed("Skill level", [fabric.level]),
        *_headed("Size", [fabric.size]),
        *_headed("Materials", _materials(fabric)),
        *_headed("Gauge", [_GAUGE]),
    ]
    notes = [f"Written in {terms} terms.", *_multiple(fabric), *fabric.know]
    special = f"Special stitch{'es' if len(fabric.special) > 1 else ''}"
    rows = _grown(fabric.rows.strip(), fabric.repeats if repeats is None else repeats)
    worked = [
        *_headed(special, fabric.special),
        *_headed(fabric.piece, [rows]),
        *_headed("Finishing", [fabric.finishing]),
    ]
    before, noted, behind = (
        in_terms("\n\n".join(words), terms)
        for words in (told, _headed("Notes", notes), worked)
    )
    listed = "\n".join(word_list(f"{noted}\n{behind}", terms))
    return "\n\n".join((before, noted, *_headed("Abbreviations", [listed]), behind)) + "\n"


def in_terms(words: str, terms: str) -> str:
    """Words of the shelf, which are in US terms, in "US" or "UK" terms."""
    return words if terms == "US" else translate_words(words, terms)


def _materials(fabric: Fabric) -> Iterator[str]:
    yield f"**Yarn:** {fabric.yarn}."
    yield "**Hook:** 5 mm (US H-8), or the size that suits the yarn."
    yield f"**Notions:** {fabric.notions}."


def _multiple(fabric: Fabric) -> Iterator[str]:
    """What a designer needs for another width, and for another height."""
    over, chains = fabric.over, fabric.chains
    if over is not None and chains is not None:
        many = "any number of" if over.each == 1 else f"a multiple of {over}"
        yield f"Worked over {many} stitches; {_chains_added(chains.extra - over.extra)}."
    if fabric.set_of > 1:
        yield f"The pattern comes round again every {fabric.set_of} {fabric.of_rows}."


def _chains_added(added: int) -> str:
    if not added:
        return "the foundation has as many chains"
    return f"add {added} chain{'' if added == 1 else 's'} for the foundation"


def _headed(heading: str, paragraphs: Iterable[str]) -> list[str]:
    """Paragraphs under their heading; nothing where there are none."""
    words = list(paragraphs)
    return [f"## {heading}", *words] if words else []


def _grown(rows: str, repeats: int) -> str:
    """The rows with their numbers for so many repeats."""

    def number(found: re.Match[str]) -> str:
        return str(int(found["each"] or 1) * repeats + int(found["extra"] or 0))

    return _GROWING.sub(number, rows)
