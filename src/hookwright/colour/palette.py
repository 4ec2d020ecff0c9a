"""The colours of a worksheet, measured, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from string import ascii_uppercase

from hookwright.colour.facts import Palette, Shade
from hookwright.colour.seeing import differences, differences_seen, measured
from hookwright.design.facts import Noted, YarnListed
from hookwright.design.stripes import Stripe, stripe_plans
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source, Span

RULE = "worksheet"
MOST_COLOURS = 60
_WORDS = regex(r"[^\W\d_][\w'’-]*")


def palette_of(noted: Noted) -> tuple[Palette | None, tuple[Finding, ...]]:
    """The palette; None where fewer than two yarns tell a colour."""
    findings = [*_without_code(noted.yarns)]
    yarns = [yarn for yarn in noted.yarns if _code(yarn)]
    if len(yarns) > MOST_COLOURS:
        findings.append(_too_many(yarns))
    shades = tuple(_shades(yarns[:MOST_COLOURS]))
    if len(shades) < 2:
        return None, tuple(findings)
    codes = [shade.code for shade in shades]
    palette = Palette(shades, differences(codes), differences_seen(codes))
    return palette, tuple(findings)


def _code(yarn: YarnListed) -> str:
    return yarn.colours[0].code if yarn.colours else ""


def _without_code(yarns: Sequence[YarnListed]) -> Iterator[Finding]:
    for number, yarn in enumerate(yarns, 1):
        if not _code(yarn):
            called = _called(yarn) or f"Yarn {number}"
            yield _finding(
                yarn.span,
                f"{called} has no colour on a screen, so it is left out of the orders.",
                'Write its hex, as here: hex = "#5B7C99".',
            )


def _too_many(yarns: Sequence[YarnListed]) -> Finding:
    return _finding(
        yarns[MOST_COLOURS].span,
        f"Only {MOST_COLOURS} colours are arranged, and the worksheet has {len(yarns)}.",
        "The further ones are left out.",
    )


def _finding(span: Span, message: str, why: str) -> Finding:
    return Finding(RULE, Severity.WARNING, span, message, why)


def _shades(yarns: Sequence[YarnListed]) -> Iterator[Shade]:
    taken = {name for yarn in yarns for name in _names(yarn)}
    labels: set[str] = set()
    letters = _letters(taken)
    for yarn in yarns:
        seen = measured(_code(yarn))
        told = [label for label in map(_as_label, _names(yarn)) if label not in labels]
        label = next(filter(_is_readable, told), "") or next(letters)
        labels.add(label)
        limits = [n for n in (yarn.most_rows, yarn.enough_for) if n is not None]
        yield Shade(
            label,
            yarn.colours[0].name or yarn.name or label,
            seen.code,
            yarn.span,
            tuple(dict.fromkeys((*_names(yarn), label))),
            seen.lightness,
            seen.grey,
            seen.ok_lightness,
            seen.chroma,
            seen.hue,
            min(limits, default=None),
        )


def _names(yarn: YarnListed) -> list[str]:
    """Its letter, the name of its colour and its own, as far as they are told."""
    colour = yarn.colours[0]
    return [name for name in (colour.letter, colour.name, yarn.name) if name]


def _called(yarn: YarnListed) -> str:
    told = [name for colour in yarn.colours for name in (colour.letter, colour.name)]
    return next((name for name in (*told, yarn.name) if name), "")


def _as_label(name: str) -> str:
    """A name as a line of stripes has it: up to three words with capitals."""
    words = _WORDS.findall(name)[:3]
    return " ".join(word[0].upper() + word[1:] for word in words)


def _is_readable(label: str) -> bool:
    """Whether a line of stripes with it can be read back."""
    if not label:
        return False
    plans = stripe_plans(Source(f"2 rows {label}, 2 rows Zz: 4 rows."), Pattern(()))
    return [plan.stripes for plan in plans] == [(Stripe(2, label), Stripe(2, "Zz"))]


def _letters(taken: set[str]) -> Iterator[str]:
    """Letters that no yarn has, for those without a name: A to Z, then AA, AB, ..."""
    for first in ("", *ascii_uppercase):
        for second in ascii_uppercase:
            if first + second not in taken:
                yield first + second
