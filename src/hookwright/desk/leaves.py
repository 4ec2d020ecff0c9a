"""The pages of a copy that is out, as pictures: how the finished paper looks."""

from __future__ import annotations

from base64 import b64encode
from io import BytesIO
from pathlib import Path
from typing import Any

from hookwright.desk.asked import Asked
from hookwright.desk.folder import Folder, NotHere
from hookwright.desk.released import released

_WIDE_PX = 420
"""How wide a picture is: sharp where it is shown, also on a screen of finer dots."""
_NOT_DRAWN = "This page could not be drawn; the copy opens by its name."


def leaf(asked: Asked) -> dict[str, Any]:
    """One page of a PDF among the copies, as a picture, and how many it has."""
    import pypdfium2  # type: ignore[import-untyped] # noqa: PLC0415 - where a PDF is drawn

    try:
        data = released(Folder(Path(asked.folder)), asked.wished.key)
    except NotHere as refusal:
        return {"refused": str(refusal)}
    try:
        document = pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError:
        return {"refused": _NOT_DRAWN}
    try:
        if not 0 <= asked.wished.number < len(document):
            return {"refused": "The copy has no such page."}
        page = document[asked.wished.number]
        wide, high = page.get_size()
        picture = page.render(scale=_WIDE_PX / wide).to_pil()
        drawn = BytesIO()
        picture.save(drawn, "PNG")
        return {
            "pages": len(document),
            "wide": round(wide),
            "high": round(high),
            "png": b64encode(drawn.getvalue()).decode("ascii"),
        }
    except pypdfium2.PdfiumError:
        return {"refused": _NOT_DRAWN}
    finally:
        document.close()
