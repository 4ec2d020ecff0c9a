"""What counting settled within rows: how a phrase was read there, and why.

Told is only what was read in another way than the customary one, each way once with all its
rows: 'Rounds 3-7 read with "2Hdc" worked in one place: 5 of 5 printed counts agree.'
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hookwright.checking import Checked
from hookwright.notation.tree import Make, Node, Repeat
from hookwright.source import Span
from hookwright.working.conventions import Choice, Conventions
from hookwright.working.foundations import begins_on_chain, next_is_from_hook
from hookwright.working.left_open import counts_agreeing
from hookwright.working.outcome import Outcome, Working
from hookwright.working.steps import Step, row_name

_READ_WITH = {
    Choice.LOOSE_NOUNS: "the stitch that is named taken as what lies next",
    Choice.EACH_TAKES_SPACES: '"each" taking in the chain spaces',
    Choice.SKIP_UNDER_CHAIN: "the stitch under the beginning chain as the one skipped",
    Choice.SKIP_BESIDE: "the stitch behind the one worked lower down not skipped yet",
    Choice.START_WORKED_FIRST: "the space that is named first as the one it starts in",
    Choice.START_WORKED_LAST: "the space it starts in worked into at its end",
    Choice.ON_FROM_JOIN: "its slip stitch in the stitch behind the one joined in",
    Choice.PAST_START: "the stitches before the one it starts on as its last ones",
    Choice.PAST_GROUP: "the rest of a group passed on the way to the next stitch",
    Choice.EDGE_STITCH: "the long chain at the edge as a tall stitch and a space",
    Choice.TWO_PIECES: "two pieces laid together, each with a stitch for every one",
    Choice.OTHERS_AMONG: "the stitch that is named taken as what lies next",
    Choice.SKIPPED_APART: "the chains skipped at the hook as no stitch, unlike later ones",
    Choice.FIRST_SPACE: "the chain before its first skipped stitch as a space",
    Choice.FIRST_CHAIN: "no chain skipped before the first stitch",
}
_TAIL = 'the words after "ending" in place of the end of its repeat'


def settled(checked: Checked, working: Working) -> Iterator[str]:
    """A sentence for each way of reading that only counting tells."""
    yield from _chain_told_by_count(checked, working)
    rows: dict[str, list[Outcome]] = {}
    for outcome in working.outcomes:
        for how in _ways(checked, working, outcome):
            rows.setdefault(how, []).append(outcome)
    for how, all_read in rows.items():
        written = [outcome for outcome in all_read if outcome.step.recalled is None]
        outcomes = written or all_read
        counts = counts_agreeing(working, outcomes)
        if any(counts) or not counts:
            named = _rows_named([outcome.step for outcome in outcomes])
            yield f"{named} read with {how}{borne_out(working, outcomes)}"


def _ways(checked: Checked, working: Working, outcome: Outcome) -> Iterator[str]:
    """How the phrases of a row were read, other than in the customary way."""
    for choice in sorted(outcome.readings):
        if choice is Choice.SEVERAL_IN_ONE:
            yield f"{_bare_several(checked, outcome.step)} worked in one place"
        elif choice is Choice.OTHER_TIMES:
            yield _times(working.assumption.conventions)
        elif choice in _READ_WITH:
            yield _READ_WITH[choice]
    if outcome.worked is not None and outcome.worked.tail_replaces:
        yield _TAIL


def _times(conventions: Conventions) -> str:
    """The sense of "times" that the other rows do not have."""
    how = "the number in all" if conventions.times_are_more else "so many more"
    return f'its "times" as {how}'


def _bare_several(checked: Checked, step: Step) -> str:
    """A few stitches without a place, as they are written: "2 sc" in quotes."""
    span = _first_several(step.nodes)
    if span is None or step.recalled is not None:
        return "a few bare stitches"
    return f'"{checked.source.slice(step.place(span))}"'


def _first_several(nodes: Sequence[Node]) -> Span | None:
    for node in nodes:
        found = _first_several(node.body) if isinstance(node, Repeat) else None
        bare = isinstance(node, Make) and node.target is None and node.amount is not None
        if found is not None or bare:
            return found or node.span
    return None


def _chain_told_by_count(checked: Checked, working: Working) -> Iterator[str]:
    """A chain that nobody tells and the count of the first row makes."""
    first = next(iter(working.outcomes), None)
    if first is None or first.worked is None or not first.agrees:
        return
    nodes = first.step.nodes
    on_chain = next_is_from_hook(nodes) or begins_on_chain(nodes)
    if on_chain and checked.reading.pattern.foundation_hint is None:
        name = row_name(first.step)
        yield f"{name} read over a chain of {first.below}, which only its count tells."


def borne_out(working: Working, outcomes: Sequence[Outcome]) -> str:
    """How many of the counts printed with some rows agree, as the end of a sentence."""
    agrees = counts_agreeing(working, outcomes)
    return f": {sum(agrees)} of {len(agrees)} printed counts agree." if agrees else "."


def _rows_named(steps: Sequence[Step]) -> str:
    """Rows in a few words: "Round 3", "Rounds 3-7", "Rows 2, 4 and 6"."""
    numbers = sorted({step.number for step in steps if step.number is not None})
    if len(numbers) < 2 or any(step.number is None for step in steps):
        return joined(list(dict.fromkeys(row_name(step) for step in steps)))
    word = "Rounds" if all(step.is_round for step in steps) else "Rows"
    if len(numbers) > 2 and all(b == a + 1 for a, b in pairwise(numbers)):
        return f"{word} {numbers[0]}-{numbers[-1]}"
    return f"{word} {joined([str(number) for number in numbers])}"


def joined(words: Sequence[str]) -> str:
    """Words as a sentence lists them: "a, b and c"."""
    return " and ".join(part for part in (", ".join(words[:-1]), words[-1]) if part)
