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
from hookwright.yarn.facts import RowUsed, Section
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
    plain = known.yarns[0].label if known.yarns else PLAIN
    return tuple(
        _in_yarn(row, colours.get(at), edging, plain, known) for at, row in enumerate(rows)
    )


def _is_striped(row: RowUsed, body: int) -> bool:
    return row.part == body and row.section is Section.PIECE


def _in_yarn(
    row: RowUsed, colour: str | None, edging: str, plain: str, known: Known
) -> RowUsed:
    """A row with its yarns called as the worksheet calls them."""
    if row.section is Section.EDGING and edging and not row.own:
        colour = edging

    def called(name: str | None) -> str:
        own = name if colour is None else colour
        if not own:
            return plain
        found = known.find(own)
        return found.label if found is not None else own

    uses: dict[tuple[str, str, int], int] = {}
    for at, use in enumerate(row.uses):
        uses.setdefault((called(use.yarn), use.kind, use.loops), at)
    merged = []
    for (yarn, kind, loops), at in uses.items():
        same = [u for u in row.uses if (called(u.yarn), u.kind, u.loops) == (yarn, kind, loops)]
        number = sum((u.number for u in same), row.uses[at].number * 0)
        merged.append(replace(row.uses[at], yarn=yarn, number=number))
    return replace(row, uses=tuple(merged))
