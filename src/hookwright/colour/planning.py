"""The colours of a worksheet in several good orders, each worked up to the length."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.colour import solver
from hookwright.colour.arrangement import Arrangement, score, unfolded
from hookwright.colour.arranging import problem_of, shape_of, shares
from hookwright.colour.clashing import clash_of
from hookwright.colour.facts import (
    ColourPlan,
    Kind,
    Order,
    Palette,
    Rule,
    Score,
    Shape,
    StripesWorked,
)
from hookwright.colour.judging import Laid, broken_rules
from hookwright.colour.lengths import Length, length_wanted
from hookwright.colour.orders import Arranged, arranged
from hookwright.colour.own_order import own_sequences
from hookwright.colour.palette import palette_of
from hookwright.colour.reasons import reasons_for
from hookwright.colour.stripe_rows import (
    choices_for,
    most_stripes,
    nearest_times,
    rows_of_base,
)
from hookwright.colour.wishes import Wishes, wishes_of
from hookwright.colour.working_up import (
    Worked,
    ends_of,
    line_of,
    rows_in,
    rows_of,
    runs_of,
)
from hookwright.design.facts import Noted
from hookwright.design.stripes import Stripe
from hookwright.finding import Finding

_MOST_STRIPES = 120
_OVER_AND_OVER = 3 / 2
"""A piece that long, in sequences, is worked in repeats without being asked."""


class Task(Struct, frozen=True):
    """What is to be arranged, and how it is worked.

    Attributes:
        palette: The colours.
        wishes: The wishes.
        length: The rows that are wanted.
        repeated: Whether the sequence is worked over and over.
        stripes: Stripes of the sequence; None for one of each colour.
    """

    palette: Palette
    wishes: Wishes
    length: Length
    repeated: bool
    stripes: int | None

    @property
    def shape(self) -> Shape:
        """How what is arranged becomes the sequence."""
        return shape_of(self.wishes.rules)

    def counts(self, shape: Shape) -> list[int]:
        """How many stripes of each colour are arranged."""
        size = len(self.palette.shades)
        if self.stripes is None:
            return [1] * size
        base = self.stripes
        if shape is Shape.MIRRORED:
            base = (self.stripes + 1) // 2 + (self.repeated and self.stripes % 2 == 0)
        elif shape is Shape.CLOSED and not self.repeated:
            base -= 1
        return shares(max(1, base), most_stripes(self.wishes, size))

    def problem(self, rules: Sequence[Rule]) -> Arrangement:
        """The problem that some of the rules pose."""
        return problem_of(
            self.palette,
            rules,
            self.counts(shape_of(rules)),
            repeated=self.repeated,
            blend=self.wishes.told.blend,
        )


def colour_plan(
    checked: Checked, orders: int = 6, seed: int = 1, *, prove: bool = False
) -> ColourPlan:
    """The orders for the palette of a worksheet.

    Args:
        checked: A pattern that was read with its worksheet.
        orders: How many are wanted; there may be fewer that differ enough.
        seed: The same seed gives the same orders.
        prove: Whether the general solver is asked where ours proves nothing.
    """
    noted = checked.worksheet.noted if checked.worksheet is not None else Noted()
    palette, wrong = palette_of(noted)
    findings = (*(checked.worksheet.findings if checked.worksheet else ()), *wrong)
    if palette is None:
        return ColourPlan(findings=findings)
    wishes, not_taken = wishes_of(palette, noted.stripes)
    findings = tuple(sorted((*findings, *not_taken), key=lambda found: found.span))
    task = _task(palette, wishes, length_wanted(checked, wishes.told))
    problem = task.problem(wishes.rules)
    arrangements, of_proof = _proven(problem, arranged(problem, orders, seed), ask=prove)
    found = [_order(task, problem, one, seed) for one in arrangements]
    found.sort(key=lambda order: (order.score, not order.proven))
    found = [order for order in found if order.score.breaches <= found[0].score.breaches]
    own, of_pattern = _own(checked, task)
    clash = clash_of(task.problem, wishes, palette, found[0])
    return ColourPlan(
        palette,
        wishes.rules,
        tuple(found),
        own,
        clash,
        findings,
        of_pattern,
        (*_told(task, len(found), orders), *of_proof, *_of_clash(found[0], clash)),
        task.length.in_rounds,
    )


def _proven(
    problem: Arrangement, found: Sequence[Arranged], *, ask: bool
) -> tuple[list[Arranged], tuple[str, ...]]:
    """The arrangements, the first of them proven by the general solver if it can be."""
    if not ask or found[0].proven:
        return list(found), ()
    if not solver.is_there():
        return list(found), (_NO_SOLVER,)
    base, proven = solver.solved(problem, found[0].base)
    others = [one for one in found[1:] if one.base != base]
    return [Arranged(base, score(problem, base), proven), *others], ()


_NO_SOLVER = (
    "No proof was looked for: the solver for it is not installed. It comes with "
    "pip install 'hookwright[plan]'."
)


def _task(palette: Palette, wishes: Wishes, length: Length) -> Task:
    told = wishes.told
    size = range(len(palette.shades))
    widths = [sum(c) / len(c) for c in (choices_for(wishes, colour) for colour in size)]
    each = sum(widths) / len(widths)
    stripes = told.stripes
    repeated = told.repeated or (told.times or 1) > 1
    if not repeated and length.rows is not None and told.times is None:
        if told.looks_random and stripes is None:
            stripes = min(_MOST_STRIPES, max(2, round(length.rows / each)))
        else:
            once = (stripes or len(palette.shades)) * each * (1 + told.mirrored)
            repeated = length.rows >= once * _OVER_AND_OVER
    return Task(palette, wishes, length, repeated, stripes)


def _order(task: Task, problem: Arrangement, found: Arranged, seed: int) -> Order:
    """An arrangement with its rows, its reasons and what it does not hold."""
    base = _turned(problem, found.base)
    worked = _worked(task, problem, base, seed)
    colours = unfolded(base, problem.shape, repeated=problem.repeated)
    return judged_order(task, colours, worked, found.score, proven=found.proven)


def _turned(problem: Arrangement, base: Sequence[int]) -> list[int]:
    """The same order begun at the first colour of the palette, where that is all one."""
    if problem.repeated and problem.shape is not Shape.MIRRORED:
        starts = [at for at, colour in enumerate(base) if colour == min(base)]
        ways = [[*base[at:], *base[:at]] for at in starts]
        return min(*ways, *([way[0], *way[:0:-1]] for way in ways))
    if problem.shape is Shape.MIRRORED:
        return list(base)
    if problem.shape is Shape.CLOSED:  # read from its other end it begins with the same
        return min(list(base), [*base[:1], *base[:0:-1]])
    return min(list(base), list(base[::-1]))


def _worked(task: Task, problem: Arrangement, base: Sequence[int], seed: int) -> Worked:
    """The stripes with their rows, as often as comes nearest to the length."""
    whole = _with_rows(task, problem, base, 1, seed)
    times = _times(task, whole)
    if times > 1 or any(rule.kind is Kind.LIMIT for rule in task.wishes.rules):
        whole = _with_rows(task, problem, base, times, seed)
        times = _times(task, whole)
    return Worked(whole.stripes, times, whole.after)


def _with_rows(
    task: Task, problem: Arrangement, base: Sequence[int], times: int, seed: int
) -> Worked:
    """The sequence once, where it is to be worked so often."""
    places = unfolded(range(len(base)), problem.shape, repeated=problem.repeated)
    closes = problem.repeated and problem.shape is not Shape.ONCE
    often = [places.count(at) * times + (closes and at == 0) for at in range(len(base))]
    chance = Random(seed) if problem.random else None  # noqa: S311 - chance for looks
    rows = rows_of_base(task.wishes, base, often, chance)
    stripes = tuple(Stripe(rows[at], task.palette.label(base[at])) for at in places)
    return Worked(stripes, 1, stripes[:1] if closes else ())


def _times(task: Task, once: Worked) -> int:
    told = task.wishes.told
    if not task.repeated:
        return 1
    if told.times is not None:
        return told.times
    if task.length.rows is None:
        return 1
    return nearest_times(task.length.rows, rows_in(once.stripes), rows_in(once.after))


def judged_order(
    task: Task, colours: Sequence[int], worked: Worked, found: Score, *, proven: bool
) -> Order:
    """An order as it is told: what it does not hold, and why it is good."""
    palette, wishes = task.palette, task.wishes
    labels = {shade.label: at for at, shade in enumerate(palette.shades)}
    whole = [labels[stripe.colour] for stripe in worked.whole]
    told = _worked_up(task, worked)
    laid = Laid(
        tuple(colours),
        tuple(stripe.rows for stripe in (*worked.stripes, *worked.after))[: len(colours)],
        task.repeated,
        (whole[0], whole[-1]),
        whole == whole[::-1],
        {labels[label]: rows for label, rows in told.rows_of},
    )
    broken = broken_rules(palette, wishes.rules, wishes.favourites, laid)
    places = sum(one.places for one in broken)
    reached = Score(places, found.worst, found.total, found.rhythm)
    reasons = reasons_for(
        palette, colours, reached, told, repeated=task.repeated, blend=wishes.told.blend
    )
    once = worked.stripes if worked.times > 1 else worked.whole
    breaches = tuple(one.breach for one in broken)
    return Order(once, proven, reached, breaches, reasons, told)


def _worked_up(task: Task, worked: Worked) -> StripesWorked:
    runs = runs_of(worked)
    rows = rows_of(runs)
    rounds = task.length.in_rounds
    edging, edged = task.wishes.edging, 0
    if edging is not None and task.wishes.told.edging_rows:
        label = task.palette.label(edging)
        rows[label] = rows.get(label, 0) + task.wishes.told.edging_rows
        edged = 2
    return StripesWorked(
        line_of(worked),
        worked.times,
        worked.rows,
        runs,
        tuple(rows.items()),
        ends_of(runs, in_rounds=rounds, carried=False) + edged,
        ends_of(runs, in_rounds=rounds, carried=True) + edged,
        tuple(_of_length(task, worked)),
    )


def _of_length(task: Task, worked: Worked) -> list[str]:
    wanted = task.length.rows
    if wanted is None or wanted == worked.rows:
        return []
    more = worked.rows - wanted
    which = "more" if more > 0 else "fewer"
    return [f"That is {abs(more)} {which} than the {wanted} rows that are wanted."]


def _told(task: Task, found: int, wanted: int) -> list[str]:
    """Sentences about all orders."""
    said = [task.length.says] if task.length.says else []
    counts = task.counts(task.shape)
    left_out = [task.palette.label(at) for at, count in enumerate(counts) if not count]
    if left_out:
        said.append(
            f"There are fewer stripes than colours. Left out: {', '.join(left_out)}."
        )
    told = task.wishes.told
    if task.stripes and told.mirrored and not task.repeated and task.stripes % 2 == 0:
        said.append(
            f"A mirrored sequence has a stripe in its middle, so there are "
            f"{task.stripes - 1} stripes, not {task.stripes}."
        )
    if found < wanted:
        which = "No second order" if found == 1 else f"No more than {found} orders"
        said.append(
            f"{which} that keeps as many rules and differs in a third of its neighbours "
            "was found."
            if found == 1
            else f"{which} that keep as many rules and differ in a third of their "
            "neighbours were found."
        )
    return said


def _of_clash(first: Order, clash: Sequence[Rule]) -> list[str]:
    """What is not found out of the rules."""
    if not first.breaches or clash:
        return []
    return ["Whether all rules can hold, and which of them clash, was not found out."]


def _own(checked: Checked, task: Task) -> tuple[tuple[Order, ...], tuple[Finding, ...]]:
    """The pattern's own sequences, judged as the others are."""
    sequences, findings = own_sequences(checked, task.palette)
    return tuple(_judged(task, worked) for worked in sequences), findings


def _judged(task: Task, worked: Worked) -> Order:
    """A sequence that is given, judged by the rules."""
    own = Task(task.palette, task.wishes, task.length, worked.times > 1, None)
    stripes = worked.stripes if worked.times > 1 else worked.whole
    colours = [task.palette.find(stripe.colour) or 0 for stripe in stripes]
    rules = [r for r in task.wishes.rules if r.kind not in _OF_SHAPE]
    reached = score(own.problem(rules), colours)
    return judged_order(own, colours, worked, reached, proven=False)


def order_of(checked: Checked, worked: Worked) -> Order | None:
    """A sequence laid by hand, judged by the rules as every other order is.

    Args:
        checked: A pattern that was read with its worksheet.
        worked: The sequence; its colours are called as in the palette.

    Returns:
        The order; None where there is no palette, or no stripe, or a colour is not in it.
    """
    noted = checked.worksheet.noted if checked.worksheet is not None else Noted()
    palette, _ = palette_of(noted)
    if palette is None or not worked.stripes:
        return None
    if any(palette.find(stripe.colour) is None for stripe in worked.whole):
        return None
    wishes, _ = wishes_of(palette, noted.stripes)
    task = _task(palette, wishes, length_wanted(checked, wishes.told))
    return _judged(task, worked)


_OF_SHAPE = {Kind.FIRST_LAST, Kind.MIRRORED}
