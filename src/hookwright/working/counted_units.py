"""Which numbers may a unit of a count stand for: "12 sts", "5 ch-1 sps", "6 petals"?

Patterns count in more than one habit: every stitch, the beginning chain apart, or the chain
spaces as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import IntEnum

from msgspec.structs import replace

from hookwright.notation.tree import Amount, Figure
from hookwright.working.count import Count
from hookwright.working.groups import (
    SHAPE,
    are_only,
    begins_in_pair,
    halves,
    is_called,
    is_parted_by_join,
    spaces_in_groups,
)
from hookwright.working.mesh import OPEN, SOLID
from hookwright.working.net import solid_squares
from hookwright.working.sequence import Group
from hookwright.working.stitches import (
    is_group_word,
    is_plain,
    is_stitch_name,
    may_be_called,
)
from hookwright.working.stretches import stretches, stretches_alike
from hookwright.working.tally import Tally

SQUARES = frozenset({"block", "mesh", "square", "window", "pane"})
"""Units of the writer's own that nothing here can count unless groups bear the name."""


class Habit(IntEnum):
    """How a pattern counts."""

    ALL = 0
    CHAIN_APART = 1
    SPACES_TOO = 2


HABITS = tuple(Habit)


def is_group_unit(unit: str, tally: Tally) -> bool:
    """Whether a unit counts groups: by their name, or by a word that is no stitch."""
    if unit in tally.groups or unit in ANY_GROUPS or is_group_word(unit):
        return True
    return not is_stitch_name(unit) and bool(tally.groups)


def answers(
    figure: Figure, tally: Tally, habit: Habit, others: tuple[str, ...], *, apart: bool
) -> list[Count] | None:
    """The numbers a unit may stand for in a habit; None where nothing here can count it."""
    minus = tally.beginning if habit is Habit.CHAIN_APART or apart else 0
    unit = _square_of_net(figure.unit, others, tally)
    if unit in ("st", "stitch"):
        spaced = (tally.spaces, tally.chains) if habit is Habit.SPACES_TOO else ()
        beside = sum(tally.kinds.get(other, 0) for other in others)  # "10 sts + 20 dc"
        whole = tally.stitches - minus
        more = (tally.stitches + more for more in spaced)
        return [whole, *more, whole - beside, *_without_slips(whole, tally)]
    if unit in ("sp", "mesh", "ch", OPEN, "gap"):
        return list(_spaces(figure, tally, others))
    square = unit.rpartition(" ")[2] in SQUARES  # "solid mesh", "open block"
    if unit in ANY_GROUPS or square or unit in tally.groups:
        return _groups(unit, tally)
    if unit in tally.topless:
        return [tally.topless[unit]]
    if unit in tally.kinds:
        return list(_of_kind(unit, tally, minus, habit, others))
    if any(is_called(unit, name) for name in tally.groups):
        return [_groups_called(unit, tally.groups)]
    if unit.startswith("half "):
        return _halves(unit.removeprefix("half "), tally)
    if unit == "picot":
        return _in_stitches(tally)
    if (is_group_word(unit) and not tally.groups) or _is_only_a_shape(figure, tally):
        return None
    return [*_of_kind(unit, tally, minus, habit, others), *_joined_petals(unit, tally)]


def _square_of_net(unit: str, others: tuple[str, ...], tally: Tally) -> str:
    """ "9 open squares", "3 solid blocks", "4 sps, 3 bls", "5 open, 3 solid": of a net."""
    if not tally.groups and unit in _KINDS_OF_SQUARE:
        return _KINDS_OF_SQUARE[unit]
    if not tally.groups and unit == "block" and "sp" in others:
        return SOLID
    kind, _, square = unit.partition(" ")
    if square not in SQUARES:
        return unit
    return _KINDS_OF_SQUARE.get(kind, unit)


_KINDS_OF_SQUARE = {
    "open": OPEN, "empty": OPEN, "solid": SOLID, "filled": SOLID, "closed": SOLID
}  # fmt: skip


def _without_slips(whole: Count, tally: Tally) -> Iterator[Count]:
    """Slip stitches between the points of a round, which hardly anybody counts."""
    slips = tally.kinds.get("sl st", 0)
    if tally.edge.closed and 1 < slips < whole:
        yield whole - slips


def _outside_corner(tally: Tally) -> Iterator[Count]:
    """ "6 eyelets" beside "(2 dc, ch 2, 2 dc) in centre sp": its space is none of them."""
    within = spaces_in_groups(tally.edge.line)
    if 0 < within < tally.spaces:
        yield tally.spaces - within


def _halves(unit: str, tally: Tally) -> list[Count] | None:
    """ "9 shells, 2 half shells"; "6 loops, 2 half loops", which have fewer chains."""
    if unit in ("sp", "mesh"):
        whole = max(tally.lengths, default=0)
        return [sum(number for chains, number in tally.lengths.items() if chains < whole)]
    made = halves(unit, tally.edge.line)
    return [made] if made else None


def _joined_petals(unit: str, tally: Tally) -> Iterator[Count]:
    """Petals with slip stitches between: the chain of the first may stand beside it."""
    if unit in _PETALS and "sl st" in tally.kinds:
        yield tally.groups.get("", 0) + 1


_PETALS = frozenset("petal petals point points lobe lobes".split())


def _are_made_of_several(number: Amount, tally: Tally) -> bool:
    """Whether petals are no groups, or each of several: nothing here counts them."""
    made = tally.groups.get("", 0)
    whole = isinstance(made, int) and all(made % (n or 1) == 0 for n in number.values)
    return not made or (whole and made not in number.values)


def _is_only_a_shape(figure: Figure, tally: Tally) -> bool:
    """ "6 points": what no stitch, group or space of the row is called by."""
    unit = figure.unit
    if unit in _PETALS and _are_made_of_several(figure.amount, tally):
        return True
    if is_stitch_name(unit) or unit in _CORNERS or tally.spaces or tally.groups:
        return False
    return all(is_stitch_name(kind) for kind in tally.kinds)


ANY_GROUPS = ("group", "pair")


_CORNERS = ("corner", "corners")


def _groups(unit: str, tally: Tally) -> list[Count] | None:
    """Groups of a name or of any; of pairs those of two."""
    if unit == "pair" and tally.pairs:
        return [tally.pairs, tally.pairs + begins_in_pair(tally.edge.line)]
    if unit == SOLID:
        return solid_squares(tally)
    if unit not in ANY_GROUPS:
        if unit not in tally.groups:
            return None
        called = _groups_called(unit, tally.groups)
        return [called + _is_parted(tally), *_threes(unit, tally)]
    if not tally.groups and not tally.spaces:
        return None
    return [_of_any_name(tally), *_alike(tally), stretches(tally.edge)]


def _of_any_name(tally: Tally) -> Count:
    """All groups; one that the join of a round parts is one."""
    every = tally.groups.get("", 0)
    two = _is_parted(tally) and isinstance(tally.edge.line[-1], Group)
    return every - 1 if two else every


def _is_parted(tally: Tally) -> bool:
    """Whether a round begins in a group and ends with its rest."""
    return tally.edge.closed and is_parted_by_join(tally.edge.line)


def _threes(unit: str, tally: Tally) -> Iterator[Count]:
    """The threes of a granny square between its spaces, two of them in each corner."""
    if unit not in tally.groups and (is_plain(unit) or not is_stitch_name(unit)):
        return
    number, stitches = stretches_alike(tally.edge)
    if stitches >= _FEWEST and are_only(stitches, unit, tally.edge.line):
        yield number


_FEWEST = 3
"""Two stitches between spaces are half of a V."""


def _alike(tally: Tally) -> list[Count]:
    """For each shape of groups, how many of it there are."""
    return [number for name, number in tally.groups.items() if name[:1] == SHAPE]


def _in_stitches(tally: Tally) -> list[Count] | None:
    """Picots that are worked as stitches: groups of a shape, or spaces of a length."""
    return [tally.spaces, *tally.lengths.values(), *_alike(tally)] if tally.spaces else None


_BEGINNING = frozenset((
    "beginning", "beg", "starting", "start", "first", "opening", "edge", "side", "corner",
    "end", "last", "new", "increase", "inc", "increasing", "decrease", "dec", "decreasing",
))  # fmt: skip
"""What the group at the edge of a row is called: it is counted with the others."""


def _is_at_edge(unit: str, name: str) -> bool:
    """Whether a name is the unit's with words before it: "new edge block" of a block."""
    leads = name.removesuffix(f" {unit}")
    return leads != name and _BEGINNING.issuperset(leads.split())


def _groups_called(unit: str, groups: dict[str, Count]) -> Count:
    """Groups of a name, with those that stand for one: "starting block", "edge tile"."""
    if unit in groups:
        at_edge = (name for name in groups if _is_at_edge(unit, name))
        return sum((groups[name] for name in at_edge), groups[unit])
    return sum(number for name, number in groups.items() if is_called(unit, name))


def _spaces(figure: Figure, tally: Tally, others: tuple[str, ...]) -> Iterable[Count]:
    if figure.unit == "mesh":
        yield from _meshes(figure, tally, others)
        return
    if figure.chains is not None and figure.unit == "sp":
        yield tally.lengths.get(figure.chains, 0)
        return
    yield tally.spaces
    rest = sum(n for chains, n in tally.lengths.items() if _of(chains) not in others)
    if rest != tally.spaces:  # "7 loops and 2 ch-2 sps"
        yield rest
    if "corner" in others and len(tally.lengths) > 1:  # "4 corner sps and 8 side sps"
        longest = max(tally.lengths)
        yield sum(n for chains, n in tally.lengths.items() if chains != longest)
    if figure.unit == "gap" and not tally.spaces:  # or between groups
        yield from _groups("group", tally) or ()
    if not (tally.spaces or tally.chains or others) and figure.unit == "sp":
        yield tally.stitches  # "16 loops": the tops of the stitches, where no chain is
    if figure.unit == "ch":
        yield tally.chains
        if not tally.spaces or "sp" in others:  # no other chains are left to be meant
            yield tally.beginning_chains


def of_lengths(figures: Iterable[Figure]) -> Iterator[str]:
    """What the spaces of a length are called that some figures count: "2 ch-3 sps"."""
    for figure in figures:
        if figure.unit == "sp" and figure.chains is not None:
            yield _of(figure.chains)


def _of(chains: int) -> str:
    return f"ch-{chains} sp"


def _meshes(figure: Figure, tally: Tally, others: tuple[str, ...]) -> Iterable[Count]:
    """ "11 meshes": the spaces, or alone all squares of a net, filled ones among them."""
    yield from _spaces(replace(figure, unit="sp"), tally, others)
    solid = None if others else solid_squares(tally)
    yield from (tally.spaces + number for number in solid or ())
    if "mesh" in tally.groups:
        yield _groups_called("mesh", tally.groups)


def _of_kind(
    unit: str, tally: Tally, minus: Count, habit: Habit, others: tuple[str, ...]
) -> Iterable[Count]:
    kinds = {
        kind: number
        for kind, number in tally.kinds.items()
        if kind == unit or (_counts_among(unit, kind) and kind not in others)
    }
    spaced = habit is Habit.SPACES_TOO and not others and tally.spaces != 0
    if kinds and not spaced:
        named: Count = sum(kinds.values())
        yield named - (minus if _holds_beginning(unit, tally, others) else 0)
        if any(_is_stitch_and_chain(other, tally) for other in others):
            alone = named - tally.spaces
            yield from (alone,) if 0 < alone <= _WITHOUT_CHAIN else ()
    if not others:
        slips = tally.kinds.get("sl st", 0) if unit in kinds else 0  # "10 hdc", one slipped
        if not spaced and not slips:
            yield tally.stitches - minus
        if habit is Habit.SPACES_TOO:
            yield tally.stitches + tally.spaces
    if not kinds:
        if "" in tally.groups:
            yield _of_any_name(tally)
        yield from _alike(tally)
        yield from _threes(unit, tally)
        yield from _unnamed(tally, others)
        if not is_stitch_name(unit):
            yield from (tally.spaces, *_outside_corner(tally))
        if unit in _CORNERS:
            yield from tally.lengths.values()


def _holds_beginning(unit: str, tally: Tally, others: tuple[str, ...]) -> bool:
    """Whether the beginning chain is one of a unit: in "24 fptr, 23 tr, 3 ch" a tr."""
    begun = tally.beginning_stitch
    if "ch" in others and begun in others:
        return unit == begun
    return may_be_called(unit, begun)


_WITHOUT_CHAIN = 2
"""So many stitches of a row, at its ends, may have no chain behind them."""


def _is_stitch_and_chain(unit: str, tally: Tally) -> bool:
    """Whether a unit may be a stitch with the chain behind it: "20 beads and a sc"."""
    known = is_stitch_name(unit) or unit in tally.groups or unit in tally.kinds
    return not known and unit not in ANY_GROUPS and bool(tally.spaces)


def _counts_among(unit: str, kind: str) -> bool:
    """Whether a stitch is one of a unit: a decrease is one of what is counted with it."""
    return may_be_called(unit, kind) or (kind == "dec" and is_plain(unit))


def _unnamed(tally: Tally, others: tuple[str, ...]) -> Iterable[Count]:
    """Stitches that the count calls by another name: "5 bobbles" for what MB makes."""
    for kind, number in tally.kinds.items():
        if is_plain(kind) or any(may_be_called(other, kind) for other in others):
            continue
        yield number
