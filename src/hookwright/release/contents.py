"""From a checked pattern to everything that stands in a copy of it."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.release.actions import actions_of
from hookwright.release.band import ball_line, cover_band, needs_band
from hookwright.release.cautions import cautions_for
from hookwright.release.counting import counting_in
from hookwright.release.facts import Block, Contents, Picture, Row, Section, Shade, Stamp
from hookwright.release.sections import sections_of
from hookwright.release.shades import (
    shades_of,
    stripes_of,
    with_amounts,
    with_yarns,
    yarns_by_row,
)
from hookwright.release.tally import tally_of
from hookwright.release.texts import Text
from hookwright.release.yarn_amounts import Amounts

_LONGEST_SUBTITLE = 90


def contents_of(
    text: Text,
    stamp: Stamp,
    *,
    facts: Checked | None = None,
    cover: Picture | None = None,
    pictures: Sequence[Picture] = (),
    amounts: Sequence[Amounts] = (),
    large: bool = False,
    draft: bool = False,
) -> Contents:
    """Everything that stands in a copy of a pattern, in the order it is printed.

    Args:
        text: The pattern in the words of the copy.
        stamp: Version, date, designer, rights.
        facts: The pattern in words from which gauge, yarn and colours are read, where those
            of the copy are made to be heard.
        cover: The picture of the fabric.
        pictures: Photographs, charts, the schematic.
        amounts: What each of its sizes takes of each colour.
        large: Whether it is in large print: an action a line, nothing underlined.
        draft: Whether it is only a draft.
    """
    checked = text.checked
    told = facts or checked
    introduction, sections = sections_of(checked)
    shades = with_amounts(shades_of(told), amounts)
    terms = checked.terms or ""
    return Contents(
        title=title_of(checked),
        subtitle=_subtitle(checked, shades),
        introduction=introduction,
        stamp=stamp,
        terms=terms,
        sizes=checked.sizes,
        band=cover_band(told, terms, shades, text.level),
        needs=needs_band(told),
        shades=shades if len(shades) > 1 else (),
        ball=ball_line(told),
        stripes=stripes_of(checked, shades) or stripes_of(told, shades),
        sections=_in_colour(checked, sections, shades, large=large),
        counting=counting_in(checked, underlined=not large),
        cautions=cautions_for(told),
        cover=cover,
        pictures=tuple(pictures),
        tally=tally_of(checked),
        draft=draft,
    )


def title_of(checked: Checked) -> str:
    """The name of the design, from the text or the worksheet; "Pattern" for none."""
    noted = checked.design.noted
    said = checked.draft.title or checked.design.title or (noted.title if noted else "")
    return said or "Pattern"


def _subtitle(checked: Checked, shades: tuple[Shade, ...]) -> str:
    """What it is in a line: its colours and its sizes."""
    parts = []
    if len(shades) > 1:
        colours = "colours" if checked.terms == "UK" else "colors"
        parts.append(f"{_in_words(len(shades))} {colours}")
    if len(checked.sizes) > 1:
        parts.append(f"{_in_words(len(checked.sizes))} sizes")
    return f"A crochet pattern in {' and '.join(parts)}" if parts else "A crochet pattern"


def _in_words(number: int) -> str:
    words = "no one two three four five six seven eight nine ten eleven twelve".split()
    return words[number] if number < len(words) else str(number)


def _in_colour(
    checked: Checked,
    sections: Sequence[Section],
    shades: tuple[Shade, ...],
    *,
    large: bool,
) -> tuple[Section, ...]:
    """The sections, each row with its yarns and a name of its own."""
    yarns = yarns_by_row(checked, shades) if shades else {}
    starts = iter(sorted(row.span.start for part in checked.reading.pattern.parts
                         for row in part.rows))  # fmt: skip
    number = 0
    worked = _sizes_by_row(checked)
    found = []
    for section in sections:
        own = [block for block in section.blocks if isinstance(block, Row)]
        places = [start for _, start in zip(own, starts, strict=False)]
        letters = [yarns.get(start, ()) for start in places]
        sized = [
            replace(row, sizes=worked.get(start, ()))
            for row, start in zip(own, places, strict=True)
        ]
        coloured = iter(with_yarns(sized, letters))
        blocks: list[Block] = []
        for block in section.blocks:
            if isinstance(block, Row):
                number += 1
                row = next(coloured)
                actions = actions_of(row.runs) if large else ()
                blocks.append(replace(row, anchor=f"row-{number}", actions=actions))
            else:
                blocks.append(block)
        found.append(replace(section, blocks=tuple(blocks)))
    return tuple(found)


def _sizes_by_row(checked: Checked) -> dict[int, tuple[int, ...]]:
    """The sizes that work each row, by where it begins; nothing of rows that all work."""
    found: dict[int, set[int]] = {}
    for line in checked.lines:
        own = {size for size, made in enumerate(line.stitches) if made is not None}
        found.setdefault(line.span.start, set()).update(own)
    every = len(checked.sizes)
    return {
        start: tuple(sorted(own)) for start, own in found.items() if 0 < len(own) < every
    }
