"""Which hooks does a text name, and do millimetres and letters on them belong together?

Millimetres are the only dependable key; letters and numbers stand for other sizes at some
makers, and all of these are accepted. Steel hooks are known by their numbers only, on which
no two tables agree: they are read and never judged. Source: data/hooks.toml.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from hookwright.design.facts import Holds, Hook, SectionFound
from hookwright.regex import regex
from hookwright.source import Source, Span

_TABLE = Path(__file__).parent / "data" / "hooks.toml"


class HookName(Struct, frozen=True):
    """What a letter or number of a hook may mean.

    Attributes:
        usual: Millimetres in the newer tables.
        all: Every size that any table gives it.
        published: Whether a published table shows it: then it may be held against a text.
    """

    usual: Fraction
    all: frozenset[Fraction]
    published: bool


_DECIMAL = r"\d{1,2}(?:[.,]\d{1,3})?"
_MM = (
    rf"(?P<mm>{_DECIMAL})(?P<more>(?:\s?(?:/|or|and|to|-|–|,)\s?{_DECIMAL}){{0,4}}|"
    rf"\s?[(\[]\s?{_DECIMAL}(?:\s?[,:;]\s?{_DECIMAL}){{0,12}}\s?[)\]])"
    r"\s?-?\s?(?:mm|millimet(?:re|er)s?)\b"
)
_NUMBER = (
    r"(?:1[0-6]|[1-9])(?:\s?½|[.,]5|[\s-]1/2)?"
    r"(?!\s?(?:mm|\d|[.,/]\d|sts?\b|row|rnd|ball|skein|m\b|g\b|in\b|cm)|[A-Za-z])"
)
_NAME = (
    rf"(?:(?P<uk>UK|Canadian)\s?(?:size\s|no\.?\s|#)?(?P<uk_no>000?|1[0-4]|\d)\b|"
    rf"(?:US|U\.S\.|American)?\s?(?:size\s|no\.?\s?|#)?"
    rf"(?:(?<![A-Za-z0-9])(?P<letter>[B-HJ-QST]|I(?=[-/)\d,.;(\n]|\s?\d|\sor\b|$|\s\())"
    rf"(?:/(?P<second>[A-Z]))?(?![A-Za-z'’]|\d[A-Za-z])"
    rf"(?:\s?[-/–]?\s?(?P<number>{_NUMBER}))?|"
    rf"(?:(?<=US)\s?|(?<=US\s)|(?<=#)|(?<=US size\s))(?P<bare>{_NUMBER})))"
)
_SIZE = regex(rf"{_MM}|{_NAME}")
_AT_HOOK = regex(r"hooks?\b", re.IGNORECASE)
_LEAD = 48
_BEHIND = 56
_NEXT_TO = regex(
    r"[\s()\[\]/=:–-]{0,3}(?:(?:crochet\s)?hooks?\s\(?)?(?:(?:US|size)\s)?", re.IGNORECASE
)
_CUT = regex(r"[;:]|\.\s|(?<!mm),\s|\band\sa\s")
_STOP = regex(r"[;\n]|\.\s|,\s(?![A-Z][-/]\d|\d+(?:\.\d+)?\s?mm|size)")
_STEEL = regex(r"\bsteel\b", re.IGNORECASE)
_OTHER = r"(?:eyes?|beads?|buttons?|needles?|rings?|noses?|markers?|pompoms?|felt|wire)"
_OF_OTHERS = regex(rf"[ )]{{0,2}}(?:[a-z]+ ){{0,2}}{_OTHER}\b", re.IGNORECASE)
_OTHERS = regex(rf"\b{_OTHER}[\s(:–-]{{1,4}}(?:of\s)?$", re.IGNORECASE)
"""What else is told in millimetres among the materials."""


@cache
def hook_names() -> Mapping[str, Mapping[str, HookName]]:
    """US letters, US numbers and old UK numbers, each by name."""
    table = tomllib.loads(_TABLE.read_text("utf-8"))
    return {
        kind: {name: _hook_name(*told) for name, told in names.items()}
        for kind, names in table.items()
    }


def _hook_name(sizes: str, sources: str) -> HookName:
    all_sizes = [Fraction(size) for size in sizes.split()]
    return HookName(all_sizes[0], frozenset(all_sizes), bool(sources))


def hooks_of(source: Source, sections: tuple[SectionFound, ...]) -> tuple[Hook, ...]:
    """The hooks that a draft lists among its materials."""
    found: dict[tuple[Span, Fraction | None], Hook] = {}
    for section in sections:
        if section.holds is not Holds.MATERIALS:
            continue
        words = source.slice(section.heading).lower()
        whole = Span(section.heading.start, section.body.end)
        of_hooks = "hook" in words and "yarn" not in words
        for hook in hooks_in(source.text, whole, all_of_it=of_hooks):
            found.setdefault((hook.span, hook.mm), hook)
    return tuple(sorted(found.values(), key=lambda hook: (hook.span, hook.mm or 0)))


def hooks_in(text: str, within: Span, *, all_of_it: bool = False) -> Iterator[Hook]:
    """The hooks named in a stretch of text, each size of "4 (4.5) mm" for itself.

    A size belongs to a hook where that word stands before or behind it in its line, or
    where `all_of_it` speaks of hooks.
    """
    if text.find("ook", within.start, within.end) < 0 and "OOK" not in text:
        return
    last = within.start
    for at in _AT_HOOK.finditer(text, within.start, within.end):
        start, end = _around(text, at, within)
        if all_of_it:
            start, end = within.start, within.end
        yield from _sizes_in(text, max(last, start), end)
        last = max(last, end)


def _around(text: str, at: re.Match[str], within: Span) -> tuple[int, int]:
    """The stretch of a line in which sizes are sizes of this hook."""
    before = text.rfind("\n", within.start, at.start()) + 1 or within.start
    after = text.find("\n", at.end(), within.end)
    after = within.end if after < 0 else after
    lead = text[max(before, at.start() - _LEAD) : at.start()]
    cuts = (
        found.end()
        for found in _CUT.finditer(lead)
        if lead.count(")", found.end()) <= lead.count("(", found.end())
    )
    cut = max(cuts, default=0)
    start = at.start() - len(lead) + cut
    behind = text[at.end() : min(after, at.end() + _BEHIND)]
    stops = (
        found.start()
        for found in _STOP.finditer(behind)
        if behind.count("(", 0, found.start()) <= behind.count(")", 0, found.start())
    )
    return start, at.end() + next(stops, len(behind))


def _sizes_in(text: str, start: int, end: int) -> Iterator[Hook]:
    """Sizes in order: millimetres with the name beside them are one hook."""
    waiting: re.Match[str] | None = None
    paired: re.Match[str] | None = None
    end_of_pair = start
    for found in _SIZE.finditer(text, start, end):
        steel = not found["mm"] and _STEEL.search(text, start, end)
        if steel or _is_other(text, found):
            continue
        if paired is not None and _is_also(text, paired.start(), end_of_pair, found):
            for hook in _hooks(text, paired, None):
                yield replace(hook, name=found[0].strip(), span=_of(found))
            continue
        if waiting is None:
            waiting = found
            continue
        between = text[waiting.end() : found.start()]
        pair = _NEXT_TO.fullmatch(between) and (not waiting["mm"]) != (not found["mm"])
        yield from _hooks(text, waiting, found if pair else None)
        paired, end_of_pair = (waiting if pair and waiting["mm"] else None), found.end()
        waiting = None if pair else found
    if waiting is not None:
        yield from _hooks(text, waiting, None)


def _is_also(text: str, start: int, end: int, found: re.Match[str]) -> bool:
    """ "3.5 mm (UK 9, US E)": another name of the same hook, in the same brackets."""
    between = text[end : found.start()].strip()
    inside = text.count("(", start, found.start()) > text.count(")", start, found.start())
    return not found["mm"] and between in (",", ";", "/") and inside


def _is_other(text: str, found: re.Match[str]) -> bool:
    """ "6 mm safety eyes": no size of a hook."""
    behind = _OF_OTHERS.match(text, found.end(), found.end() + _LEAD)
    before = _OTHERS.search(text, max(0, found.start() - _LEAD), found.start())
    return bool(found["mm"]) and (behind is not None or before is not None)


def _hooks(text: str, one: re.Match[str], other: re.Match[str] | None) -> Iterator[Hook]:
    measured = one if one["mm"] else other
    named = other if measured is one else one
    name = named[0].strip() if named is not None else ""
    end = (other or one).end()
    if text[end : end + 1] in (")", "]") and "(" in text[one.start() : end]:
        end += 1
    span = Span(_of(one).start, end)
    if measured is None:
        yield Hook(None, name, span)
        return
    several = re.findall(r"\d+(?:[.,]\d+)?", measured["mm"] + " " + measured["more"])
    if len(several) == 1:
        yield Hook(_mm(several[0]), name, span)
        return
    for number in several:
        yield Hook(_mm(number), "", span)


def _of(found: re.Match[str]) -> Span:
    return Span(found.start() + len(found[0]) - len(found[0].lstrip()), found.end())


def _mm(number: str) -> Fraction:
    return Fraction(number.replace(",", "."))


def meant_by(name: str) -> HookName | None:
    """What the name of a hook may mean; None where it is not known, or of steel.

    A name of two, "G-6", means what both of them may mean: 4.0 or 4.25 mm, while a G alone
    may be 4.5 mm. Two that have no size in common mean what either may.
    """
    found = _SIZE.fullmatch(name.strip())
    if found is None or _STEEL.search(name):
        return None
    table = hook_names()
    if found["uk"]:
        return table["uk"].get(found["uk_no"])
    number = re.sub(
        r"\s?½|[\s-]1/2|,5", ".5", (found["number"] or found["bare"] or "").strip()
    )
    letters = (
        table["letter"].get(letter or "") for letter in (found["letter"], found["second"])
    )
    meant = [hook for hook in (*letters, table["number"].get(number)) if hook is not None]
    if not meant:
        return None
    together = frozenset.intersection(*(hook.all for hook in meant))
    sizes = together or frozenset[Fraction]().union(*(hook.all for hook in meant))
    return HookName(meant[0].usual, sizes, all(hook.published for hook in meant))
