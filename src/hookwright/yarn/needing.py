"""What does each colour take in a size: length, weight, balls, cost, and what is left?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from hookwright.yarn.balls import bought, cost_of, left_over, whole_balls
from hookwright.yarn.cutting import Stretch, stretches
from hookwright.yarn.facts import (
    NOTHING,
    Basis,
    ColourNeed,
    Estimate,
    Law,
    LoopLength,
    RowUsed,
    Section,
    SizeCounted,
    SizeNeed,
    Use,
    Yarn,
    exactly,
)
from hookwright.yarn.joining import joins_of, row_lengths
from hookwright.yarn.known import Known, only_named


class Terms(Struct, frozen=True):
    """What a need is reckoned with.

    Attributes:
        known: The yarns there are.
        laws: How long a loop is in each, by its label.
        allowance: What is to be had over the need, in parts of it.
        tail: The length of an end.
        carried: Whether stripes are carried up the side.
        instead: The length of a ball of another yarn; None if none is asked for.
    """

    known: Known
    laws: Mapping[str, Law]
    allowance: Fraction
    tail: Fraction
    carried: bool = False
    instead: Fraction | None = None

    def yarn(self, label: str) -> Yarn:
        """A yarn by its label."""
        own = (yarn for yarn in self.known.yarns if yarn.label == label)
        return next(own, None) or only_named(label)

    def law(self, label: str) -> Law:
        """The loops of a yarn; of one nobody knows, those of the first."""
        return self.laws.get(label) or next(iter(self.laws.values()))


def labels_in(rows: Sequence[RowUsed], known: Known) -> list[str]:
    """The colours of some rows, in the order of the worksheet."""
    used = dict.fromkeys(use.yarn or "" for row in rows for use in row.uses)
    order = {yarn.label: at for at, yarn in enumerate(known.yarns)}
    return sorted(used, key=lambda label: order.get(label, len(order)))


def need_of(size: SizeCounted, terms: Terms) -> SizeNeed:
    """What a size takes."""
    found = stretches(size.rows, carried=terms.carried)
    colours = tuple(
        colour_need(size.rows, label, found, terms)
        for label in labels_in(size.rows, terms.known)
    )
    length, weight = NOTHING, NOTHING
    for need in colours:
        length = length.plus(need.length)
        weight = weight.plus(need.weight or NOTHING)
    weighed = all(need.weight is not None for need in colours)
    bases = {loop.basis for need in colours for loop in _loops_of(terms, need)}
    short = _short(colours)
    told = all(need.yarn.in_hand is not None and need.balls is not None for need in colours)
    return SizeNeed(
        size,
        colours,
        Basis.SWATCH if bases == {Basis.SWATCH} else Basis.PRIOR,
        length,
        weight if weighed else None,
        tuple(_costs(colours).items()),
        None if not told else not short,
        short,
    )


def _loops_of(terms: Terms, need: ColourNeed) -> Iterator[LoopLength]:
    law = terms.law(need.yarn.label)
    return (law.at(use.kind) for use in need.uses)


def _costs(colours: Sequence[ColourNeed]) -> dict[str, Decimal]:
    """The sums by currency."""
    sums: dict[str, Decimal] = {}
    for need in colours:
        if need.cost is not None and need.yarn.listed is not None:
            money = need.yarn.listed.currency
            sums[money] = sums.get(money, Decimal(0)) + need.cost
    return sums


def _short(colours: Sequence[ColourNeed]) -> tuple[str, ...]:
    """Colours there is too little of, the one that limits most first."""
    shares = {
        need.yarn.label: share
        for need in colours
        if (share := share_in_hand(need)) is not None and share < 1
    }
    return tuple(sorted(shares, key=lambda label: shares[label]))


def share_in_hand(need: ColourNeed) -> Fraction | None:
    """What part of a need is in hand; None where that is not told."""
    have, ball = need.yarn.in_hand, need.yarn.ball_mm
    if have is None or ball is None or not need.bought:
        return None
    return have * ball / need.bought


def merged(uses: Sequence[tuple[Use, int]]) -> tuple[Use, ...]:
    """Stitches of a kind together, each so many times."""
    found: dict[tuple[str | None, str, int], Fraction] = {}
    for use, make in uses:
        key = (use.yarn, use.kind, use.loops)
        found[key] = found.get(key, Fraction(0)) + use.number * make
    return tuple(Use(*key, number) for key, number in found.items())


def colour_need(
    rows: Sequence[RowUsed], label: str, found: Sequence[Stretch], terms: Terms
) -> ColourNeed:
    """What one colour takes of some rows."""
    yarn, law = terms.yarn(label), terms.law(label)
    own = [one for one in found if one.yarn == label]
    sections = _by_section(rows, label, law)
    stitches = NOTHING
    for length in sections.values():
        stitches = stitches.plus(length)
    cut = sum(one.make for one in own)
    ball = yarn.ball_mm
    spread = (stitches.high - stitches.mid) / stitches.mid if stitches.mid else Fraction(0)
    over = max(terms.allowance, spread)
    need = stitches.mid + 2 * cut * terms.tail
    have = bought(need, ball or need + 1, over, terms.tail)
    tails = (2 * cut + 2 * have.joins) * terms.tail
    length = stitches.plus(exactly(tails))
    balls = have.balls if ball is not None else None
    joins = (
        joins_of(rows, row_lengths(rows, label, law), own, ball, spread, terms.tail)
        if ball is not None
        else ()
    )
    uses = merged([(u, row.make) for row in rows for u in row.uses if u.yarn == label])
    return ColourNeed(
        yarn,
        uses,
        sum(any(use.yarn == label for use in row.uses) for row in rows),
        tuple(sections.items()),
        tails,
        length,
        _weight(length, yarn),
        cut,
        joins,
        2 * cut + 2 * have.joins,
        have.had,
        balls,
        _to_buy(yarn, have.had),
        _cost(yarn, balls),
        None if ball is None else left_over(have.balls, ball, length.mid),
        _leftover_g(yarn, balls, length.mid),
        whole_balls(have.had, terms.instead) if terms.instead else None,
        tuple(_said(uses, law, yarn, sections, cut, have.joins, terms, over, have.had, balls)),
    )


def _by_section(
    rows: Sequence[RowUsed], label: str, law: Law
) -> dict[Section, Estimate]:
    found: dict[Section, Estimate] = {}
    loops: dict[tuple[Section, str], Fraction] = {}
    for row in rows:
        for use in row.uses:
            if use.yarn == label:
                key = (row.section, use.kind)
                many = use.loops * use.number * row.make
                loops[key] = loops.get(key, Fraction(0)) + many
    for (section, kind), many in loops.items():
        found[section] = found.get(section, NOTHING).plus(law.at(kind).of(many))
    return found


def _weight(length: Estimate, yarn: Yarn) -> Estimate | None:
    gram = yarn.mm_per_g
    return length.times(1 / gram) if gram is not None else None


def _to_buy(yarn: Yarn, had: Fraction) -> int | None:
    if yarn.in_hand is None or yarn.ball_mm is None:
        return None
    return max(0, whole_balls(had - yarn.in_hand * yarn.ball_mm, yarn.ball_mm))


def _cost(yarn: Yarn, balls: int | None) -> Decimal | None:
    price = yarn.listed.price if yarn.listed is not None else None
    return None if price is None or balls is None else cost_of(balls, price)


def _leftover_g(yarn: Yarn, balls: int | None, need: Fraction) -> Fraction | None:
    long, gram = yarn.ball_mm, yarn.mm_per_g
    if balls is None or long is None or gram is None:
        return None
    return left_over(balls, long, need) / gram


def _said(
    uses: Sequence[Use],
    law: Law,
    yarn: Yarn,
    sections: Mapping[Section, Estimate],
    cut: int,
    joins: int,
    terms: Terms,
    over: Fraction,
    had: Fraction,
    balls: int | None,
) -> Iterator[str]:
    """How the figures of a colour came about."""
    for use in uses:
        loop = law.at(use.kind)
        each = float(loop.mm * use.loops)
        many = f"{float(use.number):,.0f} {use.kind}"
        metres = float(loop.mm * use.loops * use.number) / 1000
        yield f"{many}: {use.loops} x {float(loop.mm):.1f} mm = {each:.0f} mm each, {metres:.1f} m."
    parts = ", ".join(
        f"{section} {float(length.mid) / 1000:.1f} m" for section, length in sections.items()
    )
    ends = 2 * cut + 2 * joins
    tails = float(ends * terms.tail) / 1000
    yield f"That is {parts}."
    lengths = f"{cut} separate length{'' if cut == 1 else 's'}"
    more = f" and {joins} join{'' if joins == 1 else 's'} of balls" if joins else ""
    yield (
        f"{lengths}{more} have {ends} ends of {float(terms.tail) / 10:.0f} cm: {tails:.1f} m."
    )
    which = "the allowance" if over == terms.allowance else "as far as it may be off"
    told = f"With {float(over):.0%} over, {which}, {float(had) / 1000:.1f} m are to be had"
    ball = yarn.ball_mm
    if ball is None or balls is None:
        yield f"{told}; how long a ball is is not told."
        return
    exact = float(had / ball)
    yield f"{told}: {exact:.2f} balls of {float(ball) / 1000:g} m, so {balls}."
