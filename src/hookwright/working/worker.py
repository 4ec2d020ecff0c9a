"""Works the instructions of a row on a hook, one after the other."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    Evenly,
    InOnePlace,
    Join,
    Loops,
    Make,
    Node,
    Often,
    Repeat,
    Role,
    Skip,
    Tail,
    Target,
    Times,
    Which,
    Yarn,
)
from hookwright.source import Span
from hookwright.working import ahead, sides
from hookwright.working.beginnings import (
    begin,
    chain_between,
    from_hook,
    implied_start,
    is_from_hook,
    on_new_chain,
)
from hookwright.working.begun_place import take_start_too, uses_up_start
from hookwright.working.conventions import Choice
from hookwright.working.each_place import corners_anywhere, each_of_kinds, number_up_to
from hookwright.working.fabric import Place, PlaceKind, Stitch, is_space, top
from hookwright.working.first_chain import is_first_chain
from hookwright.working.going import go_to
from hookwright.working.hook import Hook, grouped, is_stitch, pass_over
from hookwright.working.making import Own, number_at
from hookwright.working.nodes import (
    QUIET,
    Setting,
    begins_with_slip,
    each_place,
    each_row,
    ends_work,
    following,
    hooks_first,
    is_behind,
    is_from_hook_node,
    is_in_each,
    reach_of,
    slipped_into,
    up_to_next,
    with_meaning,
)
from hookwright.working.points_at_edge import is_behind_point
from hookwright.working.repeats import work_repeat
from hookwright.working.sequence import Line, Run
from hookwright.working.skips import skip
from hookwright.working.spreading import ChangedRow, changed_row, spread
from hookwright.working.stitches import Facts, facts_of
from hookwright.working.stitching import make, own_group
from hookwright.working.wanted import is_chain, number_of

MOST_IN_A_PLACE = 99
"""More groups than any place holds."""
_FRONT = Target("front", Which.SAME, Span(0, 0))


_STANDS = 3
"""A chain of so many may stand for a stitch."""


class Worker(Struct):
    """Works nodes one after the other on a hook."""

    own: Own
    hook: Hook
    setting: Setting
    body: Sequence[Node] = ()

    def start(self, body: Sequence[Node]) -> None:
        """Works a whole row, with the chain the row before made for it."""
        body = self.body = self._beginning(body)
        self.work_list(self.hook, body, top=True)

    def _beginning(self, body: Sequence[Node]) -> Sequence[Node]:
        """Puts the beginning chain where it belongs: first, and once."""
        first = next((i for i, node in enumerate(body) if type(node) not in QUIET), None)
        pending = self.setting.pending
        begins = first is not None and isinstance(body[first], Chain)
        if pending is not None and not begins and not hooks_first(body):
            return [with_meaning(pending, body), *body]
        if pending is not None and hooks_first(body):
            self.hook.chains = pending.amount.at(self.setting.size) or 0
        if pending is not None and begins and first is not None:
            own = body[first]
            assert isinstance(own, Chain)
            if self._stands_before(pending, own):
                return [with_meaning(pending, body), *body]
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
        if first is not None and _begins_with_space(body[first]):
            self.hook.chained = self.hook.asks(Choice.FIRST_SPACE)
        return body

    def _stands_before(self, pending: Chain, own: Chain) -> bool:
        """Whether a row goes on with a shorter chain than the one that stands ready.

        "... ch 3, turn." and then "Ch 1, 2 dc in next sp": a stitch, and a space.
        """
        ready = pending.amount.at(self.setting.size) or 0
        more = own.amount.at(self.setting.size) or 0
        told = own.role is not Role.UNSAID or pending.role is Role.COUNTS_NOT
        return not told and 0 < more < ready and ready >= _STANDS

    def _starts_unsaid(self, node: Node) -> bool:
        """Whether the first stitch goes into a new chain without saying into which."""
        if not on_new_chain(self.hook) or self.setting.is_round:
            return False
        if isinstance(node, Skip) or is_from_hook_node(node):
            return False
        target = node.target if isinstance(node, Make) else None
        told = target is not None and is_first_chain(target)  # which end is first?
        return not (told and self.hook.asks(Choice.FIRST_CHAIN))

    def work_list(self, hook: Hook, nodes: Sequence[Node], *, top: bool = False) -> None:
        """Works nodes in order; an open repeat tries its ends with the nodes after it."""
        rest: Sequence[Node] | None = nodes
        while rest is not None:
            rest = self._work_some(hook, rest, top=top)

    def _work_some(
        self, hook: Hook, nodes: Sequence[Node], *, top: bool
    ) -> Sequence[Node] | None:
        """Works nodes up to some that are put otherwise first; what is left, or None."""
        evens = any(isinstance(node, Evenly) for node in nodes)
        for i, node in enumerate(nodes):
            if isinstance(node, Repeat):
                if work_repeat(hook, node, nodes[i + 1 :], self.work_list, at_end=top):
                    return None
                continue
            if evens and isinstance(node, Evenly) and node.along:
                if node.along == "side" and (
                    ahead.holds(hook.edge_line, is_chain) or _fills_top(hook, node)
                ):  # the other side of the chain, or the last row
                    make(hook, _by_number(node), self.own)
                else:
                    self._along(hook, node)
                continue
            changed = changed_row(nodes[i : i + 2]) if evens else None
            if changed is not None:
                return [*self._spread(hook, changed), *nodes[i + changed.nodes :]]
            told: Node = node
            if is_in_each(node):
                several = each_row(following(nodes, i))
                if len(several) > 1:
                    rest = nodes[i + reach_of(following(nodes, i), len(several)) :]
                    return self._kinds(hook, several, rest)
                told = up_to_next(node, map(self._in_its_place, following(nodes, i + 1)))
            follow = self.one(hook, told, i, nodes)
            if follow is not None:
                return [follow, *nodes[i + 1 :]]
        return None

    def _in_its_place(self, node: Node) -> Node:
        """A stitch of one's own in the place that its definition always puts it in."""
        own = self.own.get(node.stitch) if isinstance(node, Make) else None
        if own is None or own.place is None or not isinstance(node, Make) or node.target:
            return node
        return replace(node, target=own.place)

    def _kinds(
        self, hook: Hook, several: list[Make | InOnePlace], rest: Sequence[Node]
    ) -> Sequence[Node]:
        """Works several kinds of places as they come; what is left to be worked."""
        anywhere = corners_anywhere(hook, several)
        if anywhere is not None:
            return [*anywhere, *rest]
        last = up_to_next(several[-1], rest)
        each_of_kinds(hook, [*map(self._as_list, several)], last, self.own, self._group_in)
        return rest

    def _along(self, hook: Hook, node: Evenly) -> None:
        """So many stitches along a side or round an opening, whatever is there."""
        number = node.amount.at(hook.task.size) or 0
        stitch = node.stitch or self.setting.main
        if node.along == "side":
            every_end = Target(sides.ROW_END, Which.EACH, node.span)
            self._come_to(hook, every_end)
            ends, hook.ahead = sides.row_ends_first(hook.ahead)
            pass_over(hook, ends, node.span)
        hook.began = hook.chained = True
        hook.emit(Stitch(stitch, 0, (), (top(stitch),)), number, node.span)

    def _spread(self, hook: Hook, changed: ChangedRow) -> list[Node]:
        places = number_of(hook.ahead, is_stitch)
        evenly, own = changed.evenly, changed.own
        return spread(evenly, own, self.setting.main, hook.task.size, places)

    def one(self, hook: Hook, node: Node, at: int, nodes: Sequence[Node]) -> Node | None:
        """Works one node; returns another to be worked in its stead."""
        hook.task.effort.spend(hook.ahead)
        match node:
            case Make() if node.if_left and not hook.left():
                pass
            case Make():
                return self._make(hook, node)
            case Chain():
                self._chain(hook, node, at, nodes)
            case Skip():
                self._skip(hook, node, at, nodes)
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

    def _make(self, hook: Hook, node: Make) -> Node | None:
        target = node.target if _closes(node) else self._come_to(hook, node.target)
        if target is not None:
            take_start_too(hook, target)
            uses_up_start(hook, target, whole=False)
        if target is not node.target:
            node = replace(node, target=target)
        facts = facts_of(node.stitch, node.legs, self.own)
        if facts.family == "unit":
            return self._unit(hook, node, facts)
        if facts.family == "group" and hook.inside is not None and target is None:
            self._group_inside(hook, node, facts)
            return None
        return make(hook, node, self.own)

    def _group_inside(self, hook: Hook, node: Make, facts: Facts) -> None:
        """ "(V-st, ch 1, V-st) in next st": all of its stitches go into the one place."""
        for _ in range(min(number_at(hook, node.amount) or 1, MOST_IN_A_PLACE)):
            made, hook.made = hook.made, []
            self.work_list(hook, own_group(node, facts, hook.task.terms).body)
            hook.made = [*made, grouped(tuple(hook.made), node.stitch)]

    def _unit(self, hook: Hook, node: Make, facts: Facts) -> Node | None:
        """A few instructions under a name of the writer's own, worked along the row."""
        number = number_at(hook, node.amount)
        if number is not None and number != 1:
            amount = Amount((number,), node.span)
            one = replace(node, amount=None)
            return Repeat((one,), Times(Often.TIMES, node.span, amount), node.span)
        made, hook.made = hook.made, []
        self.work_list(hook, facts.body)
        hook.made = [*made, grouped(tuple(hook.made), node.stitch)]
        return None

    def _as_list(self, node: Make | InOnePlace) -> Make | InOnePlace:
        """A stitch that is a group, as what is worked in its place."""
        if isinstance(node, InOnePlace):
            return node
        facts = facts_of(node.stitch, node.legs, self.own)
        single = number_at(self.hook, node.amount) in (None, 1)
        is_group = facts.family == "group" and single
        terms = self.hook.task.terms
        return own_group(node, facts, terms, node.target) if is_group else node

    def _come_to(self, hook: Hook, target: Target | None) -> Target | None:
        """Turns the corner to another edge of the piece, where a place names one."""
        if target is None:
            return target
        if self._comes_under(hook, target):
            told = sides.chains_told(self.body, self.setting.size)
            hook.lay(sides.under(hook.ahead, self.setting.sides, told))
            hook.came_under = True
            return target
        if not sides.is_side(target.noun):
            return target
        hook.lay(
            sides.go_round_to(
                hook.ahead,
                self.setting.sides,
                target,
                self.setting.size,
                sides.chains_told(self.body, self.setting.size),
            )
        )
        hook.came_under = hook.came_under or target.noun == sides.UNDERSIDE
        if target.which is Which.EACH and target.amount is None:
            return sides.with_number(hook.ahead, target)
        return target

    def _comes_under(self, hook: Hook, target: Target) -> bool:
        """Whether a border has come to the foundation, which no word need tell again."""
        if hook.came_under or not self.setting.sides.chains or target.noun == "sp":
            return False
        if target.noun == "ch":
            return not ahead.holds(hook.ahead, sides.is_chained)
        told = sides.chains_told(self.body, self.setting.size)
        if target.noun == "corner" and told == self.setting.sides.chains:
            return False  # no chain is left for the corners
        here = target.which is Which.SAME or target.noun in ("base", "here")
        side = sides.is_side(target.noun)
        return hook.worked and not here and not side and not hook.left()

    def _chain(self, hook: Hook, node: Chain, at: int, nodes: Sequence[Node]) -> None:
        number = node.amount.at(hook.task.size)
        if not number:
            return
        if hook.elsewhere:
            return
        if hook.worked and not hook.chained and is_behind_point(nodes, at):
            hook.last, hook.worked = None, False
        if hooks_first(following(nodes, at + 1)):
            hook.chains = number
        elif (
            hook.worked
            or _beside_loop(hook, number, nodes[at:])
            or (hook.chained and not _begins_again(nodes, at))
        ):
            chain_between(hook, node, number)
        else:
            begin(hook, node, number)

    def _skip(self, hook: Hook, node: Skip, at: int, nodes: Sequence[Node]) -> None:
        """What is left at the end of a row stays on the edge; the rest is passed.

        The stitch behind one that is worked into a lower row is used with it already.
        """
        if node.left and ends_work(following(nodes, at + 1)):
            return
        if is_behind(at, nodes, hook.task.size) and not hook.asks(Choice.SKIP_BESIDE):
            return
        if sides.is_side(node.target.noun):
            self._come_to(hook, node.target)
        skip(hook, node)

    def _yarn(self, hook: Hook, node: Yarn) -> None:
        if node.name:
            hook.yarn = node.name
        place = node.target
        if place is None or hook.worked or _made_last(node):
            return
        if go_to(hook, place, node.span):
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
            hook.worked_spaces, hook.begun_in = True, front.place
        else:
            hook.last = None  # "the same st" is the one joined in, which is still free

    def _join(self, hook: Hook, node: Join) -> None:
        """The join makes nothing; at the beginning of a row it goes to its place."""
        if hook.worked or hook.chained or node.target is None or node.to_ring:
            return
        if go_to(hook, node.target, node.span):
            front = ahead.take(hook.ahead)
            if front is not None and not is_stitch(front.place):
                hook.ahead, hook.last, hook.began = front.rest, front.place, True
            else:
                hook.last = None  # as where new yarn is joined

    def _in_one_place(self, hook: Hook, node: InOnePlace) -> Node | None:
        """A list worked in one place; in "each" place it is a repeat of one of them."""
        target = node.target
        if hook.task.is_round and not hook.worked and begins_with_slip(node):
            self.work_list(hook, slipped_into(node))
            return None
        if hook.inside is None:
            target = self._come_to(hook, target) or target
            node = replace(node, target=target)
            uses_up_start(hook, target, whole=True)
        number = target.amount.at(hook.task.size) if target.amount else None
        of_each = target.of is not None and target.of.which is Which.EACH
        if of_each and target.of is not None and not target.of.amount:
            inner = replace(target.of, which=Which.NEXT)
            one = replace(node, target=replace(target, of=inner))
            return Repeat((one,), Times(Often.ACROSS, node.span), node.span)
        if target.until is not None and target.until.noun == "corner":
            number = number_up_to(hook, target, node.span)
            node = replace(node, target=replace(target, until=None))
        if target.which is Which.EACH or (number or 1) > 1:
            take_start_too(hook, target)
            return each_place(node, number)
        if hook.inside is None and is_from_hook(hook, target):
            from_hook(hook, target, node.span)
        elif hook.inside is None and not go_to(hook, target, node.span):
            hook.missing = hook.missing + 1
            return None
        self._work_in_place(hook, node)
        return None

    def _group_in(self, hook: Hook, node: InOnePlace, place: Place) -> Line[Stitch]:
        """What a list worked in one place makes, wherever that place is."""
        trial = hook.fork()
        trial.made, trial.ahead = [], (Run(place),)
        self._work_in_place(trial, node)
        return tuple(trial.made)

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


_CORNERS = 2


def _made_last(node: Yarn) -> bool:
    """ "Join B with a sl st in the top of the last dc you made": the hook is there."""
    made = node.target is not None and node.target.noun == "made"
    return made and node.standing in ("", "sl st")


def _fills_top(hook: Hook, node: Evenly) -> bool:
    """ "22 sc along the short edge": the last row, where it has as many and its corners."""
    number = node.amount.at(hook.task.size) or 0
    left = hook.left()
    return isinstance(left, int) and number > 0 and 0 <= left - number <= _CORNERS


def _by_number(node: Evenly) -> Make:
    """So many stitches, one after the other."""
    return Make(node.stitch, node.span, node.amount)


def _begins_with_space(node: Node) -> bool:
    """Reads "*ch 1, sk next st, sc in next st; rep from *": its first chain may be a space.

    Another to turn with is then told beside the rows, or not at all.
    """
    if not isinstance(node, Repeat):
        return False
    told = [one for one in node.body if type(one) not in QUIET]
    chained = bool(told) and isinstance(told[0], Chain) and told[0].role is Role.UNSAID
    return chained and len(told) > 1 and isinstance(told[1], Skip)


def _closes(node: Make) -> bool:
    """ "Sl st in first sc": back where the round began, and along no other edge."""
    first = node.target is not None and node.target.which is Which.FIRST
    return first and node.stitch == "sl st"


def _begins_again(nodes: Sequence[Node], at: int) -> bool:
    """ "(Ch 1, turn.) Sl st in next 3 sts, ch 1, sc in same st": the row begins there."""
    slip = next((node for node in nodes[:at][::-1] if type(node) not in QUIET), None)
    beside = next(iter(following(nodes, at + 1)), None)
    if not isinstance(slip, Make) or slip.stitch != "sl st":
        return False
    if not isinstance(beside, Make) or beside.stitch == "sl st" or beside.target is None:
        return False
    return beside.target.which is Which.SAME and beside.target.noun != "sp"


def _beside_loop(hook: Hook, number: int, nodes: Sequence[Node]) -> bool:
    """Whether a chain in a place is the side of a new block, not a beginning chain.

    So it is behind a slip stitch into a space: "sl st in sp, *ch 3, 3 dc in same sp; ...".
    """
    if number not in hook.task.conventions.loops_at_hook:
        return False
    beside = next(iter(following(nodes, 1)), None)
    target = beside.target if isinstance(beside, Make) else None
    same = target is not None and target.noun == "sp" and target.which is Which.SAME
    return hook.inside is not None or same


def _uses(place: Place) -> Line[Stitch]:
    """The movement that uses the place of a group up; its stitches then add none."""
    if place.kind is PlaceKind.SPENT:
        return ()
    return (Run(Stitch("place", place.counts, (), (), is_space(place), 1), 1),)
