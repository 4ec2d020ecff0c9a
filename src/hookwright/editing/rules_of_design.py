"""The rules of the tech edit that look at what stands beside the rows, in their order."""

from __future__ import annotations

from hookwright.editing.gauge_state import gauge_state
from hookwright.editing.hooks_listed import hook_findings
from hookwright.editing.manuscript import Rule
from hookwright.editing.materials import materials_findings
from hookwright.editing.measure import measure_findings
from hookwright.editing.missing_section import missing_sections
from hookwright.editing.size_lists import size_lists
from hookwright.editing.skill_level import skill_level
from hookwright.editing.two_meanings import two_meanings
from hookwright.editing.undefined_abbreviation import undefined_abbreviations
from hookwright.editing.unused_abbreviation import unused_abbreviations

RULES_OF_DESIGN: tuple[Rule, ...] = (
    size_lists,
    gauge_state,
    measure_findings,
    undefined_abbreviations,
    unused_abbreviations,
    two_meanings,
    materials_findings,
    hook_findings,
    missing_sections,
    skill_level,
)
