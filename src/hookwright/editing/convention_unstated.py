"""Is a convention never said that the counts turn on?

Whether a turning chain of two or more counts as a stitch, and whether chain spaces do: the
counts of the rows mostly settle it, but a maker reads them last. What they say is told, so
that a note can say it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import outside, rows_of
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import InOnePlace, Make, Node, Repeat
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.working.evidence import beginning_chains
from hookwright.working.left_open import (
    LeftOpen,
    chain_at_start,
    chains_begun_with,
    counts_agreeing,
    left_open,
    says_of_spaces,
    steps_once,
)
from hookwright.working.outcome import Outcome, Working
from hookwright.working.search import Search
from hookwright.working.steps import Step
from hookwright.working.stitches import base_of, height

_MOST_STEPS = 600
"""Of so many rows it is asked whether they come out the other way as well."""


def conventions_unstated(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each length of chain nothing is said of, and one for the spaces."""
    working = manuscript.worked.sizes[0]
    open_ = left_open(manuscript.pattern, working)
    for length in sorted((*open_.counted, *open_.not_counted)):
        if length > 1:
            yield from _of_chain(manuscript, working, open_, length)
    if not says_of_spaces(manuscript.pattern):
        yield from _of_spaces(manuscript, working, open_)


def _of_chain(
    manuscript: Manuscript, working: Working, open_: LeftOpen, length: int
) -> Iterator[Finding]:
    found = _first_chain(manuscript, length)
    if found is None or _is_spoken_of(manuscript, length, found[1]):
        return
    step, span = found
    begun = length in chains_begun_with(working)
    which = (
        f"{chain_at_start(working)} of {length}" if begun
        else f"chain of {length} skipped at the hook"
    )  # fmt: skip
    counts = length in open_.counted
    agree = len(working.outcomes) <= _MOST_STEPS and any(
        counts_agreeing(working, working.outcomes)
    )
    if agree and not _fits_otherwise(manuscript, length):
        is_counted = "is counted" if counts else "is not counted"
        message = (
            f"The {which} {is_counted} as a stitch in the counts, but no note says so."
        )
        note = "counts as a stitch" if counts else "does not count as a stitch"
        why = f'Write a note: "The {which} {note}."'
    else:
        message = f"Nothing says whether the {which} counts as a stitch"
        message += ", and the counts fit either way." if agree else "."
        why = (
            "Say it in a note: nothing else tells the maker where to put the first stitch."
        )
    yield _finding(manuscript, step, span, message, why)


def _first_chain(manuscript: Manuscript, length: int) -> tuple[Step, Span] | None:
    """The first row that begins with such a chain and a stitch about as tall, and where."""
    working = manuscript.worked.sizes[0]
    worked = {id(o.step.text) for o in working.outcomes if o.worked is not None}
    for step in steps_once(working):
        made = _first_made(step.nodes)
        if step.recalled is not None or id(step.text) not in worked or made is None:
            continue
        tall = height(base_of(made.stitch), manuscript.worked.terms)
        for chain in beginning_chains(step):
            span = step.place(chain.span)
            at_hook = "hook" in manuscript.source.slice(span).lower()
            if chain.amount.at(0) != length or abs(tall - length) > 1:
                continue
            if chain in step.nodes or at_hook:
                return step, span
    return None


def _first_made(nodes: Sequence[Node]) -> Make | None:
    """The first stitch of a row that is no slip stitch."""
    for node in nodes:
        if isinstance(node, Make) and node.stitch != "sl st":
            return node
        if isinstance(node, (Repeat, InOnePlace)):
            return _first_made(node.body)
    return None


_SAYS = r"\bcount|\bstand|\bplace of|\binstead|\breplac|\brepresent|\btreat"
_MAY_SAY = rf"{_SAYS}|place|act|first|equal|=|not a"
_SAID_THERE = regex(
    rf"\W{{0,3}}[(\[][^)\]]{{0,60}}?(?:{_MAY_SAY})|\s*(?:=|as\b|for\b|is\b|count|stand|instead)",
    re.IGNORECASE,
)
_CHAIN = r"(?:turning|beginning|starting|begin|beg|opening|first|t)[ -]?ch"


def _is_spoken_of(manuscript: Manuscript, length: int, span: Span) -> bool:
    """Whether words that are not understood may say what such a chain is."""
    text = manuscript.source.text
    named = rf"\bch(?:ain)?s?[ -]?{length}\b|\b{length}[ -]?ch|\b{_CHAIN}"
    if _SAID_THERE.match(text, span.end):
        return True
    if re.search(rf"(?:{named})[^\n.*]{{0,60}}?(?:{_SAYS})", text, re.IGNORECASE):
        return True
    note = re.compile(rf"(?:{named})[^\n]{{0,200}}?(?:{_MAY_SAY})", re.IGNORECASE)
    return any(
        note.search(text, stretch.start, stretch.end)
        for stretch in outside(text, rows_of(manuscript))
    )


def _fits_otherwise(manuscript: Manuscript, length: int) -> bool:
    """Whether every row comes out as well if such a chain is taken the other way."""
    worked = manuscript.worked
    working = worked.sizes[0]
    ours = working.assumption.conventions
    other = replace(ours, counting_chains=ours.counting_chains ^ {length})
    search = Search(worked.pattern, 0, worked.terms, other)
    found = search.run(working.plan.steps, 0)
    if found is None:
        return False
    return found.total() <= working.cost - working.assumption.cost


def _of_spaces(
    manuscript: Manuscript, working: Working, open_: LeftOpen
) -> Iterator[Finding]:
    """Chain spaces in a row whose count is one bare number."""
    counted = open_.spaces_count or open_.spaces_too
    outcome = next((o for o in working.outcomes if _is_bare(manuscript, o, working)), None)
    if outcome is None or _SPEAKS_OF_SPACES.search(manuscript.source.text):
        return
    how = "are counted as stitches" if counted else "are not counted as stitches"
    note = (
        "Each chain of a space counts as a stitch."
        if counted
        else ("Chain spaces do not count as stitches.")
    )
    yield _finding(
        manuscript,
        outcome.step,
        outcome.step.place(outcome.step.claims[0].span),
        f"The chain spaces {how} in the counts, but no note says so.",
        f'Write a note: "{note}" Or count them apart: "(12 dc, 11 ch-1 sps)".',
    )


_SPEAKS_OF_SPACES = regex(
    r"\bcount(?:s|ed|ing)?\b[^\n.;]{0,40}\b(?:chs?|ch-?\d|chains?|sps?|spaces?|holes?)\b"
    r"|\b(?:sps?|spaces?|holes?|ch-?\d ?sps?)\b[^\n.;]{0,40}\bcount",
    re.IGNORECASE,
)
_BARE = regex(r"\W*\d+(?:\s*(?:sts?|stitches))?\W*", re.IGNORECASE)


def _is_bare(manuscript: Manuscript, outcome: Outcome, working: Working) -> bool:
    """Whether a row has spaces, and its count is a number of stitches that agrees."""
    claims = outcome.step.claims
    if outcome.step.recalled is not None or len(claims) != 1 or claims[0].of_rows:
        return False
    some = isinstance(outcome.tally.spaces, int) and outcome.tally.spaces > 0
    if not some or outcome.worked is None:
        return False
    figures = claims[0].figures
    words = manuscript.source.slice(outcome.step.place(claims[0].span))
    bare = len(figures) == 1 and _BARE.fullmatch(words) is not None
    return bare and any(agreed[working.habit] for agreed in outcome.agrees)


def _finding(
    manuscript: Manuscript, step: Step, span: Span, message: str, why: str
) -> Finding:
    number = step.number
    return Finding(
        "convention-unstated",
        Severity.ADVICE,
        span,
        message,
        why,
        row=step.label or None,
        part=manuscript.pattern.parts[step.part].name or None,
        numbers=(number, number) if number is not None else None,
    )
