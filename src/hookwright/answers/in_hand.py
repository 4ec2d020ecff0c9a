""" "Is my yarn enough?": for all of it, or up to which row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import floor

from msgspec import Struct

from hookwright.answers.enough import balls_for
from hookwright.answers.facts import Figure, Reply
from hookwright.answers.listed_yarn import Needed, listed_yarn
from hookwright.answers.main_piece import sized_as
from hookwright.answers.reckoned_yarn import by_the_stitches, colour_of, largest_with
from hookwright.answers.rows_reached import Reached, rows_reached
from hookwright.answers.yarn_told import YARD_M, InHand, in_hand_told
from hookwright.checking import Checked
from hookwright.design.cautions import caution
from hookwright.sizing.lengths import NoLength, in_both
from hookwright.sizing.sized import Request
from hookwright.yarn.facts import SizeNeed

_QUESTION = "Is my yarn enough?"


class _Share(Struct, frozen=True):
    """A colour, and how much of what it needs is there."""

    need: Needed
    share: Fraction


def in_hand(checked: Checked, size: int, words: str) -> Reply:
    """A reply to a maker who tells what yarn she has.

    Args:
        checked: The pattern.
        size: The size she makes, from 0.
        words: "14 balls", "3 balls of A, 2 balls of B", "350 g".
    """
    told = in_hand_told(words)
    if isinstance(told, NoLength):
        return Reply(_QUESTION, (told.message, told.why), answered=False)
    needs = listed_yarn(checked, size)
    if not needs:
        why = "The materials do not tell how many balls are needed."
        return Reply(_QUESTION, (why,), answered=False)
    shares = _shares(told, needs)
    if isinstance(shares, NoLength):
        return Reply(_QUESTION, (shares.message, shares.why), answered=False)
    short = [one for one in shares if one.share < 1]
    reckoned = by_the_stitches(checked, size)
    working = (
        *map(_worked_out, shares),
        *(line for one in shares for line in _by_stitches(reckoned, one)),
    )
    largest = tuple(_largest(checked, reckoned, shares))
    if not short:
        listed = ", ".join(_listed(one.need) for one in shares)
        yes = (f"Yes, it is enough: the materials ask for {listed}.", *largest)
        return Reply(_QUESTION, yes, working)
    reached = tuple(rows_reached(checked, size, one.need, one.share) for one in short)
    answer = (
        *(_lacking(one) for one in short),
        *_enough(checked, short, reached),
        *largest,
        "Count it with a spare: what is listed is whole balls, and hands differ.",
    )
    return Reply(
        _QUESTION,
        answer,
        working,
        (caution("dye_lot"),),
        tuple(_figures(short, reached)),
    )


def _by_stitches(reckoned: SizeNeed | None, one: _Share) -> Iterator[str]:
    """What the colour takes by its stitches, beside what is listed."""
    own = colour_of(reckoned, one.need)
    if own is None or one.need.ball_m is None:
        return
    low, mid, high = (
        length / 1000 / one.need.ball_m
        for length in (own.length.low, own.length.mid, own.length.high)
    )
    metres = own.length.mid / 1000
    yield (
        f"{one.need.name}: by its stitches it takes about {float(metres):,.0f} m "
        f"({float(metres / YARD_M):,.0f} yd), which is {float(mid):.1f} balls "
        f"(between {float(low):.1f} and {float(high):.1f}); the rest is what is kept over."
    )


def _largest(
    checked: Checked, reckoned: SizeNeed | None, shares: Sequence[_Share]
) -> Iterator[str]:
    """The largest piece of what there is, where all colours are told."""
    own = [(colour_of(reckoned, one.need), one) for one in shares]
    balls = {
        found.yarn.label: one.need.wanted * one.share
        for found, one in own
        if found is not None
    }
    unit = sized_as(checked, Request()).unit
    told: set[tuple[int | None, int]] = set()
    for reach in largest_with(checked, balls):
        made = (reach.repeats, reach.rows)
        if None in {reach.repeats, reach.width_mm, reach.height_mm} or made in told:
            continue
        assert reach.width_mm is not None
        assert reach.height_mm is not None
        told.add(made)
        yield (
            f"The largest with it, {reach.of}: {reach.repeats} repeats and {reach.rows} "
            f"rows, about {in_both(reach.width_mm, unit)} wide and "
            f"{in_both(reach.height_mm, unit)} high."
        )


def _shares(
    told: Sequence[InHand], needs: Sequence[Needed]
) -> tuple[_Share, ...] | NoLength:
    """Each colour with its share; an amount without a colour is of all of them together."""
    whole = [one for one in told if not one.of]
    found: list[_Share] = []
    for one in told:
        if not one.of:
            continue
        need = next((n for n in needs if _is_called(n, one.of)), None)
        if need is None:
            return NoLength(
                f'The materials list no yarn called "{one.of}".',
                f"They list {', '.join(need.name for need in needs)}.",
            )
        found.append(_Share(need, _part(one, [need])))
    if whole:
        share = sum((_part(one, needs) for one in whole), Fraction(0))
        found += [_Share(need, share) for need in needs if not _is_in(need, found)]
    return tuple(found)


def _is_in(need: Needed, found: Sequence[_Share]) -> bool:
    return any(one.need is need for one in found)


def _is_called(need: Needed, words: str) -> bool:
    low = words.lower().removeprefix("colour ").removeprefix("color ")
    return low == need.letter.lower() or low in need.name.lower()


def _part(one: InHand, needs: Sequence[Needed]) -> Fraction:
    """How much of what some colours need together an amount is; 1 where nothing tells."""
    wanted = {
        "balls": sum((need.wanted for need in needs), Fraction(0)),
        "m": sum((need.metres or Fraction(0) for need in needs), Fraction(0)),
        "g": sum((need.grams or Fraction(0) for need in needs), Fraction(0)),
    }[one.unit]
    return one.number / wanted if wanted else Fraction(1)


def _listed(need: Needed) -> str:
    return f"{float(need.balls):g} {'ball' if need.balls == 1 else 'balls'} of {need.name}"


def _balls(number: Fraction) -> str:
    return f"{float(number):.2f}".rstrip("0").rstrip(".")


def _lacking(one: _Share) -> str:
    lacks = one.need.wanted * (1 - one.share)
    more = balls_for(lacks, Fraction(1))
    return (
        f"{one.need.name}: you have {float(one.share):.0%} of what is asked for; "
        f"{float(lacks):.1f} of {_balls(one.need.wanted)} balls are lacking, so get "
        f"{more} more."
    ).replace("%", " %")


def _worked_out(one: _Share) -> str:
    return (
        f"{one.need.name}: {float(one.need.wanted * one.share):.2f} of "
        f"{_balls(one.need.wanted)} balls."
    )


def _enough(
    checked: Checked, short: Sequence[_Share], reached: Sequence[Reached | None]
) -> Iterator[str]:
    make = checked.reading.pattern.parts[0].make if checked.reading.pattern.parts else 1
    for one, rows in zip(short, reached, strict=True):
        if make > 1:
            yield f"It is enough for {floor(make * one.share)} of the {make} pieces."
        elif rows is not None:
            yield rows.told(one.need)


def _figures(
    short: Sequence[_Share], reached: Sequence[Reached | None]
) -> Iterator[tuple[str, Figure]]:
    for one, rows in zip(short, reached, strict=True):
        yield f"share {one.need.name}", round(float(one.share), 4)
        more = balls_for(one.need.wanted * (1 - one.share), Fraction(1))
        yield f"balls more {one.need.name}", more
        yield f"rows {one.need.name}", rows.rows if rows is not None else None
