"""Are the hooks that the rows name those that the materials list, in sizes that fit?

A letter beside millimetres is told only where no table gives it that size. Among the rows a
hook counts as listed where its size is that of a listed one by any table.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from hookwright.design.facts import Holds, Hook
from hookwright.design.hooks import HookName, hook_names, hooks_in, meant_by
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Related, Severity
from hookwright.regex import regex
from hookwright.source import Span

_CHANGES = regex(
    r"\b(?:chang|switch|swap|us(?:e|ing)|with|go|going|return|work)\w*\b[^.\n]{0,30}$",
    re.IGNORECASE,
)
_BY_RANK = regex(
    r"\b(?:larger|smaller|bigger|main|first|second|other|both|either|larg\w+|small\w+|"
    r"siz\w+ (?:up|down|larger|smaller)|finer|thicker)\b[^.\n]{0,20}\bhooks?\b|"
    r"\bhooks?\b[^.\n]{0,24}\b(?:size (?:up|down|larger|smaller)|for)\b|"
    r"\bor\b[^.\n]{0,60}\bgauge",
    re.IGNORECASE,
)
_CHOICE = regex(
    r"\b(?:or|for|ribbing|edging|border|body|optional|up to|to)\b", re.IGNORECASE
)


def hook_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """Sizes that do not belong together, hooks not listed, and hooks never named."""
    listed = manuscript.design.hooks
    wrong = [hook for hook in listed if _is_wrong(hook)]
    for hook in wrong:
        yield _does_not_belong(hook)
    if wrong or not any(hook.mm is not None for hook in listed):
        return
    named = list(_named_in_rows(manuscript))
    missing = [hook for hook in named if not any(_may_be(hook, own) for own in listed)]
    for hook in missing[:1]:
        yield _not_listed(manuscript, hook, listed)
    if len(listed) > 1 and named and not missing:
        yield from _never_named(manuscript, listed, named)


def _is_wrong(hook: Hook) -> bool:
    """Whether every table denies that a name has this size."""
    meant = meant_by(hook.name) if hook.name and hook.mm is not None else None
    if meant is None or hook.mm is None or not meant.published or hook.mm in meant.all:
        return False
    return not _is_named_after_neighbour(hook.mm, meant)


def _is_named_after_neighbour(mm: Fraction, meant: HookName) -> bool:
    """Whether a size has no US name of its own, and none lies nearer: 7.25 mm as a K."""
    names = hook_names()
    usual = {name.usual for kind in ("letter", "number") for name in names[kind].values()}
    return abs(meant.usual - mm) == min(abs(size - mm) for size in usual)


def _does_not_belong(hook: Hook) -> Finding:
    meant = meant_by(hook.name)
    assert meant is not None
    assert hook.mm is not None
    return Finding(
        "materials",
        Severity.WARNING,
        hook.span,
        f"A hook of {_told(hook.mm)} mm is no {hook.name}, "
        f"which is {_told(meant.usual)} mm.",
        "Give the millimetres and the name of the same hook.",
    )


def _named_in_rows(manuscript: Manuscript) -> Iterator[Hook]:
    """The hooks told to be used from where the rows begin, in no section of their own."""
    text = manuscript.source.text
    begins = [row.span.start for part in manuscript.pattern.parts for row in part.rows]
    begins += [part.span.start for part in manuscript.pattern.parts]
    told = [
        section.body
        for section in manuscript.design.sections
        if section.holds in (Holds.MATERIALS, Holds.GAUGE, Holds.NOTES)
    ]
    for hook in hooks_in(text, Span(min(begins, default=len(text)), len(text))):
        lead = text[max(0, hook.span.start - 60) : hook.span.start]
        if _CHANGES.search(lead) and not any(hook.span in body for body in told):
            yield hook


def _sizes(hook: Hook) -> frozenset[Fraction]:
    """Every size a hook may have; none where its name is not known."""
    if hook.mm is not None:
        return frozenset((hook.mm,))
    meant = meant_by(hook.name)
    return meant.all if meant is not None else frozenset()


def _may_be(hook: Hook, own: Hook) -> bool:
    """Whether two hooks may be one; a name nobody knows may be any."""
    sizes, others = _sizes(hook), _sizes(own)
    return not sizes or not others or bool(sizes & others)


def _not_listed(manuscript: Manuscript, hook: Hook, listed: tuple[Hook, ...]) -> Finding:
    name = _size(hook)
    own = sorted({f"{_told(one.mm)} mm" for one in listed if one.mm is not None})
    row = next(
        (
            row
            for part in manuscript.pattern.parts
            for row in part.rows
            if hook.span in row.span
        ),
        None,
    )
    return Finding(
        "materials",
        Severity.WARNING,
        hook.span,
        f"A hook of {name} is used here, but the materials list {' and '.join(own)}.",
        "List the hook, or name the one that is meant.",
        related=(Related(listed[0].span, "the hook is listed here"),),
        row=row.label.text if row and row.label else None,
    )


def _never_named(
    manuscript: Manuscript, listed: tuple[Hook, ...], named: list[Hook]
) -> Iterator[Finding]:
    """Of several hooks listed, one that is named nowhere else while another is."""
    text = manuscript.source.text
    gauges = [gauge.hook_mm for gauge in manuscript.design.gauges if gauge.hook_mm]
    unused = [
        hook
        for hook in listed
        if hook.mm not in gauges and not any(_may_be(hook, one) for one in named)
    ]
    start, end = listed[0].span.start, listed[-1].span.end
    line_end = text.find("\n", end)
    told_there = _CHOICE.search(text, start, line_end if line_end >= 0 else len(text))
    if len(unused) != 1 or told_there or _BY_RANK.search(text):
        return
    (hook,) = unused
    name = _size(hook)
    yield Finding(
        "materials",
        Severity.ADVICE,
        hook.span,
        f"A hook of {name} is listed, but nothing says what is worked with it.",
        "Say where the hook is used, or take it off the list.",
    )


def _size(hook: Hook) -> str:
    """What a hook is called by its size: "4 mm", "size H"."""
    if hook.mm is not None:
        return f"{_told(hook.mm)} mm"
    return hook.name if " " in hook.name else f"size {hook.name}"


def _told(mm: Fraction) -> str:
    return f"{float(mm):g}"
