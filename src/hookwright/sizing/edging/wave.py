"""Where do the peaks and valleys of a row lie?

A wave has its increases in one place and its decreases in another, with plain stitches
between, and each peak stands on the peak of the row below. Plain rows may lie between those
that bend, and increases may be spread like a feather. A shell that opens out of one stitch,
with skips close beside it, is no wave. Positions are those of places along an edge, from 0;
half a place is the gap between two of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.sizing.edging.piece import MOST_PLACES, Edged, chain_noun, noun_of
from hookwright.working.fabric import Stitch, is_space
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import unrolled


class Bend(Struct, frozen=True):
    """A peak or valley of a wave.

    Attributes:
        at: Its middle, in places along the edge.
        gain: Stitches that the wave's own rows add there; below 0 in a valley.
    """

    at: Fraction
    gain: int

    @property
    def is_peak(self) -> bool:
        """Whether it is a peak."""
        return self.gain > 0


class Wave(Struct, frozen=True):
    """An edge in waves.

    Attributes:
        bends: Its peaks and valleys in turn.
        in_one: Places from one peak to the next.
        nouns: What each place along it is called: "st", "ch", "ch-2 sp".
        lean: Stitches by which a column leans away from the peak in a row, on average.
        rests: Whether plain rows lie between those that increase and decrease.
    """

    bends: tuple[Bend, ...]
    in_one: int
    nouns: tuple[str, ...]
    lean: Fraction = Fraction(1)
    rests: bool = False

    @property
    def places(self) -> int:
        """How many places lie along it."""
        return len(self.nouns)

    def turned(self) -> Wave:
        """The same edge read from its other end."""
        end = self.places - 1
        bends = tuple(Bend(end - b.at, b.gain) for b in reversed(self.bends))
        return replace(self, bends=bends, nouns=self.nouns[::-1])


class _Event(Struct):
    """An increase or a decrease of a row: where it begins and ends, below and above."""

    feet: tuple[int, int]
    heads: tuple[int, int]

    @property
    def gain(self) -> int:
        """Stitches it adds; below 0 for those it takes away."""
        return (self.heads[1] - self.heads[0]) - (self.feet[1] - self.feet[0])

    def is_like(self, other: _Event) -> bool:
        """Whether it adds or takes as much as another."""
        return abs(self.gain) == abs(other.gain)

    @property
    def foot(self) -> Fraction:
        """Its middle along the edge below."""
        return Fraction(sum(self.feet) - 1, 2)

    @property
    def head(self) -> Fraction:
        """Its middle along the edge it leaves."""
        return Fraction(sum(self.heads) - 1, 2)


def wave_on_top(piece: Edged) -> Wave | None:
    """The wave of the last row, in its working order; None where it is none."""
    if piece.is_round or len(piece.rows) < 2:
        return None
    rows = [_events(row) for row in piece.rows]
    bent = [at for at, events in enumerate(rows) if events]
    if len(bent) < 2 or not _rest_is_plain(piece, bent):
        return None
    top, below = bent[-1], bent[-2]
    number = piece.rows[top].below
    if not isinstance(number, int) or not _stands_on(rows[top], rows[below], number):
        return None
    nouns = tuple(map(noun_of, piece.top(turned=False)))
    places = len(nouns)
    wave = _wave([_bend(e.head, e.gain, e.heads, places) for e in rows[top]], nouns)
    return wave and _over(piece, _leaning(wave, rows[top], top - below), top)


def _rest_is_plain(piece: Edged, bent: Sequence[int]) -> bool:
    """Whether the rows over the last that bends keep its number, few as between such."""
    top, below = bent[-1], bent[-2]
    over = piece.rows[top:]
    makes = {row.worked.row.makes for row in over if row.worked is not None}
    return len(over) <= top - below and len(makes) == 1


def _leaning(wave: Wave, events: Sequence[_Event], rows: int) -> Wave:
    """A wave with its lean: that of its bends is half of what they add, and none within.

    A few stitches in one place are a point; what is spread out leans more and more from
    its middle on, which is half as much on average.
    """
    inner = max((event for event in events[1:-1]), key=lambda event: abs(event.gain))
    bent = sum(
        (Fraction(_wide(event)) for event in events[1:-1] if event.is_like(inner)),
        start=Fraction(0),
    )
    number = sum(event.is_like(inner) for event in events[1:-1])
    share = 1 - bent / number / wave.in_one if number else Fraction(1)
    lean = Fraction(abs(inner.gain), 2) * share / rows
    if rows == 1 and abs(inner.gain) <= _POINT:
        lean = Fraction(1)
    return replace(wave, lean=lean, rests=rows > 1)


_POINT = 2
"""A bend that adds or takes no more is a point: 3 in one, 3 together, 2 skipped."""


def _wide(event: _Event) -> Fraction:
    """How wide a bend is, in the middle of its row; nothing for a point."""
    if abs(event.gain) <= _POINT:
        return Fraction(0)
    return Fraction(event.feet[1] - event.feet[0] + event.heads[1] - event.heads[0], 2)


def _over(piece: Edged, wave: Wave, bent: int) -> Wave:
    """The wave as it lies along the last row, over plain ones that may have been turned."""
    turned = (len(piece.rows) - 1 - bent) % 2 == 1 and piece.turns
    return wave.turned() if turned else wave


def wave_under(piece: Edged) -> Wave | None:
    """The wave of the foundation, as the first row was worked over it.

    It is seen from below, so that a chain with an increase in it lies in a valley.
    """
    on_top = wave_on_top(piece)
    if not piece.chains or on_top is None:
        return None
    at = next(at for at, row in enumerate(piece.rows) if _events(row))
    first = _events(piece.rows[at])
    places = piece.chains
    if at and piece.rows[at].below != places:
        return None
    bends = [_bend(e.foot, -e.gain, e.feet, places) for e in first]
    wave = _wave(bends, (chain_noun(piece),) * places)
    if wave is None:
        return None
    wave = replace(wave, lean=on_top.lean, rests=on_top.rests)
    wave = wave.turned() if at % 2 == 1 and piece.turns else wave
    return _with_halves(wave)


def _with_halves(wave: Wave) -> Wave:
    """A wave with half a bend at each end that lies half a wave from the next.

    The chain that a first stitch is worked beside stands for such a half, and is lost.
    """
    half = Fraction(wave.in_one, 2)
    bends = list(wave.bends)
    for at, near in ((0, bends[0]), (wave.places - 1, bends[-1])):
        if half - 1 <= abs(near.at - at) <= half and abs(near.gain) > 1:
            half_bend = Bend(Fraction(at), -1 if near.gain > 0 else 1)
            bends.insert(0 if at == 0 else len(bends), half_bend)
    return replace(wave, bends=tuple(bends))


def _bend(at: Fraction, gain: int, ends: tuple[int, int], places: int) -> Bend:
    """A bend; half of one, at the end of an edge, has its middle in the outermost place."""
    if abs(gain) == 1 and ends[1] > ends[0]:
        if ends[0] == 0:
            at = Fraction(0)
        elif ends[1] == places:
            at = Fraction(places - 1)
    return Bend(at, gain)


def _alike(bends: Sequence[Bend], places: int) -> list[Bend]:
    """Bends whose first and last lie as those between do: in a place, or in a gap.

    "Sk first st, dc in next st" at the end of rows that draw 3 together is half of such a
    valley: its middle is the outermost stitch.
    """
    found = list(bends)
    for at in (0, len(found) - 1):
        like = found[2] if at == 0 else found[-3]
        outside = not 0 <= found[at].at <= places - 1
        if outside and like.at.denominator == 1:
            found[at] = Bend(Fraction(0 if at == 0 else places - 1), found[at].gain)
    return found


def _wave(bends: Sequence[Bend], nouns: tuple[str, ...]) -> Wave | None:
    """The wave of increases and decreases that alternate; None where they do not."""
    if len(bends) < 3 or any(a.is_peak == b.is_peak for a, b in pairwise(bends)):
        return None
    if len({b.at - a.at for a, b in pairwise(bends[1:-1])}) > 1:
        return None
    if any(b.at - a.at < 2 for a, b in pairwise(bends)):
        return None
    inner = {b.at - a.at for a, b in zip(bends[1:-1], bends[3:-1], strict=False)}
    around = inner or {bends[2].at - bends[0].at}
    if len(around) > 1 or any(number.denominator != 1 for number in around):
        return None
    in_one = int(around.pop())
    return Wave(tuple(_half(_alike(bends, len(nouns)), in_one)), in_one, nouns)


def _half(bends: Sequence[Bend], in_one: int) -> list[Bend]:
    """Bends whose first and last, where they are broad and halved, lie half a wave off."""
    found = list(bends)
    for at, beside in ((0, found[1]), (len(found) - 1, found[-2])):
        like = found[2] if at == 0 else found[-3]
        if abs(like.gain) > _POINT and 2 * abs(found[at].gain) == abs(like.gain):
            off = Fraction(in_one if at else -in_one, 2)
            found[at] = Bend(beside.at + off, found[at].gain)
    return found


def _stands_on(last: Sequence[_Event], below: Sequence[_Event], number: int) -> bool:
    """Whether each increase is worked into the middle of one of the row below.

    The edge below may have been turned, so it is read from either end.
    """
    peaks = {event.foot for event in last if event.gain > 0}
    heads = {event.head for event in below if event.gain > 0}
    turned = {number - 1 - head for head in heads}
    return bool(peaks) and (peaks <= heads or peaks <= turned)


def _events(row: Outcome) -> list[_Event]:
    """The increases and decreases of a row in order; those side by side are one."""
    if row.worked is None:
        return []
    stitches = [
        s for s in unrolled(row.worked.row.line, MOST_PLACES) if not is_passed_chain(s)
    ]
    found: list[_Event] = []
    foot = head = at = 0
    while at < len(stitches):
        end = _event_end(stitches, at)
        group = stitches[at:end]
        feet, heads = foot + sum(map(used_by, group)), head + sum(map(made_by, group))
        if heads - head != feet - foot:
            _add(found, _Event((foot, feet), (head, heads)))
        foot, head, at = feet, heads, end
    return found


def is_passed_chain(stitch: Stitch) -> bool:
    """Whether it is the chains passed at the hook before the first stitch."""
    return stitch.kind == "tch" and not stitch.feet and stitch.passes > 0


def _add(found: list[_Event], event: _Event) -> None:
    """Put an event behind the others, or with the one beside it if both do the same."""
    before = found[-1] if found else None
    if (
        before is not None
        and before.feet[1] == event.feet[0]
        and before.heads[1] == event.heads[0]
        and (before.gain > 0) == (event.gain > 0)
    ):
        before.feet = (before.feet[0], event.feet[1])
        before.heads = (before.heads[0], event.heads[1])
    else:
        found.append(event)


def used_by(stitch: Stitch) -> int:
    """Stitches and spaces of the edge below that a movement uses up."""
    return stitch.passes + stitch.spaces


def made_by(stitch: Stitch) -> int:
    """Stitches and spaces that a movement leaves."""
    return sum(bool(place.counts or is_space(place)) for place in stitch.heads)


def _event_end(stitches: Sequence[Stitch], at: int) -> int:
    """Where the movements that are worked in the same place, or skip together, end."""
    end = at + 1
    while end < len(stitches) and _belongs(stitches[end - 1], stitches[end]):
        end += 1
    return end


def _belongs(before: Stitch, here: Stitch) -> bool:
    if not used_by(here):
        return True
    return not before.heads and not here.heads
