"""The first run: a fabric from the shelf, or her own draft, as a pattern to go on with."""

from __future__ import annotations

from pathlib import PurePath
from typing import Any

from hookwright.checking import check
from hookwright.design.worksheet.template import worksheet_for
from hookwright.desk.asked import Asked, Wished
from hookwright.desk.cloth import cloth
from hookwright.listing.summary import summary
from hookwright.reading import Draft, read_bytes
from hookwright.reading.markdown import as_markdown, markdown_draft
from hookwright.reading.plain import decoded, with_plain_line_ends
from hookwright.shelf import FAMILIES, fabrics, starter
from hookwright.shelf.starter import in_terms

_MARKDOWN = (".md", ".markdown")
_NO_FABRIC = "There is no such fabric on the shelf."


def laid_out(asked: Asked) -> dict[str, Any]:
    """The fabrics of the shelf, family by family."""
    terms = _terms(asked)
    return {
        "families": [
            {
                "name": in_terms(heading, terms),
                "fabrics": [
                    {
                        "name": fabric.name,
                        "title": in_terms(fabric.title, terms),
                        "looks": in_terms(fabric.looks, terms),
                        "level": fabric.level,
                        "chains": str(fabric.chains) if fabric.chains else "",
                        "each": fabric.chains.each if fabric.chains else 0,
                        "extra": fabric.chains.extra if fabric.chains else 0,
                        "rows": fabric.set_of,
                    }
                    for fabric in fabrics()
                    if fabric.family == family
                ],
            }
            for family, heading in FAMILIES.items()
        ]
    }


def begun_from(asked: Asked) -> dict[str, Any]:
    """A pattern with the sample of a fabric, and its worksheet."""
    named = {fabric.name: fabric for fabric in fabrics()}
    fabric = named.get(asked.wished.kind)
    if fabric is None:
        return {"refused": _NO_FABRIC}
    return _begun(starter(fabric, _terms(asked)), ())


def sample(asked: Asked) -> dict[str, Any]:
    """The sample of a fabric as it hangs, for its picture on the shelf."""
    fabric = next((f for f in fabrics() if f.name == asked.wished.kind), None)
    if fabric is None:
        return {"refused": _NO_FABRIC}
    return cloth(Asked(starter(fabric), "", Wished(), asked.tell))


def read_in(name: str, data: bytes) -> dict[str, Any]:
    """A draft in any file as a pattern, with what was left out or put back."""
    ending = PurePath(name).suffix.lower()
    draft = read_bytes(data, ending, PurePath(name).name or "the draft")
    return _begun(_pattern_text(draft, ending, data), draft.notes)


def _pattern_text(draft: Draft, ending: str, data: bytes) -> str:
    if ending in _MARKDOWN:
        return with_plain_line_ends(decoded(data).text)
    text = as_markdown(draft)
    return text if text.endswith("\n") else text + "\n"


def _begun(text: str, notes: tuple[str, ...]) -> dict[str, Any]:
    checked = check(markdown_draft(text, "pattern.md"))
    sheet = worksheet_for(checked.reading.pattern, checked.design, checked.draft.title)
    return {
        "text": text,
        "worksheet": sheet.text,
        "told": [summary(checked), *notes],
    }


def _terms(asked: Asked) -> str:
    return "UK" if asked.wished.terms == "UK" else "US"
