"""Words of the other terms in a pattern: "sc" in UK terms, "htr" in US ones."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from hookwright.design.trade_words import plain_form, stitch_by_name
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.nested import makes_in
from hookwright.notation.tree import Make, Pattern, RowText
from hookwright.notation.vocabulary import standard_words
from hookwright.regex import regex
from hookwright.source import Source, Span
from hookwright.working.outcome import WorkedPattern
from hookwright.working.steps import Step
from hookwright.working.stitches import base_of


def mixed_terms(manuscript: Manuscript) -> Iterator[Finding]:
    """Words that only the other terms have, or that a count or the list betrays."""
    if manuscript.terms is not None:
        yield from _of_the_others(manuscript.pattern, manuscript.source, manuscript.terms)
        yield from _counted_as_one(manuscript.worked, manuscript.terms)
    yield from _listed_by_the_others(manuscript)


IN_OTHER_TERMS = {
    "US": {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"},
    "UK": {"dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr"},
}
"""What a stitch of these terms is called in the others, as a list may well explain it."""

_NAMED_TERMS = regex(r"\b(?:UK|US|U\.K\.|U\.S\.|British|American)(?![\w-])")


def _listed_by_the_others(manuscript: Manuscript) -> Iterator[Finding]:
    """The first entry of a list that belongs to the other terms: "dc = single crochet".

    Only where the text says its terms and never speaks of the others.
    """
    pattern = manuscript.pattern
    if not pattern.terms_said or pattern.terms is None:
        return
    terms, other = pattern.terms, "UK" if pattern.terms == "US" else "US"
    for entry in manuscript.design.abbreviations:
        plain = plain_form(entry.word)
        named = stitch_by_name(entry.meaning)
        if not named or IN_OTHER_TERMS[other].get(plain) != named:
            continue
        if IN_OTHER_TERMS[terms].get(plain) == named or _speaks_of(
            manuscript.source, other
        ):
            return
        yield Finding(
            "mixed-terms",
            Severity.ERROR,
            entry.span,
            f'"{entry.word}" is {entry.meaning} in {other} terms, but the pattern says '
            f"that it is in {terms} terms.",
            "Say the terms that it is written in.",
        )
        return


def _speaks_of(source: Source, terms: str) -> bool:
    """Whether a text names some terms."""
    named = {"US": {"US", "AMERICAN"}, "UK": {"UK", "BRITISH"}}[terms]
    found = _NAMED_TERMS.findall(source.text)
    return bool({word.upper().replace(".", "") for word in found} & named)


def _of_the_others(pattern: Pattern, source: Source, terms: str) -> Iterator[Finding]:
    """Words that exist only in the other terms, each once."""
    only = {
        stitch.id: stitch.terms
        for rows in standard_words().values()
        for _, stitch in rows
        if stitch.terms and stitch.terms != terms
    }
    seen = {name for definition in pattern.definitions for name in definition.names}
    known: set[int] = set()
    for part in pattern.parts:
        for row in part.rows:
            if id(row.body) in known:  # rows written alike share their instructions
                continue
            known.add(id(row.body))
            for node in makes_in(row.body):
                base = base_of(node.stitch)
                if base in only and base not in seen:
                    seen.add(base)
                    word = _Word(base, only[base], _OTHER[terms].get(base, ""))
                    yield _finding(word, terms, node, row, part.name, source)


_OTHER = {
    "UK": {"sc": "dc", "hdc": "htr", "esc": "exdc"},
    "US": {"htr": "hdc", "trtr": "dtr"},
}


_NAMED_BY_THE_OTHERS = {
    "UK": {"tr": "dc", "dtr": "tr", "ttr": "dtr"},
    "US": {"dc": "tr", "tr": "dtr", "sc": "dc"},
}
"""What a stitch is called in the other terms, where that is another stitch in these."""


def _counted_as_one(worked: WorkedPattern, terms: str) -> Iterator[Finding]:
    """A count in one stitch over a row that works some of it under its other name.

    "3 dc in next space" among groups of 3 tr, and then "(36 tr)": all are tr in UK terms.
    """
    if not worked.sizes:
        return
    told: set[int] = set()
    for outcome in worked.sizes[0].outcomes:
        step = outcome.step
        figures = [claim.figures[0] for claim in step.claims if len(claim.figures) == 1]
        if outcome.worked is None or not figures or id(step.text) in told:
            continue
        meant = figures[0].unit
        slipped = _NAMED_BY_THE_OTHERS[terms].get(meant, "")
        if not slipped or slipped not in outcome.tally.kinds:
            continue
        kinds = {kind: n for kind, n in outcome.worked.row.kinds().items() if kind}
        if set(kinds) == {meant, slipped} and sum(kinds.values()) == figures[0].amount.at(
            0
        ):
            told.add(id(step.text))
            found = [node for node in makes_in(step.nodes) if node.stitch == slipped]
            yield from (_slipped(step, node, meant, terms) for node in found[:1])


def _slipped(step: Step, node: Make, meant: str, terms: str) -> Finding:
    other = "US" if terms == "UK" else "UK"
    number = step.number
    return Finding(
        "mixed-terms",
        Severity.WARNING,
        step.place(node.span),
        f'The count takes "{node.stitch}" for {meant}: that is its {other} name.',
        f'Write "{meant}" if that is meant, or count the stitches apart.',
        row=step.label or None,
        numbers=(number, number) if number is not None else None,
    )


class _Word(NamedTuple):
    """A word of the other terms, and the one that may be meant; "" for none."""

    word: str
    of: str
    meant: str


def _finding(
    found: _Word, terms: str, node: Make, row: RowText, part: str, source: Source
) -> Finding:
    word, of, meant = found
    span = _where(word, row.place(node.span), source)
    numbers = row.label.numbers if row.label else ()
    corrected = source.slice(span).replace(word, meant)
    return Finding(
        "mixed-terms",
        Severity.ERROR,
        span,
        f'"{word}" is a {of} word, but the pattern is in {terms} terms.',
        f'Write "{meant}" if that is meant.' if meant else "Use one set of terms.",
        edit=Edit(span, corrected) if meant else None,
        row=row.label.text if row.label else None,
        part=part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )


def _where(word: str, span: Span, source: Source) -> Span:
    """The word itself among the words of its phrase, or the phrase where it is hidden."""
    at = re.search(rf"\b{re.escape(word)}\b", source.slice(span))
    return Span(span.start + at.start(), span.start + at.end()) if at else span
