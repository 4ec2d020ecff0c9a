"""The sizes: the multiple, what each size becomes, and the text with other numbers."""

from __future__ import annotations

from typing import Any

from hookwright.checking import Checked
from hookwright.desk import told
from hookwright.desk.asked import Asked, changes
from hookwright.sizing.made import SizeMade
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.placed import PartSized
from hookwright.sizing.rewriting import SizeWritten, rewritten
from hookwright.sizing.sized import Request, Sized, size_pattern
from hookwright.sizing.to_write import not_to_write, sizes_to_write
from hookwright.source import Span


def answer(asked: Asked) -> dict[str, Any]:
    """The sizes that are wished, and the changes of the text where they are asked for."""
    checked, wished = asked.checked, asked.wished
    names = (wished.size,) if wished.size else ()
    request = Request(wished.width or None, wished.height or None, names, None)
    sized = size_pattern(checked, multiples_of(checked), request)
    return {
        "parts": [_part(part) for part in sized.parts],
        "sizes": list(checked.sizes),
        "words": asked.spans(_words(checked)),
        "tables": _tables(checked),
        "findings": [*told.findings(sized.findings), *told.findings(sized.noted)],
        "cautions": list(sized.cautions),
        **(_written(asked, sized) if wished.write else {}),
    }


def _words(checked: Checked) -> list[Span]:
    """What the text says of its measurements, and its first rows."""
    firsts = [part.rows[:2] for part in checked.reading.pattern.parts[:1]]
    return [
        *(finished.span for finished in checked.design.finished),
        *(row.span for rows in firsts for row in rows),
    ]


def _tables(checked: Checked) -> int:
    """How many sizes stand in the worksheet."""
    sheet = checked.worksheet
    return len(sheet.noted.sizes) if sheet is not None else 0


def _part(part: PartSized) -> dict[str, Any]:
    multiple = part.multiple
    return {
        "part": multiple.part,
        "chains": told.multiple(multiple.chains),
        "stitches": told.multiple(multiple.stitches),
        "rows": told.multiple(multiple.rows),
        "reason": multiple.reason,
        "in_rounds": multiple.is_round,
        "around": part.is_around,
        "now": [told.made(made) for made in part.now],
        "wanted": [_size(size) for size in part.sizes],
        "said": list(part.said),
        "chain": [chain.said("cm") for _, chain in part.chains],
    }


def _size(size: SizeMade) -> dict[str, Any]:
    return {
        "name": size.wish.name,
        "width": told.length(size.wish.around or size.wish.width),
        "height": told.length(size.wish.height),
        "nearest": told.made(size.nearest),
        "below": told.made(size.below),
        "above": told.made(size.above),
        "reason": size.reason,
        "said": list(size.said),
    }


def _written(asked: Asked, sized: Sized) -> dict[str, Any]:
    """The text with the numbers of the sizes, as changes; or what stands in the way."""
    checked, wished = asked.checked, asked.wished
    if wished.repeats is not None:
        wanted: tuple[SizeWritten, ...] = (
            SizeWritten("", wished.repeats, wished.set_repeats),
        )
    else:
        found = not_to_write(sized, checked)
        if found:
            return {"open": told.findings(found)}
        wanted = sizes_to_write(sized)
    text = rewritten(checked, wanted)
    return {
        "changes": changes(text.edits, asked.offsets),
        "open": told.findings(text.open),
        "notes": list(text.notes),
    }
