"""The rules of the tech edit, in the order in which an editor goes through them.

Each rule stands in a module of its own and is a function from the manuscript to findings.
A further one is a line here, or in `rules_of_design.py` if it looks at what stands beside
the rows, its module, its cases in `tests/editing/` and its page in `docs/findings/`.
"""

from __future__ import annotations

from hookwright.editing.balance import balance_findings
from hookwright.editing.convention_unstated import conventions_unstated
from hookwright.editing.joined_to import join_findings
from hookwright.editing.manuscript import Manuscript, Rule
from hookwright.editing.mixed_terms import mixed_terms
from hookwright.editing.multiple import multiple_findings
from hookwright.editing.references import missing_references
from hookwright.editing.row_labels import label_findings
from hookwright.editing.row_sets import row_sets
from hookwright.editing.rows_named import rows_named
from hookwright.editing.rules_of_design import rules_of_design
from hookwright.editing.side import side_findings
from hookwright.editing.spaces_named import spaces_misnamed
from hookwright.editing.terms_unstated import terms_unstated
from hookwright.editing.too_deep import too_deep
from hookwright.editing.two_readings import two_readings
from hookwright.editing.two_spellings import two_spellings
from hookwright.finding import Finding

RULES: tuple[Rule, ...] = (
    multiple_findings,
    balance_findings,
    join_findings,
    label_findings,
    row_sets,
    side_findings,
    missing_references,
    rows_named,
    spaces_misnamed,
    two_readings,
    mixed_terms,
    terms_unstated,
    two_spellings,
    conventions_unstated,
    too_deep,
)
"""The rules of the rows: they need no more than a row and what is said of it."""


def tech_edit(manuscript: Manuscript) -> list[Finding]:
    """Every finding of every rule."""
    rules = (*RULES, *rules_of_design(manuscript))
    return [finding for rule in rules for finding in rule(manuscript)]
