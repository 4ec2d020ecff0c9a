"""From the contents of a copy to a PDF, with typst.

The PDF is tagged (PDF/UA-1), its fonts are ours and embedded, and its bytes are the same
each time: no font of the system, no clock, no network. Words go in as data.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec

from hookwright.release.facts import Contents

if TYPE_CHECKING:
    import typst

_HERE = Path(__file__).parent
FONTS = _HERE / "fonts"
TEMPLATE = _HERE / "pattern.typ"
_LETTERS = _HERE / "data" / "letters.json"
"""Outlines of capitals and figures of Literata SemiBold, 1,000 units an em."""
_EPOCH = 0


class Typesetter:
    """Sets copies one after the other; what they share is laid out once.

    Args:
        pictures: The folder in which the pictures of the contents stand.
    """

    def __init__(self, pictures: Path) -> None:
        import typst  # noqa: PLC0415 - tens of megabytes, for copies only

        self._compiler = typst.Compiler(
            root=pictures, font_paths=_fonts(), ignore_system_fonts=True
        )

    def pdf(self, contents: Contents, template: Path, inputs: Mapping[str, str]) -> bytes:
        """A copy as a PDF."""
        data: Any = self._compiler.compile(
            template.read_bytes(),
            format="pdf",
            sys_inputs={
                "contents": as_data(contents),
                "letters": _LETTERS.read_text("utf-8"),
                **inputs,
            },
            pdf_standards="ua-1",
            timestamp=_EPOCH,
        )
        return bytes(data)


def as_data(contents: Contents) -> str:
    """The contents as the JSON that the templates read."""
    return msgspec.json.encode(contents).decode("utf-8")


@cache
def _fonts() -> typst.Fonts:
    import typst  # noqa: PLC0415 - as above

    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)]
    )
