"""From the contents of a copy to a PDF, with typst.

The PDF is tagged (PDF/UA-1), its fonts are ours and embedded, and its bytes are the same
each time: no font of the system, no clock, no network. Words go in as data.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import local
from typing import Any, Self

import msgspec

from hookwright.release.copies import Edition
from hookwright.release.drawn_letters import in_drawn_letters
from hookwright.release.facts import Contents

_HERE = Path(__file__).parent
FONTS = _HERE / "fonts"
_LETTERS = _HERE / "data" / "letters.json"
"""Outlines of capitals and figures of Literata SemiBold, 1,000 units an em."""
_EPOCH = 0


class Typesetter:
    """Sets copies one after the other; what they share is laid out once.

    Args:
        pictures: The files of all pictures, by the names that the contents call them.
    """

    def __init__(self, pictures: Mapping[str, bytes]) -> None:
        self._pictures = pictures
        self._compilers = local()

    def __enter__(self) -> Self:
        self._folder = TemporaryDirectory(prefix="hookwright-")
        root = Path(self._folder.name)
        for name, data in self._pictures.items():
            (root / name).write_bytes(data)
        return self

    def __exit__(self, *_: object) -> None:
        self._folder.cleanup()

    def pdf(self, contents: Contents, template: Path, inputs: Mapping[str, str]) -> bytes:
        """A copy as a PDF. May be called from several threads at a time."""
        data: Any = self._compiler().compile(
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

    def _compiler(self) -> Any:  # noqa: ANN401 - the library's class, imported late
        """The compiler of this thread; fonts are read once for all."""
        import typst  # noqa: PLC0415 - tens of megabytes, for copies only

        found = getattr(self._compilers, "own", None)
        if found is None:
            found = typst.Compiler(
                root=self._folder.name, font_paths=_fonts(), ignore_system_fonts=True
            )
            self._compilers.own = found
        return found


def template_of(edition: Edition) -> Path:
    """The template that an edition is set by."""
    return _HERE / ("large.typ" if edition is Edition.LARGE else "pattern.typ")


def as_data(contents: Contents) -> str:
    """The contents as the JSON that the templates read, in letters our fonts can draw."""
    return in_drawn_letters(msgspec.json.encode(contents).decode("utf-8"))


@cache
def _fonts() -> Any:  # noqa: ANN401 - as above
    import typst  # noqa: PLC0415 - as above

    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)]
    )
