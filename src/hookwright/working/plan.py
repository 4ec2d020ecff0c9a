"""Which rows are worked, in which order: ranges, cycles and recalls written out.

A pattern says "Rows 4-18: Rep Rows 2 and 3"; the plan says which words are worked as
Row 4, Row 5 and so on. Rows are listed one by one, but share the nodes of the row they
recall.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from hookwright.notation.tree import (
    Chain,
    Claim,
    InOnePlace,
    Join,
    Label,
    Make,
    Node,
    Often,
    PartText,
    Recall,
    Repeat,
    RowText,
    Skip,
    Tail,
    Which,
    Yarn,
)
from hookwright.source import Span
from hookwright.working.row import QUIET

MOST_ROWS = 5_000


@dataclass(frozen=True, slots=True)
class Step:
    """One row to be worked.

    Attributes:
        part: Number of its part.
        number: Its row number; None for a row without one.
        label: The label as printed.
        nodes: Its instructions, those of the row it recalls where it recalls one.
        claims: Counts printed for it.
        span: Where it stands.
        is_round: Whether its label says round.
        text: The row of the tree it comes from.
        recalled: The number of the row it recalls.
        side: "RS", "WS" or "".
    """

    part: int
    number: int | None
    label: str
    nodes: tuple[Node, ...]
    claims: tuple[Claim, ...]
    span: Span
    is_round: bool
    text: RowText
    recalled: int | None = None
    side: str = ""


@dataclass(slots=True)
class _Planner:
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
    parts: list[tuple[str, dict[int, tuple[Node, ...]]]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Plan:
    """All rows of a pattern for one size.

    Attributes:
        steps: The rows in working order.
        problems: (rule, span, what) of references that do not fit.
    """

    steps: tuple[Step, ...]
    problems: tuple[tuple[str, Span, str], ...]


def plan_of(parts: Sequence[PartText], size: int, sizes: tuple[str, ...]) -> Plan:
    """The plan of a pattern for one size."""
    steps: list[Step] = []
    problems: list[tuple[str, Span, str]] = []
    before: _Planner | None = None
    done: list[tuple[str, dict[int, tuple[Node, ...]]]] = []
    for number, part in enumerate(parts):
        planner = _Planner(number, size, sizes)
        if before is not None and _continues(part, before):
            planner.known, planner.order = before.known, before.order
            planner.last = before.last
        planner.parts = done
        for row in part.rows:
            _add_row(planner, row)
        done.append((part.name.lower(), planner.known))
        _release(planner, None)
        steps.extend(_carried(planner.steps))
        problems.extend(planner.problems)
        before = planner
    return Plan(tuple(steps[:MOST_ROWS]), tuple(problems))


def _carried(steps: list[Step]) -> list[Step]:
    """Slip stitches behind the join of a round travel to where the next one begins."""
    result: list[Step] = []
    carry: tuple[Node, ...] = ()
    for step in steps:
        nodes = (*carry, *step.nodes)
        kept, carry = _split_travel(nodes)
        result.append(replace(step, nodes=kept) if kept != step.nodes else step)
    return result


def _split_travel(nodes: tuple[Node, ...]) -> tuple[tuple[Node, ...], tuple[Node, ...]]:
    joins = [i for i, node in enumerate(nodes) if _closes(node)]
    if not joins:
        return nodes, ()
    after = nodes[joins[-1] + 1 :]
    slips = [node for node in after if isinstance(node, Make)]
    travel = slips and all(n.stitch == "sl st" and n.target is not None for n in slips)
    others = any(isinstance(node, (Chain, Repeat, InOnePlace, Skip)) for node in after)
    if (
        not travel
        or others
        or not any(
            isinstance(n, (Make, Repeat, InOnePlace)) and not _closes(n)
            for n in nodes[: joins[-1]]
        )
    ):
        return nodes, ()
    return nodes[: joins[-1] + 1], tuple(slips)


def _closes(node: Node) -> bool:
    """Whether a node joins the end of a round to its beginning."""
    if isinstance(node, Join):
        return True
    if not isinstance(node, Make) or node.stitch != "sl st" or node.target is None:
        return False
    return node.target.noun == "tch" or node.target.which is Which.FIRST


def _continues(part: PartText, before: _Planner) -> bool:
    """Whether the labels of a part go on where the part before stopped."""
    first = next((row.label for row in part.rows if row.label), None)
    return first is not None and bool(first.numbers) and first.numbers[0] == before.last + 1


def _add_row(planner: _Planner, row: RowText) -> None:
    label = row.label
    if label is None:
        _add_unlabelled(planner, row)
        return
    if label.sizes and planner.sizes and planner.sizes[planner.size] not in label.sizes:
        return
    numbers = _numbers(label, planner.size)
    if not numbers:
        _add_named(planner, row, label)
        return
    _restart(planner, numbers)
    recall = _recall_in(row.nodes_worked)
    for i, number in enumerate(numbers):
        step = _step(planner, row, number, recall, i, len(numbers))
        if step is None:
            continue
        if number > planner.last + 1 and label.ranged and not _is_run(numbers) and i:
            planner.waiting[number] = step
            continue
        _release(planner, number)
        _keep(planner, step)
    if label.every in ("odd", "even"):
        planner.every.append((numbers[0], planner.steps[-1]))
        if label.until:
            planner.ends = max(planner.ends, label.until)


def _numbers(label: Label, size: int) -> tuple[int, ...]:
    if label.by_size and size < len(label.by_size):
        own = label.by_size[size]
        if label.ranged and label.numbers:
            return tuple(range(label.numbers[0], max(own, default=label.numbers[0]) + 1))
        return own
    return label.numbers


def _is_run(numbers: Sequence[int]) -> bool:
    return all(b == a + 1 for a, b in zip(numbers, numbers[1:], strict=False))


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
        for n in range(planner.last + 1, planner.ends + 2):
            _fill(planner, n + 1)


def _fill(planner: _Planner, number: int) -> None:
    """Works "all odd rows" that stand between the last row and this one."""
    for first, step in planner.every:
        for n in range(planner.last + 1, min(number, planner.last + 50)):
            label = step.text.label
            if label is not None and label.until and n > label.until:
                break
            if n % 2 == first % 2 and n == planner.last + 1:
                _keep(
                    planner, replace(step, number=n, claims=step.claims, label=step.label)
                )


def _keep(planner: _Planner, step: Step) -> None:
    if len(planner.steps) >= MOST_ROWS:
        return
    planner.steps.append(step)
    if step.number is not None:
        planner.known[step.number] = step.nodes
        planner.last = max(planner.last, step.number)
    planner.order.append(step.nodes)


def _step(
    planner: _Planner, row: RowText, number: int, recall: Recall | None, at: int, of: int
) -> Step | None:
    label = row.label
    assert label is not None
    nodes: tuple[Node, ...] | None = row.body
    recalled = None
    if recall is not None:
        recalled = _recalled(planner, recall, number, at)
        found = planner.known.get(recalled) if recalled is not None else None
        if found is None and recall.label:
            found = planner.named.get(recall.label)
        if found is None and recalled is not None and recalled < 0:
            found = _before(planner, recalled, at)
        if found is None and recall.part:
            found = _of_part(planner, recall.part, number)
        if found is None:
            planner.problems.append(("missing-target", recall.span, _named_rows(recall)))
            found = ()
        nodes = _with_changes(row.body, recall, found)
    claims = row.claims if at == of - 1 else ()
    return Step(
        planner.part, number, label.text, nodes or (), claims, row.span, label.is_round, row,
        recalled, label.side,
    )  # fmt: skip


def _of_part(planner: _Planner, name: str, number: int) -> tuple[Node, ...] | None:
    """The row of the same number in another part."""
    for part, known in planner.parts:
        if part and (part in name or name in part):
            return known.get(number)
    return None


def _named_rows(recall: Recall) -> str:
    return ", ".join(str(n) for n in recall.rows[:6]) or recall.label


def _before(planner: _Planner, back: int, at: int) -> tuple[Node, ...] | None:
    """The row so many rows before the first of this entry."""
    index = len(planner.order) - at + back
    cycle = -back
    if cycle and at >= cycle:
        index = len(planner.order) - cycle
    return planner.order[index] if 0 <= index < len(planner.order) else None


def _recalled(planner: _Planner, recall: Recall, number: int, at: int) -> int | None:
    """Which row number is recalled by the row at a place of a range."""
    listed = recall.rows if recall.times else (*recall.rows, *recall.then)
    rows = [n for n in listed if n < number - at or n < 0] or list(listed)
    if not rows:
        return None
    return rows[at % len(rows)]


def _recall_in(nodes: Iterable[Node]) -> Recall | None:
    return next(
        (node for node in nodes if isinstance(node, Recall) and not node.forms_pattern),
        None,
    )


def _with_changes(
    body: Sequence[Node], recall: Recall, found: tuple[Node, ...]
) -> tuple[Node, ...]:
    """The recalled words with what the row says besides: a yarn, a first or last stitch."""
    at = next(i for i, node in enumerate(body) if node is recall)
    before = [node for node in body[:at] if isinstance(node, Yarn)]
    yarns = [node for node in body[at + 1 :] if isinstance(node, Yarn)]
    kept = tuple(node for node in found if not (yarns and isinstance(node, Yarn)))
    first = [node for node in body[:at] if isinstance(node, Make)]
    last = [node for node in body[at + 1 :] if isinstance(node, Make)]
    tail = next(
        (node for node in body[at + 1 :] if isinstance(node, Tail) and node.body), None
    )
    if tail is not None:
        kept = (*_without_last(kept), *tail.body, *(n for n in kept if isinstance(n, Join)))
    if first and all(node.target is not None for node in first):
        kept = (*first, *_without_first(kept))
    if last and all(_is_last(node) for node in last):
        tailed = any(isinstance(node, Tail) for node in kept)
        end = (Tail(tuple(last), last[0].span),) if tailed else tuple(last)
        kept = (*_without_last(kept), *end)
    return (*before, *yarns, *kept)


def _without_first(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A row without its own first stitch, which the row that recalls it gives anew."""
    at = next((i for i, node in enumerate(nodes) if isinstance(node, (Make, Repeat))), None)
    if at is None or not isinstance(nodes[at], Make):
        return nodes
    return (*nodes[:at], *nodes[at + 1 :])


def _without_last(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A row without its own end, which the row that recalls it gives anew."""
    kept = list(nodes)
    while kept and not isinstance(kept[-1], (Make, Repeat, InOnePlace, Tail)):
        kept.pop()
    if kept and (isinstance(kept[-1], Tail) or _is_last(kept[-1])):
        kept.pop()
    return tuple(kept)


def _is_last(node: Node) -> bool:
    if not isinstance(node, Make) or node.target is None:
        return False
    return node.target.which is Which.LAST or node.target.noun == "tch"


def _add_named(planner: _Planner, row: RowText, label: Label) -> None:
    """A row told by a name: "Foundation Row", "Next row"."""
    recall = _recall_in(row.nodes_worked)
    nodes = row.body
    if recall is not None:
        number = planner.last + 1
        recalled = _recalled(planner, recall, number, 0)
        found = planner.known.get(recalled) if recalled is not None else None
        if found is None and recalled is not None and recalled < 0:
            found = _before(planner, recalled, 0)
        if found is not None:
            nodes = _with_changes(row.body, recall, found)
    number_given = planner.last + 1 if label.every == "next" else None
    step = Step(
        planner.part, number_given, label.text, nodes, row.claims, row.span, label.is_round, row,
        None, label.side,
    )  # fmt: skip
    planner.named[label.name] = nodes
    _keep(planner, step)
    rest = [n for n in row.body if isinstance(n, Recall) and n is not recall]
    for again in rest:
        _add_recall(planner, row, again)


def _add_unlabelled(planner: _Planner, row: RowText) -> None:
    recalls = [node for node in row.body if isinstance(node, Recall)]
    work = [node for node in row.body if not isinstance(node, (*QUIET,))]
    if recalls and not work:
        for recall in recalls:
            if not recall.forms_pattern:
                _add_recall(planner, row, recall)
        return
    makes = any(
        isinstance(node, (InOnePlace, Repeat)) or (isinstance(node, Make) and node.stitch != "sl st")
        for node in row.body
    )  # fmt: skip
    number = planner.last + 1 if makes else None
    if not makes and not any(isinstance(node, Chain) for node in row.body):
        return  # "sl st in next st, fasten off" ends a spiral; it is no row
    step = Step(
        planner.part, number, "", row.body, row.claims, row.span, is_round=False, text=row
    )  # fmt: skip
    _keep(planner, step)


def _add_recall(planner: _Planner, row: RowText, recall: Recall) -> None:
    """ "Repeat rows 2-5 four more times, then Row 2 once", "Rep Row 2 until ..."."""
    if recall.rows and recall.rows[0] < 0:
        _add_last(planner, row, recall)
        return
    rows = _absolute(planner, recall)
    number = _sets(planner, recall)
    sequence = [*(rows * number), *recall.then]
    if not rows or len(sequence) > MOST_ROWS:
        if not rows:
            planner.problems.append(("missing-target", recall.span, _named_rows(recall)))
        return
    label = ""
    first = True
    for source in sequence:
        nodes = planner.known.get(source)
        if nodes is None:
            planner.problems.append(("missing-target", recall.span, str(source)))
            return
        step = Step(
            planner.part, planner.last + 1, label, nodes, (), recall.span, is_round=False,
            text=row, recalled=source,
        )  # fmt: skip
        _keep(planner, step)
        first = False
    if row.claims and not first and planner.steps:
        counts = tuple(claim for claim in row.claims if not claim.of_rows)
        planner.steps[-1] = replace(planner.steps[-1], claims=counts)


def _add_last(planner: _Planner, row: RowText, recall: Recall) -> None:
    """ "Rep last 2 rows 5 more times": counted back from here, whatever they are called."""
    before = [step for step in planner.steps if step.part == planner.part]
    some = before[recall.rows[0] :]
    if not some or len(some) < -recall.rows[0]:
        planner.problems.append(("missing-target", recall.span, _named_rows(recall)))
        return
    for _ in range(_sets(planner, recall)):
        for step in some:
            again = replace(
                step, number=planner.last + 1, label="", claims=(), span=recall.span, text=row,
                recalled=step.number, side="",
            )  # fmt: skip
            _keep(planner, again)
    if row.claims:
        counts = tuple(claim for claim in row.claims if not claim.of_rows)
        planner.steps[-1] = replace(planner.steps[-1], claims=counts)


def _absolute(planner: _Planner, recall: Recall) -> list[int]:
    """The row numbers recalled that are known."""
    return [n for n in recall.rows if n in planner.known]


def _sets(planner: _Planner, recall: Recall) -> int:
    """How many times the set is worked; once where only a length or a wish is told."""
    if recall.times is None or recall.times.amount is None:
        return 1
    if recall.times.often in (Often.ACROSS, Often.TO_LAST):
        return 1
    return min(recall.times.amount.at(planner.size) or 0, MOST_ROWS)
