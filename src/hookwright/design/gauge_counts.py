"""What does a sentence about the gauge count: stitches, rows, repeats, rounds, a motif?"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.design.lengths import Told, number_at
from hookwright.notation.vocabulary import StitchWord, compound, singular, standard_words
from hookwright.regex import regex
from hookwright.source import Span

_ROUNDS = regex(
    r"(?<!of )(?<!of the )\b(?:first[ \t]{1,4}(?P<count>\d{1,2}|two|three|four|five|six)"
    r"[ \t]{1,4}(?P<a>rnds?|rounds?|rows?)|"
    r"(?P<b>rnds?|rounds?|rows?)[ \t]{1,4}(?P<first>\d{1,3})"
    r"(?:[ \t]{0,4}(?:-|–|to|and|through)[ \t]{0,4}(?P<last>\d{1,3}))?)\b",
    re.IGNORECASE,
)
PIECES = "motif square hexagon block circle flower tile medallion triangle".split()
_PIECE = regex(rf"\b(?P<name>{'|'.join(PIECES)})s?\b", re.IGNORECASE)
_NUMBER_BEGINS = regex(
    r"(?<![\w.,#])(?<!\d/)(?=[\d¼½¾⅓⅔⅛⅜⅝⅞]|"
    r"(?:one|two|three|four|five|six|eight|ten|twelve)[ \t])",
    re.IGNORECASE,
)
_ALREADY = regex(
    r"\b(?:size|us|uk|rows?|rnds?|rounds?|no\.?|weight|class|dk|page|part)[ \t]{1,4}$",
    re.IGNORECASE,
)
"""Words that the number behind them belongs to."""
_NOUN = regex(
    r"[ \t]{0,4}-?[ \t]{0,4}(?P<words>[^\W\d_][\w'’-]*(?:[ \t]{1,4}[^\W\d_][\w'’-]*){0,5})"
)
_LINKS = frozenset(
    "is are was measure measures measured measuring to in per over and x by of from make "
    "makes equals equal at on with using when worked should across wide long high tall or "
    "for = approx about gives give takes take x".split()
)
_STITCHES = frozenset("st sts stitch stitches".split())
ROWS = frozenset("row rows rnd rnds round rounds".split())
_NO_REPEATS = frozenset(
    "ball balls skein skeins hank hanks g gram grams oz ply strand strands button buttons "
    "marker markers size sizes hook hooks mm cm year years month months yd yds yards m ch "
    "chain chains chs time times inch inches in ins needle needles swatch more less each "
    "ends colour colours color colors".split()
)
PATTERN = frozenset(
    "pattern patt pat patterns rib ribbing mesh lace moss texture stitch st waves wave "
    "ripple chevron granny".split()
)


class Counted(Struct, frozen=True):
    """A number of stitches, rows or repeats.

    Attributes:
        kind: "st", "row", or the writer's word for a repeat.
        stitch: The stitch told with it.
    """

    number: Fraction
    kind: str
    stitch: str
    span: Span
    in_one: int | None = None


_SINGLE = frozenset({"plain", "slip", "together", "foundation"})
"""Stitches that are counted one by one; fans and clusters are counted as repeats."""


def stitch_named(words: str) -> str:
    """The identifier of the stitch that some words begin with; "" if they name none."""
    found = _stitch(words)
    return found.id if found is not None and found.family in _SINGLE else ""


def _stitch(words: str) -> StitchWord | None:
    split = [word for word in re.split(r"[^\w'’-]+", words.lower()) if word]
    if len(split) > 1 and len(split[0]) == 1 and split[1] == "c":  # "d c"
        split = [split[0] + split[1], *split[2:]]
    if not split:
        return None
    for first in singular(split[0]):
        for spelling, stitch in standard_words().get(first, ()):
            own = [first, *split[1 : len(spelling)]]
            if len(own) == len(spelling) and _spelled(own, spelling):
                return stitch
    return compound(split[0])


def _spelled(own: Sequence[str], spelling: Sequence[str]) -> bool:
    return all(word in singular(mine) for mine, word in zip(own, spelling, strict=True))


def rounds_in(words: str, start: int) -> list[Counted]:
    """ "First 4 rnds", "Rnds 1-3": a round piece is measured whole, rows are counted."""
    found = []
    for told in _ROUNDS.finditer(words):
        span = Span(start + told.start(), start + told.end())
        first = int(told["first"] or 1)
        counted = number_at(told["count"] or "", 0, len(told["count"] or ""))
        number = counted[0] if counted else Fraction(int(told["last"] or first) - first + 1)
        rows = (told["a"] or told["b"]).lower().startswith("ro") and "u" not in told[
            0
        ].lower()
        if not rows:
            found.append(Counted(Fraction(1), " ".join(told[0].split()), "", span))
        elif number > 1:
            found.append(Counted(number, "row", "", span))
    return found


_UP_TO = regex(r"[ \t]?(?:-|–|to)[ \t]?")


def counts_in(words: str, start: int, taken: Sequence[Counted]) -> Iterator[Counted]:
    """ "16 sts", "12 rows", "18 tr", "5 fans", "one wave of 20 sts"."""
    waiting: Counted | None = None
    behind = 0
    for begins in _NUMBER_BEGINS.finditer(words):
        at = begins.start()
        inside = any(c.span.start <= start + at < c.span.end for c in taken)
        number = number_at(words, at, len(words))
        if (
            inside
            or at < behind
            or number is None
            or _ALREADY.search(words, max(0, at - 12), at)
        ):
            continue
        upper = _UP_TO.match(words, number[1])
        second = number_at(words, upper.end(), len(words)) if upper else None
        value, behind = number
        if second is not None:
            value, behind = (value + second[0]) / 2, second[1]
        count = _count(words, value, at, behind, start)
        if count is None:
            continue
        if (
            waiting is not None
            and count.kind == "st"
            and _is_of(words, waiting, count, start)
        ):
            waiting = replace(
                waiting, in_one=int(count.number), span=waiting.span.to(count.span)
            )
            continue
        if waiting is not None:
            yield waiting
        waiting = count
    if waiting is not None:
        yield waiting


def _is_of(words: str, before: Counted, count: Counted, start: int) -> bool:
    """ "One wave of 20 sts": the stitches are those of the repeat."""
    between = words[before.span.end - start : count.span.start - start].strip(" \t(,")
    return before.kind not in ("st", "row") and between in ("of", "over", "=", "is", "")


def _count(
    words: str, number: Fraction, at: int, behind: int, start: int
) -> Counted | None:
    noun = _NOUN.match(words, behind)
    if noun is None:
        return None
    split = _before_links(noun["words"].lower().split())
    told = _kind(split)
    if told is None:
        return None
    kind, stitch, length = told
    end = noun.start("words")
    for word in noun["words"].split()[:length]:
        end = words.index(word, end) + len(word)
    return Counted(number, kind, stitch, Span(start + at, start + end))


def _before_links(words: list[str]) -> list[str]:
    at = next((i for i, word in enumerate(words) if word in _LINKS), len(words))
    return words[:at]


def _kind(words: list[str]) -> tuple[str, str, int] | None:
    """What is counted, the stitch told with it, and how many words tell it."""
    if not words or words[0] in _NO_REPEATS:
        return None
    at = next((i for i, word in enumerate(words) if word in ROWS | _STITCHES), None)
    if at is not None:
        own = " ".join(words[:at])
        known = not own or bool(stitch_named(own)) or words[at - 1] in PATTERN
        if words[at] in ROWS:
            return ("row", own if known else "", at + 1)
        return ("st", own, at + 1) if known else (f"{own} st", "", at + 1)
    if stitch_named(" ".join(words)):
        length = next(n for n in range(1, 9) if _names(words[:n]))
        return "st", " ".join(words[:length]), length
    own = " ".join(words[:3])
    return next((w for w in reversed(list(singular(own)))), own), "", min(len(words), 3)


def _names(words: list[str]) -> bool:
    return len(words) > 4 or bool(stitch_named(" ".join(words)))


def piece_in(words: str, start: int, lengths: Sequence[Told]) -> Counted | None:
    """ "Each motif measures 6 in": a piece named before its length."""
    found = _PIECE.search(words, 0, lengths[0].span.start - start)
    if found is None:
        return None
    span = Span(start + found.start(), start + found.end())
    return Counted(Fraction(1), found["name"].lower(), "", span)
