"""One row worked over one edge: its stitches, and whether it closes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    FinishOff,
    InOnePlace,
    Join,
    Loops,
    Make,
    Means,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Role,
    Skip,
    Tail,
    Target,
    Times,
    Turn,
    Unread,
    Unworked,
    Which,
    Yarn,
)
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.beginnings import (
    begin,
    chain_between,
    implied_start,
    on_new_chain,
)
from hookwright.working.conventions import Choice, Conventions, Readings
from hookwright.working.count import Count
from hookwright.working.fabric import Edge, PlaceKind, Row, Stitch, is_space
from hookwright.working.hook import Hook, Task, Trouble, grouped, is_stitch, pass_over
from hookwright.working.mesh import OPEN
from hookwright.working.moves import (
    Own,
    each_of_kinds,
    from_hook,
    go_to,
    is_from_hook,
    make,
    skip,
)
from hookwright.working.repeats import unworked, work_repeat
from hookwright.working.sequence import Line, Run
from hookwright.working.stitches import facts_of

_FRONT = Target("front", Which.SAME, Span(0, 0))
QUIET = (Remark, Turn, Yarn, FinishOff, Loops, Means, Unread, Unworked, Recall)


@dataclass(frozen=True, slots=True)
class WorkedRow:
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
        in_ring: Whether it was worked into a ring or a single place.
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
    leapt: Count = 0
    chain_only: int | None = None


@dataclass(frozen=True, slots=True)
class Setting:
    """What a row is worked under, apart from its edge.

    Attributes:
        own: Stitches the pattern defines.
        conventions: What is taken for granted.
        terms: "US" or "UK".
        size: Which size.
        is_round: Whether the row is a round.
        pending: Chains made at the end of the row before.
        yarn: The yarn in use.
        main: The last stitch used before this row, for "inc" and "dec".
    """

    own: Own
    conventions: Conventions
    terms: str
    size: int = 0
    is_round: bool = False
    pending: Chain | None = None
    yarn: str | None = None
    main: str = "sc"


def work_row(
    nodes: Sequence[Node], edge: Edge, setting: Setting, readings: Readings
) -> WorkedRow:
    """Works the instructions of a row over an edge, in one reading."""
    body, trailing = _without_trailing(nodes, setting)
    main = main_stitch(body, setting.own) or setting.main
    task = Task(
        setting.size, setting.conventions, readings, setting.terms, main, setting.is_round,
        _is_lacy(body),
    )  # fmt: skip
    hook = Hook(task, edge.line, yarn=setting.yarn, edge_line=edge.line)
    hook.elsewhere = any(_is_elsewhere(node) for node in body)
    hook.skip_meaning = next((node for node in body if isinstance(node, Means)), None)
    _Worker(setting.own, hook, setting).start(body)
    return _result(hook, nodes, trailing, setting)


def _is_elsewhere(node: Node) -> bool:
    return (
        isinstance(node, Make)
        and node.target is not None
        and node.target.noun == "elsewhere"
    )


def _result(
    hook: Hook, nodes: Sequence[Node], trailing: int, setting: Setting
) -> WorkedRow:
    left = 0 if hook.elsewhere else unworked(hook)
    if not left and hook.left():
        pass_over(hook, hook.ahead, None)
        rest: ahead.Ahead = ()
    else:
        rest = hook.ahead
    row = hook.row()
    joined = any(isinstance(node, Join) for node in nodes) or _slip_joins(nodes, setting)
    return WorkedRow(
        row, row.edge(closed=joined or setting.is_round), left, _spaces_left(hook), hook.missing,
        trailing, frozenset(hook.asked), hook.oddness, tuple(hook.troubles), _turned(nodes),
        joined, any(isinstance(node, FinishOff) for node in nodes), Edge(rest), hook.cut_short,
        hook.leapt,
    )  # fmt: skip


def _spaces_left(hook: Hook) -> Count:
    """Spaces left behind by a row that works into spaces."""
    return hook.left_spaces() if hook.worked_spaces and not hook.cut_short else 0


def _turned(nodes: Sequence[Node]) -> bool | None:
    turns = [node.turned for node in nodes if isinstance(node, Turn)]
    if not turns:
        return None
    return turns[-1]


def _slip_joins(nodes: Sequence[Node], setting: Setting) -> bool:
    """Whether the row ends with a slip stitch into its own beginning."""
    work = [node for node in nodes if isinstance(node, (Make, Repeat, InOnePlace, Join))]
    last = work[-1] if work else None
    if not isinstance(last, Make) or last.target is None or len(work) < 2:
        return False
    if facts_of(last.stitch, last.legs, setting.own).family != "slip":
        return False
    return (
        last.target.which is Which.FIRST
        or last.target.noun in ("tch", "base")
        or (last.target.noun == "ch" and last.target.ordinal is not None)
    )


def _without_trailing(nodes: Sequence[Node], setting: Setting) -> tuple[list[Node], int]:
    """The row without the chain at its end that belongs to the next row, and its length."""
    at = len(nodes)
    turned = any(isinstance(node, Turn) and node.turned for node in nodes)
    while at > 0 and isinstance(nodes[at - 1], QUIET):
        at -= 1
    last = nodes[at - 1] if at else None
    worked = any(_works(node) for node in nodes[: at - 1])
    if isinstance(last, Chain) and worked and (turned or not setting.is_round):
        if _turn_near(nodes, at) or (last.amount.at(setting.size) or 0) <= 6:
            return [*nodes[: at - 1], *nodes[at:]], last.amount.at(setting.size) or 0
    return list(nodes), 0


def _turn_near(nodes: Sequence[Node], at: int) -> bool:
    return any(isinstance(node, Turn) for node in nodes[max(0, at - 2) :])


def _works(node: Node) -> bool:
    return isinstance(node, (Make, InOnePlace, Repeat))


def trailing_chain(nodes: Sequence[Node], setting: Setting) -> Chain | None:
    """The chain at the end of a row that belongs to the next one, with what it is said to be."""
    body, number = _without_trailing(nodes, setting)
    if not number:
        return None
    chains = [node for node in nodes if isinstance(node, Chain)]
    return chains[-1] if len(body) < len(nodes) and chains else None


def main_stitch(nodes: Sequence[Node], own: Own) -> str:
    """The stitch a beginning chain stands for: the first plain one of the row."""
    for node in nodes:
        found = _main_of(node, own)
        if found:
            return found
    return ""


def _main_of(node: Node, own: Own) -> str:
    if isinstance(node, Make):
        facts = facts_of(node.stitch, node.legs, own)
        if facts.family == "plain":
            return node.stitch.removeprefix("fp").removeprefix("bp")
        if facts.family == "together" and node.stitch not in ("dec",):
            return node.stitch.rstrip("tog").rstrip("0123456789") or ""
        if facts.body:
            return main_stitch(facts.body, own)
        if facts.family == "group":
            return "dc"
        return ""
    if isinstance(node, (InOnePlace, Repeat)):
        return main_stitch(node.body, own)
    return ""


def _is_lacy(nodes: Sequence[Node]) -> bool:
    """Whether chains stand between the stitches of a row."""
    for i, node in enumerate(nodes):
        if isinstance(node, Chain) and i > 0:
            return True
        if isinstance(node, Make) and node.stitch == OPEN:
            return True
        if isinstance(node, (Repeat, InOnePlace)) and any(
            isinstance(inner, (Chain,)) or _is_lacy((inner,)) for inner in node.body
        ):
            return True
    return False


@dataclass(slots=True)
class _Worker:
    """Works nodes one after the other on a hook."""

    own: Own
    hook: Hook
    setting: Setting
    top: Sequence[Node] = field(default=())

    def start(self, body: Sequence[Node]) -> None:
        """Works a whole row, with the chain the row before made for it."""
        body = self._beginning(body)
        self.top = body
        self.work_list(self.hook, body, top=True)

    def _beginning(self, body: Sequence[Node]) -> Sequence[Node]:
        """Puts the beginning chain where it belongs: first, and once."""
        first = next(
            (i for i, node in enumerate(body) if not isinstance(node, QUIET)), None
        )
        pending = self.setting.pending
        begins = first is not None and isinstance(body[first], Chain)
        if pending is not None and not begins and not _hooks_first(body):
            return [_with_meaning(pending, body), *body]
        if pending is not None and _hooks_first(body):
            self.hook.chains = pending.amount.at(self.setting.size) or 0
        if pending is not None and begins and first is not None:
            own = body[first]
            assert isinstance(own, Chain)
            if own.role is Role.UNSAID and pending.role is not Role.UNSAID:
                said = replace(
                    own,
                    role=pending.role,
                    stands=pending.stands,
                    stands_chains=pending.stands_chains,
                )
                return [*body[:first], said, *body[first + 1 :]]
        late = next((n for n in body if isinstance(n, Skip) and n.target.from_hook), None)
        if late is not None and first is not None and body[first] is not late:
            return [late, *(node for node in body if node is not late)]
        if first is not None and not begins and self._starts_unsaid(body[first]):
            implied_start(self.hook, body[first].span)
        return body

    def _starts_unsaid(self, node: Node) -> bool:
        """Whether the first stitch goes into a new chain without saying into which."""
        if not on_new_chain(self.hook) or self.setting.is_round:
            return False
        return not is_from_hook_node(node)

    def work_list(self, hook: Hook, nodes: Sequence[Node], *, top: bool = False) -> None:
        """Works nodes in order; an open repeat tries its ends with the nodes after it."""
        for i, node in enumerate(nodes):
            if isinstance(node, Repeat):
                if work_repeat(hook, node, nodes[i + 1 :], self.work_list, at_end=top):
                    return
                continue
            several = _each_row(nodes[i:])
            if len(several) > 1:
                rest = nodes[i + _reach_of(nodes[i:], len(several)) :]
                each_of_kinds(hook, several, _up_to_next(several[-1], rest), self.own)
                self.work_list(hook, rest, top=top)
                return
            node = _up_to_next(node, nodes[i + 1 :])
            follow = self.one(hook, node, i, nodes)
            if follow is not None:
                self.work_list(hook, [follow, *nodes[i + 1 :]], top=top)
                return

    def one(self, hook: Hook, node: Node, at: int, nodes: Sequence[Node]) -> Node | None:
        """Works one node; returns another to be worked in its stead."""
        match node:
            case Make():
                return make(hook, node, self.own)
            case Chain():
                self._chain(hook, node, nodes[at + 1 :])
            case Skip():
                skip(hook, node)
            case InOnePlace():
                return self._in_one_place(hook, node)
            case Tail():
                self.work_list(hook, node.body, top=False)
            case Loops():
                hook.loop = node.loop
            case Yarn():
                self._yarn(hook, node)
            case Join():
                self._join(hook, node)
            case _:
                pass
        return None

    def _chain(self, hook: Hook, node: Chain, after: Sequence[Node]) -> None:
        number = node.amount.at(hook.task.size)
        if not number:
            return
        if hook.elsewhere:
            return
        if _hooks_first(after):
            hook.chains = number
        elif hook.worked or hook.chained:
            chain_between(hook, node, number)
        else:
            begin(hook, node, number)

    def _yarn(self, hook: Hook, node: Yarn) -> None:
        if node.name:
            hook.yarn = node.name
        if (
            node.target is not None
            and not hook.began
            and go_to(hook, node.target, node.span)
        ):
            self._stand_there(hook, node)

    def _stand_there(self, hook: Hook, node: Yarn) -> None:
        """New yarn joined at a place: the round starts there."""
        if node.standing and node.standing != "sl st":
            made = Make(node.standing, node.span)
            make(hook, replace(made, target=replace(_FRONT, span=node.span)), self.own)
            return
        front = ahead.take(hook.ahead)
        if front is not None and not is_stitch(front.place):
            hook.ahead, hook.last, hook.began = front.rest, front.place, True
            hook.worked_spaces = True

    def _join(self, hook: Hook, node: Join) -> None:
        """The join makes nothing; at the beginning of a row it goes to its place."""
        if hook.worked or hook.chained or node.target is None or node.to_ring:
            return
        if go_to(hook, node.target, node.span):
            front = ahead.take(hook.ahead)
            if front is not None and not is_stitch(front.place):
                hook.ahead, hook.last, hook.began = front.rest, front.place, True

    def _in_one_place(self, hook: Hook, node: InOnePlace) -> Node | None:
        """A list worked in one place; in "each" place it is a repeat of one of them."""
        target = node.target
        number = target.amount.at(hook.task.size) if target.amount else None
        if target.of is not None and target.of.which is Which.EACH:
            inner = replace(target.of, which=Which.NEXT)
            one = replace(node, target=replace(target, of=inner))
            return Repeat((one,), Times(Often.ACROSS, node.span), node.span)
        if target.which is Which.EACH or (number or 1) > 1:
            return _each_place(node, number)
        if hook.inside is None and is_from_hook(hook, target):
            from_hook(hook, target, node.span)
        elif hook.inside is None and not go_to(hook, target, node.span):
            hook.missing = hook.missing + 1
            return None
        self._work_in_place(hook, node)
        return None

    def _work_in_place(self, hook: Hook, node: InOnePlace) -> None:
        outer = hook.inside
        made, hook.made = hook.made, []
        if outer is None:
            front = ahead.take(hook.ahead)
            if front is None:
                hook.made = made
                hook.missing = hook.missing + 1
                return
            hook.ahead, hook.last, hook.began = front.rest, front.place, True
            hook.inside = front.place
            hook.used_space = not is_stitch(front.place)
            if hook.used_space:
                hook.worked_spaces = True
                hook.lengths = hook.lengths | {front.place.chains}
            hook.made.extend(_uses(front.place))
        self.work_list(hook, node.body, top=False)
        group = grouped(tuple(hook.made), node.name)
        hook.made = [*made, group]
        hook.inside = outer


def _with_meaning(chain: Chain, body: Sequence[Node]) -> Chain:
    """The chain of the row before, with what this row says of it: "(the ch 3 is a dc)"."""
    means = next((node for node in body[:4] if isinstance(node, Means)), None)
    if means is None or chain.role is not Role.UNSAID:
        return chain
    return replace(
        chain, role=means.role, stands=means.stands, stands_chains=means.stands_chains
    )


def _each_row(nodes: Sequence[Node]) -> list[Make]:
    """Makes in a row that take every place of one kind each: they are worked side by side."""
    result: list[Make] = []
    for node in nodes:
        if isinstance(node, Remark) and result:
            continue
        if not isinstance(node, Make) or node.target is None or node.legs > 1:
            break
        target = node.target
        if (
            result
            and target.noun == "sp"
            and target.which is Which.NEXT
            and not target.amount
        ):
            target = replace(target, which=Which.EACH)  # "each tr, and 2 dc in the space"
            node = replace(node, target=target)  # noqa: PLW2901
        if (
            target.which is not Which.EACH
            or target.amount
            or target.until
            or target.left_out
        ):
            break
        if target.noun in [made.target.noun for made in result if made.target]:
            break
        result.append(node)
    return result


def _reach_of(nodes: Sequence[Node], makes: int) -> int:
    """How many nodes hold the first so many makes."""
    seen = 0
    for i, node in enumerate(nodes):
        seen += isinstance(node, Make)
        if seen == makes:
            return i + 1
    return len(nodes)


def _up_to_next(node: Node, after: Sequence[Node]) -> Node:
    """ "each st across, last dc in top of ch": "each" stops before the last one named."""
    if not isinstance(node, Make) or node.target is None:
        return node
    target = node.target
    if target.which is not Which.EACH or target.amount or target.until or target.left_out:
        return node
    follow = next((n for n in after if not isinstance(n, QUIET)), None)
    if not isinstance(follow, (Make, InOnePlace)) or follow.target is None:
        return node
    if isinstance(follow, Make) and follow.stitch == "sl st":
        return node
    last = follow.target
    if last.noun == "tch" or (last.which is Which.LAST and last.noun not in ("sp", "gap")):
        return replace(node, target=replace(target, until=replace(last, of=None)))
    return node


def _uses(place: ahead.Place) -> Line[Stitch]:
    """The movement that uses the place of a group up; its stitches then add none."""

    if place.kind is PlaceKind.SPENT:
        return ()
    return (Run(Stitch("place", place.counts, (), (), is_space(place), 1), 1),)


def _each_place(node: InOnePlace, number: int | None) -> Node:
    target = replace(node.target, which=Which.NEXT, amount=None, until=None)
    one = replace(node, target=target)
    if number is not None:
        times = Times(Often.TIMES, node.span, Amount((number,), node.span))
    elif node.target.until is not None and node.target.until.which is Which.LAST:
        times = Times(
            Often.TO_LAST, node.span, node.target.until.amount or Amount((1,), node.span)
        )
    elif node.target.left_out:
        times = Times(
            Often.TO_LAST,
            node.span,
            Amount((node.target.left_out,), node.span),
            node.target.noun,
        )
    else:
        times = Times(Often.ACROSS, node.span)
    return Repeat((one,), times, node.span)


def is_from_hook_node(node: Node | None) -> bool:
    """Whether a node works into a chain counted from the hook."""
    if isinstance(node, Skip):
        return True
    if isinstance(node, (Make, InOnePlace)):
        target = node.target
        if target is None:
            return False
        return target.from_hook or (target.ordinal is not None and target.noun == "ch")
    if isinstance(node, Repeat) and node.body:
        return is_from_hook_node(node.body[0])
    return False


def _hooks_first(nodes: Sequence[Node]) -> bool:
    """Whether a row begins by working into the chain just made."""
    first = next((node for node in nodes if not isinstance(node, QUIET)), None)
    return (
        first is not None
        and isinstance(first, (Make, Skip, InOnePlace))
        and bool(first.target and first.target.from_hook)
    )
