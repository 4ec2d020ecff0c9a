"""What is said of the words beside the instructions where a pattern is heard?

A screen reader reads signs by their names or not at all, so nothing is left to a sign:
brackets become commas, "3-6" is "3 to 6", "41 x 56" is "41 by 56", "1/2" is "a half". A
bracket in the definition of a stitch that is worked several times, or in one place, is told
as a repeat or a place is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.finding import Edit
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.wording.lead import LEAD

_AGAIN = regex(
    r"[(\[](?P<list>[^()\[\]\n]{3,400})[)\]][ ]?"
    r"(?P<times>once|twice|thrice|\w+ times|\w+ more times)\b"
    r"(?P<where> (?=(?:in|into|around) ))?",
    re.IGNORECASE,
)
_MOTIONS = regex(r"\b(?:insert (?:your |the )?hook|(?:pull|draw)[ -](?:up|through))\b")
"""Words of how a stitch is made, whether it is a special one or one of the trade."""
_IN_PLACE = regex(
    r"[(\[](?P<list>[^()\[\]\n]{3,200})[)\]](?P<place>[ ](?:all )?(?:in|into|around) )",
    re.IGNORECASE,
)
_SUM = regex(r"\d[ ]?[x×*][ ]?\d+[ ]?\+[ ]?\d+[ ]?=[ ]?\d")
"""A sum is heard by its signs: "4 x 12 + 1 = 49"."""
_BRACKET = regex(r"[ ]?[(\[{](?P<words>[^()\[\]{}\n]{0,400})[)\]}](?P<after>[ ]?[.,;:!?]?)")
_HALVES = {
    "1/2": "a half", "1/4": "a quarter", "3/4": "three quarters", "1/3": "a third",
    "2/3": "two thirds", "1/8": "an eighth", "3/8": "three eighths", "5/8": "five eighths",
    "7/8": "seven eighths", "½": "a half", "¼": "a quarter", "¾": "three quarters",
    "⅓": "a third", "⅔": "two thirds", "⅛": "an eighth", "⅜": "three eighths",
    "⅝": "five eighths", "⅞": "seven eighths",
}  # fmt: skip
_FRACTION = regex(
    r"(?<![\d/])(?P<whole>\d+[ -]?)??(?P<part>[1-7]/[2348](?![\d/])|[¼½¾⅓⅔⅛⅜⅝⅞])"
)
_RANGE = regex(r"(?<=\d)[ ]?[-–][ ]?(?=\d)")
_SIGNS: tuple[tuple[re.Pattern[str], str], ...] = (
    (regex(r"(?<=\d)[ ]?(?:x|×)[ ]?(?=\d)"), " by "),
    (regex(r"(?<=\w) x (?=\d)"), " by "),
    (regex(r"(?<=\d)[ ]?%"), " percent"),
    (regex(r"(?<=\d)[ ]?°[ ]?C\b"), " degrees Celsius"),
    (regex(r"(?<=\d)[ ]?°[ ]?F\b"), " degrees Fahrenheit"),
    (regex(r"(?<=\d)[\"″”]"), " inches"),
    (regex(r"(?<=\w) / (?=\w)"), ", "),
    (regex(r"(?<=[A-Za-z])/(?=[A-Za-z])"), " or "),
    (regex(r"[ ]?&[ ]?"), " and "),
    (regex(r"[ ]\+[ ]?(?=\d)"), " plus "),
    (regex(r"[ ]=[ ]"), ": "),
    (regex(r"[ ][–—][ ]|[–—]"), ", "),
    (regex(r"[*_•|~]+"), ""),
)


def said(text: str, stretches: Sequence[Span], special: Sequence[Span]) -> Iterator[Edit]:
    """The changes of some stretches of a text that make them ready to be heard.

    Args:
        text: The text, its abbreviations in full.
        stretches: What lies outside the instructions of rows.
        special: Where special stitches are defined.
    """
    for span in stretches:
        for line in _lines(text, span):
            words = text[line.start : line.end]
            if _SUM.search(words):
                continue
            inside = any(line.start < own.end and own.start < line.end for own in special)
            inside = inside or _MOTIONS.search(words) is not None
            new = _without_signs(_as_definition(words) if inside else words)
            if new != words:
                yield Edit(line, new)


def label_said(text: str, span: Span, colour: str) -> Iterator[Edit]:
    """The change that says a label with what stands in brackets behind it.

    "Row 3 (right side):" is "Row 3, right side:", "(A)" is "color A".

    Args:
        text: The text.
        span: The label with its mark and the gap behind it.
        colour: What a colour is called: "color" or "colour".
    """
    words = text[span.start : span.end]
    gap = words[len(words.rstrip()) :]
    plain = words.strip().rstrip(_BEHIND_LABEL)
    if not plain:
        return
    inside = _BRACKET.sub(lambda found: _told_in_label(found["words"], colour), plain)
    new = _LABEL_MARKS.sub(", ", _without_signs(inside)).rstrip(_BEHIND_LABEL)
    if new != plain:
        yield Edit(Span(span.start, span.end), f"{new}:{gap or ' '}")


def _told_in_label(words: str, colour: str) -> str:
    plain = words.strip()
    if plain[:1].isdecimal():  # or it would be one more of its numbers
        return f", that is {plain}"
    if _LETTER.fullmatch(plain):
        return f", {colour} {plain}"
    return f", {plain}"


_LETTER = regex(r"[A-Z]|MC|CC")
_BEHIND_LABEL = " .:;=-–—,*_"
_LABEL_MARKS = regex(r"[ ]?[.:=;–—-]+[ ]?,[ ]?|,[ ]?,[ ]?")


def _lines(text: str, span: Span) -> Iterator[Span]:
    """The lines of a stretch, each without the blanks around it."""
    at = span.start
    for line in text[span.start : span.end].split("\n"):
        led = LEAD.match(line)
        words = line[led.end() if led else 0 :].strip()
        if words:
            start = at + line.rindex(words)
            yield Span(start, start + len(words))
        at += len(line) + 1


def _as_definition(words: str) -> str:
    """ "(Yo, draw up a loop) twice" as "work the following twice: ..., end of repeat"."""
    for _ in range(4):  # the innermost first
        words, done = _AGAIN.subn(_again, words)
        if not done:
            break
    return _IN_PLACE.sub(_in_place, words)


def _in_place(found: re.Match[str]) -> str:
    """ "(3 dc, ch 1, 3 dc) in next st" as "3 dc, ch 1, 3 dc, all in next st"."""
    return f"{found['list']}, all {found['place'].strip().removeprefix('all ')} "


def _again(found: re.Match[str]) -> str:
    body = found["list"]
    capital = body[:1].isupper()
    body = body[:1].lower() + body[1:]
    work = "Work" if capital else "work"
    where = ", all " if found["where"] else ""
    return f"{work} the following {found['times']}: {body}, end of repeat{where}"


def _without_signs(words: str) -> str:
    for _ in range(4):
        words, done = _BRACKET.subn(_with_commas, words)
        if not done:
            break
    words = _FRACTION.sub(_fraction, words)
    words = _RANGE.sub(" to ", words)
    for sign, said_as in _SIGNS:
        words = sign.sub(said_as, words)
    return _TWO_COMMAS.sub(",", " ".join(words.split()))


_TWO_COMMAS = regex(r",(?:[ ]?,)+")


def _with_commas(found: re.Match[str]) -> str:
    words, after = found["words"].strip(), found["after"].strip()
    if words in ("s", "es"):
        return words + found["after"]
    if not words:
        return found["after"]
    lead = ", " if found.start() else ""
    last = "" if words[-1] in ".!?" and after == "." else after
    closes = last or ("" if found.end() == len(found.string) else ",")
    gap = " " if found["after"].startswith(" ") or found["after"] == "" else ""
    return f"{lead}{words}{closes}{gap if not after else ''}"


def _fraction(found: re.Match[str]) -> str:
    part = _HALVES.get(found["part"])
    if part is None:
        return found[0]
    whole = (found["whole"] or "").strip(" -")
    return f"{whole} and {part}" if whole else part
