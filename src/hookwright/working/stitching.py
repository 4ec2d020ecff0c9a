"""Stitches with the places the words give them."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Make,
    Node,
    Often,
    Repeat,
    Target,
    Times,
    Which,
)
from hookwright.working import ahead
from hookwright.working.back_in_skipped import worked_back
from hookwright.working.beginnings import from_hook, is_from_hook
from hookwright.working.conventions import Choice
from hookwright.working.each_place import in_each
from hookwright.working.fabric import Into, PlaceKind, Stitch
from hookwright.working.going import covers_space, go_to, go_to_last, leave_group
from hookwright.working.hook import (
    MANY_RUNS,
    Hook,
    beside,
    grouped,
    is_stitch,
    onto,
    tops,
    use,
)
from hookwright.working.making import (
    Own,
    in_each_of,
    in_here,
    in_next,
    number_at,
    together_over,
    want,
)
from hookwright.working.mesh import square
from hookwright.working.slip_stitches import slip
from hookwright.working.stitches import Facts, facts_of
from hookwright.working.to_groups import stitches_of_group
from hookwright.working.wanted import number_of, on_ring, wanted_by


def make(hook: Hook, node: Make, own: Own) -> Node | None:
    """Works stitches; returns a node to work instead, where the words mean a repeat."""
    facts = facts_of(node.stitch, node.legs, own)
    if facts.family == "slip":
        slip(hook, node)
        return None
    if facts.family == "mesh":
        return _squares(hook, node)
    number = number_at(hook, node.amount)
    if number == 0:
        return None
    if facts.family == "picot":
        return _picots(hook, node, number or 1)
    if hook.inside is not None and (node.target is None or node.target.which is Which.SAME):
        in_here(hook, node, facts, number or 1)
        return None
    if facts.family == "foundation":
        _foundation_stitches(hook, node, number or 1)
        return None
    layers = (node.loop or hook.loop) == "layers"
    if layers and not hook.asks(Choice.TWO_PIECES):
        _through_layers(hook, node, facts, number)
        return None
    if node.target is None:
        return _bare(hook, node, facts, number or 1)
    if node.target.noun in ("elsewhere", "leg") or (
        hook.elsewhere and node.target.noun == "ch"
    ):
        in_here(hook, node, facts, number or 1)
        return None
    back = worked_back(hook, node, node.target) or _stood_between(hook, node, facts, number)
    facts = _in_one_place(facts, node.target)
    return None if back else _placed(hook, node, facts, number, node.target)


def _in_one_place(facts: Facts, target: Target) -> Facts:
    """ "Dc3tog in next ch-2 sp": all its legs stand there, and not in three spaces."""
    one = target.noun in ("sp", "corner") and target.amount is None
    if facts.family != "together" or not one:
        return facts
    return replace(facts, family="cluster", passes=1)


def _picots(hook: Hook, node: Make, number: int) -> Node | None:
    """Picots use no place; "picot in each of next 3 dc" has one on each of them."""
    target = node.target
    each = target is not None and target.which is Which.EACH and hook.inside is None
    if target is None or not each:
        hook.emit(Stitch(node.stitch, 0, (), ()), number, node.span)
        return None
    places = number_at(hook, target.amount) or number_of(hook.ahead, is_stitch)
    for place, taken in use(hook, wanted_by(hook, target), places, node.span):
        hook.emit(onto(place, node.stitch, (), Into.BOTH_LOOPS), taken, node.span)
    return None


def _through_layers(hook: Hook, node: Make, facts: Facts, number: int | None) -> None:
    """The work lies double, so every stitch goes into one of each layer."""
    target = node.target
    places = number_at(hook, target.amount) if target is not None else number
    if places is None:
        every = target is None or target.which is Which.EACH
        places = number_of(hook.ahead, is_stitch) // 2 if every else 1
    double = replace(facts, family="together", passes=2)
    more = (number or 1) - 1 if target is not None and target.which is Which.EACH else 0
    if not more:
        together_over(hook, node, double, places, is_stitch)
        return
    for _ in range(min(places, MANY_RUNS)):  # "2 sc in each of next 2 sts"
        together_over(hook, node, double, 1, is_stitch)
        in_here(hook, node, facts, more)


def _squares(hook: Hook, node: Make) -> Node | None:
    number = number_at(hook, node.amount) or 1
    if number == 1:
        square(hook, node)
        return None
    amount = Amount((number,), node.span)
    one = replace(node, amount=None)
    return Repeat((one,), Times(Often.TIMES, node.span, amount), node.span)


def _foundation_stitches(hook: Hook, node: Make, number: int) -> None:
    hook.began = True
    hook.emit(Stitch(node.stitch, 0, (), tops(node.stitch)), number, node.span)


def _bare(hook: Hook, node: Make, facts: Facts, number: int) -> Node | None:
    """Reads "3 sc", "sc 5", "inc": one stitch in each of the next places."""
    if on_ring(hook):
        in_here(hook, node, facts, number)
        return None
    if facts.family == "group":
        return _spread(node, number, own_group(node, facts, hook.task.terms))
    if facts.passes > 1 and facts.heads > 1:
        _whole_unit(hook, node, facts, number, Target("st", Which.NEXT, node.span))
        return None
    several = 1 < number <= 9 and facts.family in ("plain", "cluster")
    if several and hook.asks(Choice.SEVERAL_IN_ONE):
        in_next(hook, node, facts, number)
        return None
    in_each_of(hook, node, facts, number, 1, is_stitch)
    return None


def _spread(node: Make, number: int, group: InOnePlace) -> Node:
    """So many groups, one in each next place."""
    if number == 1:
        return group
    amount = Amount((number,), node.span)
    return Repeat((group,), Times(Often.TIMES, node.span, amount), node.span)


def own_group(
    node: Make, facts: Facts, terms: str, target: Target | None = None
) -> InOnePlace:
    """A stitch that is a group, as a list worked in one place."""
    where = target or facts.place or Target("st", Which.NEXT, node.span)
    body = facts.body or _usual(node, terms)
    return InOnePlace(body, where, node.span, node.stitch)


def _usual(node: Make, terms: str) -> tuple[Node, ...]:
    """What a shell or V-stitch is where the pattern does not say. Common practice."""
    one = Make("tr" if terms == "UK" else "dc", node.span)
    if node.stitch == "v-st":
        return (one, Chain(Amount((1,), node.span), node.span), one)
    return (replace(one, amount=Amount((5,), node.span)),)


def _placed(
    hook: Hook, node: Make, facts: Facts, number: int | None, target: Target
) -> Node | None:
    """Stitches with a place named."""
    places = number_at(hook, target.amount)
    if is_from_hook(hook, target):
        from_hook(hook, target, node.span)
        return _in_one(hook, node, facts, number or 1)
    if target.of is not None and target.of.which is Which.EACH and not _is_of_pairs(target):
        inner = replace(target.of, which=Which.NEXT)
        one = replace(node, target=replace(target, of=inner, which=_single(target)))
        return Repeat((one,), Times(Often.ACROSS, node.span), node.span)
    if target.which is Which.EACH and target.of is not None and target.noun != "gap":
        places = stitches_of_group(hook, target.of, node.span)
        target = replace(target, of=None)
    if target.which is Which.EACH and places is None:
        return _along(hook, node, facts, number, target)
    if facts.family == "group":
        return _groups(node, facts, hook.task.terms, target, places)
    if places is not None and places != 1:
        _in_several(hook, node, facts, number, target, places)
        return None
    if places == 0:
        return None
    if facts.family == "together" and target.which in (Which.NEXT, Which.FIRST, Which.LAST):
        _together_placed(hook, node, facts, number or 1, target)
        return None
    if not go_to(hook, target, node.span):
        want(hook, node, facts, 1, number or 1)
        return None
    return _in_one(hook, node, facts, number or 1)


def _stood_between(hook: Hook, node: Make, facts: Facts, number: int | None) -> bool:
    """ "Sc in next 2 sts, fptr around next dc of Rnd 1": no stitch is skipped behind it.

    Custom skips the one behind; only a count tells that the row grows by these instead.
    """
    target = node.target
    told = target is not None and target.which is Which.NEXT and target.rows_below > 0
    if not (told and hook.worked and hook.asks(Choice.BETWEEN)):
        return False
    places = number_at(hook, target.amount) if target is not None else 1
    in_here(hook, node, facts, (number or 1) * (places or 1))
    return True


def _along(
    hook: Hook, node: Make, facts: Facts, number: int | None, target: Target
) -> Node | None:
    """Stitches in each place, or one unit of several places after the other."""
    if _is_unit(facts, target):
        return _units_along(node, target)
    return in_each(hook, node, facts, number, target)


def _is_unit(facts: Facts, target: Target) -> bool:
    """Whether a stitch takes several places and leaves several, as a crossed pair does."""
    return facts.passes > 1 and facts.heads > 1 and target.noun == "st" and not target.also


def _units_along(node: Make, target: Target) -> Repeat:
    """ "Crossed dc to last st": one after the other, and none in each st."""
    until = target.until
    left = target.left_out or (until is not None and until.which is Which.LAST)
    amount = until.amount if until is not None else None
    amount = amount or Amount((max(1, target.left_out),), node.span)
    often = Often.TO_LAST if left else Often.ACROSS
    times = Times(often, node.span, amount if left else None)
    if until is not None and until.noun == "corner":
        times = Times(Often.ACROSS, node.span, noun="corner")
    return Repeat((replace(node, target=None, amount=None),), times, node.span)


def _is_of_pairs(target: Target) -> bool:
    """ "Between every 2 tr": a gap of a kind, and not one of each two."""
    return target.noun == "gap" and target.of is not None and target.of.amount is not None


def _single(target: Target) -> Which:
    return Which.NEXT if target.which is Which.EACH else target.which


def _in_one(hook: Hook, node: Make, facts: Facts, number: int) -> Node | None:
    """Stitches in the place the hook has gone to."""
    if facts.family == "group":
        front = Target("front", Which.SAME, node.span)
        return own_group(node, facts, hook.task.terms, front)
    in_next(hook, node, facts, number, gone=True)
    return None


def _together_placed(
    hook: Hook, node: Make, facts: Facts, number: int, target: Target
) -> None:
    if target.which is Which.LAST:
        go_to_last(hook, target, node.span, max(2, facts.passes))
    together_over(hook, node, facts, number, wanted_by(hook, target))


def _groups(
    node: Make, facts: Facts, terms: str, target: Target, places: int | None
) -> Node:
    """Shells and the like: each in a place of its own, or over several places."""
    one = own_group(node, facts, terms, replace(target, amount=None))
    if target.which is Which.EACH or (places and places > 1 and target.which is Which.NEXT):
        single = replace(one, target=replace(target, which=Which.NEXT, amount=None))
        times = Times(Often.TIMES, node.span, Amount((places or 1,), node.span))
        return Repeat((single,), times, node.span)
    return one


def _in_several(
    hook: Hook, node: Make, facts: Facts, number: int | None, target: Target, places: int
) -> None:
    """Reads "in next 4 sts", "2 in each of next 3", "dc3tog over next 3 sts"."""
    if target.which is Which.LAST:
        go_to_last(hook, target, node.span, places)
    if target.noun != "gap" and covers_space(hook, target):
        _in_front_of_spaces(hook, node, facts, number or 1, target, places)
        return
    over = facts.family in ("together", "cluster") and target.which is not Which.EACH
    if over and _over_several(hook, node, facts, number, places, target):
        return
    if target.which is Which.FIRST and hook.stands_on_first and not hook.worked:
        places = max(1, places - 1)
    if target.noun == "gap":
        for _ in range(places):
            if hook.task.effort.spent():
                break
            if go_to(hook, replace(target, amount=None), node.span):
                in_next(hook, node, facts, number or 1, gone=True)
        return
    leave_group(hook, target, node.span)
    each = number if number is not None and _is_each(hook, number, target, places) else 1
    if target.noun == "ch" and target.which is Which.EACH and number in (None, 1):
        places = _by_chains(hook, node, facts, places)
    by_space = target.noun == "sp"
    wanted = wanted_by(hook, target)
    in_each_of(hook, node, facts, places, each, wanted, by_space=by_space)


def _in_front_of_spaces(
    hook: Hook, node: Make, facts: Facts, each: int, target: Target, places: int
) -> None:
    """Reads "dc in each of the 2 skipped dc of Row 2": in front of the ch-2 over them."""
    while places > 0 and not hook.task.effort.spent():
        front = ahead.take(hook.ahead)
        if front is None or not covers_space(hook, target):
            in_each_of(hook, node, facts, places, each, wanted_by(hook, target))
            return
        over = min(places, max(1, front.place.chains))
        in_next(hook, node, facts, over * each, gone=True)
        places -= over


def _by_chains(hook: Hook, node: Make, facts: Facts, places: int) -> int:
    """Reads "in each of the 3 ch" over a space of 3 chains; returns how many are left."""
    while places and not hook.task.effort.spent():
        front = ahead.take(hook.ahead)
        if front is None or front.place.kind is not PlaceKind.SPACE or front.place.counts:
            return places
        if not 1 < front.place.chains <= places:
            return places
        in_next(hook, node, facts, front.place.chains, gone=True)
        places -= front.place.chains
    return places


def _is_each(hook: Hook, number: int, target: Target, places: int) -> bool:
    """Whether the number is for each place; "3 dc in next 3 sts" is one in each.

    Only a count tells that "2 dc in next 2 sts" are four, as in "2 dc in next 3 sts".
    """
    if target.which is Which.EACH or number != places:
        return True
    return number > 1 and hook.asks(Choice.SEVERAL_IN_ONE)


def _over_several(
    hook: Hook, node: Make, facts: Facts, number: int | None, places: int, target: Target
) -> bool:
    """One stitch over all the places named, or several that share them."""
    legs = facts.passes if facts.passes > 1 else places
    if facts.family == "cluster" and facts.passes == 1 and number and number == places:
        return False
    if places % legs:
        return False
    count = number or places // legs
    if facts.heads > 1 and facts.passes > 1:
        _whole_unit(hook, node, facts, count, target)
        return True
    together_over(
        hook,
        node,
        replace(facts, family="together", passes=legs),
        count,
        wanted_by(hook, target),
    )
    return True


def _whole_unit(hook: Hook, node: Make, facts: Facts, count: int, target: Target) -> None:
    """A cable or crossed pair: several places, several tops."""
    for _ in range(count):
        if hook.task.effort.spent():
            return
        before = hook.missing
        made, hook.made = hook.made, []
        together_over(
            hook, node, replace(facts, family="together"), 1, wanted_by(hook, target)
        )
        if hook.missing > before:
            hook.made = [*made, *hook.made]
            return
        hook.emit(
            beside(node.stitch, tops(node.stitch, 1), Into.BOTH_LOOPS),
            facts.heads - 1,
            node.span,
        )
        hook.made = [*made, grouped(tuple(hook.made), node.stitch)]
