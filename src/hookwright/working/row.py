"""One row worked over one edge: its stitches, and whether it closes."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from hookwright.notation.tree import FinishOff, InOnePlace, Join, Make, Means, Node, Repeat
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.begun_groups import with_begun_group
from hookwright.working.closing import joined_in_left, unworked
from hookwright.working.conventions import Choice, Readings
from hookwright.working.corner_spaces import with_corners_told
from hookwright.working.count import Count
from hookwright.working.fabric import Edge, Row
from hookwright.working.groups import named_alike
from hookwright.working.hook import Hook, Task, Trouble, close_round, pass_over
from hookwright.working.lists_by_size import is_by_size
from hookwright.working.nodes import (
    Setting,
    is_elsewhere,
    is_grouped,
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
    closing_slip,
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


class _Body(Struct, frozen=True):
    """What is worked of the words of a row, and what they tell before it is.

    Attributes:
        nodes: The instructions, a picot that is written out as one stitch.
        trailing: The chains at its end that belong to the next row.
        lacy: Whether chains stand between its stitches.
        into_edge: Whether such a row works into the chain at the edge below as well.
        of_slips: Whether its slip stitches are its fabric, the first of them too.
        ends_on_first: Whether its last loop ends where the first one begins.
        closing: Where the bare slip stitch stands that closes it, as a round.
        elsewhere: Whether it goes along other parts as well.
        means: What the chains skipped at the hook are said to stand for.
        grouped: Whether no chain stands but within groups that fill one place each.
    """

    nodes: tuple[Node, ...]
    trailing: int
    lacy: bool
    into_edge: bool
    of_slips: bool
    ends_on_first: bool
    closing: Span | None
    elsewhere: bool
    means: Means | None
    grouped: bool


@lru_cache(maxsize=1024)  # the same words are worked over many an edge
def _body_of(
    nodes: tuple[Node, ...], size: int, terms: str, *, is_round: bool, on_edge: bool
) -> _Body:
    own, trailing = without_trailing(without_hanger(nodes), size, is_round=is_round)
    # without an edge, a chain worked into is a loop of its own
    body = with_picots(own, size, terms) if on_edge else tuple(own)
    lacy = is_lacy(body)
    return _Body(
        body,
        trailing,
        lacy,
        lacy and is_into_edge(body),
        _is_of_slips(body, is_round=is_round),
        ends_on_first(body),
        closing_slip(body),
        any(is_elsewhere(node) for node in body),
        next((node for node in body if isinstance(node, Means)), None),
        is_grouped(body),
    )


def work_row(
    nodes: tuple[Node, ...], edge: Edge, setting: Setting, readings: Readings
) -> WorkedRow:
    """Works the instructions of a row over an edge, in one reading."""
    body = _body_of(
        nodes,
        setting.size if is_by_size(nodes) else 0,
        setting.terms,
        is_round=setting.is_round,
        on_edge=bool(edge.line) or bool(setting.sides.rows),
    )
    task = Task(
        setting.size,
        setting.conventions,
        readings,
        setting.terms,
        main_stitch(body.nodes, setting.own) or setting.main,
        setting.is_round,
        body.lacy,
        body.into_edge,
        setting.effort,
        setting.own,
        body.of_slips,
        body.ends_on_first,
        body.closing,
        body.grouped,
    )
    setting.effort.new_row(body.nodes)
    line = with_corners_told(edge.line, body.nodes)
    hook = Hook(
        task,
        line,
        yarn=setting.yarn,
        edge_line=line,
        edge_laid=line,
        elsewhere=body.elsewhere,
        skip_meaning=body.means,
    )
    Worker(setting.own, hook, setting).start(body.nodes)
    return _result(hook, nodes, body.trailing, setting)


def _is_of_slips(body: Sequence[Node], *, is_round: bool) -> bool:
    """Whether the slip stitches of a row are its fabric, the first of them too."""
    by_turns = not is_round and is_by_turns(body)
    return by_turns or is_of_slips(body) or is_of_loops(body)


def _result(
    hook: Hook, nodes: Sequence[Node], trailing: int, setting: Setting
) -> WorkedRow:
    left = 0 if hook.elsewhere else unworked(hook) + joined_in_left(hook)
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
