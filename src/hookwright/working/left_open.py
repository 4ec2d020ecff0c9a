"""What does the text leave open, and how was it taken?

Of the conventions that hold for the whole pattern only those are told on which the text is
silent and some row turns.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.notation.tree import Pattern, Topic
from hookwright.source import Span
from hookwright.working.counted_units import Habit
from hookwright.working.evidence import beginning_chains
from hookwright.working.legs import joins_legs
from hookwright.working.outcome import Outcome, Working
from hookwright.working.steps import Step


class LeftOpen(Struct, frozen=True):
    """The conventions on which a text is silent, as they were taken.

    Attributes:
        counted: Lengths of beginning chains that were counted as a stitch.
        not_counted: Lengths of those that were not.
        spaces_count: Whether the chains of a space were counted as stitches.
        times_are_more: Whether "5 times" was taken as five more; None where nobody asks.
        apart: Whether the beginning chain was left out of the printed counts.
        spaces_too: Whether the chain spaces were taken into the printed counts.
    """

    counted: tuple[int, ...] = ()
    not_counted: tuple[int, ...] = ()
    spaces_count: bool = False
    times_are_more: bool | None = None
    apart: bool = False
    spaces_too: bool = False


def left_open(pattern: Pattern, working: Working) -> LeftOpen:
    """Every convention that was open, as it was taken."""
    way = working.assumption
    counting = way.conventions.counting_chains
    spoken = way.open_chains
    if 1 in spoken and 1 not in chains_begun_with(working):
        spoken -= {1}
    if spoken:
        spoken -= _bridges(working)
    return LeftOpen(
        tuple(sorted(spoken & counting)),
        tuple(sorted(spoken - counting)),
        way.conventions.spaces_count and not says_of_spaces(pattern),
        way.conventions.times_are_more if way.times_open else None,
        working.habit is Habit.CHAIN_APART,
        working.habit is Habit.SPACES_TOO,
    )


def _bridges(working: Working) -> set[int]:
    """Lengths of chains that only lie between two legs, where a round joins them."""
    bridges: set[int] = set()
    others: set[int] = set()
    for step in steps_once(working):
        lengths = {chain.amount.at(0) or 0 for chain in beginning_chains(step)}
        (bridges if joins_legs(step.nodes) else others).update(lengths)
    return bridges - others


def says_of_spaces(pattern: Pattern) -> bool:
    """Whether a sentence says if the chains of a space count."""
    return any(statement.topic is Topic.SPACES for statement in pattern.statements)


def chains_begun_with(working: Working) -> dict[int, Step]:
    """How long the chains are that rows begin with, and a row of each length.

    Those skipped at the hook are none.
    """
    found: dict[int, Step] = {}
    for step in steps_once(working):
        for chain in beginning_chains(step):
            if chain in step.nodes:
                found.setdefault(chain.amount.at(0) or 0, step)
    return found


def steps_once(working: Working) -> Iterator[Step]:
    """Each row as it is written, once."""
    yield from {
        id(outcome.step.text): outcome.step for outcome in working.outcomes
    }.values()


def chain_at_start(working: Working) -> str:
    """What the trade calls the chain that a row or round begins with."""
    rounds = [outcome.step.is_round for outcome in working.outcomes if outcome.worked]
    return "beginning chain" if rounds and all(rounds) else "turning chain"


def counts_agreeing(working: Working, outcomes: Sequence[Outcome]) -> Sequence[bool]:
    """Whether each of the counts printed with some rows agrees."""
    agrees: dict[Span, bool] = {}
    for outcome in outcomes:
        claims = [claim for claim in outcome.step.claims if not claim.of_rows]
        for claim, agreed in zip(claims, outcome.agrees, strict=False):
            span = outcome.step.place(claim.span)
            agrees[span] = agrees.get(span, True) and agreed[working.habit]
    return tuple(agrees.values())
