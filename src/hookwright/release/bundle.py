"""All files of a release in one, its bytes the same each time."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence

_NO_DAY = (1980, 1, 1, 0, 0, 0)
"""The first moment a file of this kind can tell; it says nothing of when."""
_READABLE = 0o644 << 16
_PACKED = (".pdf", ".png", ".jpg")
"""What is packed already, and would only take time."""

_LEVEL = 4
"""How hard the others are packed: more takes twice the time for a hundredth."""


def bundle(folder: str, files: Sequence[tuple[str, bytes]]) -> bytes:
    """Files under one folder, in the order of their names."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        for name, data in sorted(files):
            entry = zipfile.ZipInfo(f"{folder}/{name}", _NO_DAY)
            entry.external_attr = _READABLE
            entry.compress_type = (
                zipfile.ZIP_STORED if name.endswith(_PACKED) else zipfile.ZIP_DEFLATED
            )
            packed.writestr(entry, data, compresslevel=_LEVEL)
    return out.getvalue()
