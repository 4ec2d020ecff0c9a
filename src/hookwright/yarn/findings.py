"""What is wrong with the yarns of a worksheet, or with what the pattern calls them?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.design.facts import YarnBeside
from hookwright.design.stripes import stripe_plans
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import Yarn as YarnNode
from hookwright.source import Span
from hookwright.yarn.facts import Yarn
from hookwright.yarn.known import Known

RULE = "worksheet"


def wrong_in_worksheet(checked: Checked, known: Known) -> Iterator[Finding]:
    """Yarns and swatches of the worksheet that cannot be reckoned with."""
    if known.of_sheet:
        for yarn in known.yarns:
            yield from _wrong_with(yarn)
    noted = checked.design.noted
    for one in noted.beside if noted is not None else ():
        yield from _wrong_beside(one, known)
    for swatch in noted.swatches if noted is not None else ():
        told = swatch.weighed
        if told is None:
            continue
        if not (told.stitches or swatch.stitches) or not (told.rows or swatch.rows):
            yield _finding(
                told.span,
                "The swatch is weighed, and its stitches and rows are not both told.",
                "Count all that was on the scales: whole_stitches and whole_rows.",
            )


def _wrong_beside(one: YarnBeside, known: Known) -> Iterator[Finding]:
    """What is wanted beside the rows and cannot be reckoned: no yarn is left out unsaid."""
    for name in filter(None, (one.yarn, one.beside)):
        if known.yarns and known.find(name) is None:
            labels = ", ".join(yarn.label for yarn in known.yarns)
            yield _finding(
                one.span, f'There is no yarn "{name}".', f"The yarns are {labels}."
            )
    is_cut = one.what in {"fringe", "tassels"}
    if not one.what or not one.yarn:
        yield _finding(
            one.span,
            "It is not told what yarn beside the rows is for, or which yarn.",
            'Write both, as here: what = "fringe", yarn = "A".',
        )
    elif is_cut and (one.length is None or (one.number is None and one.every is None)):
        yield _finding(
            one.span,
            f"How long the strands of the {one.what} are, or how many, is not told.",
            'Write length = "12 in" and number = 40, or for a fringe every = "1 in".',
        )


def _wrong_with(yarn: Yarn) -> Iterator[Finding]:
    listed = yarn.listed
    if listed is None:
        return
    if not listed.ball_m:
        key = next((k for k in ("ball_g", "price", "in_hand") if _tells(yarn, k)), "letter")
        yield _finding(
            listed.place(key),
            f"A ball of {yarn.told} has no length, so its balls cannot be counted.",
            "Write the metres of its band, as here: ball_m = 200.",
        )
    elif not listed.ball_g:
        yield _finding(
            listed.place("ball_m"),
            f"A ball of {yarn.told} has no weight, so nothing of it can be told in grams.",
            "Write the grams of its band, as here: ball_g = 100.",
        )
    if listed.price is not None and not listed.currency:
        yield _finding(
            listed.place("price"),
            f"{yarn.told} costs {listed.price}, and in what money is not told.",
            'Write it beside the price, as here: currency = "GBP".',
        )


def _tells(yarn: Yarn, key: str) -> bool:
    return yarn.listed is not None and key in dict(yarn.listed.places)


def not_in_palette(checked: Checked, known: Known) -> Iterator[Finding]:
    """Colours that the pattern uses and the worksheet does not have, once each."""
    if not known.of_sheet:
        return
    told: set[str] = set()
    labels = ", ".join(yarn.label for yarn in known.yarns)
    for name, span in (*_in_rows(checked), *_in_stripes(checked)):
        if name in told or known.find(name) is not None or _are_known(name, known):
            continue
        told.add(name)
        yield _finding(
            span,
            f'The pattern uses "{name}", and no yarn of the worksheet is called so: '
            f"{labels}.",
            "Add it under [[yarn]], or look at the name.",
        )


def _are_known(name: str, known: Known) -> bool:
    """Whether a name is of several yarns that are held together."""
    parts = re.split(r"\s*(?:\band\b|\+|&|/)\s*", name)
    return len(parts) > 1 and all(known.find(part) is not None for part in parts)


def _in_rows(checked: Checked) -> Iterator[tuple[str, Span]]:
    for part in checked.reading.pattern.parts:
        for row in part.rows:
            for node in nested(row.body):
                if isinstance(node, YarnNode) and node.name:
                    yield node.name, row.place(node.span)


def _in_stripes(checked: Checked) -> Iterator[tuple[str, Span]]:
    source = checked.source
    for plan in stripe_plans(source, checked.reading.pattern):
        for stripe in (*plan.stripes, *plan.after):
            yield stripe.colour, _where(source.text, stripe.colour, plan.span)
    for _, name in checked.reading.pattern.stripes:
        yield name, _where(source.text, name, Span(0, len(source.text)))


def _where(text: str, name: str, span: Span) -> Span:
    """Where a name stands within some words; the words if it does not."""
    found = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)").search(
        text, span.start, span.end
    )
    return Span(*found.span()) if found is not None else span


def _finding(span: Span, message: str, why: str) -> Finding:
    return Finding(RULE, Severity.WARNING, span, message, why)
