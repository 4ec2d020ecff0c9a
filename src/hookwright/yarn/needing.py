"""What does each colour take in a size: length, weight, balls, cost, and what is left?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import YarnBeside
from hookwright.yarn.balls import Bought, bought, cost_of, left_over, whole_balls
from hookwright.yarn.beside import Beside, Measures, beside, carried_up
from hookwright.yarn.cutting import Stretch, stretches
from hookwright.yarn.facts import (
    NOTHING,
    Basis,
    ColourNeed,
    Estimate,
    Join,
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
        beside: Yarn that no row is made of.
        row_mm: How high a row is; None where that is not known.
    """

    known: Known
    laws: Mapping[str, Law]
    allowance: Fraction
    tail: Fraction
    carried: bool = False
    instead: Fraction | None = None
    beside: tuple[YarnBeside, ...] = ()
    row_mm: Fraction | None = None

    def yarn(self, label: str) -> Yarn:
        """A yarn by its label."""
        own = (yarn for yarn in self.known.yarns if yarn.label == label)
        return next(own, None) or only_named(label)

    def law(self, label: str) -> Law:
        """The loops of a yarn; of one nobody knows, those of the first."""
        return self.laws.get(label) or next(iter(self.laws.values()))


class Used(Struct, frozen=True):
    """Loops that some rows take, of all that are made.

    Attributes:
        loops: By yarn, then by what the row is for and the kind of stitch.
        cut: Separate lengths of each yarn.
        beside: What is needed beside the stitches.
    """

    loops: Mapping[str, Mapping[tuple[Section, str], Fraction | int]]
    cut: Mapping[str, int]
    beside: tuple[Beside, ...] = ()


def used_in(
    rows: Sequence[RowUsed],
    found: Sequence[Stretch],
    terms: Terms,
    width_mm: Fraction | None,
) -> Used:
    """The loops of some rows, by colour, and what is needed beside them."""
    loops: dict[str, dict[tuple[Section, str], Fraction | int]] = {}
    for row in rows:
        for use in row.uses:
            own = loops.setdefault(use.yarn or "", {})
            key = (row.section, use.kind)
            own[key] = own.get(key, 0) + use.loops * use.number * row.make
    cut: dict[str, int] = {}
    for one in found:
        cut[one.yarn] = cut.get(one.yarn, 0) + one.make
    measures = Measures(width_mm, terms.row_mm)

    def stitches(label: str) -> Estimate:
        own = [label] if label else list(loops)
        long = NOTHING
        for yarn in own:
            for (_, kind), many in loops.get(yarn, {}).items():
                long = long.plus(terms.law(yarn).at(kind).of(many))
        return long

    further = (
        *beside(terms.beside, terms.known, rows, measures, stitches),
        *carried_up(found, measures),
    )
    for needed in further:
        loops.setdefault(needed.yarn, {})
    return Used(loops, cut, further)


class Had(Struct, frozen=True):
    """What is to be had of a colour.

    Attributes:
        sections: The lengths of its stitches by what they are for.
        stitches: These together.
        spread: How far they may be off, in parts of them.
        over: What is to be had over the need, in parts of it.
        cut: Its separate lengths.
        bought: Its balls.
    """

    sections: Mapping[Section, Estimate]
    stitches: Estimate
    spread: Fraction
    over: Fraction
    cut: int
    bought: Bought


def had_of(label: str, used: Used, terms: Terms) -> Had:
    """What is to be had of a colour: its stitches, its ends, and more to be sure."""
    law, ball = terms.law(label), terms.yarn(label).ball_mm
    sections: dict[Section, Estimate] = {}
    for (section, kind), many in used.loops[label].items():
        sections[section] = sections.get(section, NOTHING).plus(law.at(kind).of(many))
    for further in used.beside:
        if further.yarn == label:
            known = sections.get(Section.BESIDE, NOTHING)
            sections[Section.BESIDE] = known.plus(further.length)
    stitches = NOTHING
    for length in sections.values():
        stitches = stitches.plus(length)
    cut = used.cut.get(label, 0)
    spread = (stitches.high - stitches.mid) / stitches.mid if stitches.mid else Fraction(0)
    over = max(terms.allowance, spread)
    need = stitches.mid + 2 * cut * terms.tail
    return Had(
        sections, stitches, spread, over, cut,
        bought(need, ball or need + 1, over, terms.tail),
    )  # fmt: skip


def need_of(size: SizeCounted, terms: Terms) -> SizeNeed:
    """What a size takes."""
    found = stretches(size.rows, carried=terms.carried)
    used = used_in(size.rows, found, terms, size.width_mm)
    order = {yarn.label: at for at, yarn in enumerate(terms.known.yarns)}
    colours = tuple(
        colour_need(size.rows, label, found, used, terms)
        for label in sorted(used.loops, key=lambda label: order.get(label, len(order)))
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
        if (share := share_in_hand(need.yarn, need.bought)) is not None and share < 1
    }
    return tuple(sorted(shares, key=lambda label: shares[label]))


def share_in_hand(yarn: Yarn, had: Fraction) -> Fraction | None:
    """What part of a length is in hand; None where that is not told."""
    have, ball = yarn.in_hand, yarn.ball_mm
    if have is None or ball is None or not had:
        return None
    return have * ball / had


def merged(uses: Sequence[tuple[Use, int]]) -> tuple[Use, ...]:
    """Stitches of a kind together, each so many times."""
    found: dict[tuple[str | None, str, int], Fraction] = {}
    for use, make in uses:
        key = (use.yarn, use.kind, use.loops)
        found[key] = found.get(key, Fraction(0)) + use.number * make
    return tuple(Use(*key, number) for key, number in found.items())


def colour_need(
    rows: Sequence[RowUsed],
    label: str,
    found: Sequence[Stretch],
    used: Used,
    terms: Terms,
) -> ColourNeed:
    """What one colour takes of some rows."""
    yarn, law = terms.yarn(label), terms.law(label)
    had = had_of(label, used, terms)
    own = [one for one in found if one.yarn == label]
    have, ball = had.bought, yarn.ball_mm
    ends = 2 * had.cut + 2 * have.joins
    length = had.stitches.plus(exactly(ends * terms.tail))
    balls = have.balls if ball is not None else None
    joins: tuple[Join, ...] = ()
    if ball is not None and all(one.make == 1 for one in own):
        taken = row_lengths(rows, label, law)
        joins = joins_of(
            rows, taken, own, ball, had.spread, terms.tail, striped=len(used.loops) > 1
        )
    uses = merged([(u, row.make) for row in rows for u in row.uses if u.yarn == label])
    return ColourNeed(
        yarn,
        uses,
        sum(any(use.yarn == label for use in row.uses) for row in rows),
        tuple(had.sections.items()),
        ends * terms.tail,
        length,
        _weight(length, yarn),
        had.cut,
        joins,
        ends,
        have.had,
        balls,
        _to_buy(yarn, have.had),
        _cost(yarn, balls),
        None if ball is None else left_over(have.balls, ball, length.mid),
        _leftover_g(yarn, balls, length.mid),
        whole_balls(have.had, terms.instead) if terms.instead else None,
        (
            *(one.said for one in used.beside if one.yarn == label),
            *how_of(uses, law, yarn, had, terms),
        ),
    )


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


def how_of(
    uses: Sequence[Use], law: Law, yarn: Yarn, had: Had, terms: Terms
) -> Iterator[str]:
    """How the figures of a colour came about, in sentences."""
    for use in uses:
        loop = law.at(use.kind)
        each = loop.mm * use.loops
        of = "a loop" if use.loops == 1 else f"{use.loops} loops"
        yield (
            f"{float(use.number):,.0f} {use.kind}: {of} of {float(loop.mm):.1f} mm, "
            f"{float(each):.0f} mm each, {float(each * use.number) / 1000:.1f} m."
        )
    parts = ", ".join(
        f"{section} {float(length.mid) / 1000:.1f} m"
        for section, length in had.sections.items()
    )
    yield f"By what they are for: {parts}."
    joins = had.bought.joins
    ends = 2 * had.cut + 2 * joins
    lengths = f"{had.cut} separate length{'' if had.cut == 1 else 's'}"
    more = f" and {joins} join{'' if joins == 1 else 's'} of balls" if joins else ""
    yield (
        f"{lengths}{more}: {ends} ends of {float(terms.tail) / 10:.0f} cm, "
        f"{float(ends * terms.tail) / 1000:.1f} m."
    )
    which = "the allowance" if had.over == terms.allowance else "as far as it may be off"
    much = float(had.bought.had) / 1000
    told = f"{much:.1f} m are to be had, {float(had.over):.0%} over the need, {which}"
    ball = yarn.ball_mm
    if ball is None:
        yield f"{told}. How long a ball is is not told."
        return
    balls = had.bought.balls
    yield f"{told}: {_balls(balls, ball)}{_one_fewer(had.bought, ball)}."


def _balls(balls: int, ball: Fraction) -> str:
    many = f"{balls} ball{'' if balls == 1 else 's'} of {float(ball) / 1000:g} m"
    return many if balls < 2 else f"{many} have {float(balls * ball) / 1000:g} m"


def _one_fewer(have: Bought, ball: Fraction) -> str:
    """What one ball fewer would leave over, where it would be enough just so."""
    over = (have.balls - 1) * ball / have.need - 1 if have.need else Fraction(-1)
    if over < 0:
        return ""
    return f"; {have.balls - 1} would leave {float(over):.1%} over"
