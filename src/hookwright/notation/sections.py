"""What a line of a draft is: a heading, a list entry, a row, a note or chatter."""

from __future__ import annotations

import re
from enum import StrEnum

from hookwright.notation.lexer import Kind, Token
from hookwright.regex import regex


class Section(StrEnum):
    """What a stretch of the draft holds."""

    INTRODUCTION = "introduction"
    MATERIALS = "materials"
    NOTES = "notes"
    WORDS = "abbreviations and stitches"
    ROWS = "instructions"
    FINISHING = "finishing"


_HEADINGS = {
    Section.MATERIALS: (
        "materials", "you will need", "what you need", "yarn", "supplies", "hook", "gauge",
        "tension", "size", "sizes", "finished size", "measurements",
        "finished measurements", "notions", "skill level", "level", "stripe sequence",
        "colours", "colors", "colour key", "rows and colours", "rows and colors",
        "color sequence", "colour sequence", "care", "equipment", "colour order", "stripes",
    ),
    Section.NOTES: (
        "notes", "note", "pattern notes", "tips", "tip", "hints", "good to know",
        "before you start", "a few notes", "notes on the pattern",
    ),
    Section.WORDS: (
        "abbreviations", "special stitches", "special stitch", "special terms", "stitches",
        "special", "specials", "special sts", "special st",
        "stitches used", "stitch guide", "uk terms used", "us terms used", "terms used",
        "stitch key", "special abbreviations", "abbreviations used", "stitch glossary",
        "terms", "uk terms", "us terms", "special stitch instructions",
        "stitch definitions", "key", "glossary", "pattern stitch", "pattern stitches",
        "stitches and terms", "abbreviations uk",
    ),
    Section.ROWS: (
        "instructions", "directions", "pattern", "method", "to make", "how to",
        "how to make it", "the pattern", "let's begin", "start here",
        "working instructions", "main pattern", "written instructions",
        "pattern instructions", "work", "begin",
    ),
    Section.FINISHING: (
        "finishing", "to finish", "making up", "assembly", "blocking", "to make up",
        "finish", "sewing up",
    ),
}  # fmt: skip
_LONGEST = 120  # a heading with all its ornaments
_KNOWN = {name: section for section, names in _HEADINGS.items() for name in names}


def section_of(words: str) -> Section | None:
    """The section some words head; None where they head a part, or nothing."""
    if len(words) > _LONGEST:
        return None
    key = " ".join(re.sub(r"[^a-z' ]+", " ", words.lower()).split())
    found = _KNOWN.get(key)
    if found is None and key[:3] in ("uk ", "us "):  # "UK abbreviations"
        found = _KNOWN.get(key[3:])
    if found is None and " and " in key:  # "Finishing and care"
        first, _, second = key.partition(" and ")
        found = _KNOWN.get(first) if second in _KNOWN else None
    return found


_MAKE = regex(
    r"[(\[]\s*(?:(?:make|work|crochet|you need|need)\s+)?(?:x\s*)?"
    r"(?P<n>\d+|two|three|four|five|six)\s*(?:x|times|pieces?|pcs?|parts?|details?|alike)?\s*[)\]]"
    r"|[(\[]\s*(?:(?:make|work|crochet)\s+)?(?P<both>both)\s+(?:alike|the same(?: way)?|in "
    r"the same way)\s*[)\]]"
    r"|\bmake\s+(?P<m>\d+|two|three|four|five|six)\b|\bx\s?(?P<x>\d)\b",
    re.IGNORECASE,
)
_SPELLED = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}


def make_of(line: str) -> int:
    """How many of a part are made: "(Make 2)", "Arms (2)", "LEGS (x2)", "(both alike)"."""
    found = _number_told(line)
    if not found:
        return 1
    if found["both"]:
        return 2
    number = (found["n"] or found["m"] or found["x"] or "1").lower()
    return max(1, min(_SPELLED.get(number) or int(number), 999))


def heading_name(line: str) -> str:
    """The name in a heading, without its marks and its "make 2"."""
    bare = re.sub(r"[#*_:]+", " ", _without_number(line))
    if not _BRACKETS.isdisjoint(bare):
        bare = re.sub(r"([\[(])[\s,;/–—-]+|[\s,;/–—-]+([\])])", r"\1\2", bare)
        bare = re.sub(r"[\[(]\s*[\])]", "", bare)
    return " ".join(bare.split()).strip(" .-–—,")


_BRACKETS = frozenset("[()]")


def _number_told(line: str) -> re.Match[str] | None:
    """What says in a line how many are made."""
    words = line.lower()
    may = not _BRACKETS.isdisjoint(words) or "x" in words or "make" in words
    return _MAKE.search(line) if may else None


def _without_number(line: str) -> str:
    return _MAKE.sub("", line) if _number_told(line) else line


_EMPHASISED = regex(r"(\*{2,3}|_{1,3})(?P<words>[^*_]+)\1(?P<mark>:?)")


def unemphasised(line: str) -> str:
    """A line without the marks of emphasis all around it: "**Body**"."""
    found = _EMPHASISED.fullmatch(line.strip())
    return line if found is None else found["words"].strip() + found["mark"]


_VERBS = frozenset(
    "stuff stuffing fill insert pop pull attach close sew pin block embroider "
    "magic with change is are was were have has had will would can could "
    "should may i you we it they this that used work worked make made finish "
    "fasten weave sew join add cut leave repeat rep turn here tell".split()
)


_NUMBERED = regex(
    r"(?:[a-z]+ )?(?:leg|arm|ear|foot|wing|fin|paw|horn|sleeve|side|panel|motif|square|"
    r"piece|part|strip|leaf|flower|petal|pocket|strap|mitten|mitt|glove|sock|slipper|"
    r"bootie?|shoe|layer|section|tentacle|finger) (?:#|no\.? ?)?(?:\d|one|two|three|four)",
    re.IGNORECASE,
)
"""What is made in several pieces that are told apart by their number: "Leg 2"."""


def _is_numbered(name: str) -> bool:
    ends = name[-1:].isdigit() or name.lower().endswith(("one", "two", "three", "four"))
    return ends and _NUMBERED.fullmatch(name) is not None


_OF_TERMS = (
    r"\W*(?:(?:written|worked) in |in |uses )?(?:us|u\.s\.|uk|u\.k\.|american|british)"
    r"(?: english)?(?: crochet| stitch| pattern)? (?:terms|terminology|version)"
    r"(?: used| throughout| only)*\W*"
)
"""A line that says the terms, and heads nothing: "US terminology"."""


def _says_terms(line: str) -> bool:
    words = line.lower()
    named = any(word in words for word in ("terms", "terminology", "version"))
    return named and re.fullmatch(_OF_TERMS, words) is not None


_IN_YARN = r"\((?:start\w* |begin\w* |work\w* )?(?:with|in|using) [^()]*\)"
"""The yarn of a part, behind its name: "Body (start with grey)"."""


_BOLD = regex(r"\s*\*\*([^*,;\s][^*,;]*)\*\*:?\s*")
_SLANTED = regex(r"\s*\*([A-Z][a-z]{2,}(?: [A-Za-z]{3,}){0,3})\*:?\s*")
"""A name in one pair of stars: no number, no mark and no short word, as a repeat has."""


def without_stars(line: str) -> str:
    """ "**Body**", alone on its line: the stars set a heading, and repeat nothing."""
    bold = _BOLD.fullmatch(line) or _SLANTED.fullmatch(line)
    return bold[1] if bold else line


def _names_yarn(line: str) -> bool:
    """ "Yarn A" on a line of its own: what the next rows are worked in."""
    return _YARN_ALONE.fullmatch(line.strip()) is not None


_YARN_ALONE = regex(r"(?:in |with )?(?:yarn|colou?r|shade) [A-Z\d][.:]?", re.IGNORECASE)


_HOW_WORKED = r"\s*\((?:all )?(?:worked|working|made|started|begun)\b[^()\d]*\)"
"""What a heading may say of how a part is made: "Body (worked from the bottom)"."""


_MOST_WORDS = 7
_MOST_BESIDE = 14
"""So many words a heading in capitals has with what is said of it in brackets."""


def _is_in_capitals(line: str) -> bool:
    """ "HEAD AND BODY (one piece, from the crown down)": capitals, then a bracket."""
    name, bracket, said = line.partition("(")
    letters = re.sub(r"[^A-Za-z]", "", name)
    short = 0 < len(name.split()) <= _MOST_WORDS and len(letters) > _MOST_OF_STITCH
    return bool(bracket) and short and letters.isupper() and said.rstrip(" :").endswith(")")


_MOST_OF_STITCH = 3
"""Letters of a stitch that may be written in capitals: "SC (in each st)"."""


def is_heading(tokens: list[Token], line: str, *, marked: bool) -> bool:
    """Whether a short line is a heading rather than a sentence or an instruction.

    `marked` says that its place makes it one: a mark before it, or a first row behind it.
    """
    words = [t for t in tokens if t.kind is Kind.WORD]
    line = without_stars(line)
    if marked:
        return bool(words)
    if _says_terms(line) or _names_yarn(line):
        return False
    bare = _without_number(line)
    if "(" in bare:
        bare = re.sub(_IN_YARN, "", bare, flags=re.IGNORECASE)
        bare = re.sub(_HOW_WORKED, "", bare, flags=re.IGNORECASE)
    if _is_numbered(bare.strip(" :")):
        return True
    most = _MOST_BESIDE if _is_in_capitals(bare) else _MOST_WORDS
    if len(words) > most or not words or re.search(r"\d", bare.split("(")[0]):
        return False
    ends = line.rstrip()
    if (
        "=" in bare
        or bare.split("(")[0].rstrip().endswith(".")
        or ends.endswith((".", ",", ";", "!", "?"))
    ):
        return False
    if ends.endswith(":"):
        return len(words) <= 5
    if _VERBS & set(re.findall(r"[a-z]+", bare.lower())):
        return False
    letters = re.sub(r"[^A-Za-z]", "", bare)
    if {word.text for word in words} & {"each", "st", "sts", "across"}:
        return letters.isupper()  # "Sc in each st around (42)"
    return letters.isupper() or ends[:1].isupper() or bool(_number_told(line))
