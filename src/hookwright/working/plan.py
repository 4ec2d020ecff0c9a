"""Which rows are worked, in which order: ranges, cycles and recalls written out.

A pattern says "Rows 4-18: Rep Rows 2 and 3"; the plan says which words are worked as
Row 4, Row 5 and so on. Rows are listed one by one, but share the nodes of the row they
recall.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Chain,
    Evenly,
    FinishOff,
    InOnePlace,
    Instead,
    Join,
    Label,
    Make,
    Node,
    PartText,
    Recall,
    Remark,
    Repeat,
    RowText,
    Turn,
)
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.working.further_rows import add_further, add_recall, end_last
from hookwright.working.label_checks import check_label
from hookwright.working.nodes import QUIET
from hookwright.working.onward import next_onward
from hookwright.working.planner import (
    Done,
    Goal,
    Planner,
    fill_up_to,
    keep,
    part_called,
    row_before,
    row_called,
    row_of_part,
)
from hookwright.working.recalled import (
    named_rows,
    pattern_in,
    recall_in,
    repeats_itself,
    with_changes,
)
from hookwright.working.steps import MOST_ROWS, Step, carried, claims_at


class Plan(Struct, frozen=True):
    """All rows of a pattern for one size.

    Attributes:
        steps: The rows in working order.
        problems: (rule, span, what) of references that do not fit.
        differs: Whether the plan of another size may be another one.
        goals: Rows that are worked until there are so many stitches, as if once only.
        reached: For the words of the other goals, how many rows they take.
    """

    steps: tuple[Step, ...]
    problems: tuple[tuple[str, Span, str], ...]
    differs: bool
    goals: tuple[Goal, ...] = ()
    reached: Mapping[Span, int] = {}


def plan_of(
    parts: Sequence[PartText],
    size: int,
    sizes: tuple[str, ...],
    reached: Mapping[Span, int] | None = None,
) -> Plan:
    """The plan of a pattern for one size; `reached` as it stands in the plan."""
    reached = reached or {}
    goals: list[Goal] = []
    steps: list[Step] = []
    problems: list[tuple[str, Span, str]] = []
    before: Planner | None = None
    done: list[Done] = []
    differs = False
    for number, part in enumerate(parts):
        planner = Planner(number, size, sizes, reached=reached)
        if before is not None and _continues(part, before):
            planner.known, planner.order = before.known, before.order
            planner.last = before.last
        else:
            planner.known = _known_before(part, done)
        planner.parts, planner.ends = done, part.last_row
        planner.there = _numbers_there(part)
        planner.kinds = _kinds_told(part)
        for at, row in enumerate(part.rows):
            planner.pattern = pattern_in(row.body) or planner.pattern
            _add_row(planner, row, _next_number(part.rows[at + 1 :]))
        done.append(Done(part.name.lower(), planner.known, planner.opening))
        _release(planner, None)
        goals += (replace(goal, first=goal.first + len(steps)) for goal in planner.goals)
        steps.extend(carried(planner.steps))
        problems.extend(planner.problems)
        differs = differs or planner.differs
        before = planner
    kept = tuple(steps[:MOST_ROWS])
    return Plan(kept, tuple(problems), differs, tuple(goals), reached)


def _numbers_there(part: PartText) -> frozenset[int]:
    """The numbers of all rows that a part labels, in any size."""
    labels = [row.label for row in part.rows if row.label is not None]
    told = (numbers for own in labels for numbers in (own.numbers, *own.by_size))
    return frozenset(number for numbers in told for number in numbers)


def _kinds_told(part: PartText) -> frozenset[str]:
    """The names of rows of which a part tells how many are worked: "3 plain rnds"."""
    nodes = (node for row in part.rows if row.label is None for node in row.body)
    return frozenset(n.label for n in nodes if isinstance(n, Recall) and n.of_kind)


def _continues(part: PartText, before: Planner) -> bool:
    """Whether the labels of a part go on where the part before stopped."""
    first = next((row.label for row in part.rows if row.label), None)
    return first is not None and bool(first.numbers) and first.numbers[0] == before.last + 1


def _known_before(part: PartText, done: Sequence[Done]) -> dict[int, tuple[Node, ...]]:
    """The rows of an earlier part that this one goes on from: a back, after a front."""
    numbers = (row.label.numbers for row in part.rows if row.label and row.label.numbers)
    first = next(numbers, (1,))[0]
    before = (d.known for d in reversed(done) if first > 1 and first - 1 in d.known)
    return {at: nodes for at, nodes in next(before, {}).items() if at < first}


def _with_pattern_rows(row: RowText, pattern: tuple[int, ...]) -> RowText:
    """ "7th to 18th rows: rep pattern three times": with the rows that this is."""
    works = any(isinstance(n, (Make, InOnePlace, Repeat)) for n in row.body)
    told = any(isinstance(n, Recall) and n.pattern and n.times for n in row.body)
    if works or not told or not pattern:
        return row
    body = (
        replace(n, rows=pattern, pattern=False)
        if isinstance(n, Recall) and n.pattern else n
        for n in row.body
    )  # fmt: skip
    return replace(row, body=tuple(body))


def _recall_and_again(row: RowText) -> tuple[Recall | None, list[Recall]]:
    """The row that a row recalls in its place, and what is worked again behind it."""
    recall = recall_in(row.nodes_worked)
    in_pattern = [n for n in row.body if isinstance(n, Recall) and n.pattern]
    numbers = row.label.numbers if row.label is not None else ()
    if recall is None or not repeats_itself(row.body, recall, numbers):
        return recall, in_pattern
    further = recall.times or recall.up_to or recall.more or recall.reached
    return None, [recall, *in_pattern] if further else in_pattern


def _next_number(rows: Sequence[RowText]) -> int | None:
    """The number of the next row that has one."""
    labels = (row.label for row in rows if row.label is not None)
    return next((label.numbers[0] for label in labels if label.numbers), None)


def _add_row(planner: Planner, row: RowText, following: int | None) -> None:
    label = row.label
    if label is None:
        _add_unlabelled(planner, row, following)
        return
    if not planner.is_for(label) or _only_finishes(row) or _is_left_out(planner, row):
        return
    numbers = _not_worked(planner.numbers(label), label, planner.last)
    if label.next_rows is not None:
        several = min(planner.at(label.next_rows) or 0, MOST_ROWS)
        numbers = tuple(range(planner.last + 1, planner.last + 1 + several))
        if not numbers:
            return
    if not numbers and label.every in ("odd", "even"):
        _add_parity(planner, row, label)
        return
    if not numbers:
        _add_named(planner, row, label, following)
        return
    _restart(planner, numbers)
    recall, again = _recall_and_again(_with_pattern_rows(row, planner.pattern))
    if recall is not None and len(numbers) == 1 and _is_counted(recall):
        _release(planner, numbers[0])
        add_recall(planner, row, recall)
        return
    _add_numbered(planner, row, numbers, recall)
    for recalled in again:
        if recalled.pattern or recalled.rows[0] > 0:
            add_recall(planner, row, recalled)
        else:
            add_further(planner, row, recalled, following)
    _keep_parity(planner, label, numbers)


def _only_finishes(row: RowText) -> bool:
    """ "7. Cut the yarn and pull it through the last loop.": a step, but no row."""
    ends = any(isinstance(node, FinishOff) for node in row.body)
    other = (node for node in row.body if not isinstance(node, (FinishOff, Remark, Turn)))
    return ends and not row.claims and next(other, None) is None


def _keep_parity(planner: Planner, label: Label, numbers: Sequence[int]) -> None:
    """Keeps a row that also stands for all odd or even rows further on."""
    if label.every not in ("odd", "even"):
        return
    planner.every.append((numbers[0], planner.steps[-1]))
    if label.until:
        planner.ends = max(planner.ends, label.until + 1)


def _add_parity(planner: Planner, row: RowText, label: Label) -> None:
    """Keeps "All WS rows: Ch 1, sc across": a row for those between the others."""
    like = (step for step in planner.steps if label.side and step.side and step.number)
    known = next(((step.number or 0) + (step.side != label.side) for step in like), None)
    first = known if known is not None else int(label.every == "odd")
    number = planner.last + 1 + (planner.last + 1 - first) % 2
    step = _step(planner, row, number, recall_in(row.nodes_worked), 0, 1)
    if step is not None:
        planner.every.append((number, step))


def _add_numbered(
    planner: Planner, row: RowText, numbers: Sequence[int], recall: Recall | None
) -> None:
    """The rows a label stands for, but for those told ahead of their time."""
    check_label(planner, row, recall, len(numbers))
    ranged = row.label is not None and row.label.ranged
    for i, number in enumerate(numbers):
        step = _step(planner, row, number, recall, i, len(numbers))
        if step is None:
            continue
        if number > planner.last + 1 and ranged and not _is_run(numbers) and i:
            planner.waiting[number] = step
            continue
        _release(planner, number)
        keep(planner, step)


def _is_counted(recall: Recall) -> bool:
    """ "6. Do steps 4 and 5 three more times": one label for a number of rows."""
    times = recall.times
    if recall.reached is not None:
        return True
    return len(recall.rows) > 1 and times is not None and times.amount is not None


def _is_left_out(planner: Planner, row: RowText) -> bool:
    """Whether every count of a row has a dash for the size: "(- (72, 80))"."""
    amounts = [figure.amount for claim in row.claims for figure in claim.figures]
    size, sizes = planner.size, len(planner.sizes)
    left_out = bool(amounts) and all(
        len(amount.values) == sizes > 1 and amount.values[size] is None
        for amount in amounts
    )
    planner.differs = planner.differs or left_out
    return left_out


def _not_worked(numbers: tuple[int, ...], label: Label, last: int) -> tuple[int, ...]:
    """The rows of "Rows 10-15 (19)" that a size has not worked, where all begin at 10."""
    if not label.by_size or not numbers or numbers[-1] <= last:
        return numbers
    return tuple(number for number in numbers if number > last)


def _is_run(numbers: Sequence[int]) -> bool:
    return all(b == a + 1 for a, b in pairwise(numbers))


def _restart(planner: Planner, numbers: Sequence[int]) -> None:
    """Labels that begin again leave the earlier rows behind."""
    if numbers[0] <= planner.last and numbers[0] in planner.known and numbers[0] == 1:
        _release(planner, None)
        planner.earlier, planner.known = planner.known, {}
        planner.last = 0


def _release(planner: Planner, number: int | None) -> None:
    """Works the rows that were told ahead ("Rows 2, 4 and 6" before "Row 3")."""
    for waiting in sorted(planner.waiting):
        if number is None or waiting < number:
            step = planner.waiting.pop(waiting)
            fill_up_to(planner, waiting)
            keep(planner, step)
    if number is not None:
        fill_up_to(planner, number)
    elif planner.every:
        for n in range(planner.last + 1, min(planner.ends, MOST_ROWS) + 1):
            fill_up_to(planner, n + 1)


def _step(
    planner: Planner, row: RowText, number: int, recall: Recall | None, at: int, of: int
) -> Step | None:
    label = row.label
    assert label is not None
    nodes, recalled = row.body, None
    if recall is not None and recall.onward:
        nodes, recalled = next_onward(planner.order) or row.body, number - 1
    elif recall is not None:
        recalled = _recalled(recall, number, at, of)
        found = (
            row_of_part(planner, recall.part, recalled or number) if recall.part else None
        )
        found = found or row_called(planner, recall, recalled)
        if found is None and recalled is not None and recalled < 0:
            found = row_before(planner, recalled, at)
        if found is None and recalled is not None and label.name and not recall.label:
            found = planner.earlier.get(recalled)  # "Body Rnd 2: As Rnd 3", of the yoke
        if found is None and (not recall.label or recall.rows):
            there = bool(part_called(planner, recall.part).known)
            named = named_rows(recall) or str(number) * there
            if named:  # a part that is not there at all is told by its name
                problem = ("missing-target", row.place(recall.span), named)
                planner.problems.append(problem)
        found = found or ()
        again = at // max(1, len(recall.rows)) + 1
        nodes = with_changes(row.body, recall, found, again)
    claims = claims_at(row.claims, at, of, number)
    return Step(
        planner.part,
        number,
        label.text,
        nodes,
        claims,
        row.span,
        label.is_round,
        row,
        recalled,
        label.side,
    )


def _recalled(recall: Recall, number: int, at: int, of: int = 1) -> int | None:
    """Which row number is recalled by the row at a place of a range of so many."""
    last = () if recall.times else recall.then
    behind = at - (of - len(last))
    if last and of > len(last) and behind >= 0:  # "rep Rows 2 and 3, ending with Row 2"
        return last[behind]
    listed = recall.rows if of > len(last) else (*recall.rows, *last)
    own = [n for n in listed if n < number - at or n < 0]
    rows = list(listed) if recall.part else own or list(listed)
    if not rows:
        return None
    return rows[at % len(rows)]


def _add_named(planner: Planner, row: RowText, label: Label, following: int | None) -> None:
    """A row told by a name: "Foundation Row", "Next row"; not one of words alone.

    "Foundation: a multiple of 4 plus 2. I chained 62." works nothing. One that stands where
    the labels leave a number out bears it: "Foundation: ...", and then "Row 2".
    """
    quiet = all(type(n) in QUIET and not isinstance(n, Recall) for n in row.body)
    if quiet and not row.claims:
        return
    if label.name in planner.kinds and not row.claims:
        planner.named[label.name] = row.body  # it is worked where its number is told
        return
    recall = recall_in(row.nodes_worked)
    nodes = row.body
    itself = recall is not None and repeats_itself(row.body, recall)
    if recall is not None and not itself:
        number = planner.last + 1
        recalled = _recalled(recall, number, 0)
        found = row_called(planner, recall, recalled)
        if found is None and recalled is not None and recalled < 0:
            found = row_before(planner, recalled, 0)
        if found is not None:
            nodes = with_changes(row.body, recall, found)
    left_out = following == planner.last + 2
    step = Step(
        planner.part,
        planner.last + 1 if label.every == "next" or left_out else None,
        label.text,
        nodes,
        row.claims,
        row.span,
        label.is_round,
        row,
        side=label.side,
    )
    planner.named[label.name] = nodes
    keep(planner, step)
    rest = [n for n in row.body if isinstance(n, Recall) and (n is not recall or itself)]
    rest = [
        n for n in rest
        if n is not recall or n.times is not None or n.up_to or n.reached is not None
    ]  # fmt: skip
    for again in rest:
        add_recall(planner, row, again)


def _add_unlabelled(planner: Planner, row: RowText, following: int | None) -> None:
    recalls = [node for node in row.body if isinstance(node, Recall)]
    work = [node for node in row.body if type(node) not in QUIET | {Instead}]
    if not recalls and not work and any(isinstance(n, FinishOff) for n in row.body):
        end_last(planner, row)
        return
    if recalls and all(isinstance(node, Join) for node in work):  # "join the short ends"
        _add_again(planner, row, recalls)
        return
    if work and following == planner.last + 1 and all(_is_even(node) for node in work):
        return  # "work 5 rounds even:", and then they are told one by one
    makes = any(
        isinstance(node, (InOnePlace, Repeat, Evenly))
        or (isinstance(node, Make) and node.stitch != "sl st")
        for node in row.body
    )
    number = planner.last + 1 if makes else None
    if number == following:
        number = None  # "6 sc in a ring" before "Round 1" bears no number
    chained = any(isinstance(node, Chain) for node in row.body)
    slips = any(isinstance(node, (Make, Join)) for node in row.body)
    begun = planner.steps or (planner.parts and not row.claims)  # a loop to hang it by
    looped = slips and bool(begun) and following is None
    named = looped and chained and not row.claims and _names_a_loop(row.body[0])
    if named or (not makes and (not chained or looped)):
        end_last(planner, row)  # "sl st in next st, fasten off"
        return  # "ch 12, sl st in last sc": it is no row
    step = Step(
        planner.part, number, "", row.body, row.claims, row.span, is_round=False, text=row
    )
    keep(planner, step)
    for recall in recalls:
        if repeats_itself(row.body, recall):
            add_further(planner, row, recall, following)


_LOOP = regex(r"\b(?:loop|hanger|tie|string)s?\W*$", re.IGNORECASE)


def _names_a_loop(node: Node) -> bool:
    """ "Hanging loop: ch 12, sl st in same st, sc in each ch": a thing by itself."""
    return isinstance(node, Remark) and _LOOP.search(node.words) is not None


def _add_again(planner: Planner, row: RowText, recalls: Sequence[Recall]) -> None:
    """Reads "Rep Rows 2 and 3 twice": a line that only works other rows again."""
    for recall in recalls:
        if recall.onward and recall.reached is None:
            continue  # how many rows are worked like this is not said
        if recall.forms_pattern:  # "Rows 2-11 form the pattern": so there is a row 11
            planner.ends = max(planner.ends, *recall.rows, 0)
        else:
            add_recall(planner, row, recall)


def _is_even(node: Node) -> bool:
    """Whether a node works as many stitches as there are, and names no places."""
    return isinstance(node, Evenly) and node.amount.values == (0,)
