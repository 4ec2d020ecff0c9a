"""May a phrase be taken in two ways that both fit, and make different numbers?

Asked only where every row closes and every count agrees. Then the other way is worked
through the whole pattern: where that fits as well, and a row comes out with another number,
a maker cannot know which is meant. A count of one row that has such a phrase settles it for
all, and so does custom where it is clear: nobody is asked about those.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import (
    Make,
    Node,
    Often,
    Repeat,
    Tail,
    Which,
)
from hookwright.source import Source, Span
from hookwright.working.conventions import PLAIN_READING, Choice, Conventions, Readings
from hookwright.working.outcome import Outcome, WorkedPattern, Working
from hookwright.working.search import Search
from hookwright.working.steps import Step, row_name

_MOST_STEPS = 600
_MOST_IN_ONE = 3
"""So many stitches are told bare and meant in one place, if any are."""


class _Phrase(Struct, frozen=True):
    """Words that may be taken in two ways.

    Attributes:
        span: The words, counted from where their row begins.
        ways: How they may be taken; the customary way first.
        plainly: What to write.
        name: What they are called; "" where they are shown.
    """

    span: Span
    ways: tuple[str, str]
    plainly: str
    name: str = ""


class _Doubt(Struct, frozen=True):
    """A question that a pattern may leave open.

    Attributes:
        phrase: The words of a row that ask it, if it does.
        conventions: The other answer, where it is one for the whole pattern,
        readings: or one within rows.
        is_usual: Whether the customary way is the one that was taken.
    """

    phrase: Callable[[Step], _Phrase | None]
    conventions: Conventions
    readings: Readings = PLAIN_READING
    is_usual: bool = True


def two_readings(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each question to which both answers fit."""
    worked = manuscript.worked
    fits = all(size.cost == size.assumption.cost for size in worked.sizes)
    working = worked.sizes[0]
    if not fits or len(working.outcomes) > _MOST_STEPS:
        return
    for doubt in _doubts(working):
        row = _other_row(worked, doubt) if _is_open(working, doubt) else None
        found = None if row is None else _finding(worked, doubt, row, manuscript.source)
        if found is not None:
            yield found


def _doubts(working: Working) -> Iterator[_Doubt]:
    """What may be taken in another way than it was."""
    ours = working.assumption.conventions
    yield _Doubt(_bare_several, ours, frozenset({Choice.SEVERAL_IN_ONE}))
    yield _Doubt(_in_each, ours, frozenset({Choice.EACH_TAKES_SPACES}))
    more = ours.times_are_more
    yield _Doubt(_times, replace(ours, times_are_more=not more), is_usual=more)


def _is_open(working: Working, doubt: _Doubt) -> bool:
    """Whether some row asks the question, and none that has a count."""
    rows = [outcome for outcome in working.outcomes if _asks(outcome, doubt)]
    return bool(rows) and not any(outcome.agrees for outcome in rows)


def _asks(outcome: Outcome, doubt: _Doubt) -> bool:
    worked = outcome.worked
    if worked is None or not doubt.readings <= worked.asked:
        return False
    return doubt.phrase(outcome.step) is not None


def _other_row(worked: WorkedPattern, doubt: _Doubt) -> tuple[Outcome, Outcome] | None:
    """The first row with two numbers, if the other answer fits as well."""
    working = worked.sizes[0]
    search = Search(
        worked.pattern, 0, worked.terms, doubt.conventions, always=doubt.readings
    )
    other = search.run(working.plan.steps, 0)
    if other is None or other.total():
        return None
    pairs = zip(working.outcomes, other.outcomes, strict=True)
    return next((pair for pair in pairs if _differ(*pair, doubt)), None)


def _differ(ours: Outcome, other: Outcome, doubt: _Doubt) -> bool:
    """Whether a row that asks comes out with another number."""
    numbers = (ours.tally.stitches, other.tally.stitches)
    known = all(isinstance(number, int) for number in numbers)
    return known and numbers[0] != numbers[1] and _asks(ours, doubt)


def _finding(
    worked: WorkedPattern, doubt: _Doubt, row: tuple[Outcome, Outcome], source: Source
) -> Finding | None:
    """The finding; none for "sc evenly around", whose number is the maker's to choose."""
    ours, other = row
    step = ours.step
    phrase = doubt.phrase(step)
    assert phrase is not None
    span = step.place(phrase.span) if step.recalled is None else step.span
    words = " ".join(source.slice(span).split())
    if "evenly" in words.lower():
        return None
    numbers = (ours.tally.stitches, other.tally.stitches)
    usual, unusual = numbers if doubt.is_usual else numbers[::-1]
    return Finding(
        "two-readings",
        Severity.WARNING,
        span,
        f"""{phrase.name or f'"{words}"'} may {phrase.ways[0]}, or {phrase.ways[1]}: """
        f"{row_name(step)} makes {usual} or {unusual} stitches, and no count tells which.",
        phrase.plainly,
        row=step.label or None,
        part=worked.pattern.parts[step.part].name or None,
        numbers=(step.number, step.number) if step.number is not None else None,
    )


def _bare_several(step: Step) -> _Phrase | None:
    """ "2 sc" beside another sc: three places in a row would be "3 sc"."""
    for nodes in _lists(step.nodes):
        for node, beside in zip(nodes, (*nodes[1:], *nodes[:1]), strict=True):
            for one, other in ((node, beside), (beside, node)):
                number = _bare_number(one)
                if number and isinstance(one, Make) and _is_one(other, one):
                    return _Phrase(
                        one.span,
                        (f"go into {number} places", "into one"),
                        f'Write "{one.stitch} in next {number} sts", or '
                        f'"{number} {one.stitch} in next st".',
                    )
    return None


def _bare_number(node: Node) -> int:
    """How many stitches are told with their number first and no place; 0 for others.

    Several post stitches never go round one post. Common practice, no source.
    """
    if not isinstance(node, Make) or node.target is not None or node.amount is None:
        return 0
    if node.post or node.stitch[:2] in ("fp", "bp"):
        return 0
    number = node.amount.at(0) or 0
    first = node.amount.span.start == node.span.start
    return number if first and 1 < number <= _MOST_IN_ONE else 0


def _is_one(node: Node, beside: Make) -> bool:
    """Whether a stitch, told by itself, is of the kind of some others."""
    if not isinstance(node, Make) or node is beside:
        return False
    single = node.amount is None or node.amount.at(0) == 1
    return single and node.stitch == beside.stitch


def _in_each(step: Step) -> _Phrase | None:
    """ "Sc in each st", where an edge has chain spaces in it."""
    for nodes in _lists(step.nodes):
        for node in nodes:
            target = node.target if isinstance(node, Make) else None
            if target is not None and target.which is Which.EACH and target.noun == "st":
                return _Phrase(
                    node.span,
                    ("pass the chain spaces", "go into them too"),
                    'Write "in each st and ch sp", or name the stitches: "in each dc".',
                )
    return None


def _times(step: Step) -> _Phrase | None:
    """ "Rep from * 3 times"."""
    for nodes in _lists(step.nodes):
        for node in nodes:
            if isinstance(node, Repeat) and node.times.often is Often.UNCLEAR:
                number = node.times.amount.at(0) if node.times.amount else None
                return _Phrase(
                    node.times.span,
                    (f"mean {number} more", f"{number} in all"),
                    f'Write "{number} more times", or "{number} times in all".',
                )
    return None


def _lists(nodes: Sequence[Node]) -> Iterator[Sequence[Node]]:
    """The instructions worked along a row, list by list; what shares a place is not."""
    yield nodes
    for node in nodes:
        if isinstance(node, (Repeat, Tail)):
            yield from _lists(node.body)
