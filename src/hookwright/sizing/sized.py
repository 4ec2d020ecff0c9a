"""From a checked pattern and what is wanted to its sizes, its gauge and its swatch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.finding import Finding, Severity
from hookwright.sizing.alike import is_as_wide
from hookwright.sizing.bodies import Fit, fits_of
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.named_sizes import caution
from hookwright.sizing.own_sizes import is_of_own_sizes
from hookwright.sizing.placed import PartSized, Placed, placed_parts
from hookwright.sizing.wishes import SIZE_RULE, Request, Wish, Wishes, unit_of, wishes_of
from hookwright.source import Source, Span


class Sized(Struct, frozen=True):
    """A pattern with its sizes.

    Attributes:
        parts: Its parts in working order.
        asked: The text of what was asked for.
        findings: What of it cannot be done; spans are of `asked`.
        noted: What of the worksheet's sizes cannot be; spans are of the worksheet.
        fits: The bodies that a garment's own sizes fit.
        cautions: What is said once where a size is a baby's.
        unit: The unit that the designer measures in.
        has_gauge: Whether the sizes are worked out at a gauge that was asked for.
    """

    parts: tuple[PartSized, ...]
    asked: Source
    findings: tuple[Finding, ...] = ()
    noted: tuple[Finding, ...] = ()
    fits: tuple[Fit, ...] = ()
    cautions: tuple[str, ...] = ()
    unit: str = "in"
    has_gauge: bool = False

    def cannot_all_be_made(self) -> bool:
        """Whether anything that was asked for cannot be done."""
        return any(f.severity is Severity.ERROR for f in (*self.findings, *self.noted))


def size_pattern(
    checked: Checked, multiples: Sequence[PartMultiple], request: Request
) -> Sized:
    """The sizes of a pattern. Never fails: what cannot be made is a finding.

    Args:
        checked: The pattern.
        multiples: How its parts grow, every part in each of the text's sizes.
        request: What is wanted.
    """
    wishes = wishes_of(request, checked)
    unit = unit_of(checked)
    bad_gauge = wishes.has_gauge and not wishes.gauges
    parts = tuple(_parts(checked, multiples, wishes, unit, sizes=not bad_gauge))
    findings = [*wishes.findings, *_impossible(parts, of_worksheet=False)]
    if not bad_gauge and not any(part.sizes for part in parts):
        findings += _no_part(parts, wishes)
    return Sized(
        parts,
        wishes.asked,
        tuple(sorted(findings, key=lambda finding: finding.span)),
        tuple(_impossible(parts, of_worksheet=True)),
        fits_of(checked),
        tuple(_cautions(wishes.wishes)),
        unit,
        bool(wishes.gauges),
    )


def _parts(
    checked: Checked,
    multiples: Sequence[PartMultiple],
    wishes: Wishes,
    unit: str,
    *,
    sizes: bool,
) -> Iterator[PartSized]:
    placed = list(placed_parts(checked, multiples, wishes.gauges, unit))
    wanted = _wanted_parts(placed)
    for number, part in enumerate(placed):
        own = [
            wish
            for wish in wishes.wishes
            if number in wanted
            or (part.is_told_alone() and is_of_own_sizes(wish, checked, part.fits))
        ]
        yield part.sized(own if sizes else ())


def _wanted_parts(placed: Sequence[Placed]) -> set[int]:
    """The parts that a wish is of: the main piece, and others that are as wide."""
    pieces = [n for n, part in enumerate(placed) if not part.is_edging]
    able = (
        [n for n in pieces if _can_be_sized(placed[n])] or pieces or [*range(len(placed))]
    )
    if not able:
        return set()
    first = placed[able[0]]
    return {n for n in able if placed[n] is first or _is_alike(placed[n], first)}


def _is_alike(part: Placed, first: Placed) -> bool:
    """Whether a part begins on its own and is as wide as the first in every size."""
    sizes = zip(part.own, first.own, strict=False)
    return part.begins and all(is_as_wide(*own) for own in sizes)


def _can_be_sized(part: Placed) -> bool:
    others = part.rounds or part.blocks
    return part.main.stitches is not None or others is not None


def _impossible(parts: Sequence[PartSized], *, of_worksheet: bool) -> Iterator[Finding]:
    """Wishes that cannot be made, once each, with what is possible."""
    seen: set[Span] = set()
    for part in parts:
        for size in part.sizes:
            span = size.wish.noted if of_worksheet else size.wish.place
            if not size.reason or span is None or span in seen:
                continue
            seen.add(span)
            message, _, why = size.reason.partition(": ")
            whole = f"{size.wish.name} cannot be made so: {_low(message)}"
            yield Finding(
                SIZE_RULE, Severity.ERROR, span, f"{whole.rstrip('.')}.", _high(why)
            )


def _low(words: str) -> str:
    return words if words[:1].isdigit() else words[:1].lower() + words[1:]


def _high(words: str) -> str:
    return words[:1].upper() + words[1:]


def _no_part(parts: Sequence[PartSized], wishes: Wishes) -> Iterator[Finding]:
    if parts or not wishes.wishes:
        return
    for wish in wishes.wishes:
        if wish.place is not None:
            yield Finding(
                SIZE_RULE, Severity.ERROR, wish.place,
                f"{wish.name} cannot be made: the text has no part whose rows are worked.",
                "A part has a heading, and rows with labels under it.",
            )  # fmt: skip


def _cautions(wishes: Sequence[Wish]) -> Iterator[str]:
    babies = [wish for wish in wishes if wish.baby]
    if any(wish.around is None for wish in babies):
        yield caution("sleep")
    if babies:
        yield caution("openings")


__all__ = ["PartSized", "Request", "Sized", "size_pattern", "unit_of"]
