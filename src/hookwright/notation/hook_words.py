"""Which words of a definition in hook motions mean something, and what?

A definition such as "yo, insert hook in next st, yo and pull up a loop" is prose with a
small vocabulary. Here its text becomes words of a few kinds; words that move nothing stay
in as "other", so that a reader can tell a definition from a remark. The vocabulary is
common practice, no source; the names of the plain stitches are those of the trade body's
master list, read as US names.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from hookwright.source import Span

LONGEST_NUMBER = 9  # digits; a longer one is not meant

_STITCHES = {
    "sl st": r"sl\.?\s*sts?|slip[\s-]st(?:itch(?:es)?|s)?|ss",
    "hdc": r"hdcs?|half[\s-]double(?:[\s-]crochets?)?",
    "dtr": r"dtrs?|double[\s-]treble(?:s|[\s-]crochets?)?",
    "trtr": r"trtrs?|triple[\s-]treble(?:s|[\s-]crochets?)?",
    "dc": r"dcs?|double[\s-]crochets?",
    "tr": r"trs?|trebles?(?:[\s-]crochets?)?|triple[\s-]crochets?",
    "sc": r"scs?|single[\s-]crochets?",
}
_NUMBERS = "zero one two three four five six seven eight nine ten eleven twelve".split()  # noqa: SIM905 - a row of words reads better
_ORDINALS = "zeroth first second third fourth fifth sixth seventh eighth ninth".split()  # noqa: SIM905 - a row of words reads better

_KINDS = {
    "yo": "yo yos yoh yrh",
    "yarn": "yarn wool thread yarns threads",
    "wrap": "wrap wrapping wind winding catch catching grab grabbing",
    "hook": "hook needle",
    "insert": "insert inserting inserted ins put putting push pushing stick go going",
    "pull": "pull pulling pulled draw drawing drawn bring bringing pass passing drag take "
    "taking pick picking raise work working worked slip slipping place",
    "up": "up out",
    "through": "through thru off",
    "loop": "loop loops lp lps",
    "strand": "strand strands",
    "drop": "drop dropping remove removing release releasing withdraw slide",
    "dropped": "dropped released free",
    "hold": "leave leaving hold holding keep keeping retain retaining having",
    "omit": "omit omitting without not don never except before",
    "unfinished": "unfinished incomplete uncompleted partial unclosed",
    "finish": "complete completing finish finishing",
    "until": "until till til",
    "repeat": "rep reps repeat repeating",
    "often": "once twice thrice",
    "times": "times time x",
    "more": "more again another additional further",
    "total": "total altogether",
    "skip": "skip skipping sk miss missing",
    "skipped": "skipped missed unworked",
    "chain": "ch chs chain chains",
    "together": "tog together",
    "each": "each every",
    "next": "next following",
    "same": "same this that it itself there",
    "last": "last final previous prev preceding",
    "whole": "all both remaining rem rest everything entire",
    "but": "but except",
    "article": "the a an of these those your any its them",
    "noun": "st sts stitch stitches sp sps space spaces place ring edge corner gap picot",
    "named": "cluster clusters cl bobble bobbles popcorn popcorns puff puffs shell shells group "
    "groups star stars fan fans decrease dec",
    "own": "top tops base bottom center centre middle foot",
    "link": "bar bars bump side sides eye ray rays stem leg legs horizontal vertical diagonal",
    "cloth": "fabric surface cloth",
    "face": "front back far near only blo flo",
    "post": "post posts",
    "row": "row rows rnd rnds round rounds below ahead",
    "way": "right left",
    "where": "in into to at on inside under underneath between across from behind "
    "beneath over around",
    "and": "and then also plus",
    "as": "as or like",
    "made": "made done completed formed just",
    "step": "step steps process sequence motion motions stage procedure",
    "remark": "counts count counting",
    "finger": "finger fingers thumb ruler",
    "height": "height length level",
    "size": "long tall loose new large big second extra",
    "close": "close closing secure fasten lock form make making for now is are be "
    "have will you should still usual normal usually completely tightly "
    "loosely with crochet index so crossing crossed",
}
_KIND_OF = {word: kind for kind, words in _KINDS.items() for word in words.split()}
_KIND_OF |= {word: "number" for word in _NUMBERS[1:]} | {
    word: "ordinal" for word in _ORDINALS[1:]
}

_WORD = re.compile(
    r"(?<![^\W\d_])(?:(?:[fb]p|(?:front|back)[\s-]post[\s-])?(?:"
    + "|".join(
        f"(?P<{name.replace(' ', '_')}>{words})" for name, words in _STITCHES.items()
    )
    + r")(?![^\W\d_]))"
    r"|(?P<ordinal>\d+(?:st|nd|rd|th|d)(?![^\W\d_]))|(?P<number>\d+)"
    r"|(?P<word>[^\W\d_]+)"
    r"|(?P<times>×)|(?P<open>[(\[{])|(?P<close>[)\]}])|(?P<star>[*†‡]+)"
    r"|(?P<comma>[,&])|(?P<stop>[.;:!])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a definition.

    Attributes:
        kind: What it is to the reader: "yo", "loop", "number", "stitch", "open" ...
        text: The word in small letters; of a stitch, its US name.
        span: Where it stands.
        number: What it counts, or its place in a row of ordinals; 0 for other words.
    """

    kind: str
    text: str
    span: Span
    number: int = 0


def read_words(text: str, offset: int) -> Iterator[Word]:
    """Yield the words of a text in order; dashes and other marks are passed over."""
    for match in _WORD.finditer(text):
        span = Span(offset + match.start(), offset + match.end())
        yield _word(match.lastgroup or "word", match.group().lower(), span)


def _word(group: str, text: str, span: Span) -> Word:
    name = group.replace("_", " ")
    if name in _STITCHES:
        return Word("stitch", name, span)
    if group in {"ordinal", "number"}:
        return Word(group, text, span, _value(text))
    kind = _KIND_OF.get(text, "other") if group == "word" else group
    return Word(kind, text, span, _counted(kind, text))


def _value(text: str) -> int:
    digits = "".join(filter(str.isdecimal, text))
    return int(digits) if len(digits) <= LONGEST_NUMBER else 10**LONGEST_NUMBER - 1


def _counted(kind: str, text: str) -> int:
    if kind == "number":
        return _NUMBERS.index(text)
    if kind == "ordinal":
        return _ORDINALS.index(text)
    return {"once": 1, "twice": 2, "thrice": 3}.get(text, 0)
