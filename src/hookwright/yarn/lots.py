"""Up to where does a dye lot reach, and where may another begin?

Two lots are hardly ever quite the same. They part best between two stripes; where a stripe
has to have both, or a piece has none, two rows of each in turn hide the change.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.yarn.cutting import stretches
from hookwright.yarn.facts import ColourNeed, SizeNeed
from hookwright.yarn.joining import joins_of, row_lengths
from hookwright.yarn.needing import Terms


def lots_of(need: SizeNeed, terms: Terms) -> Iterator[str]:
    """A sentence for each colour of which the lot in hand is not enough."""
    found = stretches(need.counted.rows, carried=terms.carried)
    for colour in need.colours:
        have, ball = colour.yarn.in_hand, colour.yarn.ball_mm
        if not colour.yarn.lot or not have or not ball or not colour.to_buy:
            continue
        own = [one for one in found if one.yarn == colour.yarn.label]
        if any(one.make > 1 for one in own):
            continue
        law = terms.law(colour.yarn.label)
        taken = row_lengths(need.counted.rows, colour.yarn.label, law)
        joins = joins_of(
            need.counted.rows,
            taken,
            own,
            have * ball,
            law.common.spread,
            terms.tail,
            striped=len(need.colours) > 1,
        )
        yield _sentence(
            colour, joins[0].row if joins else "", joins[0].stripe if joins else None
        )


def _sentence(colour: ColourNeed, row: str, stripe: tuple[str, str] | None) -> str:
    balls = float(colour.yarn.in_hand or 0)
    in_hand = f"{balls:g} ball{'' if balls == 1 else 's'}"
    more = f"{colour.to_buy} more {'is' if colour.to_buy == 1 else 'are'} to be had"
    told = f"{colour.yarn.told}: {in_hand} of lot {colour.yarn.lot} in hand, {more}."
    if not row:
        return f"{told} The lot in hand is likely enough, though not to be counted on."
    if stripe is None or not stripe[0]:
        return f"{told} Begin another lot at {row}."
    alone = stripe[0] == stripe[1]
    whole = f"the stripe of {stripe[0]}" + ("" if alone else f" to {stripe[1]}")
    return (
        f"{told} Lot {colour.yarn.lot} ends about {row}: begin another lot with {whole}, "
        "or work two rows of each in turn there."
    )
