"""A pattern's sizes as text: multiples, gauge, the sizes, the swatch, and the working."""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.finding import Severity
from hookwright.listing.columns import columns_of, in_a_line, padded, wrapped, writable
from hookwright.listing.findings import told_of_words, told_of_worksheet
from hookwright.listing.size_table import size_table
from hookwright.listing.summary import counted
from hookwright.sizing.bodies import Fit
from hookwright.sizing.fabric_gauge import FabricGauge, Origin
from hookwright.sizing.facts import Multiple, PartMultiple
from hookwright.sizing.lengths import in_both, in_cm, small
from hookwright.sizing.long_chain import said_of_all
from hookwright.sizing.made import Made
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import Sized
from hookwright.terminal import Ink

_INDENT = "  "
_LABEL = 12
_ROOM = 24


def size_listing(
    sized: Sized, checked: Checked, width: int, ink: Ink, *, how: bool = False
) -> str:
    """All there is to say of a pattern's sizes; paragraphs are parted by blank lines.

    Args:
        sized: The sizes.
        checked: The pattern they are of.
        width: Columns to write in.
        ink: The colours.
        how: Whether every number says how it came about.
    """
    return "\n\n".join(_paragraphs(sized, checked, width, ink, how=how))


def _paragraphs(
    sized: Sized, checked: Checked, width: int, ink: Ink, *, how: bool
) -> Iterator[str]:
    if not sized.parts:
        yield "No part of the text has rows that were worked."
    told: set[tuple[str, ...]] = set()
    swatches: set[str] = set()
    for part in sized.parts:
        gauge_is_new = part.gauge.said not in told
        told.add(part.gauge.said)
        yield "\n".join(
            _part(part, sized, checked, width, ink, how=how, gauge=gauge_is_new)
        )
        if part.sizes:
            yield "\n".join(size_table(part, sized.unit, width, ink))
        if how and part.sizes:
            yield "\n".join(_worked_out(part, width, ink))
        swatch = "\n".join(_swatch(part, sized.unit, width, ink)) if part.swatch else ""
        if swatch and swatch not in swatches:
            swatches.add(swatch)
            yield swatch
    if sized.fits:
        yield "\n".join(_fits(sized.fits, sized.unit, width, ink))
    for sentence in sized.cautions:
        yield "\n".join(wrapped(sentence, width))
    yield from _findings(sized, checked, width, ink)
    yield from _last_lines(sized, checked, width, how=how)


def _findings(sized: Sized, checked: Checked, width: int, ink: Ink) -> Iterator[str]:
    """What of the wishes cannot be made, each under its words."""
    sheet = checked.worksheet
    if sheet is not None:
        for finding in sized.noted:
            yield told_of_worksheet(finding, sheet, width, ink)
    for finding in sized.findings:
        yield told_of_words(finding, sized.asked, "As asked", width, ink)


def _last_lines(sized: Sized, checked: Checked, width: int, *, how: bool) -> Iterator[str]:
    """That the pattern is not clean, and where the working is told."""
    in_sheet = checked.worksheet.findings if checked.worksheet is not None else ()
    if in_sheet:
        told = f"The worksheet has {counted(len(in_sheet), 'finding')}"
        told += ". What cannot be read there counts for nothing: hookwright check tells it."
        yield "\n".join(wrapped(told, width))
    to_mend = sum(f.severity is Severity.ERROR for f in checked.findings)
    if to_mend:
        told = f"The pattern itself has {counted(to_mend, 'finding')} to mend"
        yield "\n".join(wrapped(f"{told}: its sizes are as good as its rows.", width))
    if not how and any(part.sizes for part in sized.parts):
        name = writable(shlex.quote(checked.source.name))
        yield f"How each number came about is told with --how: {name}"


def _part(
    part: PartSized,
    sized: Sized,
    checked: Checked,
    width: int,
    ink: Ink,
    *,
    how: bool,
    gauge: bool,
) -> Iterator[str]:
    make = part.multiple.make
    name = in_a_line(part.multiple.part) or "Piece"
    if len(sized.parts) > 1 or make > 1:
        yield ink.strong(f"{name} (make {make})" if make > 1 else name)
    label = ""
    for fact, words in _facts(part, sized.unit, checked, how=how, gauge=gauge):
        yield from _labelled("" if fact == label else fact, words, width)
        label = fact


def _labelled(label: str, words: str, width: int) -> Iterator[str]:
    """A fact behind its label, further lines under the words."""
    room = max(_ROOM, width - _LABEL - len(_INDENT))
    first, *others = wrapped(words, room) or [""]
    yield f"{_INDENT}{padded(label, _LABEL)}{first}"
    yield from (f"{_INDENT}{' ' * _LABEL}{line}" for line in others)


def _facts(
    part: PartSized, unit: str, checked: Checked, *, how: bool, gauge: bool
) -> Iterator[tuple[str, str]]:
    yield "multiple", _multiple(part.multiple)
    names = checked.sizes if len(checked.sizes) == len(part.now) else ("",) * len(part.now)
    for name, made in zip(names, part.now, strict=True):
        of = f"{in_a_line(name)}: " if name else ""
        yield "as written", of + _as_written(part, made, unit)
    if gauge and how:
        yield from (("gauge", sentence) for sentence in part.gauge.said)
    elif gauge:
        yield "gauge", _gauge(part.gauge, unit)
    yield from (("note", sentence) for sentence in part.said)
    if how and part.sizes:
        for name, chain in part.chains:
            yield "chain", f"{in_a_line(name)}: {chain.said(unit)}"
    elif part.chains:
        yield "chain", said_of_all([chain for _, chain in part.chains])


def _gauge(gauge: FabricGauge, unit: str) -> str:
    """The gauge in one sentence; a guess and what was taken otherwise are told in full."""
    if gauge.origin is Origin.GUESS:
        return " ".join(gauge.said)
    across = (
        ("repeat", gauge.repeat) if gauge.repeat is not None else ("stitch", gauge.stitch)
    )
    told = [
        f"a {what} {small(pitch.mm, unit)} ± {float(pitch.spread_mm):.1f} mm"
        for what, pitch in (across, ("row", gauge.row))
        if pitch is not None
    ]
    whose = "as asked for" if gauge.origin is Origin.ASKED else f"by {gauge.origin}"
    state = f", {gauge.state}" if gauge.state else ""
    words = ", ".join(told)
    beside = " ".join(s for s in gauge.said if not s.startswith("One "))
    return f"{words[0].upper()}{words[1:]}, {whose}{state}. {beside}".rstrip()


def _multiple(part: PartMultiple) -> str:
    """The multiples in words, or why there are none."""
    told = []
    if part.chains is not None:
        turning = f" ({part.turning} of them to turn on)" if part.turning else ""
        told.append(f"{_any(part.chains, 'chain')}{turning}")
    if part.stitches is not None:
        edge = f" ({part.edge} at the edges)" if part.edge else ""
        told.append(f"{_any(part.stitches, 'stitch')}{edge}")
    if part.rows is not None:
        told.append(_any(part.rows, "round" if part.is_round else "row"))
    words = "; ".join(told) or "none"
    reason = part.reason if part.stitches is None else ""
    return f"{words}. {reason}".rstrip()


def _any(multiple: Multiple, what: str) -> str:
    many = _plural(what)
    return f"any number of {many}" if multiple.each == 1 else f"{many} {multiple}"


def _as_written(part: PartSized, made: Made, unit: str) -> str:
    told = []
    if made.repeats is not None and _in_repeats(part):
        told.append(_number(made.repeats, "repeat"))
    if made.chain is not None:
        told.append(_number(made.chain, "chain"))
    if made.stitches is not None:
        told.append(_number(made.stitches, "stitch"))
    if made.rows is not None:
        told.append(_number(made.rows, "round" if part.multiple.is_round else "row"))
    ways = ((made.width, "around" if part.is_around else "wide"), (made.height, "high"))
    sides = [
        f"{in_both(pitch.mm, unit)} {way} ± {in_cm(pitch.spread_mm)}"
        for pitch, way in ways
        if pitch is not None
    ]
    return "; ".join([", ".join(told), *sides]) + "."


def _in_repeats(part: PartSized) -> bool:
    """Whether it is counted in repeats, not in stitches one by one."""
    stitches = part.multiple.stitches
    return stitches is not None and (stitches.each > 1 or part.gauge.repeat is not None)


def _number(number: int, what: str) -> str:
    return f"1 {what}" if number == 1 else f"{number} {_plural(what)}"


def _plural(what: str) -> str:
    return f"{what}es" if what.endswith("ch") else f"{what}s"


def _swatch(part: PartSized, unit: str, width: int, ink: Ink) -> Iterator[str]:
    swatch = part.swatch
    assert swatch is not None
    told = [f"chain {swatch.chain}" if swatch.chain is not None else ""]
    if _in_repeats(part):
        told.append(_number(swatch.repeats, "repeat"))
    told.append(_number(swatch.stitches, "stitch"))
    if swatch.rows is not None:
        told.append(_number(swatch.rows, "row"))
    sides = in_both(swatch.width.mm, unit)
    if swatch.height is not None:
        sides += f" x {in_both(swatch.height.mm, unit)}"
    words = ", ".join(filter(None, told))
    yield ink.strong("Swatch to make first")
    yield from wrapped(f"{words[0].upper()}{words[1:]}: about {sides}.", width, _INDENT)
    yield from wrapped(swatch.measure, width, _INDENT)


def _worked_out(part: PartSized, width: int, ink: Ink) -> Iterator[str]:
    yield ink.strong("Worked out so")
    for size in part.sizes:
        yield f"{_INDENT}{in_a_line(size.wish.name)}"
        for sentence in (*size.said, *filter(None, (size.reason,))):
            yield from wrapped(sentence, width, _INDENT * 2)


def _fits(fits: Sequence[Fit], unit: str, width: int, ink: Ink) -> Iterator[str]:
    yield ink.strong("Fits")
    room = max((columns_of(in_a_line(fit.size)) for fit in fits), default=0)
    for fit in fits:
        name = padded(in_a_line(fit.size), room)
        yield from wrapped(f"{name}  {_fit(fit, unit)}".strip(), width, _INDENT)


def _fit(fit: Fit, unit: str) -> str:
    around = f"{in_both(fit.girth, unit)} around"
    if fit.body is None and fit.printed is None:
        return f"{around}: no body of the table is near."
    whom = [f"to fit {in_both(fit.printed, unit)}"] if fit.printed is not None else []
    if fit.body is not None:
        whom.append(f"as {fit.body.name}")
    kind = f", a {fit.fit} fit" if fit.fit else ""
    return f"{around}, {', '.join(whom)}: ease {in_both(fit.ease, unit)}{kind}."
