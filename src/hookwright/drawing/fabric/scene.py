"""Which strands lie where: the stitches of a piece as copies of a few shapes.

A copy is laid between two curves: that of the row it stands on and that of its own. Each is
a quadratic B-spline through the tops of a row, so every stitch owns the piece between its
two half-way points, and the pieces join smoothly.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct

from hookwright.drawing.fabric.chance import about_zero
from hookwright.drawing.fabric.cloth import Cloth
from hookwright.drawing.fabric.kinds import CHAINS, turned_post
from hookwright.drawing.fabric.shapes import shape_of
from hookwright.drawing.fabric.strands import Real32, Seen, Shape
from hookwright.shape.columns import PARTS, Real, Truth, Whole
from hookwright.shape.energy import Complex
from hookwright.working.fabric import Into

UNEVEN = 0.05
"""By how much of a stitch places differ from the even ones, from end to end."""
_BEYOND = 0.15
"""How far a row is thought to go on past its end, of the step before it."""
_RING = 0.45
"""How far from the centre of a ring its stitches begin."""
_UP_THE_POST = 0.55
"""How far up the stitch below, from its foot, a stitch round its post goes."""
_INTO_SPACE = 0.42
"""How far below a chain a stitch begins that is worked into its space, round the chain."""
_TO_THE_EYE = 0.26
"""How far a post comes forward that another goes round from the front; back likewise."""
_BESIDE_RIBS = -0.16
"""How far a top comes forward that a post is worked round from behind: it shows as a bar in
the furrow beside raised posts, lower than they are."""
_BEHIND_LOOP = 0.18
"""How far a stitch stands back that is worked behind a loop left free, and how far it comes
forward where that loop lies behind it: so one loop alone makes ribs."""
_FRONT_LOOP, _BACK_LOOP = PARTS.index(Into.FRONT_LOOP), PARTS.index(Into.BACK_LOOP)
_FRONT_POST, _BACK_POST = PARTS.index(Into.FRONT_POST), PARTS.index(Into.BACK_POST)
_THIRD_LOOP = PARTS.index(Into.THIRD_LOOP)


class Copies(Struct, frozen=True, eq=False):
    """Copies of one shape.

    Attributes:
        form: Which shape.
        seen: Which side of it.
        base: (n, 3) the place it stands on, with its neighbours to the left and right.
        top: (n, 3) its top, likewise.
        fit: (n, 4) at the base the middle and the width, at the top the same, in steps.
        yarn: (n,) the number of its yarn.
        seed: (n,) what it is told apart by.
        lift: (n,) how far nearer to the eye it lies, in widths.
        node: (n,) the stitch it belongs to.
    """

    form: str
    seen: Seen
    base: Complex
    top: Complex
    fit: Real32
    yarn: Whole
    seed: Whole
    lift: Real32
    node: Whole

    @property
    def shape(self) -> Shape:
        """The shape."""
        return shape_of(self.form, self.seen)

    @property
    def number(self) -> int:
        """How many."""
        return len(self.seed)


class Scene(Struct, frozen=True, eq=False):
    """All strands of a piece.

    Attributes:
        copies: What lies in it.
        diameter: That of the yarn, in widths of a stitch.
        box: Left, right, bottom and top of what is drawn, in widths.
    """

    copies: tuple[Copies, ...]
    diameter: float
    box: tuple[float, float, float, float]


class Lie(Struct, frozen=True, eq=False):
    """A piece with its places made a little uneven.

    Attributes:
        cloth: The piece.
        threes: (n, 3) each stitch with its neighbours to the left and right.
        seed: (n,) what it is told apart by.
        used: (n,) whether anything is worked into it.
        foot: (n,) what it stands on; -1 for nothing.
    """

    cloth: Cloth
    threes: Complex
    seed: Whole
    used: Truth
    foot: Whole


def scene_of(lie: Lie, diameter: float) -> Scene:
    """All strands of a piece.

    Args:
        lie: The piece.
        diameter: That of the yarn, in widths of a stitch.
    """
    copies = tuple(
        each
        for found in (_chains(lie), _tops(lie), _ridges(lie), _legs(lie), _reaching(lie))
        for each in found
        if each.number
    )
    return Scene(copies, diameter, box_of(lie))


def box_of(lie: Lie) -> tuple[float, float, float, float]:
    """Left, right, bottom and top of a piece, in widths."""
    held = lie.threes[lie.cloth.shown].ravel()
    if not len(held):
        return 0.0, 1.0, 0.0, 1.0
    return (
        float(held.real.min()),
        float(held.real.max()),
        float(held.imag.min()),
        float(held.imag.max()),
    )


def lie_of(cloth: Cloth, uneven: float = UNEVEN) -> Lie:
    """A piece with its places made a little uneven."""
    seed = 4099 * cloth.row + cloth.number
    off = about_zero(seed, 1) + 1j * about_zero(seed, 2)
    position = cloth.position + uneven * off
    used = np.zeros(cloth.size, dtype=bool)
    used[cloth.leg[:, 1]] = True
    used[cloth.beside[cloth.beside >= 0]] = True
    foot = np.full(cloth.size, -1)
    foot[cloth.leg[::-1, 0]] = cloth.leg[::-1, 1]
    return Lie(cloth, _threes(cloth, position), seed, used, foot)


def _threes(cloth: Cloth, position: Complex) -> Complex:
    """(n, 3) each place with its neighbours, thought on past the ends of rows."""
    has_left, has_right = cloth.left >= 0, cloth.right >= 0
    left = np.where(has_left, position[cloth.left], position)
    right = np.where(has_right, position[cloth.right], position)
    beyond_left = position - _BEYOND * (right - position)
    beyond_right = position + _BEYOND * (position - left)
    alone = ~has_left & ~has_right
    left = np.where(has_left, left, np.where(alone, position - 1, beyond_left))
    right = np.where(has_right, right, np.where(alone, position + 1, beyond_right))
    return np.stack([left, position, right], axis=1)


def _on_row(lie: Lie, at: Whole, form: str, lift: float, salt: int = 0) -> Iterator[Copies]:
    """Copies of something that lies along its row, at some stitches."""
    cloth = lie.cloth
    for seen in Seen:
        own = at[cloth.front[at] == (seen is Seen.FRONT)]
        yield Copies(
            form,
            seen,
            base=lie.threes[own],
            top=lie.threes[own],
            fit=np.tile(np.array([0, 1, 0, 1], dtype=np.float32), (len(own), 1)),
            yarn=cloth.yarn[own],
            seed=4 * lie.seed[own] + salt,
            lift=np.full(len(own), lift, dtype=np.float32),
            node=own,
        )


def _chains(lie: Lie) -> Iterator[Copies]:
    """Chains lie low where something is worked into them."""
    cloth = lie.cloth
    chains = cloth.is_chain & cloth.shown
    founded = cloth.row == 0
    yield from _on_row(lie, np.flatnonzero(chains & founded), "ch", -0.05)
    yield from _on_row(lie, np.flatnonzero(chains & ~founded & lie.used), "ch", -0.12)
    yield from _on_row(lie, np.flatnonzero(chains & ~founded & ~lie.used), "ch", 0.05)


def _tops(lie: Lie) -> Iterator[Copies]:
    """The tops of stitches: worked into, or round the post, or not; or of the last row."""
    cloth = lie.cloth
    tops = ~cloth.is_chain & cloth.shown & (cloth.row > 0)
    near, far = _pushed(cloth)
    rows = np.bincount(cloth.row, lie.used & tops, int(cloth.row.max(initial=0)) + 1)
    last = rows[cloth.row] == 0
    plain = tops & lie.used & ~near & ~far
    high, low = _raised(cloth)
    for own, form, lift in (
        (plain & ~high & ~low, "top", -0.06),
        (plain & high, "top", 0.10),
        (plain & low, "top", -0.28),
        (tops & near, "free", _BESIDE_RIBS),
        (tops & far & ~near, "top", -0.30),
        (tops & ~lie.used & ~last, "free", 0.0),
        (tops & ~lie.used & last, "edge", 0.04),
    ):
        yield from _on_row(lie, np.flatnonzero(own), form, lift)


def _pushed(cloth: Cloth) -> tuple[Truth, Truth]:
    """Tops that come forward since a post is worked round from behind, and that go back.

    A half double worked into its third loop turns its top forward as well.
    """
    near = np.zeros(cloth.size, dtype=bool)
    far = np.zeros(cloth.size, dtype=bool)
    front = cloth.front[cloth.leg[:, 0]]
    from_front = cloth.part == _FRONT_POST
    from_back = cloth.part == _BACK_POST
    third = (cloth.part == _THIRD_LOOP) & front
    near[cloth.leg[(from_back & front) | (from_front & ~front) | third, 1]] = True
    far[cloth.leg[(from_front & front) | (from_back & ~front), 1]] = True
    return near, far


def _raised(cloth: Cloth) -> tuple[Truth, Truth]:
    """Stitches that are themselves worked round a post and stand forward, or back."""
    high = np.zeros(cloth.size, dtype=bool)
    low = np.zeros(cloth.size, dtype=bool)
    front = cloth.front[cloth.leg[:, 0]]
    from_front, from_back = cloth.part == _FRONT_POST, cloth.part == _BACK_POST
    high[cloth.leg[(from_front & front) | (from_back & ~front), 0]] = True
    low[cloth.leg[(from_back & front) | (from_front & ~front), 0]] = True
    return high, low


def _ridges(lie: Lie) -> Iterator[Copies]:
    """Loops left free on the side that is seen, in the yarn of their own row."""
    yield from _on_row(lie, ridges_of(lie), "ridge", 0.0, salt=1)


def ridges_of(lie: Lie) -> Whole:
    """The stitches of which the loop on the side that is seen is left free."""
    cloth = lie.cloth
    front = cloth.front[cloth.leg[:, 0]]
    bare = ((cloth.part == _BACK_LOOP) & front) | ((cloth.part == _FRONT_LOOP) & ~front)
    under = np.unique(cloth.leg[bare, 1])
    found: Whole = under[cloth.shown[under]]
    return found


def _legs(lie: Lie) -> Iterator[Copies]:
    """The stitches themselves, one copy for each place they are worked into."""
    cloth = lie.cloth
    top = cloth.leg[:, 0]
    base, fit = bases_of(lie), fits_of(cloth)
    form = forms_of_legs(cloth)
    front = cloth.front[top]
    for name in sorted(set(form)):
        for seen in Seen:
            own = np.flatnonzero((form == name) & (front == (seen is Seen.FRONT)))
            if shape_of(name, seen).strands:
                yield _copies(lie, own, name, seen, base[own], fit[own])
    for side, neighbour in (("left cap", cloth.left), ("right cap", cloth.right)):
        ends = neighbour[top] < 0
        ends &= cloth.foot_order == (0 if side == "left cap" else cloth.feet - 1)
        ends &= ~cloth.stands[top] & ~cloth.is_chain[top]
        own = np.flatnonzero(ends & (form != "sl st"))
        whole = np.tile(np.array([0, 1, 0, 1], dtype=np.float32), (len(own), 1))
        yield _copies(lie, own, side, Seen.FRONT, base[own], whole, salt=3)


def _copies(
    lie: Lie,
    own: Whole,
    form: str,
    seen: Seen,
    base: Complex,
    fit: Real32,
    salt: int = 0,
) -> Copies:
    cloth = lie.cloth
    top = cloth.leg[own, 0]
    near, far = _pushed(cloth)
    lift = _TO_THE_EYE * (far[top].astype(np.float32) - near[top])
    one_loop = np.isin(cloth.part[own], (_FRONT_LOOP, _BACK_LOOP))
    behind = (cloth.part[own] == _BACK_LOOP) == cloth.front[top]
    lift += _BEHIND_LOOP * one_loop * np.where(behind, -1, 1)
    return Copies(
        form,
        seen,
        base=base,
        top=lie.threes[top],
        fit=fit,
        yarn=cloth.yarn[top],
        seed=4 * (16 * lie.seed[top] + cloth.foot_order[own]) + salt,
        lift=lift.astype(np.float32),
        node=top,
    )


def forms_of_legs(cloth: Cloth) -> np.typing.NDArray[np.str_]:
    """(l,) the form of each leg: as chains, round a post, or as its stitch has it."""
    top = cloth.leg[:, 0]
    names = np.array([*cloth.forms, "sl st"], dtype="<U16")
    form = names[np.where(cloth.is_chain[top], len(cloth.forms), cloth.form[top])]
    front = cloth.front[top]
    for name in cloth.forms:
        own = form == name
        if name in CHAINS:
            form[own & cloth.stands[top]] = f"{CHAINS[name]} chains"
        for part, from_front in ((_FRONT_POST, True), (_BACK_POST, False)):
            for seen_front in (True, False):
                turned = own & (cloth.part == part) & (front == seen_front)
                form[turned & ~cloth.stands[top]] = turned_post(
                    name, front=from_front, seen_front=seen_front
                )
    return form


def bases_of(lie: Lie, *, level: bool = False) -> Complex:
    """(l, 3) what each leg stands on, with the places beside that.

    Args:
        lie: The piece.
        level: With the places themselves, not how far down or up from them legs begin.
    """
    cloth = lie.cloth
    top, under = cloth.leg[:, 0], cloth.leg[:, 1]
    base = lie.threes[under]
    gap = cloth.beside >= 0
    base[gap] = (base[gap] + lie.threes[cloth.beside[gap]]) / 2
    ring = cloth.rings[under]
    centre = base[ring, 1:2]
    out = lie.threes[top[ring]] - centre
    base[ring] = centre + _RING * out / np.maximum(np.abs(out), 1e-9)
    if level:
        return base
    post = (cloth.part == _FRONT_POST) | (cloth.part == _BACK_POST)
    post &= lie.foot[under] >= 0
    lower = lie.threes[lie.foot[under[post]]]
    base[post] = _UP_THE_POST * base[post] + (1 - _UP_THE_POST) * lower
    back = _along_own_chain(cloth)
    base[back] = base[back, ::-1]
    space = _in_space(cloth)
    axis = lie.threes[top[space], 1] - base[space, 1]
    base[space] -= (_INTO_SPACE * axis / np.maximum(np.abs(axis), 1e-9))[:, None]
    return base


def _along_own_chain(cloth: Cloth) -> Truth:
    """(l,) which legs stand on a chain of their own row, that is worked back along."""
    found: Truth = cloth.row[cloth.leg[:, 0]] == cloth.row[cloth.leg[:, 1]]
    return found


def _in_space(cloth: Cloth) -> Truth:
    """(l,) which legs go into a chain space, not into the chains."""
    under = cloth.leg[:, 1]
    found: Truth = cloth.is_chain[under] & (cloth.row[under] > 0)
    return found & ~_along_own_chain(cloth)


def fits_of(cloth: Cloth) -> Real32:
    """(l, 4) the middle and width of each leg at its base, and at its top, in steps."""
    under = cloth.leg[:, 1]
    shares = cloth.leg_shares.astype(float)
    off = cloth.leg_order - (shares - 1) / 2
    in_space = _in_space(cloth)
    middle = np.where(in_space, 0.46 * off, 0.9 * off / shares)
    wide: Real = np.where(shares > 1, np.maximum(0.40, shares**-0.7), 1.0)
    wide = np.where(in_space, np.where(shares > 1, 0.85, 1.15), wide)
    ring = cloth.rings[under]
    middle, wide = np.where(ring, 0.0, middle), np.where(ring, 1.0, wide)
    feet = cloth.feet.astype(float)
    at_top = 0.8 * (cloth.foot_order - (feet - 1) / 2) / feet
    wide_top = np.where(feet > 1, 0.5, np.where((shares < 3) | ring, 1.0, 0.86))
    return np.stack([middle, wide, at_top, wide_top], axis=1).astype(np.float32)


def _reaching(lie: Lie) -> Iterator[Copies]:
    """Long legs to places rows down."""
    cloth = lie.cloth
    top, under = cloth.reach[:, 0], cloth.reach[:, 1]
    for seen in Seen:
        own = np.flatnonzero(cloth.front[top] == (seen is Seen.FRONT))
        yield Copies(
            "spike",
            seen,
            base=lie.threes[under[own]],
            top=lie.threes[top[own]],
            fit=np.tile(np.array([0, 1, 0, 1], dtype=np.float32), (len(own), 1)),
            yarn=cloth.yarn[top[own]],
            seed=4 * lie.seed[top[own]] + 2,
            lift=np.zeros(len(own), dtype=np.float32),
            node=top[own],
        )
