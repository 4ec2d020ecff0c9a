"""The facts of a design, gathered from a text that says some."""

from __future__ import annotations

from hookwright.design.abbreviations import abbreviations_of
from hookwright.design.facts import Design, SectionFound
from hookwright.design.finished import finished_in
from hookwright.design.gauge import gauges_in
from hookwright.design.hooks import hooks_of
from hookwright.design.level import level_of
from hookwright.design.title import title_of
from hookwright.design.yarns import yarns_of
from hookwright.notation.tree import Pattern
from hookwright.source import Source


def gathered(
    source: Source, pattern: Pattern, sections: tuple[SectionFound, ...]
) -> Design:
    """What the text says of the design beside its rows. Never fails."""
    return Design(
        title=title_of(source, pattern, sections),
        sections=sections,
        gauges=gauges_in(source, pattern, sections),
        finished=finished_in(source, pattern, sections),
        hooks=hooks_of(source, sections),
        yarns=yarns_of(source, pattern, sections),
        abbreviations=abbreviations_of(source, pattern, sections),
        level=level_of(source, sections),
        is_told=True,
    )
