"""Is a number of rows, "22 rows in all", the number that is worked up to there?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec.structs import replace

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Claim, RowText
from hookwright.regex import regex
from hookwright.working.outcome import Outcome, Working

_OF_ROWS = regex(r"\b(?P<unit>rows?|rnds?|rounds?)\b", re.IGNORECASE)
_IN_ALL = regex(r"\b(?:in all|in total|altogether|total)\b", re.IGNORECASE)
_FROM_START = regex(r"\b(?:from|since) (?:the )?(?:start|beginning)\b", re.IGNORECASE)
_WORKED_FROM_HERE = regex(
    r"\b(?:more|further|times|each|of each|stripes?)\b", re.IGNORECASE
)


def rows_in_all(manuscript: Manuscript) -> Iterator[Finding]:
    """Numbers of rows that the rows contradict, each in the first size that does."""
    names = manuscript.pattern.sizes
    told: set[int] = set()
    for size, working in enumerate(manuscript.worked.sizes):
        last = {id(o.step.text): at for at, o in enumerate(working.outcomes)}
        for at in sorted(last.values()):
            row = working.outcomes[at].step.text
            for claim in row.claims:
                if not claim.of_rows or claim.span.start + row.at in told:
                    continue
                finding = _held(manuscript, working, at, claim, size)
                if finding is not None:
                    told.add(claim.span.start + row.at)
                    several = len(names) == len(manuscript.worked.sizes) > 1
                    yield replace(finding, sizes=(names[size],)) if several else finding


def _held(
    manuscript: Manuscript, working: Working, at: int, claim: Claim, size: int
) -> Finding | None:
    """A finding where no way to count the rows comes to the number."""
    outcomes = working.outcomes[: at + 1]
    here = outcomes[-1]
    row = here.step.text
    words = manuscript.source.slice(row.place(claim.span))
    unit = _OF_ROWS.search(words)
    whole = _FROM_START.search(words)
    told = whole or _IN_ALL.search(words)
    if unit is None or not told or _WORKED_FROM_HERE.search(words):
        return None
    number = claim.figures[0].amount.at(size) if len(claim.figures) == 1 else None
    if number is None or here.is_open or any(o.is_open for o in outcomes):
        return None
    ways = _ways(outcomes, row)
    if number in ways or not ways:
        return None
    worked = sum(o.worked is not None for o in outcomes) if whole else ways[0]
    name = (
        "rounds"
        if unit["unit"].lower()[:2] in ("rn", "ro") and here.step.is_round
        else "rows"
    )
    return Finding(
        "measure",
        Severity.ERROR,
        row.place(claim.span),
        f"{number} {name} are told here, but {worked} have been worked.",
        f"Write {worked}, or look at how often the {name} are worked again.",
        row=row.label.text if row.label else None,
        part=manuscript.pattern.parts[here.step.part].name or None,
    )


def _ways(outcomes: tuple[Outcome, ...], row: RowText) -> list[int]:
    """The rows of the part so far, its last number, and what this line stands for."""
    here = outcomes[-1]
    part = here.step.part
    of_part = [o for o in outcomes if o.step.part == part and o.worked is not None]
    all_parts = [o for o in outcomes if o.worked is not None]
    own = [o for o in of_part if o.step.text is row]
    last = [here.step.number] if here.step.number is not None else []
    labels = [row.label.numbers, *row.label.by_size] if row.label is not None else []
    labelled = [numbers[-1] for numbers in labels if numbers]
    return [len(of_part), *last, len(own), len(all_parts), *labelled]
