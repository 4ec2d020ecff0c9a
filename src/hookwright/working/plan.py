"""Which rows are worked, in which order: ranges, cycles and recalls written out.

A pattern says "Rows 4-18: Rep Rows 2 and 3"; the plan says which words are worked as
Row 4, Row 5 and so on. Rows are listed one by one, but share the nodes of the row they
recall.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import cycle, islice, pairwise

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    Evenly,
    FinishOff,
    InOnePlace,
    Instead,
    Join,
    Label,
    Make,
    Node,
    Often,
    PartText,
    Recall,
    Remark,
    Repeat,
    RowText,
    Times,
    Turn,
)
from hookwright.source import Span
from hookwright.working.nodes import QUIET, works_in_ring
from hookwright.working.ranges import rows_by_words
from hookwright.working.recalled import (
    named_rows,
    numbered_name,
    recall_in,
    repeats_itself,
    where_begun,
    with_changes,
)
from hookwright.working.steps import MOST_ROWS, Step, carried, claims_at


class _Done(Struct, frozen=True):
    """A part that is planned: its rows by number, and what it begins with before them."""

    name: str
    known: dict[int, tuple[Node, ...]]
    opening: tuple[tuple[Node, ...], ...]


class _Planner(Struct):
    """The rows of one part so far."""

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
    problems: list[tuple[str, Span, str]] = field(default_factory=list)
    parts: list[_Done] = field(default_factory=list)
    opening: tuple[tuple[Node, ...], ...] = ()
    differs: bool = False

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


class Plan(Struct, frozen=True):
    """All rows of a pattern for one size.

    Attributes:
        steps: The rows in working order.
        problems: (rule, span, what) of references that do not fit.
        differs: Whether the plan of another size may be another one.
    """

    steps: tuple[Step, ...]
    problems: tuple[tuple[str, Span, str], ...]
    differs: bool


def plan_of(parts: Sequence[PartText], size: int, sizes: tuple[str, ...]) -> Plan:
    """The plan of a pattern for one size."""
    steps: list[Step] = []
    problems: list[tuple[str, Span, str]] = []
    before: _Planner | None = None
    done: list[_Done] = []
    differs = False
    for number, part in enumerate(parts):
        planner = _Planner(number, size, sizes)
        if before is not None and _continues(part, before):
            planner.known, planner.order = before.known, before.order
            planner.last = before.last
        else:
            planner.known = _known_before(part, done)
        planner.parts, planner.ends = done, part.last_row
        for at, row in enumerate(part.rows):
            _add_row(planner, row, _next_number(part.rows[at + 1 :]))
        done.append(_Done(part.name.lower(), planner.known, planner.opening))
        _release(planner, None)
        steps.extend(carried(planner.steps))
        problems.extend(planner.problems)
        differs = differs or planner.differs
        before = planner
    return Plan(tuple(steps[:MOST_ROWS]), tuple(problems), differs)


def _continues(part: PartText, before: _Planner) -> bool:
    """Whether the labels of a part go on where the part before stopped."""
    first = next((row.label for row in part.rows if row.label), None)
    return first is not None and bool(first.numbers) and first.numbers[0] == before.last + 1


def _known_before(part: PartText, done: Sequence[_Done]) -> dict[int, tuple[Node, ...]]:
    """The rows of an earlier part that this one goes on from: a back, after a front."""
    numbers = (row.label.numbers for row in part.rows if row.label and row.label.numbers)
    first = next(numbers, (1,))[0]
    before = (d.known for d in reversed(done) if first > 1 and first - 1 in d.known)
    return {at: nodes for at, nodes in next(before, {}).items() if at < first}


def _recall_and_again(row: RowText) -> tuple[Recall | None, list[Recall]]:
    """The row that a row recalls in its place, and what is worked again behind it."""
    recall = recall_in(row.nodes_worked)
    if recall is None or not repeats_itself(row.body, recall):
        return recall, []
    return None, [recall] if recall.times is not None or recall.up_to else []


def _next_number(rows: Sequence[RowText]) -> int | None:
    """The number of the next row that has one."""
    labels = (row.label for row in rows if row.label is not None)
    return next((label.numbers[0] for label in labels if label.numbers), None)


def _add_row(planner: _Planner, row: RowText, following: int | None) -> None:
    label = row.label
    if label is None:
        _add_unlabelled(planner, row, following)
        return
    if not planner.is_for(label) or _only_finishes(row):
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
        _add_named(planner, row, label)
        return
    _restart(planner, numbers)
    recall, again = _recall_and_again(row)
    if recall is not None and len(numbers) == 1 and _is_counted(recall):
        _release(planner, numbers[0])
        _add_recall(planner, row, recall)
        return
    _add_numbered(planner, row, numbers, recall)
    for recalled in again:
        if recalled.rows[0] > 0:
            _add_recall(planner, row, recalled)
        else:
            _add_further(planner, row, recalled, following)
    _keep_parity(planner, label, numbers)


def _only_finishes(row: RowText) -> bool:
    """ "7. Cut the yarn and pull it through the last loop.": a step, but no row."""
    ends = any(isinstance(node, FinishOff) for node in row.body)
    other = (node for node in row.body if not isinstance(node, (FinishOff, Remark, Turn)))
    return ends and not row.claims and next(other, None) is None


def _keep_parity(planner: _Planner, label: Label, numbers: Sequence[int]) -> None:
    """Keeps a row that also stands for all odd or even rows further on."""
    if label.every not in ("odd", "even"):
        return
    planner.every.append((numbers[0], planner.steps[-1]))
    if label.until:
        planner.ends = max(planner.ends, label.until + 1)


def _add_parity(planner: _Planner, row: RowText, label: Label) -> None:
    """Keeps "All WS rows: Ch 1, sc across": a row for those between the others."""
    like = (step for step in planner.steps if label.side and step.side and step.number)
    known = next(((step.number or 0) + (step.side != label.side) for step in like), None)
    first = known if known is not None else int(label.every == "odd")
    number = planner.last + 1 + (planner.last + 1 - first) % 2
    step = _step(planner, row, number, recall_in(row.nodes_worked), 0, 1)
    if step is not None:
        planner.every.append((number, step))


def _check_range(
    planner: _Planner, row: RowText, recall: Recall | None, labelled: int
) -> None:
    """Tells a label that stands for another number of rows than its words work."""
    if recall is None or row.label is None:
        return
    worked = rows_by_words(row.label, recall, labelled, planner.at)
    if worked != labelled:
        told = f"{labelled} rows, but its words work {worked}"
        planner.problems.append(("row-range", row.place(recall.span), told))


def _add_numbered(
    planner: _Planner, row: RowText, numbers: Sequence[int], recall: Recall | None
) -> None:
    """The rows a label stands for, but for those told ahead of their time."""
    _check_range(planner, row, recall, len(numbers))
    ranged = row.label is not None and row.label.ranged
    for i, number in enumerate(numbers):
        step = _step(planner, row, number, recall, i, len(numbers))
        if step is None:
            continue
        if number > planner.last + 1 and ranged and not _is_run(numbers) and i:
            planner.waiting[number] = step
            continue
        _release(planner, number)
        _keep(planner, step)


def _is_counted(recall: Recall) -> bool:
    """ "6. Do steps 4 and 5 three more times": one label for a number of rows."""
    times = recall.times
    return len(recall.rows) > 1 and times is not None and times.amount is not None


def _not_worked(numbers: tuple[int, ...], label: Label, last: int) -> tuple[int, ...]:
    """The rows of "Rows 10-15 (19)" that a size has not worked, where all begin at 10."""
    if not label.by_size or not numbers or numbers[-1] <= last:
        return numbers
    return tuple(number for number in numbers if number > last)


def _is_run(numbers: Sequence[int]) -> bool:
    return all(b == a + 1 for a, b in pairwise(numbers))


def _restart(planner: _Planner, numbers: Sequence[int]) -> None:
    """Labels that begin again leave the earlier rows behind."""
    if numbers[0] <= planner.last and numbers[0] in planner.known and numbers[0] == 1:
        _release(planner, None)
        planner.known = {}
        planner.last = 0


def _release(planner: _Planner, number: int | None) -> None:
    """Works the rows that were told ahead ("Rows 2, 4 and 6" before "Row 3")."""
    for waiting in sorted(planner.waiting):
        if number is None or waiting < number:
            step = planner.waiting.pop(waiting)
            _fill(planner, waiting)
            _keep(planner, step)
    if number is not None:
        _fill(planner, number)
    elif planner.every:
        for n in range(planner.last + 1, min(planner.ends, MOST_ROWS) + 1):
            _fill(planner, n + 1)


def _fill(planner: _Planner, number: int) -> None:
    """Works "all odd rows" that stand between the last row and this one."""
    for first, step in planner.every:
        for n in range(planner.last + 1, min(number, planner.last + 50)):
            label = step.text.label
            if label is not None and label.until and n > label.until:
                break
            if n % 2 == first % 2 and n == planner.last + 1:
                _keep(planner, replace(step, number=n))


def _keep(planner: _Planner, step: Step) -> None:
    if len(planner.steps) >= MOST_ROWS:
        return
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


def _step(
    planner: _Planner, row: RowText, number: int, recall: Recall | None, at: int, of: int
) -> Step | None:
    label = row.label
    assert label is not None
    nodes, recalled = row.body, None
    if recall is not None:
        recalled = _recalled(recall, number, at)
        found = _of_part(planner, recall.part, recalled or number) if recall.part else None
        found = found or _called(planner, recall, recalled)
        if found is None and recalled is not None and recalled < 0:
            found = _before(planner, recalled, at)
        if found is None and (not recall.label or recall.rows):
            there = bool(_part_called(planner, recall.part).known)
            named = named_rows(recall) or str(number) * there
            if named:  # a part that is not there at all is told by its name
                problem = ("missing-target", row.place(recall.span), named)
                planner.problems.append(problem)
        found = found or ()
        again = at // max(1, len(recall.rows)) + 1
        nodes = with_changes(row.body, recall, found, again)
    claims = claims_at(row.claims, at, of)
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


def _called(
    planner: _Planner, recall: Recall, number: int | None
) -> tuple[Node, ...] | None:
    """The row of a name ("Dec Row", "Hem Row 2"), or else of a number alone."""
    named = planner.named.get(numbered_name(recall.label, number)) if recall.label else None
    if named is None and number is not None:
        return planner.known.get(number)
    return named


def _of_part(planner: _Planner, name: str, number: int) -> tuple[Node, ...] | None:
    """The row of a number in another part."""
    return _part_called(planner, name).known.get(number)


_NO_PART = _Done("", {}, ())


def _part_called(planner: _Planner, name: str) -> _Done:
    """Another part; the one called just so comes before those called alike."""
    exactly = (done for done in planner.parts if done.name == name and done.known)
    alike = (done for done in planner.parts if done.name and _alike(done.name, name))
    return next(exactly, None) or next(alike, _NO_PART)


def _last_with(planner: _Planner, rows: tuple[int, ...]) -> _Done:
    """The part before this one that has some rows: no part bears the name that is told."""
    parts = (done for done in reversed(planner.parts) if rows)
    return next((done for done in parts if set(rows) <= done.known.keys()), _NO_PART)


def _alike(part: str, name: str) -> bool:
    """ "Legs" and "the first leg", "Head" and "head and ears"."""
    one = part.rstrip("s")
    return one in name or name.rstrip("s") in one


def _before(planner: _Planner, back: int, at: int) -> tuple[Node, ...] | None:
    """The row so many rows before the first of this entry."""
    index = len(planner.order) - at + back
    return planner.order[index] if 0 <= index < len(planner.order) else None


def _recalled(recall: Recall, number: int, at: int) -> int | None:
    """Which row number is recalled by the row at a place of a range."""
    listed = recall.rows if recall.times else (*recall.rows, *recall.then)
    rows = [n for n in listed if n < number - at or n < 0] or list(listed)
    if not rows:
        return None
    return rows[at % len(rows)]


def _add_named(planner: _Planner, row: RowText, label: Label) -> None:
    """A row told by a name: "Foundation Row", "Next row"."""
    recall = recall_in(row.nodes_worked)
    nodes = row.body
    itself = recall is not None and repeats_itself(row.body, recall)
    if recall is not None and not itself:
        number = planner.last + 1
        recalled = _recalled(recall, number, 0)
        found = _called(planner, recall, recalled)
        if found is None and recalled is not None and recalled < 0:
            found = _before(planner, recalled, 0)
        if found is not None:
            nodes = with_changes(row.body, recall, found)
    step = Step(
        planner.part,
        planner.last + 1 if label.every == "next" else None,
        label.text,
        nodes,
        row.claims,
        row.span,
        label.is_round,
        row,
        side=label.side,
    )
    planner.named[label.name] = nodes
    _keep(planner, step)
    rest = [n for n in row.body if isinstance(n, Recall) and (n is not recall or itself)]
    rest = [n for n in rest if n is not recall or n.times is not None or n.up_to]
    for again in rest:
        _add_recall(planner, row, again)


def _add_unlabelled(planner: _Planner, row: RowText, following: int | None) -> None:
    recalls = [node for node in row.body if isinstance(node, Recall)]
    work = [node for node in row.body if type(node) not in QUIET | {Instead}]
    if not recalls and not work and any(isinstance(n, FinishOff) for n in row.body):
        _end_last(planner, row)
        return
    if recalls and not work:
        for recall in recalls:
            if recall.forms_pattern:  # "Rows 2-11 form the pattern": so there is a row 11
                planner.ends = max(planner.ends, *recall.rows, 0)
            else:
                _add_recall(planner, row, recall)
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
    if not makes and (not chained or looped):
        _end_last(planner, row)  # "sl st in next st, fasten off"
        return  # "ch 12, sl st in last sc": it is no row
    step = Step(
        planner.part, number, "", row.body, row.claims, row.span, is_round=False, text=row
    )
    _keep(planner, step)
    for recall in recalls:
        if repeats_itself(row.body, recall):
            _add_further(planner, row, recall, following)


def _is_even(node: Node) -> bool:
    """Whether a node works as many stitches as there are, and names no places."""
    return isinstance(node, Evenly) and node.amount.values == (0,)


def _add_further(
    planner: _Planner, row: RowText, recall: Recall, following: int | None
) -> None:
    """Reads "sc in each st for 6 more rounds": as the next label has room for."""
    wanted = recall.up_to - planner.last if recall.up_to else _sets(planner, recall)
    if following is not None and following > planner.last:
        wanted = min(wanted, following - planner.last - 1)
    if recall.open_length or wanted < 1:
        return
    amount = Amount((wanted,), recall.span)
    times = Times(Often.MORE, recall.span, amount)
    _add_last(planner, row, replace(recall, times=times, up_to=0))


def _add_recall(planner: _Planner, row: RowText, recall: Recall) -> None:
    """Reads "repeat Rows 2-5 four more times, then Row 2 once", "rep Row 2 until ..."."""
    if recall.rows and recall.rows[0] < 0:
        _add_last(planner, row, recall)
        return
    if recall.label:
        _add_by_name(planner, row, recall)
        return
    elsewhere = not planner.known or _part_called(planner, recall.part).known
    if recall.part and (not recall.rows or elsewhere):
        _add_of_part(planner, row, recall)
        return
    rows = _absolute(planner, row, recall)
    number = _sets(planner, recall)
    sequence = [*(rows * number), *recall.then]
    if recall.up_to:
        sequence = list(islice(cycle(rows), max(0, recall.up_to - planner.last)))
    if not rows or len(sequence) > MOST_ROWS:
        if not rows:
            planner.problems.append(
                ("missing-target", row.place(recall.span), named_rows(recall))
            )
        return
    for at, source in enumerate(sequence):
        nodes = planner.known.get(source)
        if nodes is not None and any(isinstance(node, Instead) for node in row.body):
            nodes = with_changes(row.body, recall, nodes, at // len(rows) + 1)
        if nodes is None:
            planner.problems.append(("missing-target", row.place(recall.span), str(source)))
            return
        _keep_again(planner, row, recall, nodes, source)
    _end_last(planner, row)


def _add_of_part(planner: _Planner, row: RowText, recall: Recall) -> None:
    """Reads "work as for Head to end of Round 6": the rows of another part, in this one.

    A whole part is worked again only where its words say so and it begins by itself. The
    first of its rows is worked on what that part begins with.
    """
    part = _part_called(planner, recall.part)
    part = part if part.known else _last_with(planner, recall.rows)
    known = part.known
    rows = recall.rows or tuple(sorted(known))
    ends = planner.at(recall.ends) if recall.ends is not None else None
    rows = tuple(number for number in rows if ends is None or number <= ends)
    begins = bool(rows) and works_in_ring(known.get(rows[0], ()))
    if not all(number in known for number in rows) or not (recall.rows or begins):
        return
    if not planner.steps and rows and rows[0] == min(known):
        for nodes in part.opening:
            _keep_again(planner, row, recall, nodes, 0, numbered=0)
    for number in rows:
        _keep_again(planner, row, recall, known[number], number, numbered=number)
    _end_last(planner, row)


def _keep_again(
    planner: _Planner,
    row: RowText,
    recall: Recall,
    nodes: tuple[Node, ...],
    source: int,
    *,
    numbered: int | None = None,
) -> None:
    step = Step(
        planner.part,
        planner.last + 1 if numbered is None else numbered or None,
        "",
        nodes,
        (),
        row.place(recall.span),
        is_round=False,
        text=row,
        recalled=source,
    )
    _keep(planner, step)


def _end_last(planner: _Planner, row: RowText) -> None:
    """What stands behind rows worked again is of the last: their count, the yarn cut."""
    if not planner.steps:
        return
    last = planner.steps[-1]
    if row.claims:
        counts = tuple(claim for claim in row.claims if not claim.of_rows)
        last = replace(last, claims=counts)
    ends = tuple(node for node in row.body if isinstance(node, FinishOff))
    planner.steps[-1] = replace(last, nodes=(*last.nodes, *ends)) if ends else last


def _add_by_name(planner: _Planner, row: RowText, recall: Recall) -> None:
    """Reads "rep Dec Row 3 times"; a name that no row bears is only words."""
    found = [_called(planner, recall, number) for number in recall.rows or (None,)]
    named = [nodes for nodes in found if nodes is not None]
    for nodes in named * _sets(planner, recall):
        step = Step(
            planner.part,
            planner.last + 1,
            "",
            nodes,
            (),
            row.place(recall.span),
            is_round=False,
            text=row,
            recalled=planner.last,
        )
        _keep(planner, step)
    if named:
        _end_last(planner, row)


def _add_last(planner: _Planner, row: RowText, recall: Recall) -> None:
    """Reads "rep last 2 rows 5 more times": counted back from here, not by number."""
    before = [step for step in planner.steps if step.part == planner.part]
    some = before[recall.rows[0] :]
    if not some or len(some) < -recall.rows[0]:
        planner.problems.append(
            ("missing-target", row.place(recall.span), named_rows(recall))
        )
        return
    for _ in range(_sets(planner, recall)):
        for step in some:
            again = replace(
                step,
                number=planner.last + 1,
                label="",
                claims=(),
                span=row.place(recall.span),
                text=row,
                recalled=step.number,
                side="",
            )
            _keep(planner, again)
    _end_last(planner, row)


def _absolute(planner: _Planner, row: RowText, recall: Recall) -> list[int]:
    """The row numbers recalled that are known; others beside them are told of."""
    known = [n for n in recall.rows if n in planner.known]
    if known:
        missing = (str(n) for n in recall.rows if n not in planner.known)
        place = row.place(recall.span)
        planner.problems += [("missing-target", place, number) for number in missing]
    return known


def _sets(planner: _Planner, recall: Recall) -> int:
    """How many times the set is worked; once where only a length or a wish is told."""
    if recall.up_to:
        return max(0, recall.up_to - planner.last) // max(1, len(recall.rows))
    if recall.times is None or recall.times.amount is None:
        return 1
    if recall.times.often in (Often.ACROSS, Often.TO_LAST):
        return 1
    return min(planner.at(recall.times.amount) or 0, MOST_ROWS)
