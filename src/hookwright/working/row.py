"""One row worked over one edge: its stitches, and whether it closes."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.notation.tree import FinishOff, InOnePlace, Join, Make, Means, Node, Repeat
from hookwright.working import ahead
from hookwright.working.begun_groups import with_begun_group
from hookwright.working.closing import unworked
from hookwright.working.conventions import Choice, Readings
from hookwright.working.corner_spaces import with_corners_told
from hookwright.working.count import Count
from hookwright.working.fabric import Edge, Row
from hookwright.working.groups import named_alike
from hookwright.working.hook import Hook, Task, Trouble, close_round, pass_over
from hookwright.working.nodes import (
    Setting,
    is_elsewhere,
    is_into_edge,
    is_lacy,
    main_stitch,
    slip_joins,
    turned,
    without_hanger,
    without_trailing,
)
from hookwright.working.picots import with_picots
from hookwright.working.slip_rounds import (
    ends_on_first,
    is_by_turns,
    is_of_loops,
    is_of_slips,
)
from hookwright.working.worker import Worker

NO_EDGE = Edge(())


class WorkedRow(Struct, frozen=True):
    """A row worked in one reading.

    Attributes:
        row: Its stitches.
        edge: What it leaves for the next row, in working order.
        left: Stitches of the edge below that are left over.
        left_spaces: Chain spaces left over.
        missing: Places wanted when none was left.
        pending: Chains made at the end of the row: they belong to the next one.
        asked: Questions that only counting settles, met on the way.
        oddness: How far words were stretched.
        troubles: What could not be done as written.
        turned: True or False where the words say so.
        closed: Whether the row was joined into a round.
        finished: Whether the yarn was cut.
        rest: The places left unworked.
        cut_short: Whether its last repeat ends without the skip or chain nobody says.
        tail_replaces: Whether the words after "ending" take the place of the repeat's own
            end, where only counting tells.
        leapt: Stitches passed in silence on the way to "the last".
        own_chains: Chains made in the row that it works into: no places of the edge below.
        lacks: Whether a list of numbers has none for the size worked.
        over: The edge it was worked over, with the edges laid in where it came to them.
        start: How much of that edge lies before its first stitch, in `extent`: a round may
            begin further on.
    """

    row: Row
    edge: Edge
    left: Count
    left_spaces: Count
    missing: Count
    pending: int
    asked: frozenset[Choice]
    oddness: int
    troubles: tuple[Trouble, ...]
    turned: bool | None
    closed: bool
    finished: bool
    rest: Edge
    cut_short: bool = False
    tail_replaces: bool = False
    leapt: Count = 0
    lacks: bool = False
    own_chains: Count = 0
    over: Edge = NO_EDGE
    start: Count = 0


def work_row(
    nodes: Sequence[Node], edge: Edge, setting: Setting, readings: Readings
) -> WorkedRow:
    """Works the instructions of a row over an edge, in one reading."""
    own, trailing = without_trailing(without_hanger(nodes), setting)
    # without an edge, a chain worked into is a loop of its own
    on_edge = bool(edge.line) or bool(setting.sides.rows)
    body = with_picots(own, setting.size, setting.terms) if on_edge else own
    main = main_stitch(body, setting.own) or setting.main
    lacy = is_lacy(body)
    task = Task(
        setting.size,
        setting.conventions,
        readings,
        setting.terms,
        main,
        setting.is_round,
        lacy,
        lacy and is_into_edge(body),
        setting.effort,
        setting.own,
        _is_of_slips(body, setting),
        ends_on_first(body),
    )
    setting.effort.new_row(body)
    line = with_corners_told(edge.line, body)
    hook = Hook(task, line, yarn=setting.yarn, edge_line=line, edge_laid=line)
    hook.elsewhere = any(is_elsewhere(node) for node in body)
    hook.skip_meaning = next((node for node in body if isinstance(node, Means)), None)
    Worker(setting.own, hook, setting).start(body)
    return _result(hook, nodes, trailing, setting)


def _is_of_slips(body: Sequence[Node], setting: Setting) -> bool:
    """Whether the slip stitches of a row are its fabric, the first of them too."""
    by_turns = not setting.is_round and is_by_turns(body)
    return by_turns or is_of_slips(body) or is_of_loops(body)


def _result(
    hook: Hook, nodes: Sequence[Node], trailing: int, setting: Setting
) -> WorkedRow:
    left = 0 if hook.elsewhere else unworked(hook)
    if not left and hook.left():
        pass_over(hook, hook.ahead, None)
        rest: ahead.Ahead = ()
    else:
        rest = hook.ahead
    start = hook.before_first()
    close_round(hook)
    row = hook.row()
    joined = _joins(nodes) or slip_joins(nodes, setting)
    return WorkedRow(
        row=row,
        edge=with_begun_group(
            Edge(named_alike(row.edge().line), joined or setting.is_round), nodes
        ),
        left=left,
        left_spaces=_spaces_left(hook),
        missing=hook.missing,
        pending=trailing,
        asked=frozenset(hook.asked),
        oddness=hook.oddness,
        troubles=tuple(hook.troubles),
        turned=turned(nodes),
        closed=joined,
        finished=any(isinstance(node, FinishOff) for node in nodes),
        rest=Edge(rest) if rest else NO_EDGE,
        cut_short=hook.cut_short,
        tail_replaces=hook.tail_replaces,
        leapt=hook.leapt,
        own_chains=hook.own_chains,
        lacks=hook.lacks,
        over=Edge(hook.edge_laid),
        start=start,
    )


def _joins(nodes: Sequence[Node]) -> bool:
    """Whether a row is joined at its end; "join to the 17th sc, ch 1" begins one."""
    joins = [node for node in nodes if isinstance(node, Join)]
    worked = [n for n in nodes if isinstance(n, (Make, InOnePlace, Repeat, Join))]
    begins = len(joins) == 1 and worked[0] is joins[0] and joins[0].target is not None
    return bool(joins) and not (begins and len(worked) > 1)


def _spaces_left(hook: Hook) -> Count:
    """Spaces left behind by a row that works into spaces."""
    return hook.left_spaces() if hook.worked_spaces and not hook.cut_short else 0
