"""Which sizes leave the rows of a part on the way, and where do they go on?

"Baby only: go on to Body." between two rounds: those after it are for the other sizes.
"""

from __future__ import annotations

import re

from hookwright.notation.collected import Collected
from hookwright.notation.lines import Line
from hookwright.regex import regex

_LEAVES = regex(
    r"\b(?:(?:go|skip|move|proceed|jump|continue|pass)(?: on| ahead| straight| directly)? "
    r"(?:to|with)\s+(?:the\s+)?(?:(?:row|rnd|round)\s+(?P<number>\d{1,5})|(?P<name>\w+))|"
    r"(?:stops?|finish(?:es)?|ends?|(?:is|are) (?:now )?(?:done|complete|finished)) "
    r"here\b|:\W*(?:fasten|finish|end|break|tie) off\W*$)",
    re.IGNORECASE,
)
_MAY_LEAVE = frozenset("go skip move proceed jump continue pass here off".split())
_OTHERS = regex(r"\b(?:all|other|others|remaining|every|both)\b", re.IGNORECASE)
_LONGEST_HEADING = 40
"""Characters of a line in which the name of a part stands, if it begins one."""
_SENTENCE = regex(r"(?<=[.;!)\]])\s+")


def note_leaving(draft: Collected, line: Line) -> bool:
    """Keeps which sizes a line sends on their way; whether it sends any."""
    if len(draft.sizes) < 2 or _MAY_LEAVE.isdisjoint(draft.words):
        return False
    if _MAY_LEAVE.isdisjoint({token.text for token in draft.tokens_in(line)}):
        return False
    found = False
    for sentence in _SENTENCE.split(line.text):
        leaves = _LEAVES.search(sentence)
        if leaves is None or _OTHERS.search(sentence):
            continue
        if leaves["name"] and not _begins_later(draft, line, leaves["name"]):
            continue
        names = _names_in(draft.sizes, sentence)
        draft.left.update(dict.fromkeys(names, int(leaves["number"] or 0)))
        found = found or bool(names)
    return found


def sizes_staying(draft: Collected, numbers: tuple[int, ...]) -> tuple[str, ...]:
    """The sizes that a row is for once others have left; empty for all."""
    if not draft.left:
        return ()
    first = numbers[0] if numbers else 0
    gone = {name for name, back in draft.left.items() if not back or first < back}
    return tuple(name for name in draft.sizes if name not in gone) if gone else ()


def _begins_later(draft: Collected, line: Line, name: str) -> bool:
    """Whether a line further down begins with the name of what is gone on to."""
    if not draft.begun:
        for other in draft.lines:
            words = re.findall(r"\w+", other.text[:_LONGEST_HEADING].lower())
            draft.begun.update(dict.fromkeys(words, other.start))
    return draft.begun.get(name.lower(), -1) > line.start


def _names_in(sizes: tuple[str, ...], sentence: str) -> tuple[str, ...]:
    """The sizes that a sentence speaks of: "size S", "for Baby", "Child and Teen only"."""
    every, worded = _any_of(sizes), _any_of([n for n in sizes if n[0].isalpha()])
    told = rf"\b(?i:sizes?|ages?)\s+(?P<a>{every})"
    if worded:
        told += (
            rf"|\b(?i:for|making|the)\s+(?:the\s+)?(?P<b>{worded})"
            rf"|(?:^|[\s*(_])(?P<c>{worded})\s*(?i:only|sizes?|[:,])"
        )
    found = re.search(told, sentence)
    if found is None:
        return ()
    words = next(filter(None, found.groups()))
    return tuple(n for n in sizes if re.search(rf"(?:^|\W){_name(n)}(?:\W|$)", words))


def _any_of(names: tuple[str, ...] | list[str]) -> str:
    """A pattern for one or several of some names, the longer ones tried first."""
    if not names:
        return ""
    one = "|".join(_name(name) for name in sorted(names, key=len, reverse=True))
    return rf"(?:{one})(?:\s*(?:,|and|&|or|/)+\s*(?:and\s+)?(?:{one}))*(?!\w)"


def _name(name: str) -> str:
    """A pattern for a name; only one of several letters may be small or large."""
    plain = re.escape(name)
    return f"(?i:{plain})" if len(name) > 1 else plain
