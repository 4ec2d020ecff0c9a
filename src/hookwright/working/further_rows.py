"""Which rows are worked again behind others: "rep Rows 2-5 twice", "10 more in patt"?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import cycle, islice

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    FinishOff,
    Instead,
    Node,
    Often,
    Recall,
    RowText,
    Times,
)
from hookwright.working.nodes import is_from_hook_node, works_in_ring
from hookwright.working.onward import next_onward
from hookwright.working.planner import (
    Planner,
    fill_all,
    fill_up_to,
    keep,
    last_with,
    part_called,
    row_called,
    rows_to_goal,
)
from hookwright.working.recalled import (
    named_rows,
    with_changes,
)
from hookwright.working.steps import MOST_ROWS, Step


def add_further(
    planner: Planner, row: RowText, recall: Recall, following: int | None
) -> None:
    """Reads "sc in each st for 6 more rounds": as the next label has room for."""
    more = _rows_to_end(planner, recall)
    wanted = more if recall.up_to else _sets(planner, recall)
    if following is not None and following > planner.last:
        wanted = min(wanted, following - planner.last - 1)
    if recall.reached is not None:
        _add_last(planner, row, recall)
        return
    if recall.open_length or wanted < 1 or _are_labelled(row, wanted + 1):
        return
    amount = Amount((wanted,), recall.span)
    times = Times(Often.MORE, recall.span, amount)
    _add_last(planner, row, replace(recall, times=times, up_to=None))


def _are_labelled(row: RowText, rounds: int) -> bool:
    """ "Rnds 7-8: Work 2 rounds even": the label stands for all of them already."""
    return row.label is not None and len(row.label.numbers) == rounds


def add_recall(planner: Planner, row: RowText, recall: Recall) -> None:
    """Reads "repeat Rows 2-5 four more times, then Row 2 once", "rep Row 2 until ..."."""
    if recall.rows and recall.rows[0] < 0:
        _add_last(planner, row, recall)
        return
    if recall.label:
        _add_by_name(planner, row, recall)
        return
    elsewhere = not planner.known or part_called(planner, recall.part).known
    if recall.part and (not recall.rows or elsewhere):
        _add_of_part(planner, row, recall)
        return
    if recall.pattern and not planner.pattern:  # which rows these are is not said
        planner.ends = max(planner.ends, _last_of_turns(planner, recall))
        return
    _add_by_number(
        planner, row, replace(recall, rows=planner.pattern) if recall.pattern else recall
    )


def _add_by_number(planner: Planner, row: RowText, recall: Recall) -> None:
    """Rows worked again that are known by their numbers.

    A part that numbers no row, "Second strap", means those of a part before it.
    """
    known = planner.known
    if not planner.there and not known.keys() & {*recall.rows}:
        known = last_with(planner, recall.rows).known or known
    if _tells_rows_in_all(planner, recall):  # "and every odd row"; "work Rows 1 to 8"
        fill_all(planner, recall.rows[-1] + 1)
        return
    _fill_for(planner, recall)
    rows = _absolute(planner, row, recall, known)
    number = _sets(planner, recall)
    sequence = [*(rows * number), *recall.then]
    if recall.reached is not None and rows:
        number = rows_to_goal(planner, row, recall, len(rows))
        sequence = [*islice(_in_turn(planner, rows), number), *recall.then]
    if recall.up_to or recall.more is not None:
        number = _last_of_turns(planner, recall) - planner.last
        sequence = list(islice(_in_turn(planner, rows), max(0, number)))
    if not rows or len(sequence) > MOST_ROWS:
        if not rows:
            planner.problems.append(
                ("missing-target", row.place(recall.span), named_rows(recall))
            )
        return
    for at, source in enumerate(sequence):
        nodes = known.get(source)
        if nodes is not None and any(isinstance(node, Instead) for node in row.body):
            nodes = with_changes(row.body, recall, nodes, at // len(rows) + 1)
        if nodes is None:
            planner.problems.append(("missing-target", row.place(recall.span), str(source)))
            return
        _keep_again(planner, row, recall, nodes, source)
    end_last(planner, row)


def _fill_for(planner: Planner, recall: Recall) -> None:
    """Works a row that "and all odd rows" may tell, where it is worked again."""
    if max(recall.rows, default=0) == planner.last + 1:
        fill_up_to(planner, planner.last + 2)


def _tells_rows_in_all(planner: Planner, recall: Recall) -> bool:
    """Whether rows are named from the first to one that only "every odd row" tells."""
    last = recall.rows[-1] if recall.rows else 0
    whole = recall.rows == tuple(range(1, last + 1)) and not recall.label
    told = recall.times or recall.then or recall.more or recall.up_to or recall.reached
    return bool(planner.every) and whole and last > planner.last and not told


def _last_of_turns(planner: Planner, recall: Recall) -> int:
    """The number of the last row that rows are worked as in turn."""
    if recall.more is None:
        return planner.last + _rows_to_end(planner, recall)
    return planner.last + min(planner.at(recall.more) or 0, MOST_ROWS)


def _in_turn(planner: Planner, rows: Sequence[int]) -> Iterator[int]:
    """Rows over and over, beginning with the one behind the last that was worked."""
    last = next((s.recalled or s.number for s in reversed(planner.steps)), None)
    begin = rows.index(last) + 1 if last in rows else 0
    return islice(cycle(rows), begin, None)


def _add_of_part(planner: Planner, row: RowText, recall: Recall) -> None:
    """Reads "work as for Head to end of Round 6": the rows of another part, in this one.

    A whole part is worked again only where its words say so and it begins by itself. The
    first of its rows is worked on what that part begins with.
    """
    part = part_called(planner, recall.part)
    part = part if part.known else last_with(planner, recall.rows)
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
    end_last(planner, row)


def _keep_again(
    planner: Planner,
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
    keep(planner, step)


def end_last(planner: Planner, row: RowText) -> None:
    """What stands behind rows worked again is of the last: their count, the yarn cut."""
    if not planner.steps:
        return
    last = planner.steps[-1]
    if row.claims:
        counts = tuple(claim for claim in row.claims if not claim.of_rows)
        last = replace(last, claims=counts)
    ends = tuple(node for node in row.body if isinstance(node, FinishOff))
    planner.steps[-1] = replace(last, nodes=(*last.nodes, *ends)) if ends else last


def _add_by_name(planner: Planner, row: RowText, recall: Recall) -> None:
    """Reads "rep Dec Row 3 times"; a name that no row bears is only words."""
    found = [row_called(planner, recall, number) for number in recall.rows or (None,)]
    named = [nodes for nodes in found if nodes is not None]
    worked = named * _sets(planner, recall)
    if recall.reached is not None and named:
        worked = list(islice(cycle(named), rows_to_goal(planner, row, recall, len(named))))
    for nodes in worked:
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
        keep(planner, step)
    if worked and _is_last_recall(row, recall):
        end_last(planner, row)


def _is_last_recall(row: RowText, recall: Recall) -> bool:
    """Whether the count behind "3 plain rnds, then 1 decrease rnd" is of these rows."""
    recalls = [node for node in row.body if isinstance(node, Recall)]
    return not recalls or recalls[-1] == recall


def _add_last(planner: Planner, row: RowText, recall: Recall) -> None:
    """Reads "rep last 2 rows 5 more times": counted back from here, not by number."""
    before = [step for step in planner.steps if step.part == planner.part]
    some = before[recall.rows[0] :]
    if recall.reached is not None and len(recall.rows) > 1:
        some = [step for step in some if not any(map(is_from_hook_node, step.nodes))]
    if not some or (len(some) < -recall.rows[0] and recall.reached is None):
        planner.problems.append(
            ("missing-target", row.place(recall.span), named_rows(recall))
        )
        return
    number = len(some) * _sets(planner, recall)
    if recall.reached is not None:
        number = rows_to_goal(planner, row, recall, len(some))
    for step in islice(cycle(some), number):
        onward = next_onward(planner.order) if recall.onward else None
        again = replace(
            step,
            nodes=onward or step.nodes,
            number=planner.last + 1,
            label="",
            claims=(),
            span=row.place(recall.span),
            text=row,
            recalled=step.number,
            side="",
        )
        keep(planner, again)
    end_last(planner, row)


def _absolute(
    planner: Planner, row: RowText, recall: Recall, known: Mapping[int, tuple[Node, ...]]
) -> list[int]:
    """The row numbers recalled that are known; others beside them are told of."""
    there = [n for n in recall.rows if n in known]
    if there:
        missing = (str(n) for n in recall.rows if n not in known)
        place = row.place(recall.span)
        planner.problems += [("missing-target", place, number) for number in missing]
    return there


def _rows_to_end(planner: Planner, recall: Recall) -> int:
    """How many rows are left up to the last one told, if there is one."""
    last = planner.at(recall.up_to) if recall.up_to is not None else None
    return (last or 0) - planner.last


def _sets(planner: Planner, recall: Recall) -> int:
    """How many times the set is worked; once where only a length or a wish is told."""
    if recall.up_to:
        return max(0, _rows_to_end(planner, recall)) // max(1, len(recall.rows))
    if recall.times is None or recall.times.amount is None:
        return 1
    if recall.times.often in (Often.ACROSS, Often.TO_LAST):
        return 1
    return min(planner.at(recall.times.amount) or 0, MOST_ROWS)
