"""What does a text say to a maker who holds the hook in the left hand?

Her work is the mirror image of the picture: it begins at the other edge, goes round the
other way, crosses to the other side. The face of the work, the order of rows, front and
behind, and every count stay. "Left" is a side only where the words around it say so: in
"6 sts left" and "the loops that are left" it is none, and "the right side" is a face.
Source of what is mirrored: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.finding import Edit
from hookwright.regex import regex
from hookwright.source import Span

_THINGS = (
    r"(?:side[ ])?(?:edges?|ends?|corners?|halves|half|hand|fronts?|backs?|sleeves?|wings?|"
    r"legs?|arms?|shoulders?|armholes?|mittens?|gloves?|mitts?|socks?|slippers?|boots?|"
    r"foot|feet|ears?|eyes?|thumbs?|cuffs?|pockets?|flaps?|straps?|neck|paws?|fins?|"
    r"borders?|edgings?|columns?|seams?|panels?|points?|crosse?[ds]?|crossing|twists?|cables?|"
    r"leaning|slanting|most)"
)
_ON = "from|to|at|on|towards?|off|along|up|down|for"
_GOING = "slants?|leans?|cross(?:es|ed|ing)?|twist(?:s|ed)?|turn(?:s|ed)?"
_NO_SIDE = "side|hand|away|after|now|over|unworked"
_SIDE = regex(
    rf"""
    \b(?:
      (?P<a>left|right)[ ]?(?P<to>-to-|\bto\b[ ]?|\band\b[ ]?|\bor\b[ ]?)[ ]?(?:the[ ])?
        (?P<b>left|right)\b
    | (?:top|bottom|upper|lower|far|extreme)[ -](?P<c>left|right)\b(?![ -]side\b)
    | (?P<d>left|right)(?=[ -]{_THINGS}\b)(?!-?hand(?:ed|er)(?:s|ness)?\b)
    | (?:(?:{_ON})[ ]the|\b(?:its|your)|(?:{_GOING})(?:[ ]to)?(?:[ ]the)?)[ ]
        (?P<e>left|right)\b(?![ -]?(?:{_NO_SIDE}|\w+[ ]side))
        (?:[ ](?:and|or)[ ](?P<h>left|right)\b)?
    | (?P<f>left)[ -](?:hand[ -])?side\b
    | (?P<g>right)(?=-side[ ](?:edge|seam|corner))
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)
_ROUND = regex(r"\b(?:(?P<against>counter|anti)[- ]?)?clockwise\b", re.IGNORECASE)
_OTHER = {"left": "right", "right": "left"}
_SIDES = ("a", "b", "c", "d", "e", "g", "h")


def mirrored(words: str, terms: str | None = None) -> str:
    """Words for a left-handed maker."""
    at, pieces = 0, []
    for edit in sorted(for_left_hand(words, terms), key=lambda edit: edit.span):
        pieces += [words[at : edit.span.start], edit.replacement]
        at = edit.span.end
    return "".join((*pieces, words[at:]))


def for_left_hand(text: str, terms: str | None) -> Iterator[Edit]:
    """The changes of a text that mirror what it says of sides and of the way round."""
    for found in _SIDE.finditer(text):
        if found["f"]:
            new = "Right-hand side" if found["f"][0].isupper() else "right-hand side"
            yield Edit(Span(*found.span()), new)
            continue
        for side in _SIDES:
            if found[side]:
                yield Edit(Span(*found.span(side)), _other(found[side]))
    against = "anti" if terms == "UK" else "counter"
    for found in _ROUND.finditer(text):
        new = "clockwise" if found["against"] else f"{against}clockwise"
        yield Edit(Span(*found.span()), new.title() if found[0][0].isupper() else new)


def _other(side: str) -> str:
    other = _OTHER[side.lower()]
    if side.isupper():
        return other.upper()
    return other.title() if side[0].isupper() else other
