"""Which places of an edge a noun means: "st", "next dc", "ch-2 sp", "shell"."""

from __future__ import annotations

from functools import partial

from msgspec.structs import replace

from hookwright.notation.place_words import GROUP_NOUNS
from hookwright.notation.tree import Target, Which
from hookwright.working import ahead, sides
from hookwright.working.ahead import Ahead
from hookwright.working.conventions import Choice
from hookwright.working.corner_spaces import IN_CORNER, corner_space, is_corner_space
from hookwright.working.fabric import Place, PlaceKind
from hookwright.working.hook import Hook, Wanted, is_stitch
from hookwright.working.sequence import split, total
from hookwright.working.stitches import is_called, may_be_called


def on_ring(hook: Hook) -> bool:
    """Whether the row is worked into a ring."""
    return hook.edge_holds(lambda place: place.kind is PlaceKind.RING)


def wanted_by(hook: Hook, target: Target) -> Wanted:
    """Which places a target's noun means."""
    noun = target.noun
    if target.row and noun not in ("sp", "corner"):  # its own stitches are not those here
        return is_stitch
    if sides.is_side(noun) and ahead.holds(hook.ahead, partial(sides.on_side, noun)):
        return partial(sides.on_side, noun)
    if noun in ("st", "base", "here", "row end", "tch"):
        return is_stitch
    if noun == "corner":
        return corner_wanted(hook)
    if noun == "sp":
        return space_wanted(hook, target)
    if noun in ("ch", "underside"):
        return _chain_wanted(hook)
    return _named(hook, noun)


def corner_wanted(hook: Hook) -> Wanted:
    """A corner is the longest of the spaces on the edge, or one that is called so."""
    chains = corner_space(hook.edge_line)
    if not chains:
        return is_stitch
    if hook.edge_holds(lambda place: place.stitch == IN_CORNER):
        return lambda place: place.stitch == IN_CORNER
    return lambda place: is_corner_space(place, chains)


def space_wanted(hook: Hook, target: Target) -> Wanted:
    """The test for a space that a target asks for."""
    chains = target.chains

    holed = hook.edge_holds(lambda p: p.kind is PlaceKind.SPACE)
    if not holed and ahead.holds(hook.ahead, _is_underside):
        return _is_underside

    def exact(place: Place) -> bool:
        return place.kind is PlaceKind.SPACE and place.chains == chains

    if chains is not None and hook.edge_holds(exact):
        return exact
    return lambda place: place.kind is PlaceKind.SPACE


def _is_underside(place: Place) -> bool:
    return place.kind is PlaceKind.UNDERSIDE


def chain_meant(hook: Hook, target: Target) -> Target:
    """ "To the 3 ch": the space of so many chains, or the chain that a row began with."""
    number = target.amount.at(hook.task.size) if target.amount is not None else None
    if target.noun != "ch" or target.which is not Which.NEXT or number is None:
        return target
    kinds = {
        "sp": lambda place: place.kind is PlaceKind.SPACE and place.chains == number,
        "tch": lambda place: ahead.is_beginning(place) and place.chains == number,
    }
    for noun, meant in kinds.items():
        if ahead.holds(hook.ahead, meant):
            return replace(target, noun=noun, chains=number, amount=None)
    return target


def is_chain(place: Place) -> bool:
    """Whether a place is a chain."""
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
    own = hook.task.own

    def fits(place: Place) -> bool:
        if place.counts <= 0:
            return False
        built = own.get(place.stitch)  # "each dc" takes in those of a crossed pair
        return may_be_called(noun, place.stitch) or (
            built is not None and may_be_called(noun, built.stitch)
        )

    front = ahead.seek(hook.ahead, is_stitch)
    if front is None:
        return is_stitch
    taken = ahead.take(front.rest)
    if taken is not None and fits(taken.place):
        mixed = ahead.holds(front.rest, lambda p: p.counts > 0 and not fits(p))
        return is_stitch if mixed and hook.asks(Choice.OTHERS_AMONG) else fits
    known = hook.edge_holds(lambda p: fits(p) and not ahead.is_beginning(p))
    if not known:
        hook.oddness += 1
    if not known or hook.asks(Choice.LOOSE_NOUNS):
        return is_stitch
    return fits


def is_group_name(hook: Hook, noun: str) -> bool:
    """Whether the edge has groups of this name; a "pair" may be any of them."""
    any_group = noun in GROUP_NOUNS
    return hook.edge_holds_group(lambda g: any_group or is_called(g.name, noun))


def number_of(line: Ahead, wanted: Wanted) -> int:
    """How many places of a kind lie ahead."""
    number = total(line, lambda place: int(wanted(place)))
    return number if isinstance(number, int) else 0


def only_spaces(hook: Hook) -> bool:
    """Whether no stitch lies ahead."""
    return not ahead.holds(hook.ahead, is_stitch)


def cut_before(line: Ahead, count: int, wanted: Wanted) -> tuple[Ahead, Ahead] | None:
    """The line cut in front of its last places of a kind, or None for too few."""
    if not count:
        return (), line
    return split(line, count, lambda place: int(wanted(place)))
