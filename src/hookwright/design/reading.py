"""The facts of a design, gathered from its text."""

from __future__ import annotations

from hookwright.design.abbreviations import abbreviations_of
from hookwright.design.facts import Design
from hookwright.design.finished import finished_in
from hookwright.design.gauge import gauges_in
from hookwright.design.hooks import hooks_of
from hookwright.design.level import level_of
from hookwright.design.sections import sections_of
from hookwright.design.title import title_of
from hookwright.design.yarns import yarns_of
from hookwright.notation.tree import Pattern
from hookwright.source import Source


def read_design(source: Source, pattern: Pattern) -> Design:
    """What the text says of the design beside its rows. Never fails."""
    sections = sections_of(source, pattern)
    return Design(
        title=title_of(source, pattern, sections),
        sections=sections,
        gauges=gauges_in(source, pattern, sections),
        finished=finished_in(source, pattern, sections),
        hooks=hooks_of(source, sections),
        yarns=yarns_of(source, pattern, sections),
        abbreviations=abbreviations_of(source, pattern, sections),
        level=level_of(source, sections),
    )
