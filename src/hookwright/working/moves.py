"""Single movements: a stitch in its place, several in one place, one in each, a skip."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    Definition,
    InOnePlace,
    Make,
    Node,
    Often,
    Repeat,
    Skip,
    Target,
    Times,
    Which,
)
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.fabric import (
    GAP,
    RING,
    Foot,
    Into,
    Place,
    PlaceKind,
    Stitch,
    foundation,
    is_space,
)
from hookwright.working.hook import (
    LOOPS,
    POSTS,
    Hook,
    Wanted,
    beside,
    grouped,
    is_stitch,
    onto,
    pass_over,
    passing,
    reach,
    tops,
    use,
)
from hookwright.working.mesh import square
from hookwright.working.sequence import Group, Line, Piece, Run, every, split, total
from hookwright.working.sequence import Repeat as Repeated
from hookwright.working.stitches import Facts, facts_of, may_be_called

Own = Mapping[str, Definition]
LONGEST_PASS = 6
"""Stitches that may lie in silence before the last place of a lace row: a group's half."""


def make(hook: Hook, node: Make, own: Own) -> Node | None:
    """Works stitches. Returns a node to be worked instead, where the words mean a repeat."""
    facts = facts_of(node.stitch, node.legs, own)
    if facts.family == "slip":
        return _slip(hook, node)
    if facts.family == "mesh":
        return _squares(hook, node)
    number = _amount(hook, node.amount)
    if number == 0:
        return None
    if hook.inside is not None and (node.target is None or node.target.which is Which.SAME):
        _in_here(hook, node, facts, number or 1)
        return None
    if facts.family == "foundation":
        _foundation_stitches(hook, node, number or 1)
        return None
    if facts.family == "picot":
        hook.emit(Stitch(node.stitch, 0, (), ()), number or 1, node.span)
        return None
    if node.target is None and _on_ring(hook):
        _in_here(hook, node, facts, number or 1)
        return None
    if node.target is None:
        return _bare(hook, node, facts, number or 1)
    if node.target.noun == "elsewhere" or (hook.elsewhere and node.target.noun == "ch"):
        _in_here(hook, node, facts, number or 1)
        return None
    return _placed(hook, node, facts, number, node.target)


def _on_ring(hook: Hook) -> bool:
    return ahead.holds(hook.edge_line, lambda place: place.kind is PlaceKind.RING)


def _squares(hook: Hook, node: Make) -> Node | None:
    number = _amount(hook, node.amount) or 1
    if number == 1:
        square(hook, node)
        return None
    amount = Amount((number,), node.span)
    one = replace(node, amount=None)
    return Repeat((one,), Times(Often.TIMES, node.span, amount), node.span)


def _amount(hook: Hook, amount: Amount | None) -> int | None:
    return None if amount is None else amount.at(hook.task.size) or 0


def _into(hook: Hook, node: Make) -> Into:
    if node.post:
        return POSTS[node.post]
    loop = node.loop or (node.target.loop if node.target else "") or hook.loop
    return LOOPS.get(loop, Into.BOTH_LOOPS)


def _down(node: Make) -> int:
    return node.target.rows_below if node.target else 0


def _kind(hook: Hook, node: Make) -> str:
    return hook.task.main if node.stitch == "inc" else node.stitch


def _in_here(hook: Hook, node: Make, facts: Facts, number: int) -> None:
    """More stitches in the place of a group."""
    heads = tops(_kind(hook, node), facts.heads)
    hook.emit(beside(node.stitch, heads, _into(hook, node)), number, node.span)


def _foundation_stitches(hook: Hook, node: Make, number: int) -> None:
    hook.began = True
    hook.emit(Stitch(node.stitch, 0, (), tops(node.stitch)), number, node.span)


def _bare(hook: Hook, node: Make, facts: Facts, number: int) -> Node | None:
    """ "3 sc", "sc 5", "inc": one in each of the next places."""
    if facts.family == "group":
        return _spread(node, number, own_group(node, facts))
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


def own_group(node: Make, facts: Facts, target: Target | None = None) -> InOnePlace:
    """A stitch that is a group, as a list worked in one place."""
    where = target or Target("st", Which.NEXT, node.span)
    body = facts.body or _usual(node)
    return InOnePlace(body, where, node.span, node.stitch)


def _usual(node: Make) -> tuple[Node, ...]:
    """What a shell or V-stitch is where the pattern does not say. Common practice."""
    one = Make("dc", node.span)
    if node.stitch == "v-st":
        return (one, Chain(Amount((1,), node.span), node.span), one)
    return (replace(one, amount=Amount((5,), node.span)),)


def in_each_of(
    hook: Hook, node: Make, facts: Facts, places: Count, each: int, wanted: Wanted
) -> None:
    """`each` stitches in each of the next `places` places of a kind."""
    if facts.family == "together":
        _together(hook, node, facts, places, wanted)
        return
    done: Count = 0
    for place, taken in use(hook, wanted, places, node.span):
        worth = max(1, place.counts)
        hook.made.extend(_stack(hook, node, facts, place, taken, each))
        done = done + taken * worth
    if done < places:
        _missing(hook, node, facts, places - done, each)


def _stack(
    hook: Hook, node: Make, facts: Facts, place: Place, places: Count, each: int
) -> Line[Stitch]:
    """The stitches made in some like places."""
    into = _into(hook, node)
    heads = tops(_kind(hook, node))
    number = each * facts.heads
    hook.used_space = is_space(place) > 0
    if hook.used_space:
        hook.worked_spaces = True
        hook.lengths = hook.lengths | {place.chains}
    hook.worked = True
    first = onto(place, node.stitch, heads, into, _down(node))
    if place.kind is PlaceKind.SPENT:
        first = beside(node.stitch, heads, into)
        if place.stitch == "gap":
            return (grouped((Run(first, number, node.span, hook.yarn),)),)
        return (Run(first, number, node.span, hook.yarn),)
    if number == 1:
        return (Run(first, places, node.span, hook.yarn),)
    more = Run(beside(node.stitch, heads, into), number - 1, node.span, hook.yarn)
    group = grouped((Run(first, 1, node.span, hook.yarn), more))
    return (Repeated((group,), places),)


def _missing(hook: Hook, node: Make, facts: Facts, places: Count, each: int) -> None:
    """Stitches the words ask for when no place is left."""
    hook.missing = hook.missing + places * max(1, facts.passes if facts.passes > 1 else 1)
    heads = tops(_kind(hook, node))
    hook.emit(
        beside(node.stitch, heads, _into(hook, node)),
        places * each * facts.heads,
        node.span,
    )


def _together(hook: Hook, node: Make, facts: Facts, number: Count, wanted: Wanted) -> None:
    """`number` stitches, each drawn together over as many places as it has legs."""
    legs = max(2, facts.passes)
    left = number
    while left > 0:
        if not reach(hook, wanted, node.span):
            _missing(hook, node, facts, left, 1)
            return
        many = _together_in_run(hook, node, legs, left)
        left = left - many
        if not many:
            _together_one(hook, node, legs, wanted)
            left = left - 1


def _together_in_run(hook: Hook, node: Make, legs: int, most: Count) -> Count:
    """As many as fit in the run of like places that is next."""
    taken = ahead.take(hook.ahead, most * legs)
    if taken is None or not isinstance(taken.number, int):
        return 0
    whole = taken.number // legs
    again = ahead.take(hook.ahead, whole * legs) if whole else None
    if again is None:
        return 0
    hook.ahead, hook.last, hook.began = again.rest, again.place, True
    hook.used_space = False
    stitch = Stitch(node.stitch, legs, _feet(hook, node, legs), tops(node.stitch))
    hook.emit(stitch, whole, node.span)
    return whole


def _feet(hook: Hook, node: Make, legs: int) -> tuple[Foot, ...]:
    into = _into(hook, node)
    return tuple(Foot(step, _down(node), into) for step in range(min(legs, 99)))


def _together_one(hook: Hook, node: Make, legs: int, wanted: Wanted) -> None:
    """One stitch over places that are not all alike."""
    passes = places = spaces = 0
    for place, taken in use(hook, wanted, legs, node.span):
        number = taken if isinstance(taken, int) else 0
        passes += place.counts * number
        spaces += is_space(place) * number
        places += number
    hook.used_space = False
    stitch = Stitch(
        node.stitch, passes, _feet(hook, node, places), tops(node.stitch), spaces, places
    )
    hook.emit(stitch, 1, node.span)
    if places < legs:
        hook.missing = hook.missing + (legs - places)


def _placed(
    hook: Hook, node: Make, facts: Facts, number: int | None, target: Target
) -> Node | None:
    """Stitches with a place named."""
    places = _amount(hook, target.amount)
    if is_from_hook(hook, target):
        from_hook(hook, target, node.span)
        return _in_one(hook, node, facts, number or 1)
    if target.of is not None and target.of.which is Which.EACH:
        inner = replace(target.of, which=Which.NEXT)
        one = replace(node, target=replace(target, of=inner, which=_single(target)))
        return Repeat((one,), Times(Often.ACROSS, node.span), node.span)
    if target.which is Which.EACH and places is None:
        return _in_each(hook, node, facts, number, target)
    if facts.family == "group":
        return _groups(hook, node, facts, number, target, places)
    if target.noun == "row end" and places is None:
        places = None
    if places is not None and places != 1:
        _in_several(hook, node, facts, number, target, places)
        return None
    if places == 0:
        return None
    if facts.family == "together" and target.which in (Which.NEXT, Which.FIRST, Which.LAST):
        _together_placed(hook, node, facts, number or 1, target)
        return None
    if not go_to(hook, target, node.span):
        _missing(hook, node, facts, 1, number or 1)
        return None
    return _in_one(hook, node, facts, number or 1)


def _single(target: Target) -> Which:
    return Which.NEXT if target.which is Which.EACH else target.which


def is_from_hook(hook: Hook, target: Target) -> bool:
    """Whether chains are counted from the hook: "in third ch" at the start of a foundation too."""
    if target.from_hook:
        return True
    front = ahead.take(hook.ahead)
    on_chain = front is not None and front.place.kind is PlaceKind.CHAIN
    return bool(
        target.noun == "ch" and target.ordinal and on_chain and not hook.began
        and target.of is None
    )  # fmt: skip


def from_hook(hook: Hook, target: Target, span: Span) -> None:
    """Passes the chains before the nth from the hook; what they stand for is told before."""
    from hookwright.working.beginnings import skipped_chains  # noqa: PLC0415

    ordinal = target.ordinal or 1
    front = ahead.take(hook.ahead)
    on_chain = front is not None and front.place.kind is PlaceKind.CHAIN
    if hook.chains and (not on_chain or hook.began):
        hook.ahead = (*foundation(hook.chains).line, *hook.ahead)
    skipped_chains(hook, ordinal - 1, span)


def _in_one(hook: Hook, node: Make, facts: Facts, number: int) -> Node | None:
    """Stitches in the place the hook has gone to."""
    if facts.family == "group":
        return own_group(node, facts, Target("front", Which.SAME, node.span))
    in_next(hook, node, facts, number, gone=True)
    return None


def in_next(
    hook: Hook, node: Make, facts: Facts, number: int, *, gone: bool = False
) -> None:
    """So many stitches in one place: the one gone to, or else the next."""
    if not gone and not reach(hook, is_stitch, node.span):
        _missing(hook, node, facts, 1, number)
        return
    if facts.family == "together":
        _together(hook, node, facts, number, is_stitch)
        return
    if hook.inside is not None:
        _in_here(hook, node, facts, number)
        return
    taken = ahead.take(hook.ahead)
    if taken is None:
        _missing(hook, node, facts, 1, number)
        return
    hook.in_gaps = hook.in_gaps or taken.place.stitch == "gap"
    hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
    beside_chain, hook.beside_chain = hook.beside_chain, False
    made = _stack(hook, node, facts, taken.place, 1, number)
    if taken.place.kind is PlaceKind.SPENT and (
        taken.place.stitch != "gap" or beside_chain
    ):
        _join_group(hook, made)
    else:
        hook.made.extend(made)


def _join_group(hook: Hook, made: Line[Stitch]) -> None:
    """Stitches in the place just used share a foot with the one before them."""
    before = hook.made.pop() if hook.made else None
    if before is None:
        hook.made.extend(made)
    elif isinstance(before, Group) and not before.name:
        hook.made.append(grouped((*before.body, *made)))
    elif isinstance(before, Run) and before.item.heads:
        if before.times != 1:
            hook.made.append(replace(before, times=before.times - 1))
        hook.made.append(grouped((replace(before, times=1), *made)))
    else:
        hook.made.extend((before, *made))


def _together_placed(
    hook: Hook, node: Make, facts: Facts, number: int, target: Target
) -> None:
    if target.which is Which.LAST:
        go_to_last(hook, target, node.span, max(2, facts.passes))
    _together(hook, node, facts, number, wanted_by(hook, target))


def _groups(
    hook: Hook,
    node: Make,
    facts: Facts,
    number: int | None,
    target: Target,
    places: int | None,
) -> Node:
    """Shells and the like: each in a place of its own, or over several places."""
    one = own_group(node, facts, replace(target, amount=None))
    if target.which is Which.EACH or (places and places > 1 and target.which is Which.NEXT):
        single = replace(one, target=replace(target, which=Which.NEXT, amount=None))
        times = Times(Often.TIMES, node.span, Amount((places or 1,), node.span))
        return Repeat((single,), times, node.span)
    del number, hook
    return one


def _in_several(
    hook: Hook, node: Make, facts: Facts, number: int | None, target: Target, places: int
) -> None:
    """ "in next 4 sts", "2 in each of next 3", "dc3tog over next 3 sts", "in last 2 sts"."""
    if target.which is Which.LAST:
        go_to_last(hook, target, node.span, places)
    if facts.family in ("together", "cluster") and target.which is not Which.EACH:
        if _over_several(hook, node, facts, number, places, target):
            return
    if target.which is Which.FIRST and hook.stands_on_first and not hook.worked:
        places = max(1, places - 1)
    if target.noun == "gap":
        for _ in range(min(places, 10_000)):
            if go_to(hook, replace(target, amount=None), node.span):
                in_next(hook, node, facts, number or 1, gone=True)
        return
    each = number if number is not None and _is_each(number, target, places) else 1
    in_each_of(hook, node, facts, places, each, wanted_by(hook, target))


def _is_each(number: int, target: Target, places: int) -> bool:
    """ "3 dc in next 3 sts" is one in each; "2 dc in each of next 3" is two in each."""
    return target.which is Which.EACH or number != places


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
    _together(
        hook,
        node,
        replace(facts, family="together", passes=legs),
        count,
        wanted_by(hook, target),
    )
    return True


def _whole_unit(hook: Hook, node: Make, facts: Facts, count: int, target: Target) -> None:
    """A cable or crossed pair: several places, several tops."""
    for _ in range(min(count, 10_000)):
        before = hook.missing
        _together(hook, node, replace(facts, family="together"), 1, wanted_by(hook, target))
        if hook.missing > before:
            return
        hook.emit(
            beside(node.stitch, tops(node.stitch, 1), Into.BOTH_LOOPS),
            facts.heads - 1,
            node.span,
        )


def wanted_by(hook: Hook, target: Target) -> Wanted:
    """Which places a target's noun means."""
    noun = target.noun
    if noun in ("st", "base", "here", "row end", "tch"):
        return is_stitch
    if noun == "sp":
        return _space_wanted(hook, target)
    if noun == "ch":
        return _chain_wanted(hook)
    return _named(hook, noun)


def _space_wanted(hook: Hook, target: Target) -> Wanted:
    chains = target.chains

    if not ahead.holds(hook.edge_line, lambda p: p.kind is PlaceKind.SPACE):
        if ahead.holds(hook.ahead, _is_underside):
            return _is_underside

    def exact(place: Place) -> bool:
        return place.kind is PlaceKind.SPACE and place.chains == chains

    if chains is not None and ahead.holds(hook.ahead, exact):
        return exact
    return lambda place: place.kind is PlaceKind.SPACE


def _is_underside(place: Place) -> bool:
    return place.kind is PlaceKind.UNDERSIDE


def _is_chain(place: Place) -> bool:
    return place.kind is PlaceKind.CHAIN


def _chain_wanted(hook: Hook) -> Wanted:
    def chain(place: Place) -> bool:
        return place.kind in (PlaceKind.CHAIN, PlaceKind.UNDERSIDE)

    if ahead.holds(hook.ahead, chain):
        return chain
    if ahead.holds(hook.ahead, lambda place: place.kind is PlaceKind.SPACE):
        return lambda place: place.kind is PlaceKind.SPACE
    return is_stitch


def _named(hook: Hook, noun: str) -> Wanted:
    """Places whose stitch bears the name. A noun that fits nothing here is only a word."""

    def fits(place: Place) -> bool:
        return place.counts > 0 and may_be_called(noun, place.stitch)

    front = ahead.seek(hook.ahead, is_stitch)
    if front is None:
        return is_stitch
    taken = ahead.take(front.rest)
    if taken is not None and fits(taken.place):
        return fits
    known = ahead.holds(hook.edge_line, fits)
    if not known:
        hook.oddness += 1
    if not known or hook.asks(Choice.LOOSE_NOUNS):
        return is_stitch
    return fits


def go_to(hook: Hook, target: Target, span: Span) -> bool:
    """Brings one named place to the front, or makes it the place the hook is in."""
    which, noun = target.which, target.noun
    if noun == "ring" or (noun == "sp" and _on_ring(hook)):
        hook.put_back(RING)
        return True
    if noun == "front":
        return True
    if which is Which.SAME and noun == "gap":
        _stand_in_gap(hook)
        return True
    if which is Which.SAME or noun in ("base", "here"):
        return _stay(hook, span)
    if noun == "gap" or _only_gaps(hook, target):
        return _go_to_gap(hook, target, span)
    if target.of is not None:
        return _go_within(hook, target, span)
    if noun == "tch":
        return _go_to_turning_chain(hook, target, span)
    if noun == "group" or _is_group_name(hook, noun):
        return _go_to_group(hook, target, span)
    if which is Which.FIRST and hook.stands_on_first and not hook.worked:
        return _stay(hook, span)
    if which is Which.FIRST and not hook.began:
        return reach(hook, wanted_by(hook, target), span)
    if which is Which.LAST:
        return go_to_last(hook, target, span, 1)
    if target.ordinal and which is Which.NTH:
        return _go_to_nth(hook, target, span)
    if which is Which.CENTRE:
        return _go_to_centre(hook, target, span)
    return reach(hook, wanted_by(hook, target), span)


def _stay(hook: Hook, span: Span) -> bool:
    """In the place just used: it is put back in front, used up already."""
    if hook.last is None:
        return reach(hook, is_stitch, span)
    hook.put_back(hook.last)
    return True


def _is_group_name(hook: Hook, noun: str) -> bool:
    return ahead.holds_group(hook.edge_line, lambda group: group.name == noun)


def _go_to_group(hook: Hook, target: Target, span: Span) -> bool:
    """ "in next shell": its middle space, or its middle stitch."""
    found = _seek_group(hook, target)
    if found is None:
        return False
    pass_over(hook, found.line, span)
    return _to_middle(hook, found.rest, span)


def _seek_group(hook: Hook, target: Target) -> ahead.Passed | None:
    """The next, or the last, group of a name; of any name where the edge knows none of it."""
    name = target.noun

    def named(group: Group[Place]) -> bool:
        return name == "group" or group.name == name

    def any_group(group: Group[Place]) -> bool:
        return bool(group)

    known = name == "group" or ahead.holds_group(hook.edge_line, named)
    wanted = named if known else any_group
    found = ahead.seek_group(hook.ahead, wanted)
    if target.which is not Which.LAST:
        return found
    passed: list[Piece[Place]] = []
    for _ in range(10_000):
        if found is None:
            return None
        following = ahead.seek_group(found.rest[1:], wanted)
        if following is None:
            return ahead.Passed((*passed, *found.line), found.rest)
        passed.extend((*found.line, found.rest[0]))
        found = following
    return None


def _to_middle(hook: Hook, rest: Ahead, span: Span) -> bool:
    group = rest[0]
    if not isinstance(group, Group):
        return False
    if ahead.holds(group.body, lambda place: place.kind is PlaceKind.SPACE):
        hook.ahead = rest
        return reach(hook, lambda place: place.kind is PlaceKind.SPACE, span)
    number = ahead.stitches(group.body)
    hook.ahead = rest
    if isinstance(number, int):
        _pass_stitches(hook, (number - 1) // 2, span)
    return True


def _pass_stitches(hook: Hook, number: int, span: Span) -> None:
    """Passes so many stitches in silence."""
    left: Count = number
    while left > 0:
        found = ahead.seek(hook.ahead, is_stitch)
        if found is None:
            return
        pass_over(hook, found.line, span)
        taken = ahead.take(found.rest, left)
        if taken is None:
            return
        pass_over(hook, (Run(taken.place, taken.number),), span)
        hook.ahead = taken.rest
        left = left - taken.number * max(1, taken.place.counts)


def _go_within(hook: Hook, target: Target, span: Span) -> bool:
    """ "3rd dc of next shell", "centre sc of corner", "last dc of fan"."""
    inner = target.of
    assert inner is not None
    if _in_group(hook) and _just_skipped(hook) and target.ordinal:
        return reach(hook, is_stitch, span)
    group = replace(inner, noun=inner.noun if inner.noun not in ("st", "sp") else "group")
    if inner.which is not Which.LAST:
        group = replace(group, which=Which.NEXT)
    found = _seek_group(hook, group)
    if found is None:
        return False
    pass_over(hook, found.line, span)
    body = found.rest[0]
    hook.ahead = found.rest
    number = ahead.stitches(body.body) if isinstance(body, Group) else 0
    if target.noun == "sp":
        return reach(hook, lambda place: place.kind is PlaceKind.SPACE, span)
    if target.which is Which.CENTRE and isinstance(number, int):
        _pass_stitches(hook, (number - 1) // 2, span)
    elif target.which is Which.LAST and isinstance(number, int):
        _pass_stitches(hook, number - 1, span)
    elif target.ordinal:
        _pass_stitches(hook, target.ordinal - 1, span)
    return True


def _go_to_nth(hook: Hook, target: Target, span: Span) -> bool:
    """ "in 2nd sc": counted along the whole edge, or from here where that lies behind."""
    wanted = wanted_by(hook, target)
    used = _number_of(hook.edge_line, wanted) - _number_of(hook.ahead, wanted)
    before = (target.ordinal or 1) - 1
    for _ in range(before - used if before >= used else before):
        found = ahead.seek(hook.ahead, wanted)
        taken = ahead.take(found.rest) if found else None
        if found is None or taken is None:
            return False
        pass_over(hook, (*found.line, Run(taken.place, 1)), span)
        hook.ahead = taken.rest
    return reach(hook, wanted, span)


def _in_group(hook: Hook) -> bool:
    front = hook.ahead[0] if hook.ahead else None
    return isinstance(front, Group) and not front.whole


def _just_skipped(hook: Hook) -> bool:
    """Whether the way into a group was told as a skip: "sk 3 dc, sc in 4th dc of fan"."""
    last = hook.made[-1] if hook.made else None
    return isinstance(last, Run) and last.item.kind == "skip"


def _go_to_centre(hook: Hook, target: Target, span: Span) -> bool:
    """ "in centre sp", "in centre sc": the middle one of the edge, or of the next corner."""
    if target.noun == "sp":
        wanted = _space_wanted(hook, target)
        return _to_nth_of_whole(hook, wanted, span)
    found = ahead.seek_group(hook.ahead, _is_corner)
    if found is not None:
        pass_over(hook, found.line, span)
        return _to_middle(hook, found.rest, span)
    return reach(hook, wanted_by(hook, target), span)


def _is_corner(group: Group[Place]) -> bool:
    number = ahead.stitches(group.body)
    return isinstance(number, int) and number >= 3 and number % 2 == 1


def _to_nth_of_whole(hook: Hook, wanted: Wanted, span: Span) -> bool:
    """The middle one of all wanted places of the edge, counting those already used."""
    total_line = hook.edge_line
    count = _number_of(total_line, wanted)
    used = count - _number_of(hook.ahead, wanted)
    middle = (count - 1) // 2
    for _ in range(max(0, middle - used)):
        found = ahead.seek(hook.ahead, wanted)
        if found is None:
            return False
        pass_over(hook, found.line, span)
        taken = ahead.take(found.rest)
        if taken is None:
            return False
        pass_over(hook, (Run(taken.place, 1),), span)
        hook.ahead = taken.rest
    return reach(hook, wanted, span)


def _number_of(line: Ahead, wanted: Wanted) -> int:
    number = total(line, lambda place: int(wanted(place)))
    return number if isinstance(number, int) else 0


def _go_to_turning_chain(hook: Hook, target: Target, span: Span) -> bool:
    """The top of a turning chain, whether it counts or not; else the last stitch."""
    found = ahead.seek(hook.ahead, ahead.is_beginning)
    if found is not None:
        hook.leapt = hook.leapt + _leapt(hook, found.line)
        pass_over(hook, found.line, span)
        hook.ahead = found.rest
        return True
    return go_to_last(hook, target, span, 1)


def _leapt(hook: Hook, line: Ahead) -> Count:
    """Stitches passed on the way, but for the rest of a group or beside a space."""
    number = ahead.stitches(line)
    normal = hook.used_space or hook.sought
    return 0 if normal and number <= LONGEST_PASS else number


def go_to_last(hook: Hook, target: Target, span: Span, number: int) -> bool:
    """Passes everything before the last `number` wanted places."""
    wanted = wanted_by(hook, target)
    if target.noun == "ch" and ahead.holds(hook.ahead, _is_chain):
        wanted = _is_chain
    elif target.noun in ("st", "ch"):
        wanted = is_stitch if not _only_spaces(hook) else wanted
    line, weight = hook.ahead, wanted
    count = _number_of(line, weight)
    if count < number:
        return False
    before = _cut_before(line, count - number, weight)
    if before is None:
        return reach(hook, wanted, span)
    passed, rest = before
    hook.leapt = hook.leapt + _leapt(hook, passed)
    pass_over(hook, passed, span)
    hook.ahead = rest
    return reach(hook, wanted, span)


def _only_spaces(hook: Hook) -> bool:
    return not ahead.holds(hook.ahead, is_stitch)


def _cut_before(line: Ahead, count: int, wanted: Wanted) -> tuple[Ahead, Ahead] | None:
    if not count:
        return (), line
    return split(line, count, lambda place: int(wanted(place)))


def _go_to_gap(hook: Hook, target: Target, span: Span) -> bool:
    """The gap before the next group: what shares a foot is passed as one."""
    at_edge = hook.stands_on_first and not hook.worked and not _in_group(hook)
    if target.which is Which.FIRST and at_edge:
        _stand_in_gap(hook)
        hook.beside_chain = True
        return True
    if target.which is Which.LAST:
        return _go_to_last_gap(hook, span)
    if not pass_one_foot(hook, span) or not (hook.left() or hook.task.is_round):
        return False
    _stand_in_gap(hook)
    return True


def _stand_in_gap(hook: Hook) -> None:
    hook.put_back(GAP)
    hook.used_space = True


def _go_to_last_gap(hook: Hook, span: Span) -> bool:
    for _ in range(100_000):
        trial = hook.fork()
        if not pass_one_foot(trial, span) or not (trial.left() or hook.task.is_round):
            return False
        further = trial.fork()
        hook.become(trial)
        if not pass_one_foot(further, span) or not (further.left() or hook.task.is_round):
            _stand_in_gap(hook)
            return True
    return False


def pass_one_foot(hook: Hook, span: Span) -> bool:
    """Passes the stitches that stand on the next foot: a group, or one stitch."""
    line = hook.ahead
    while line:
        piece = line[0]
        if isinstance(piece, Group):
            pass_over(hook, piece.body, span)
            hook.ahead = line[1:]
            return True
        if isinstance(piece, Run):
            if not piece.item.counts:
                pass_over(hook, (piece,), span)
                line = hook.ahead = line[1:]
                continue
            taken = ahead.take(line)
            if taken is None:
                return False
            pass_over(hook, (Run(taken.place, 1),), span)
            hook.ahead = taken.rest
            return True
        line = ahead.opened(line)
    return False


def _in_each(
    hook: Hook, node: Make, facts: Facts, number: int | None, target: Target
) -> Node | None:
    """ "in each st across": one after the other up to the end, or up to a place named."""
    region, rest = _region(hook, target, node.span)
    looped = facts.family in ("group", "together") or target.noun in ("gap", "group")
    if looped or _is_group_name(hook, target.noun):
        return _each_by_turns(node, target)
    if target.left_out:
        region, back = _leave_out(region, target, hook)
        rest = (*back, *rest)
    wanted = _each_wanted(hook, target)
    each = number or 1
    made: list[Piece[Stitch]] = []
    chainwise = "ch" in (target.noun, *(also.noun for also in target.also))
    last = _work_line(
        hook, node, facts, ahead.ungrouped(region), wanted, each, made, chainwise=chainwise
    )
    hook.made.extend(made)
    hook.ahead = rest
    if last is not None:
        hook.last, hook.began = last, True
    return None


def each_of_kinds(hook: Hook, nodes: list[Make], last_node: Node, own: Own) -> None:
    """ "1 tr in each tr and 2 tr in each space": places of several kinds, as they come.

    `last_node` is the last of them with the place that "each" stops before, if any.
    """
    rest: Ahead = ()
    region = hook.ahead
    if isinstance(last_node, Make) and last_node.target is not None:
        region, rest = _region(hook, last_node.target, last_node.span)
    works = []
    for node in nodes:
        assert node.target is not None
        facts = facts_of(node.stitch, node.legs, own)
        works.append(
            (node, facts, _each_wanted(hook, node.target), _amount(hook, node.amount) or 1)
        )
    made: list[Piece[Stitch]] = []
    last = _work_kinds(hook, ahead.ungrouped(region), works, made)
    hook.made.extend(made)
    hook.ahead = rest
    if last is not None:
        hook.last, hook.began = last, True


Works = list[tuple[Make, Facts, Wanted, int]]


def _work_kinds(
    hook: Hook, line: Ahead, works: Works, made: list[Piece[Stitch]]
) -> Place | None:
    last = None
    for piece in line:
        if isinstance(piece, Run):
            found = next((work for work in works if work[2](piece.item)), None)
            if found is None:
                made.append(Run(passing(piece.item, "pass"), piece.times))
                continue
            node, facts, _, each = found
            made.extend(_stack(hook, node, facts, piece.item, piece.times, each))
            last = piece.item
        elif isinstance(piece, Repeated):
            inner: list[Piece[Stitch]] = []
            last = _work_kinds(hook, piece.body, works, inner) or last
            made.append(Repeated(tuple(inner), piece.times))
    return last


def _each_by_turns(node: Make, target: Target) -> Node:
    """Groups and decreases in each place are a repeat of one of them."""
    one = replace(
        node, target=replace(target, which=Which.NEXT, until=None), amount=node.amount
    )
    if target.noun == "st" and node.legs > 1:
        one = replace(one, target=None)
    times = Times(Often.ACROSS, node.span)
    if target.until is not None and target.until.which is Which.LAST:
        amount = target.until.amount or Amount((1,), node.span)
        times = Times(Often.TO_LAST, node.span, amount)
    return Repeat((one,), times, node.span)


def _each_wanted(hook: Hook, target: Target) -> Wanted:
    nouns = [
        wanted_by(hook, one) for one in (replace(target, which=Which.NEXT), *target.also)
    ]
    if target.noun == "st" and not target.also and hook.left_spaces():
        if hook.asks(Choice.EACH_TAKES_SPACES):
            nouns.append(lambda place: place.kind is PlaceKind.SPACE)
    return lambda place: any(wanted(place) for wanted in nouns)


def _region(hook: Hook, target: Target, span: Span) -> tuple[Ahead, Ahead]:
    """The places "each" runs over, and the rest."""
    until = target.until
    if until is None:
        return hook.ahead, ()
    if until.which is Which.LAST:
        number = _amount(hook, until.amount) or 1
        count = _number_of(hook.ahead, is_stitch)
        cut = _cut_before(hook.ahead, max(0, count - number), is_stitch)
        return cut or (hook.ahead, ())
    if until.noun == "tch":
        found = ahead.seek(hook.ahead, ahead.is_beginning)
        if found is not None:
            return found.line, found.rest
        cut = _cut_before(
            hook.ahead, max(0, _number_of(hook.ahead, is_stitch) - 1), is_stitch
        )
        return cut or (hook.ahead, ())
    if until.which is Which.CENTRE or until.of is not None:
        trial = hook.fork()
        mark = len(trial.made)
        if go_to(trial, until, span):
            return _difference(hook.ahead, trial, mark)
        return hook.ahead, ()
    found = ahead.seek(hook.ahead, wanted_by(hook, until))
    return (found.line, found.rest) if found else (hook.ahead, ())


def _difference(line: Ahead, trial: Hook, mark: int) -> tuple[Ahead, Ahead]:
    """The part of a line that a trial has passed."""
    count = total(line, every) - total(trial.ahead, every)
    del mark
    return split(line, count, every) or (line, ())


def _leave_out(region: Ahead, target: Target, hook: Hook) -> tuple[Ahead, Ahead]:
    wanted = wanted_by(hook, target)
    count = _number_of(region, wanted)
    cut = _cut_before(region, max(0, count - target.left_out), wanted)
    return cut or (region, ())


def _work_line(
    hook: Hook, node: Make, facts: Facts, line: Ahead, wanted: Wanted, each: int,
    made: list[Piece[Stitch]], *, chainwise: bool = False,
) -> Place | None:  # fmt: skip
    """Works every wanted place of a line and passes the others; repeats stay repeats.

    `chainwise` takes every chain of a space for itself ("in each underarm ch").
    """
    last = None
    for piece in line:
        if isinstance(piece, Run):
            if wanted(piece.item):
                by_chain = chainwise and is_space(piece.item) and piece.item.chains > 1
                number = each * piece.item.chains if by_chain else each
                made.extend(_stack(hook, node, facts, piece.item, piece.times, number))
                last = piece.item
            else:
                made.append(Run(passing(piece.item, "pass"), piece.times, node.span))
        elif isinstance(piece, Repeated):
            inner: list[Piece[Stitch]] = []
            last = (
                _work_line(
                    hook, node, facts, piece.body, wanted, each, inner, chainwise=chainwise
                )
                or last
            )
            made.append(Repeated(tuple(inner), piece.times))
    return last


def skip(hook: Hook, node: Skip) -> None:
    """Places passed by word."""
    target = node.target
    number = _amount(hook, target.amount)
    if target.from_hook:
        from_hook(hook, target, node.span)
        return
    beginning = target.which is Which.FIRST or target.noun == "ch"
    if beginning and is_from_hook(hook, replace(target, noun="ch", ordinal=number or 1)):
        from_hook(hook, replace(target, ordinal=(number or 1) + 1), node.span)
        return
    if _skips_under_chain(hook, target, number):
        hook.stands_on_first = False
        return
    hook.skipped = True
    if target.noun == "gap" or _is_gap(hook, target):
        pass_one_foot(hook, node.span)
        return
    if target.noun == "group" or _is_group_name(hook, target.noun):
        _skip_groups(hook, node, number or 1)
        return
    if target.which is Which.EACH and number is None:
        pass_over(hook, hook.ahead, node.span, "skip")
        hook.ahead = ()
        return
    wanted = wanted_by(hook, target)
    if target.noun == "ch" and target.which is not Which.NTH:
        wanted = _chain_or_stitch(hook, number or 1)
    left: Count = number or 1
    if target.which is Which.FIRST and hook.stands_on_first and not hook.worked:
        left = left - 1
    for place, taken in use(hook, wanted, left, node.span):
        pass_over(hook, (Run(place, taken),), node.span, "skip")
        left = left - taken * max(1, place.counts)
    if left > 0:
        hook.missing = hook.missing + left
        if target.noun == "sp":
            hook.missing = hook.missing - left


def _is_gap(hook: Hook, target: Target) -> bool:
    """Whether a "space" is a gap: in a row worked between stitches, or where no chain is."""
    if target.noun != "sp" or target.chains is not None:
        return False
    return hook.in_gaps or not hook.left_spaces()


def _only_gaps(hook: Hook, target: Target) -> bool:
    """A "space" on an edge without any chain is the gap between stitches."""
    if target.noun != "sp" or target.chains is not None:
        return False
    known = (PlaceKind.SPACE, PlaceKind.UNDERSIDE, PlaceKind.RING)
    return not ahead.holds(hook.edge_line, lambda place: place.kind in known)


def _chain_or_stitch(hook: Hook, number: int) -> Wanted:
    """ "sk 1 ch" over a row without chains names the wrong noun."""
    del number
    return _chain_wanted(hook)


def _skips_under_chain(hook: Hook, target: Target, number: int | None) -> bool:
    """Whether the first stitch skipped is the one a counting chain stands on already."""
    if not hook.stands_on_first or hook.worked or hook.skipped or (number or 1) != 1:
        return False
    if target.which is Which.FIRST:
        return True
    return (
        target.which is Which.NEXT
        and target.noun != "sp"
        and hook.asks(Choice.SKIP_UNDER_CHAIN)
    )


def _skip_groups(hook: Hook, node: Skip, number: int) -> None:
    for _ in range(min(number, 10_000)):
        found = _seek_group(hook, replace(node.target, which=Which.NEXT))
        if found is None:
            return
        pass_over(hook, (*found.line, found.rest[0]), node.span, "skip")
        hook.ahead = found.rest[1:]
    hook.began = True


def _slip(hook: Hook, node: Make) -> Node | None:
    """A slip stitch travels at the start of a row, joins at its end, and is fabric between."""
    target = node.target
    number = _amount(hook, node.amount)
    if target is not None and _joins(hook, target):
        return None
    travels = not hook.worked
    counts = 0 if travels else 1
    head = Place(PlaceKind.STITCH, "sl st", 0, counts)
    if target is None:
        _slip_over(hook, node, number or 1, head, is_stitch)
        return None
    places = _amount(hook, target.amount)
    if target.which is Which.EACH and places is None:
        places = _number_of(hook.ahead, is_stitch)
    if hook.inside is not None:
        return None
    if places and places > 1:
        _slip_over(hook, node, places, head, wanted_by(hook, target))
        return None
    if travels and target.noun in ("sp", "gap", "here") or target.which is Which.CENTRE:
        if go_to(hook, target, node.span):
            taken = ahead.take(hook.ahead)
            if taken is not None:
                hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
                hook.emit(onto(taken.place, "sl st", (), Into.BOTH_LOOPS), 1, node.span)
                hook.worked_spaces = True
                if hook.task.is_round and hook.asks(Choice.START_WORKED_LAST):
                    hook.ahead = (*hook.ahead, Run(taken.place))
        return None
    if go_to(hook, target, node.span):
        taken = ahead.take(hook.ahead)
        if taken is not None:
            hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
            hook.used_space = is_space(taken.place) > 0
            heads = (head,) if is_stitch(taken.place) or counts else ()
            hook.emit(onto(taken.place, "sl st", heads, Into.BOTH_LOOPS), 1, node.span)
    return None


def _slip_over(hook: Hook, node: Make, number: Count, head: Place, wanted: Wanted) -> None:
    done: Count = 0
    for place, taken in use(hook, wanted, number, node.span):
        hook.emit(onto(place, "sl st", (head,), Into.BOTH_LOOPS), taken, node.span)
        done = done + taken
    if done < number and head.counts:
        hook.missing = hook.missing + (number - done)


def _joins(hook: Hook, target: Target) -> bool:
    """Whether a slip stitch closes the round: into its first stitch or beginning chain."""
    if not hook.worked and not hook.stands_on_first:
        return False
    if target.noun in ("tch", "ring"):
        return True
    if target.which is Which.FIRST or target.noun == "base":
        return True
    return target.noun == "ch" and target.ordinal is not None
