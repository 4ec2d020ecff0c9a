"""The rules of the tech edit, in the order in which an editor goes through them.

Each rule stands in a module of its own and is a function from the manuscript to findings.
A further one is a line here, its module, its cases in `tests/editing/` and its page in
`docs/findings/`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from hookwright.editing.balance import balance_findings
from hookwright.editing.convention_unstated import conventions_unstated
from hookwright.editing.gauge_state import gauge_state
from hookwright.editing.hooks_listed import hook_findings
from hookwright.editing.joined_to import join_findings
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.materials import materials_findings
from hookwright.editing.measure import measure_findings
from hookwright.editing.missing_section import missing_sections
from hookwright.editing.mixed_terms import mixed_terms
from hookwright.editing.multiple import multiple_findings
from hookwright.editing.references import missing_references
from hookwright.editing.row_labels import label_findings
from hookwright.editing.row_sets import row_sets
from hookwright.editing.side import side_findings
from hookwright.editing.size_lists import size_lists
from hookwright.editing.skill_level import skill_level
from hookwright.editing.terms_unstated import terms_unstated
from hookwright.editing.too_deep import too_deep
from hookwright.editing.two_meanings import two_meanings
from hookwright.editing.two_readings import two_readings
from hookwright.editing.two_spellings import two_spellings
from hookwright.editing.undefined_abbreviation import undefined_abbreviations
from hookwright.editing.unused_abbreviation import unused_abbreviations
from hookwright.finding import Finding

Rule = Callable[[Manuscript], Iterator[Finding]]

RULES: tuple[Rule, ...] = (
    multiple_findings,
    balance_findings,
    join_findings,
    label_findings,
    row_sets,
    side_findings,
    missing_references,
    size_lists,
    gauge_state,
    measure_findings,
    two_readings,
    mixed_terms,
    terms_unstated,
    undefined_abbreviations,
    unused_abbreviations,
    two_meanings,
    two_spellings,
    conventions_unstated,
    materials_findings,
    hook_findings,
    too_deep,
    missing_sections,
    skill_level,
)


def tech_edit(manuscript: Manuscript) -> list[Finding]:
    """Every finding of every rule."""
    return [finding for rule in RULES for finding in rule(manuscript)]
