"""What a row is called, and the counts printed behind it."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.claims import MOTIF
from hookwright.notation.printing.places import counted_noun, is_noun
from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import amount_words, number_list, sentence
from hookwright.notation.tree import Claim, Figure, Label


def label_words(label: Label, wording: Wording) -> str:
    """A label with its mark: "Rows 3-6 (WS):", "Size M only: Rnd 4 (5, 6):"."""
    sizes = _sizes(label)
    side = f" ({label.side})" if label.side else ""
    yarn = f" ({wording.colour} {_yarn_name(label.yarn)})" if label.yarn else ""
    return f"{sizes}{_called(label, wording)}{side}{yarn}:"


def _sizes(label: Label) -> str:
    if not label.sizes:
        return ""
    named = " and ".join(label.sizes)
    return f"Size{'s' if len(label.sizes) > 1 else ''} {named} only: "


def _yarn_name(name: str) -> str:
    """A yarn with its capital: "Sea Glass"; of a letter or two, all of them: "MC"."""
    return name.upper() if name in ("mc", "cc") else name.title()


def _called(label: Label, wording: Wording) -> str:
    numbers = _numbers(label)
    if label.name:
        return f"{sentence(label.name)} {numbers}".rstrip()
    several = "s" if len(label.numbers) > 1 else ""
    words = f"{wording.row}{several} {numbers}"
    if label.every not in ("odd", "even"):
        return words
    if not label.numbers:
        return f"All {label.every} {wording.row.lower()}s"
    to = f" to {wording.row.lower()} {label.until}" if label.until else ""
    return f"{words} and all following {label.every} {wording.row.lower()}s{to}"


def _numbers(label: Label) -> str:
    if not label.by_size:
        return number_list(label.numbers) if label.numbers else ""
    first = label.numbers[0]
    starts = {numbers[:1] for numbers in label.by_size if numbers}
    if len(label.numbers) > 1 and len(starts) > 1:
        ranges = [f"{numbers[0]}-{numbers[-1]}" for numbers in label.by_size]
        return f"{ranges[0]} [{', '.join(ranges[1:])}]"
    ends = [str(numbers[-1]) if numbers else "-" for numbers in label.by_size]
    listed = f"{ends[0]} ({', '.join(ends[1:])})"
    return f"{first}-{listed}" if len(label.numbers) > 1 else listed


def claim_words(claim: Claim, wording: Wording) -> str:
    """A printed count: "(24 dc)", "(2 dc, 6 shells, 5 ch-1 sps)"."""
    words = [figure_words(figure, wording) for figure in claim.figures]
    words[-1] += " in all" if claim.in_all else ""
    if wording.style.spoken:
        listed = f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
        return f"You now have {listed}."
    figures = ", ".join(words)
    return f"- {figures}" if wording.style.dash else f"({figures})"


def figure_words(figure: Figure, wording: Wording) -> str:
    """ "24 dc", "4 dc in each motif"; a word that is nobody's stitch stands as found."""
    if figure.row:
        row = f"{wording.row} {figure.row}"
        return f"{figure_words(replace(figure, row=0), wording)} after {row}"
    if figure.unit.endswith(MOTIF):
        one = replace(figure, unit=figure.unit.removesuffix(MOTIF))
        return figure_words(one, wording) + MOTIF
    number = amount_words(figure.amount)
    if not (is_noun(figure.unit) or figure.unit in wording.own_words):
        return f"{number} {figure.unit}"
    return f"{number} {counted_noun(figure.unit, figure.amount, figure.chains)}"
