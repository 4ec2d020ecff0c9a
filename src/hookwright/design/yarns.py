"""Which yarns does a draft list, in which colours, and how much of each?

Colours are told in many dresses: "A (Rust): 3 balls", "MC - Slate", "Color A: Rust",
"Colors: A = Ink, B = Butter", "DK in Slate (A) and Chalk (B)", "3 balls of A (Rust)",
"Colours: Kelp, Foam and Slate". Only what is certain is taken: a letter with its name, a
letter in a list of them, or names in a line that is labelled a list of colours.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache
from itertools import pairwise
from operator import itemgetter, methodcaller
from pathlib import Path

from hookwright.design.facts import Colour, Holds, SectionFound, YarnListed
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source, Span

_TABLE = Path(__file__).parent / "data" / "yarns.toml"

_LETTER = r"(?:MC\d?|CC\s?\d?|[A-H])"
_WORD = r"[A-Z][\w'’.-]*[\w'’]"
_NAME = rf"{_WORD}(?:[ ](?:{_WORD}|of|and the|the)){{0,3}}(?<! of)(?<! the)"
_SMALL = r"[a-z][a-z'’-]{2,}(?:[ ][a-z'’-]{3,}){0,2}"
_SHADE = r"(?:(?:[Cc]olou?r|[Cc]ol\.?|COLOU?R|[Yy]arn|YARN|[Ss]hade|[Bb]all)\s)"
_LED = regex(
    rf"(?<![\w'’]){_SHADE}?(?P<letter>{_LETTER})(?![\w'’])(?:"
    rf"\s?(?::|=|–|—|\s-\s|\sis\s)[*_]{{0,3}}\s?(?:the\s)?(?:#\d+\s)?(?P<name>{_NAME}|{_SMALL})?|"
    rf"\s\(\s?(?P<inside>{_NAME}|{_SMALL}))"
)
"""A letter and its name: "A = Ink", "A (Rust", "MC - Slate", "Color B: cream"."""
_BEHIND = regex(rf"(?P<name>{_NAME}|{_SMALL})\s\(\s?{_SHADE}?(?P<letter>{_LETTER})\s?\)")
"""A name and its letter: "Slate (A)"."""
_IN_LIST = regex(rf"(?:^|[,;/&]|\band)\s*(?P<letter>{_LETTER})\s(?P<name>{_NAME}|{_SMALL})")
""" "Colors: A gorse yellow, B leaf, C heather"."""
_BESIDE = regex(
    rf"(?<![\w'’])(?:{_SHADE}(?P<led>{_LETTER}),?|(?P<sure>MC\d?|CC\s?\d?))\s"
    rf"(?P<name>{_NAME})"
)
""" "Shade A, Rain: 2 balls", "CC1 Slate: 2 skeins"."""
_BARE = regex(rf"(?:^|[(,;&]|\band\b)\s*(?P<letter>{_LETTER})(?=\s*(?:[,;&).]|and\b|$))")
""" "two shades (A and B)"."""
_OF_COLOURS = regex(r"colou?rs?|shades?", re.IGNORECASE)
_NO_NAME = frozenset(
    "ball balls skein skeins hank hanks yards metres meters grams main contrast hook cm in "
    "contrasting color colour colors colours yarn yarns shade shades for and the approx "
    "approximately about row rows round rounds size using with then total".split()
)
_LISTED_NAME = regex(
    r"(?:(?<![^,;/&+])|\band\b)\s*(?:\d+\s(?:balls?|skeins?)\s(?:of\s)?)?"
    rf"(?P<name>{_NAME})(?=\s*(?:,|;|/|&|\band\b|\+|\.|\(|$))"
)
_IN_COLOURS = regex(rf"\bin (?P<names>{_NAME}(?:, {_NAME}){{0,8}},? and {_NAME})")
""" "DK in Soot, Snow and Ember"."""
_BEHIND_COLON = regex(
    rf"\b(?:yarn|cotton|wool|acrylic|colou?rs?|shades?)\s?:\s"
    rf"(?P<names>(?-i:{_NAME}(?:, {_NAME}){{0,8}}(?:,|,? and) {_NAME}))(?=\s*(?:[.;]|$))",
    re.IGNORECASE,
)
""" "Worsted yarn: Rust, Cream, Soot", to the end of the entry."""
_ENTRY = regex(
    rf"\s*[-*•–✦]\s+(?P<name>{_NAME})(?:\s\([^()\n]*\))?\s?[–—:,-]?\s?(?:about\s|approx\.?\s)?"
    r"\d+(?:[.,]\d+)?\s?(?:g|m|yds?|yards|metres|balls?|skeins?|x)\b"
)
""" "- Slate (grey) – 40 g", an entry of a list of yarns."""
_WITH_AMOUNT = regex(
    rf"(?:(?<=[:,;])|\bin\b|\band\b)\s(?P<name>{_NAME})\s?(?:[(–—:]\s?|-\s)?"
    r"\d{1,4}(?:[.,]\d{1,2})?\s?(?:g|balls?|skeins?)\b"
)
""" "worsted acrylic: Chestnut 100 g, Cream 30 g"."""
_BALLS = regex(
    r"(?P<first>\d+(?:[.,]\d+)?|½|a|an|one|two|three|four|five|six|seven|eight|nine|ten)"
    r"(?P<rest>(?:\s?[(\[][\d.,:;\s½–-]+[)\]]){0,4})\s(?:x\s)?(?:\d+\s?g\s)?"
    r"(?:balls?|skeins?|hanks?|cones?|cakes?)\b",
    re.IGNORECASE,
)
_SPELLED = {
    word: Fraction(number)
    for number, word in enumerate(
        "one two three four five six seven eight nine ten".split(), start=1
    )
} | {"a": Fraction(1), "an": Fraction(1), "½": Fraction(1, 2)}
_LENGTH = regex(
    r"(?P<n>\d{1,5}(?:[.,]\d+)?)\s?(?P<unit>m|metres?|meters?|yds?|yards?)\b(?!\s?m\b)",
    re.IGNORECASE,
)
_WEIGHT = regex(
    r"(?P<n>\d{1,4}(?:[.,]\d+)?)\s?-?(?P<unit>g|gr|grams?|oz|ounces?)\b", re.IGNORECASE
)
_PER = regex(r"\bin\b|\bper\b|/|=|\beach\b|\ba\b|,|\(|–|-|\|", re.IGNORECASE)
_YARD_M = Fraction("0.9144")
"""By definition since 1959: the international yard is 0.9144 m."""
_OUNCE_G = Fraction("28.349523125")
"""By definition: the international avoirdupois ounce is 28.349523125 g."""
_BETWEEN = 28


@cache
def weight_names() -> Mapping[str, int]:
    """The trade's weight class of every name of a yarn weight. Source: data/yarns.toml."""
    table = tomllib.loads(_TABLE.read_text("utf-8"))
    return {
        name: int(number)
        for number, (names, _) in table["weights"].items()
        for name in names.split(", ")
    }


def yarns_of(
    source: Source, pattern: Pattern, sections: tuple[SectionFound, ...]
) -> tuple[YarnListed, ...]:
    """The yarns that a draft lists, each line or entry of the list for one."""
    text = source.text
    rows = sorted(row.span.start for part in pattern.parts for row in part.rows)
    end = rows[0] if rows else len(text)
    found = []
    for line, of_colours in _lines(source, sections, end):
        colours = tuple(_colours(text, line, of_colours=of_colours))
        words = source.slice(line)
        ball_m, ball_g = _ball(words)
        weight = _weight_class(words) if ball_m or _is_of_yarn(words) else None
        if colours or ball_m or weight is not None:
            found.append(YarnListed(line, _name(words), weight, ball_m, ball_g, colours))
    return tuple(found)


def _lines(
    source: Source, sections: tuple[SectionFound, ...], end: int
) -> Iterator[tuple[Span, bool]]:
    """The lines that may list yarns, and whether each is labelled a list of colours."""
    own = [section for section in sections if section.holds is Holds.MATERIALS]
    others = [section for section in sections if section.holds is not Holds.MATERIALS]
    told: set[int] = set()
    closed = sorted(section.heading.start for section in others)
    for section in own:
        heading = source.slice(section.heading)
        if "hook" in heading.lower() and "yarn" not in heading.lower():
            continue
        stop = bisect_right(closed, section.heading.start)
        last = min(
            section.body.end, closed[stop] if stop < len(closed) else len(source.text)
        )
        for number in range(
            source.line_of(section.body.start), source.line_of(max(0, last - 1)) + 1
        ):
            if number not in told:
                told.add(number)
                line = source.line_span(number)
                start = max(line.start, section.body.start)
                label = _OF_COLOURS.match(heading.strip()) is not None
                yield Span(start, max(start, line.end)), label
    for number in range(1, source.line_of(end) + 1):
        line = source.line_span(number)
        if number in told or line.start >= end:
            continue
        if _is_key(source.slice(Span(line.start, min(line.end, line.start + 400)))):
            yield line, False


_KEY = regex(
    rf"[^\w\n]{{0,6}}{_SHADE}?{_LETTER}\s?(?::|=|–|—|\s-\s|\sis\s|\()", re.IGNORECASE
)


def _is_key(line: str) -> bool:
    """ "A = Slate, B = Foam": a key of colours that stands for itself."""
    if _KEY.match(line) is None:
        return False
    letters = [
        _as_letter(found)
        for found in _LED.finditer(line)
        if found["name"] or found["inside"]
    ]
    led = re.match(rf"[^\w\n]{{0,6}}{_SHADE}", line) is not None
    return len(letters) > 1 or (
        bool(letters) and (led or letters[0] in ("MC", "CC", "A", "B"))
    )


def _colours(text: str, line: Span, *, of_colours: bool) -> Iterator[Colour]:
    """The colours of a line, each once."""
    words = text[line.start : line.end]
    named: dict[str, tuple[int, str]] = {}
    for at, letter, name in _with_letters(words, of_colours=of_colours):
        if letter not in named or (name and not named[letter][1]):
            named[letter] = (at, name)
    found = sorted((at, letter, name) for letter, (at, name) in named.items())
    told = list(_BALLS.finditer(words)) if found else []
    ends = [*(at for at, *_ in found[1:]), len(words)]
    for (at, letter, name), following in zip(found, ends, strict=False):
        span = Span(line.start + at, line.start + at + len(letter))
        yield Colour(letter, name, span, _balls(words, at, following, told))
    if found:
        return
    entry = _ENTRY.match(words)
    if entry is not None and not _is_of_yarn(entry["name"]):
        place = Span(line.start + entry.start("name"), line.start + entry.end("name"))
        yield Colour("", entry["name"], place)
        return
    amounts = [one for one in _WITH_AMOUNT.finditer(words) if not _is_of_yarn(one["name"])]
    if len(amounts) > 1:
        for one in amounts:
            place = Span(line.start + one.start("name"), line.start + one.end("name"))
            yield Colour("", one["name"], place)
        return
    listed = _IN_COLOURS.search(words) or _BEHIND_COLON.search(words)
    if listed is not None and _is_of_yarn(listed["names"]):
        return
    start, end = listed.span("names") if listed else (0, len(words) if of_colours else 0)
    at = line.start + start
    for one in _LISTED_NAME.finditer(words[start:end]):
        yield Colour("", one["name"], Span(at + one.start("name"), at + one.end("name")))


def _with_letters(words: str, *, of_colours: bool) -> Iterator[tuple[int, str, str]]:
    """Where a letter stands, the letter, and its name."""
    for found in _LED.finditer(words):
        name = found["name"] or found["inside"] or ""
        yield found.start("letter"), _as_letter(found), _as_name(name)
    for found in _BEHIND.finditer(words):
        yield found.start("letter"), _as_letter(found), _as_name(found["name"])
    for found in _BESIDE.finditer(words):
        which = "led" if found["led"] else "sure"
        letter = re.sub(r"\s", "", found[which])
        yield found.start(which), letter, _as_name(found["name"])
    if of_colours:
        for found in _IN_LIST.finditer(words):
            yield found.start("letter"), _as_letter(found), _as_name(found["name"])
    bare = list(_BARE.finditer(words))
    if len(bare) > 1:
        for found in bare:
            yield found.start("letter"), _as_letter(found), ""


def _as_letter(found: re.Match[str]) -> str:
    return re.sub(r"\s", "", found["letter"])


def _as_name(words: str) -> str:
    """A name without the words that tell amounts: "Rust" of "Rust approx"."""
    kept: list[str] = []
    for word in words.split():
        if word.lower().strip(".") in _NO_NAME:
            break
        kept.append(word)
    return " ".join(kept).rstrip(".")


def _balls(
    words: str, at: int, following: int, told: list[re.Match[str]]
) -> tuple[Fraction | None, ...]:
    """How many balls of a colour: told just before it, or behind it before the next."""
    behind = bisect_right(told, at, key=_START)
    before = told[behind - 1] if behind else None
    if before is not None and _OF.fullmatch(words, before.end(), at):
        return _numbers(before)
    ahead = told[behind] if behind < len(told) else None
    if ahead is None or ahead.start() >= following:
        return ()
    of_next = _OF.fullmatch(words, ahead.end(), following) is not None
    return () if of_next else _numbers(ahead)


_START = methodcaller("start")
_OF = regex(r"\s(?:of|in)\s(?:\w+\s){0,4}\(?")


def _numbers(found: re.Match[str]) -> tuple[Fraction | None, ...]:
    first = found["first"].lower()
    values: list[Fraction | None] = [_SPELLED.get(first) or _number(first)]
    for one in re.split(r"[,:;\s()\[\]]+", found["rest"]):
        if one:
            digits = re.fullmatch(r"\d+(?:\.\d+)?", one)
            values.append(Fraction(one) if digits else None)
    return tuple(values)


def _ball(words: str) -> tuple[Fraction | None, Fraction | None]:
    """Metres and grams of a ball: "200 m in a 100 g ball", "220 yds/100 g"."""
    told = [(found.start(), "m", found) for found in _LENGTH.finditer(words)]
    told += [(found.start(), "g", found) for found in _WEIGHT.finditer(words)]
    told.sort(key=itemgetter(0))
    for (_, one, first), (_, other, second) in pairwise(told):
        between = words[first.end() : second.start()]
        if one != other and len(between) <= _BETWEEN and _PER.search(between):
            length, weight = (first, second) if one == "m" else (second, first)
            return _metres(length), _grams(weight)
    return None, None


def _metres(found: re.Match[str]) -> Fraction:
    number = _number(found["n"])
    return number if found["unit"].lower().startswith("m") else number * _YARD_M


def _grams(found: re.Match[str]) -> Fraction:
    number = _number(found["n"])
    return number if found["unit"].lower().startswith("g") else number * _OUNCE_G


def _number(digits: str) -> Fraction:
    return Fraction(digits.replace(",", "."))


_NUMBERED = regex(
    r"(?:#|\bweight\s|\bCYC\s|\bcategory\s)\(?(?P<n>[0-7])\b|"
    r"\b(?:weight|yarn)\s(?:yarn\s)?\((?P<bracketed>[0-7])\)",
    re.IGNORECASE,
)
_OF_A_COLOUR = regex(
    r"\b(?:light|medium|fine)(?=[ \t-](?:colou?r|shade|gr[ae]y|blue|green|red|pink|brown|"
    r"purple|yellow|orange|teal|tan|rose|rust|lilac)s?\b)",
    re.IGNORECASE,
)
"""Words of a weight that tell of a colour: "light gray"."""
_OF_YARN = regex(
    r"\b(?:yarn|wool|cotton|thread|ply|dk|worsted|aran|chunky|bulky|fingering|sock|sport|"
    r"acrylic|alpaca|merino|weight)\b",
    re.IGNORECASE,
)


def _is_of_yarn(words: str) -> bool:
    return _OF_YARN.search(words) is not None


def _weight_class(words: str) -> int | None:
    """The weight class that a line names; None where it names none, or several."""
    numbered = _NUMBERED.search(words)
    if numbered:
        return int(numbered["n"] or numbered["bracketed"])
    key = re.sub(r"(\d)[\s-]?ply", r"\1 ply", _OF_A_COLOUR.sub(" ", words).lower())
    names = sorted(weight_names(), key=len, reverse=True)
    classes = []
    for name in names:
        pattern = rf"\b{re.escape(name)}\b"
        if name in key and re.search(pattern, key):
            classes.append(weight_names()[name])
            key = re.sub(pattern, " ", key)
    return classes[0] if len(set(classes)) == 1 else None


_TITLE = regex(
    rf"\s*(?:\d+(?:\s?[(\[][^)\]]*[)\]])?\s(?:balls?|skeins?)\s(?:of\s)?)?(?P<name>{_NAME})"
)


def _name(words: str) -> str:
    """What a yarn is called: the name its line begins with."""
    found = _TITLE.match(words.lstrip(" *_-•:"))
    name = found["name"] if found else ""
    own = name.partition(" ")[0].lower() not in _NO_NAME and not re.fullmatch(_LETTER, name)
    return name if own else ""
