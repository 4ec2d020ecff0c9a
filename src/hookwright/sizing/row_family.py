"""Which numbers of rows may a piece have, so that it ends as it ends now?

Rows come in whole sets; rows that are turned stay even or odd, so that the last one shows
the same side in every size; and a stripe sequence is worked in whole, with the same rest
behind it. A number of rows that keeps all three differs from the present one by a common
multiple of set, side and sequence.
"""

from __future__ import annotations

from fractions import Fraction
from math import lcm

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.stripes import StripePlan, stripe_plans
from hookwright.sizing.facts import Multiple, PartMultiple

_FEW = 4
"""With fewer rows nothing tells on which side a piece ends."""
_OFF = Fraction(1, 20)
"""How far from the wish a whole stripe sequence may lead."""


class RowFamily(Struct, frozen=True):
    """The numbers of rows that a piece may have.

    Attributes:
        rows: They are `rows.each * k + rows.extra`, from `rows.least` repeats on.
        sequence: Rows of a stripe sequence; 0 where there is none.
        rest: Rows behind the last whole sequence as written.
        said: How the step came about, in a sentence.
    """

    rows: Multiple
    sequence: int = 0
    rest: int = 0
    said: str = ""


def row_families(part: PartMultiple, checked: Checked) -> tuple[RowFamily, ...]:
    """The families for a part, the strictest first; none where its rows cannot be told."""
    if part.rows is None or part.rows.each < 1:
        return ()
    now = part.rows.at(part.set_repeats)
    least = part.rows.at(part.rows.least)
    turned = not part.is_round and now >= _FEW
    step = lcm(part.rows.each, 2) if turned else part.rows.each
    told = [f"in sets of {part.rows.each}"] if part.rows.each > 1 else []
    if step != part.rows.each:
        told.append(
            f"{'even' if now % 2 == 0 else 'odd'} as written, to end on the same side"
        )
    plain = RowFamily(_family(now, step, least), said=_sentence(told))
    sequence = _sequence(checked, now)
    if not sequence or step % sequence == 0:
        return (plain,)
    both = lcm(step, sequence)
    told.append(
        f"in whole stripe sequences of {sequence} and {now % sequence} more, as written"
    )
    striped = _family(now, both, least)
    return (
        RowFamily(striped, sequence, now % sequence, _sentence(told)),
        replace_sequence(plain, sequence, now % sequence),
    )


def replace_sequence(family: RowFamily, sequence: int, rest: int) -> RowFamily:
    """A family that breaks off a stripe sequence, with what is to be said of it."""
    said = (
        f"{family.said} The last stripe sequence of {sequence} rows is cut short.".strip()
    )
    return RowFamily(family.rows, sequence, rest, said)


def strays(rows: int, wanted_rows: Fraction) -> bool:
    """Whether a number of rows is too far from the wish to be worth whole sequences."""
    return abs(rows - wanted_rows) > wanted_rows * _OFF


def _family(now: int, step: int, least: int) -> Multiple:
    """All numbers from the least on that differ from the present one by whole steps."""
    extra = now % step
    return Multiple(step, extra, max(0 if extra else 1, -(-(least - extra) // step)))


def _sentence(told: list[str]) -> str:
    return f"Rows {', '.join(told)}." if told else ""


def _sequence(checked: Checked, rows: int) -> int:
    """Rows of the stripe sequence that a text plans; 0 where there is none, or several."""
    lengths = set(map(_rows_of, stripe_plans(checked.source, checked.reading.pattern)))
    length = lengths.pop() if len(lengths) == 1 else 0
    return length if 1 < length <= rows else 0


def _rows_of(plan: StripePlan) -> int:
    return sum(stripe.rows for stripe in plan.stripes)


def stripes_told(rows: int, sequence: int) -> str:
    """A number of rows as whole sequences and the rest of one."""
    whole, rest = divmod(rows, sequence)
    told = f"{whole} stripe sequence{'' if whole == 1 else 's'} of {sequence} rows"
    return f"{told} and {rest} more" if rest else told
