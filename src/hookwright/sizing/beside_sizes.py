"""Which numbers of a text are rounded at another size, and which of its parts stay?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hookwright.checking import Checked
from hookwright.notation.tree import Amount
from hookwright.sizing.alike import growing_together
from hookwright.sizing.multiples import Growth
from hookwright.sizing.new_counts import row_texts
from hookwright.sizing.size_written import SizeWritten, more_repeats
from hookwright.sizing.slots import amounts_in
from hookwright.source import Span


def amounts_told(checked: Checked) -> Iterator[tuple[Amount, Span]]:
    """Every number of the rows, and of the chain told beside them, with its place."""
    hint = checked.reading.pattern.foundation_hint
    if hint is not None:
        yield hint, hint.span
    for row in row_texts(checked.reading.pattern):
        for amount in amounts_in(row.body):
            yield amount, row.place(amount.span)


def rounded_rates(
    checked: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> Iterator[str]:
    """What is spread along an edge at the rate it was, to the nearest whole number."""
    rates = {
        id(rate.amount)
        for one in wanted
        if more_repeats(growths[one.source], one)
        and (together := growing_together(growths[one.source])) is not None
        for rate in together.rates
    }
    told = [span for amount, span in amounts_told(checked) if id(amount) in rates]
    if told:
        words = ", ".join(f'"{checked.source.slice(span)}"' for span in told)
        yield (
            "Spread along their edge as close as they were, to the nearest stitch: "
            f"what was {words}."
        )


def standing_apart(
    checked: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> Iterator[str]:
    """What stands on a chain of its own, of another width, and so stays as it is."""
    apart: dict[int, None] = {}
    for one in wanted:
        together = growing_together(growths[one.source])
        if together is not None and more_repeats(growths[one.source], one):
            apart |= dict.fromkeys(together.apart)
    parts = checked.reading.pattern.parts
    names = [parts[number].name or "a part without a name" for number in apart]
    if names:
        yield (
            "What stands on a chain of its own stays as wide as it was: "
            f"{', '.join(names)}."
        )
