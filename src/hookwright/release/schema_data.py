"""What a page tells machines of itself, in the words of schema.org."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.release.facts import Contents, Page, Row
from hookwright.release.page_blocks import counted

Data = dict[str, object]


def schema_data(contents: Contents) -> Data:
    """The pattern as a HowTo. Source: schema.org, HowTo, HowToSection, HowToStep."""
    stamp = contents.stamp
    data: Data = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": contents.title,
        "description": contents.subtitle,
        "inLanguage": "en-GB" if contents.terms == "UK" else "en-US",
        "step": list(_sections(contents)),
    }
    supplies = [f"{s.letter} {s.name}".strip() for s in contents.shades]
    if supplies:
        data["supply"] = [{"@type": "HowToSupply", "name": name} for name in supplies]
    hooks = [cell.fact for cell in contents.band if cell.label == "Hook"]
    if hooks:
        data["tool"] = [{"@type": "HowToTool", "name": f"hook {hook}"} for hook in hooks]
    if stamp.designer:
        data["author"] = {"@type": "Person", "name": stamp.designer}
    for key, value in (("version", stamp.version), ("datePublished", stamp.day)):
        if value:
            data[key] = value
    return data


def _sections(contents: Contents) -> Iterator[Data]:
    for section in contents.sections:
        rows = [block for block in section.blocks if isinstance(block, Row)]
        if section.page is Page.ROWS and rows:
            yield {
                "@type": "HowToSection",
                "name": section.heading or contents.title,
                "itemListElement": [_step(row) for row in rows],
            }


def _step(row: Row) -> Data:
    said = "".join(run.words for run in row.runs)
    step: Data = {"@type": "HowToStep", "text": f"{said} {counted(row)}".strip()}
    if row.name:
        step["name"] = row.name
    if row.anchor:
        step["url"] = f"#{row.anchor}"
    return {key: _plain(value) for key, value in step.items()}


def _plain(value: object) -> object:
    return value.replace("\u00a0", " ") if isinstance(value, str) else value
