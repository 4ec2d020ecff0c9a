"""The rules of the tech edit that look at what stands beside the rows, in their order.

Each is imported where there is something for it to look at.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.design.facts import Holds
from hookwright.editing.manuscript import Manuscript, Rule


def rules_of_design(manuscript: Manuscript) -> Iterator[Rule]:
    """The rules that have something to look at, in the order an editor takes them."""
    design = manuscript.design
    if manuscript.pattern.sizes:
        from hookwright.editing.size_lists import size_lists  # noqa: PLC0415

        yield size_lists
    listed = design.finished or design.gauges or design.section(Holds.MATERIALS)
    if manuscript.pattern.sizes and listed:
        from hookwright.editing.measured_lists import measured_lists  # noqa: PLC0415

        yield measured_lists
    if design.gauges:
        from hookwright.editing.gauge_state import gauge_state  # noqa: PLC0415

        yield gauge_state
    if len(design.gauges) > 1:
        from hookwright.editing.gauge_told_twice import gauge_told_twice  # noqa: PLC0415

        yield gauge_told_twice
    if design.is_told:
        from hookwright.editing.measure import measure_findings  # noqa: PLC0415

        yield measure_findings
    if design.abbreviations:
        yield from _of_abbreviations()
    if design.yarns or design.hooks:
        from hookwright.editing.hooks_listed import hook_findings  # noqa: PLC0415
        from hookwright.editing.materials import materials_findings  # noqa: PLC0415

        yield materials_findings
        yield hook_findings
    if design.section(Holds.MATERIALS):
        from hookwright.editing.notions_listed import notion_findings  # noqa: PLC0415
        from hookwright.editing.yarn_in_all import yarn_in_all  # noqa: PLC0415

        yield yarn_in_all
        yield notion_findings
    if design.is_told:
        from hookwright.editing.missing_section import missing_sections  # noqa: PLC0415
        from hookwright.editing.skill_level import skill_level  # noqa: PLC0415

        yield missing_sections
        yield skill_level


def _of_abbreviations() -> Iterator[Rule]:
    from hookwright.editing.two_meanings import two_meanings  # noqa: PLC0415
    from hookwright.editing.undefined_abbreviation import (  # noqa: PLC0415
        undefined_abbreviations,
    )
    from hookwright.editing.unused_abbreviation import (  # noqa: PLC0415
        unused_abbreviations,
    )

    yield undefined_abbreviations
    yield unused_abbreviations
    yield two_meanings
