"""In which yarn is each row worked, in a size that may have more rows than the text?

What a row names itself goes first. Then comes the sequence of stripes that the text tells,
worked over and over from the first row, what it tells for the end at the end; a table of
rows goes on from its beginning. Where the text tells no stripes, and the worksheet has
wishes for them, the best order of its colours is taken.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.stripes import Stripe, StripePlan, stripe_plans
from hookwright.yarn.facts import RowUsed, Section, Use
from hookwright.yarn.known import PLAIN, Known

_FEW = 2


class Stripes(Struct, frozen=True):
    """Stripes to be worked over and over.

    Attributes:
        stripes: The stripes.
        after: What comes behind the last time.
        edging: The yarn of the edging, where a worksheet tells it; "" else.
        said: Where they come from, in a sentence.
    """

    stripes: tuple[Stripe, ...]
    after: tuple[Stripe, ...] = ()
    edging: str = ""
    said: str = ""

    def colours(self, rows: int) -> list[str]:
        """The yarn of each of so many rows."""
        once = [stripe.colour for stripe in self.stripes for _ in range(stripe.rows)]
        last = [stripe.colour for stripe in self.after for _ in range(stripe.rows)]
        last = last if len(last) < rows else []
        before = rows - len(last)
        return [*(once * (before // len(once) + 1))[:before], *last] if once else []


def sequence_of(checked: Checked, known: Known) -> Stripes | None:
    """The stripes of a design; None where nothing tells any."""
    plans = stripe_plans(checked.source, checked.reading.pattern)
    plan = next((plan for plan in plans if plan.times), next(iter(plans), None))
    if plan is not None and len({stripe.colour for stripe in plan.stripes}) >= _FEW:
        return _of_plan(plan)
    noted = checked.design.noted
    if checked.reading.pattern.stripes or noted is None or noted.stripes is None:
        return None
    codes = [yarn for yarn in known.yarns if yarn.code]
    return _best_order(checked) if len(codes) >= _FEW else None


def _of_plan(plan: StripePlan) -> Stripes:
    rows = sum(stripe.rows for stripe in plan.stripes)
    told = f"The stripes are those of the pattern: {rows} rows over and over"
    last = ", ".join(f"{s.rows} rows {s.colour}" for s in plan.after)
    told += f", and {last} at the end." if last else "."
    return Stripes(plan.stripes, plan.after, said=told)


def _best_order(checked: Checked) -> Stripes | None:
    """The first order that `colours` finds."""
    from hookwright.colour.planning import colour_plan  # noqa: PLC0415 - only where asked

    plan = colour_plan(checked, 1)
    if not plan.orders or plan.palette is None:
        return None
    order = plan.orders[0]
    stripes = order.stripes
    rows = sum(stripe.rows for stripe in stripes)
    last = order.worked.rows - rows * order.worked.times
    after = stripes[:1] if 0 < last == stripes[0].rows else ()
    noted = checked.design.noted
    edging = noted.stripes.edging if noted is not None and noted.stripes else ""
    told = (
        "The pattern tells no stripes, so these are the first order of hookwright colours: "
        f"{order.worked.line}"
    )
    return Stripes(stripes, after, edging, told)


def in_stripes(
    rows: Sequence[RowUsed], sequence: Stripes | None, known: Known, body: int
) -> tuple[RowUsed, ...]:
    """The rows with the yarn of each.

    Args:
        rows: The rows.
        sequence: The stripes; None where nothing tells any.
        known: The yarns there are.
        body: The part that the stripes are of.
    """
    striped = [at for at, row in enumerate(rows) if _is_striped(row, body)]
    told = any(rows[at].own for at in striped[1:])
    colours: dict[int, str] = {}
    if sequence is not None and not told:
        colours = dict(zip(striped, sequence.colours(len(striped)), strict=False))
        colours |= {
            at: colours[striped[0]]
            for at, row in enumerate(rows)
            if row.part == body and row.section is Section.FOUNDATION and striped
        }
    edging = sequence.edging if sequence is not None else ""
    called = _Called(known)
    return tuple(
        _in_yarn(row, colours.get(at), edging, called) for at, row in enumerate(rows)
    )


def _is_striped(row: RowUsed, body: int) -> bool:
    return row.part == body and row.section is Section.PIECE


class _Called:
    """What the worksheet calls the yarns that a pattern names; the first where none is."""

    def __init__(self, known: Known) -> None:
        self.known = known
        plain = known.yarns[0].label if known.yarns else PLAIN
        self.labels: dict[str | None, str] = {None: plain, "": plain}

    def __call__(self, name: str | None) -> str:
        label = self.labels.get(name)
        if label is None and name is not None:
            found = self.known.find(name)
            label = self.labels[name] = found.label if found is not None else name
        assert label is not None
        return label


def _in_yarn(row: RowUsed, colour: str | None, edging: str, called: _Called) -> RowUsed:
    """A row with its yarns called as the worksheet calls them."""
    if row.section is Section.EDGING and edging and not row.own:
        colour = edging
    uses: dict[tuple[str, str, int], Use] = {}
    for use in row.uses:
        yarn = called(use.yarn if colour is None else colour)
        key = (yarn, use.kind, use.loops)
        number = use.number + (uses[key].number if key in uses else 0)
        uses[key] = Use(yarn, use.kind, use.loops, number)
    return replace(row, uses=tuple(uses.values()))
