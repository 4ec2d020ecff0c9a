"""Whom does each of a garment's own sizes fit, and with how much ease?

Where the text prints the girth of its sizes, or its rounds come to one at the gauge, the
girth is held against the table of bodies: the body of whose fits it is nearest to the
classic one. Source: data/sizes.toml; most of the trade's table is remembered, and says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Along, Finished
from hookwright.sizing.named_sizes import Usual, eases, usual_sizes

_CHESTS = ("chest", "bust")


class Fit(Struct, frozen=True):
    """One of the text's sizes and the body it fits.

    Attributes:
        size: Its name in the text; "" for a pattern in one size.
        girth: How far around it is, finished.
        body: Whom it fits; None where no body of the table is near.
        ease: How much wider than that body's chest it is.
        fit: What such an ease is called: "classic"; "" outside of all.
        printed: The chest that the text says it fits; None where it says none.
    """

    size: str
    girth: Fraction
    body: Usual | None
    ease: Fraction
    fit: str
    printed: Fraction | None = None


def fits_of(checked: Checked) -> tuple[Fit, ...]:
    """The sizes of a garment, in the order of the text; none for what is no garment."""
    girths = _told(checked, to_fit=False)
    bodies = _told(checked, to_fit=True)
    if girths is None:
        return ()
    return tuple(_fits(checked, girths, bodies))


def _told(checked: Checked, *, to_fit: bool) -> Finished | None:
    """The chest as it is printed, of the garment or of the body."""
    return next(
        (
            found
            for found in checked.design.finished
            if found.of in _CHESTS and found.to_fit is to_fit
            and found.along in {Along.AROUND, Along.UNSAID}
        ),
        None,
    )  # fmt: skip


def _fits(checked: Checked, girths: Finished, bodies: Finished | None) -> Iterator[Fit]:
    names = checked.sizes or ("",)
    told = bodies.measure if bodies is not None else girths.measure
    ease = Fraction(0) if bodies is not None else _classic()
    chests = [mm - ease for n in range(len(names)) if (mm := told.at(n)) is not None]
    group = _group_of(chests)
    for number, name in enumerate(names):
        girth = girths.measure.at(number)
        if girth is None:
            continue
        printed = bodies.measure.at(number) if bodies is not None else None
        body = _body_of(printed if printed is not None else girth - _classic(), group)
        chest = printed if printed is not None else _middle(body) if body else girth
        own = girth - chest
        yield Fit(name, girth, body, own, _called(own), printed)


def _bodies(group: str) -> list[Usual]:
    """The bodies of a group: babies, children, women or men."""
    bodies = [size for size in usual_sizes() if size.chest is not None]
    return [body for body in bodies if body.name.startswith(group)]


_GROUPS = ("baby", "child", "woman", "man")


def _group_of(chests: Sequence[Fraction]) -> str:
    """The group in which the sizes of a garment find bodies best, all of them together."""
    return min(
        _GROUPS,
        key=lambda group: sum(
            min(_distance(body, chest) for body in _bodies(group)) for chest in chests
        ),
    )


def _middle(body: Usual) -> Fraction:
    assert body.chest is not None
    return sum(body.chest, Fraction(0)) / 2


def _body_of(chest: Fraction, group: str) -> Usual | None:
    """The body whose chest it is: within its range, or next to its middle."""
    near = min(_bodies(group), key=lambda body: _distance(body, chest))
    return near if _distance(near, chest) <= _NEAR_MM else None


_NEAR_MM = Fraction(254, 10)


def _distance(body: Usual, chest: Fraction) -> Fraction:
    assert body.chest is not None
    low, high = body.chest
    return max(low - chest, chest - high, Fraction(0))


def _classic() -> Fraction:
    """The middle of the classic ease."""
    classic = next(ease for ease in eases() if ease.fit == "classic")
    return (classic.least + classic.most) / 2


def _called(ease: Fraction) -> str:
    """What an ease is called; the looser of two that meet."""
    found = [fit.fit for fit in eases() if fit.least <= ease <= fit.most]
    return found[-1] if found else ""
