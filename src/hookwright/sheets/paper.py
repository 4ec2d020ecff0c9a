"""A sheet on paper: a PDF, with typst.

Words go in as data, so nothing that a designer or a maker writes is taken for a mark.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec

from hookwright.sheets.facts import Block, Sheet

_TEMPLATE = Path(__file__).with_name("paper.typ")


def as_pdf(sheet: Sheet, paper: str = "a4") -> bytes:
    """The sheet as a tagged PDF, fonts embedded.

    Args:
        sheet: The sheet.
        paper: "a4" or "us-letter".
    """
    import typst  # noqa: PLC0415 - of use only where a PDF is written

    try:
        return _set(typst, sheet, paper, "ua-1")
    except typst.TypstError:
        # The standard refuses a letter that no font can draw; the sheet is set
        # all the same.
        return _set(typst, sheet, paper, None)


def _set(typst: Any, sheet: Sheet, paper: str, standard: str | None) -> bytes:  # noqa: ANN401
    made = typst.compile(
        _TEMPLATE.read_bytes(),
        format="pdf",
        sys_inputs={
            "sheet": msgspec.json.encode(_data(sheet)).decode(),
            "paper": paper,
        },
        ignore_system_fonts=True,
        pdf_standards=standard or [],
        timestamp=0,
    )
    assert isinstance(made, bytes)
    return made


def _data(sheet: Sheet) -> dict[str, Any]:
    return msgspec.structs.asdict(sheet) | {"blocks": [_block(b) for b in sheet.blocks]}


def _block(block: Block) -> dict[str, Any]:
    return {"type": type(block).__name__} | msgspec.structs.asdict(block)
