"""What changed in what a pattern lists beside its rows: hook, gauge, yarn, measurements?

Where it stands, and how it is worded, is nothing to this.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hookwright.checking import Checked
from hookwright.design.facts import Gauge, Measure
from hookwright.design.stripes import stripe_plans
from hookwright.notation.printing import translate
from hookwright.versions.facts import Change, Kind
from hookwright.versions.renamed import made_as


def listed_changes(old: Checked, new: Checked) -> Iterator[Change]:
    """The changes in hooks, gauges, yarns and finished measurements, and in definitions."""
    for what, before, after in (
        ("hook", _hooks(old), _hooks(new)),
        ("gauge", _gauges(old), _gauges(new)),
        ("yarn", _yarns(old), _yarns(new)),
        ("finished measurements", _finished(old), _finished(new)),
    ):
        if set(before) != set(after):
            yield Change(
                Kind.LISTED, "", what,
                "; ".join(one for one in before if one not in after) or "nothing",
                "; ".join(one for one in after if one not in before) or "nothing",
            )  # fmt: skip
    if _stripes(old) != _stripes(new):
        yield Change(Kind.COLOUR, "", "stripes", _stripes(old), _stripes(new))
    yield from _defined(old, new)


def _stripes(checked: Checked) -> str:
    """The sequences of stripes that are told in words."""
    plans = stripe_plans(checked.source, checked.reading.pattern)
    return "; ".join(
        ", ".join(
            f"{stripe.rows} {stripe.colour}" for stripe in (*plan.stripes, *plan.after)
        )
        + (f" ({plan.times[0]} times)" if plan.times else "")
        for plan in plans
    )


def _defined(old: Checked, new: Checked) -> Iterator[Change]:
    """Special stitches of one name that are worked otherwise."""
    terms = old.reading.pattern.terms
    theirs = new.reading.pattern
    if terms is not None:
        theirs = translate(theirs, terms)
    before = {one.names[0]: one for one in old.reading.pattern.definitions}
    for one in theirs.definitions:
        was = before.get(one.names[0])
        if was is not None and made_as(was) != made_as(one):
            yield Change(
                Kind.STITCH, "", one.names[0],
                old.source.slice(was.span).strip(), new.source.slice(one.span).strip(),
            )  # fmt: skip


def _hooks(checked: Checked) -> list[str]:
    return [
        f"{float(hook.mm):g} mm" if hook.mm is not None else hook.name
        for hook in checked.design.hooks
    ]


def _gauges(checked: Checked) -> list[str]:
    return [_gauge(gauge) for gauge in checked.design.gauges]


def _gauge(gauge: Gauge) -> str:
    told = [
        f"{_number(gauge.stitches)} {gauge.of} in {_mm(gauge.width)}"
        if gauge.stitches is not None
        else "",
        f"{_number(gauge.rows)} rows in {_mm(gauge.height)}"
        if gauge.rows is not None
        else "",
    ]
    return ", ".join(filter(None, told))


def _yarns(checked: Checked) -> list[str]:
    found = []
    for yarn in checked.design.yarns:
        if yarn.ball_m is not None or yarn.ball_g is not None:
            found.append(
                f"{yarn.name or 'yarn'}: {_number(yarn.ball_m)} m in "
                f"{_number(yarn.ball_g)} g"
            )
        found += [
            f"{colour.letter} {colour.name}: {_all(colour.balls)} balls".strip()
            for colour in yarn.colours
        ]
    return found


def _finished(checked: Checked) -> list[str]:
    return [
        f"{one.of} {one.along} {_mm(one.measure)}".strip()
        for one in checked.design.finished
    ]


def _mm(measure: Measure | None) -> str:
    return f"{_all(measure.mm)} mm" if measure is not None else "-"


def _all(values: tuple[Fraction | None, ...]) -> str:
    return " / ".join(_number(value) for value in values)


def _number(value: Fraction | None) -> str:
    return "-" if value is None else f"{float(value):g}"
