"""What is known of the rows of a part while they are laid in order?"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Claim,
    Figure,
    Label,
    Node,
    Recall,
    RowText,
)
from hookwright.source import Span
from hookwright.working.alone import worked_throughout
from hookwright.working.depths import with_depths
from hookwright.working.recalled import (
    numbered_name,
    where_begun,
)
from hookwright.working.steps import MOST_ROWS, Step
from hookwright.working.whole_rows import in_each_place


class Done(Struct, frozen=True):
    """A part that is planned: its rows by number, and what it begins with before them."""

    name: str
    known: dict[int, tuple[Node, ...]]
    opening: tuple[tuple[Node, ...], ...]


class Goal(Struct, frozen=True):
    """Rows that are worked again until there are so many stitches.

    Attributes:
        place: The words.
        wanted: How many stitches, or what else is counted.
        first: Where their first row stands among all rows.
        rows: How many rows one set of them has.
    """

    place: Span
    wanted: Figure
    first: int
    rows: int


class Planner(Struct):
    """The rows of one part so far.

    `reached` tells for the words of a goal how many rows it takes, where that is known,
    `there` which numbers the labels of the part have, `earlier` the rows before its labels
    began again, and `kinds` by which names its lines tell rows that are worked: "3 plain
    rnds".
    """

    part: int
    size: int
    sizes: tuple[str, ...]
    known: dict[int, tuple[Node, ...]] = field(default_factory=dict)
    named: dict[str, tuple[Node, ...]] = field(default_factory=dict)
    order: list[tuple[Node, ...]] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    waiting: dict[int, Step] = field(default_factory=dict)
    every: list[tuple[int, Step]] = field(default_factory=list)
    last: int = 0
    ends: int = 0
    pattern: tuple[int, ...] = ()
    problems: list[tuple[str, Span, str]] = field(default_factory=list)
    parts: list[Done] = field(default_factory=list)
    opening: tuple[tuple[Node, ...], ...] = ()
    differs: bool = False
    goals: list[Goal] = field(default_factory=list)
    reached: Mapping[Span, int] = field(default_factory=dict)
    there: frozenset[int] = frozenset()
    earlier: dict[int, tuple[Node, ...]] = field(default_factory=dict)
    kinds: frozenset[str] = frozenset()

    def at(self, amount: Amount) -> int | None:
        """A number of the size that is planned for."""
        self.differs = self.differs or len(amount.values) > 1
        return amount.at(self.size)

    def is_for(self, label: Label) -> bool:
        """Whether a row is for the size that is planned for."""
        if not label.sizes or not self.sizes:
            return True
        self.differs = True
        own = self.sizes[self.size]
        return not own or own in label.sizes

    def numbers(self, label: Label) -> tuple[int, ...]:
        """The rows that a label stands for in the size that is planned for."""
        self.differs = self.differs or bool(label.by_size)
        within = self.size < len(label.by_size)
        return label.by_size[self.size] if within else label.numbers


def keep(planner: Planner, step: Step) -> None:
    """Lay a row behind the others, known from here on by its number and its name."""
    if len(planner.steps) >= MOST_ROWS:
        return
    if step.claims and planner.sizes:
        step = replace(step, claims=_of_every_size(step.claims, len(planner.sizes)))
    nodes = with_depths(step.nodes, step.number)
    nodes = in_each_place(nodes, step.claims) if step.number is not None else nodes
    nodes = worked_throughout(nodes) if step.label else nodes
    step = step if nodes is step.nodes else replace(step, nodes=nodes)
    planner.steps.append(step)
    if step.number is None and not planner.known:
        planner.opening = (*planner.opening, step.nodes)
    if step.number is not None:
        planner.known[step.number] = where_begun(step.nodes)
        planner.last = max(planner.last, step.number)
    label = step.text.label
    if label is not None and label.name and step.recalled is None:
        planner.named.setdefault(label.name, step.nodes)
        planner.named[numbered_name(label.name, step.number)] = step.nodes
    planner.order.append(step.nodes)


def fill_up_to(planner: Planner, number: int) -> None:
    """Works "all odd rows" that stand between the last row and this one."""
    for first, step in planner.every:
        for n in range(planner.last + 1, min(number, planner.last + 50)):
            label = step.text.label
            if label is not None and label.until and n > label.until:
                break
            if n % 2 == first % 2 and n == planner.last + 1:
                keep(planner, replace(step, number=n))


def fill_all(planner: Planner, number: int) -> None:
    """Works "all odd rows" and "all even rows" by turns, up to the row before a number."""
    before = -1
    while before < planner.last < number - 1:
        before = planner.last
        fill_up_to(planner, number)


def _of_every_size(claims: tuple[Claim, ...], sizes: int) -> tuple[Claim, ...]:
    """The counts that have a number for each size: with one lacking, none is certain."""
    return tuple(
        claim for claim in claims
        if all(len(figure.amount.values) in (1, sizes) for figure in claim.figures)
    )  # fmt: skip


def rows_to_goal(planner: Planner, row: RowText, recall: Recall, rows: int) -> int:
    """How many rows are worked again to come to a count: one set where it is not known."""
    place = row.place(recall.span)
    known = planner.reached.get(place)
    if known is not None:
        return min(known, MOST_ROWS)
    assert recall.reached is not None
    planner.at(recall.reached.amount)
    planner.differs = True
    planner.goals.append(Goal(place, recall.reached, len(planner.steps), rows))
    return rows


def row_called(
    planner: Planner, recall: Recall, number: int | None
) -> tuple[Node, ...] | None:
    """The row of a name ("Dec Row", "Hem Row 2"), or else of a number alone."""
    named = planner.named.get(numbered_name(recall.label, number)) if recall.label else None
    if named is None and number is not None:
        return planner.known.get(number)
    return named


def row_of_part(planner: Planner, name: str, number: int) -> tuple[Node, ...] | None:
    """The row of a number in another part."""
    return part_called(planner, name).known.get(number)


_NO_PART = Done("", {}, ())


def part_called(planner: Planner, name: str) -> Done:
    """Another part; the one called just so comes before those called alike."""
    exactly = (done for done in planner.parts if done.name == name and done.known)
    alike = (done for done in planner.parts if done.name and _alike(done.name, name))
    return next(exactly, None) or next(alike, _NO_PART)


def last_with(planner: Planner, rows: tuple[int, ...]) -> Done:
    """The part before this one that has some rows: no part bears the name that is told."""
    parts = (done for done in reversed(planner.parts) if rows)
    return next((done for done in parts if set(rows) <= done.known.keys()), _NO_PART)


def _alike(part: str, name: str) -> bool:
    """ "Legs" and "the first leg", "Head" and "head and ears"."""
    one = part.rstrip("s")
    return one in name or name.rstrip("s") in one


def row_before(planner: Planner, back: int, at: int) -> tuple[Node, ...] | None:
    """The row so many rows before the first of this entry."""
    index = len(planner.order) - at + back
    return planner.order[index] if 0 <= index < len(planner.order) else None
