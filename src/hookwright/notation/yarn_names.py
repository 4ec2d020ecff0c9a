"""Which words of a draft are names of its yarns or colours?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.notation.collected import Collected
from hookwright.notation.vocabulary import compound
from hookwright.regex import regex

_CAPITAL = regex(r"[A-Z](?<!\S[A-Z])")
_NAME = regex(
    r"(?P<name>[A-Z][a-z]*(?:\s[A-Z][a-z]+)?|MC|CC|[A-Z]{1,2}(?=\d))(?:\d{1,2})?\b"
)
_PUT_TO_USE = regex(
    r"\b(?:with|using|change(?:\s+(?:colou?r|yarn))?\s+to|join|switch\s+to|in|yarn|colou?r|"
    r"shade|attach)\s+(?:(?:yarn|colou?r|shade)\s+)?$",
    re.IGNORECASE,
)
_LONGEST_LEAD = 30  # characters of "change colour to colour "


_TABLE_LINE = regex(
    r"^[ \t]*(?:(?:rows?|rnds?|rounds?)[ \t]+)?\d+(?:[ \t]*(?:[-–,&]|and|to)[ \t]*\d+)*"
    r"[ \t]*[:.=]?[ \t]+(?P<name>[A-Z][a-z]+(?: [A-Z][a-z]+)?|[A-Z]|MC|CC)[ \t]*\.?[ \t]*$",
    re.IGNORECASE,
)


_SMALL = r"\b[Ww]ith[ \t]+(?P<name>[a-z]{3,}),?[ \t]+(?:ch|chain)[ \t]+\d"
"""A colour in small letters, where the piece is begun with it: "With rose ch 2"."""


_JOINED = (
    r"\b(?:[Rr]e)?(?:[Jj]oin|[Aa]ttach)[ \t]+(?:the[ \t]+)?(?P<name>[a-z]{3,})[ \t]*"
    r"(?::|(?<=[ \t])with[ \t]+(?:an?[ \t]+)?(?:sl|ss|slst|standing|sc|hdc|dc|tr)\b|"
    r"(?:in|to|into|at|around)[ \t]+any\b)"
)
"""The same where it is joined: "Join white with sl st to any sp"."""
_JOINS = frozenset("join attach rejoin reattach".split())


def _listed(line: str) -> list[str]:
    """ "Colors: A = Ink, B = Butter": letters and the names they stand for."""
    of_yarns = _is_of_yarns(line)
    beside = _BESIDE.findall(line) if of_yarns else []
    if len(beside) > 1:  # "Yarn A navy, B mustard"
        return beside
    bracketed = [pair for pair in _bracketed(line) if not _is_no_yarn(pair[1])]
    if len(bracketed) > 1:
        return [word for letter, name in bracketed for word in (letter, *name.split())]
    if not _ANY_LETTER.search(line):
        return []
    equal = [pair for pair in _EQUAL.findall(line) if not _is_no_yarn(pair[1].lower())]
    if len(equal) > 1:  # "S = Sky, W = White"
        return [word for pair in equal for word in pair]
    plain = [pair for pair in _PLAIN_LETTER.findall(line) if not _is_stitch(pair[1])]
    if len(plain) > 1 and plain[0][0] in ("A", "MC"):  # "A = ink, B = straw"
        return [word for letter, name in plain for word in (letter, *name.split())]
    found = _LETTER.findall(line)
    named = [letter for letter, name in found if name]
    if not of_yarns and not (len(named) > 1 and named[0] in ("A", "MC")):
        return []
    return [word for pair in found for word in pair if word]


def _bracketed(line: str) -> list[tuple[str, str]]:
    """ "L (linen), T (teal)", "linen (L) and teal (T)": each letter with its name."""
    before, *brackets = line.split("(")
    outside = (before, *brackets[:-1]) if brackets else ()
    if any(words.rstrip(" \t")[-1:].isupper() for words in outside):
        lettered = _LETTER_FIRST.findall(line)
        if lettered:
            return lettered
    if not any(words[1:2] == ")" for words in brackets):
        return []
    return [(letter, name) for name, letter in _NAME_FIRST.findall(line)]


_LETTER_FIRST = regex(r"(?<![\w'])([A-Z])[ \t]*\(([a-z]{3,}(?:[ \t][a-z]{3,})?)\)")
_NAME_FIRST = regex(r"\b([a-z]{3,})[ \t]*\(([A-Z])\)")


_EQUAL = regex(
    r"(?<![\w'=])([A-Z])[ \t]*=[ \t]*([A-Z][a-z]{2,})(?=[ \t]*(?:[,;.(]|$|and\b))"
)


def _is_no_yarn(words: str) -> bool:
    """Whether a letter is short for a stitch or a size: "M (medium)"."""
    return _is_stitch(words) or not _SIZE_WORDS.isdisjoint(words.split())


_SIZE_WORDS = frozenset("small medium large extra baby child teen adult woman man".split())


def _is_of_yarns(line: str) -> bool:
    words = line.lower()
    return any(sign in words for sign in _YARN_SIGNS) and bool(_OF_YARNS.search(line))


_YARN_SIGNS = ("yarn", "colo", "shade", "ball", "skein")
"""Of these one stands in every word that `_OF_YARNS` finds."""
_OF_YARNS = regex(r"\b(?:[Cc]olou?r|COLOU?R|[Yy]arn|YARN|[Ss]hade|[Bb]all|[Ss]kein)s?\b")
_BESIDE = regex(r"(?<![\w'])([A-H])[ \t]+[a-z]{3,}(?=[ \t]*(?:[,;(.]|$|and\b))")
_ANY_LETTER = regex(r"[A-Z]C?\d?\s*(?:[=:–—-]|is\b)")
_LETTER = regex(
    r"(?<![\w=])([A-H]|[A-Z](?=\d)|MC|CC)\d?\s*(?:=|:|-|–|—|\bis\b)\s*(?:the\s+)?([A-Z][a-z]{2,})?"
)


_PLAIN_LETTER = regex(
    r"(?<![\w=])([A-H]|MC|CC)[ \t]*(?:=|:|\bis\b)[ \t]*(?:the[ \t]+)?"
    r"([a-z]{3,}(?:[ \t][a-z]{3,})?)(?=[ \t]*(?:[,;.(]|$|and\b))"
)


def _is_stitch(words: str) -> bool:
    """Whether a letter is short for a stitch: "A = double crochet"."""
    return any(compound(word) or word in _STITCH_WORDS for word in words.split())


_STITCH_WORDS = frozenset(
    "single double treble half slip chain front back post shell cluster block space mesh "
    "stitch crochet popcorn bobble puff picot loop group size small large".split()
)

_NO_YARNS = frozenset(
    "row rnd round the ch sc dc rs ws pattern next each loop us uk sl st i turn fasten off "
    "finish end join yarn hook this that these thread wool colour color last round work "
    "them both pieces piece sides side edges ends motif motifs square squares together "
    "here new again tail ring chain top".split()
)


def _is_put_to_use(text: str, at: int) -> bool:
    """Whether the words before a place put to use what is named there."""
    start = max(0, at - _LONGEST_LEAD)
    near = text[start:at].rstrip().lower().endswith(_LEAD_ENDS)
    return near and _PUT_TO_USE.search(text, start, at) is not None


_LEAD_ENDS = (
    "with", "using", "to", "join", "in", "yarn", "color", "colour", "shade", "attach",
)  # fmt: skip
"""The last words of all that puts a yarn to use."""


def _table_lines(text: str) -> Iterator[re.Match[str]]:
    """The lines that tell the colour of a row and no more: "Row 3: Slate"."""
    for line in text.split("\n"):
        found = _TABLE_LINE.match(line) if _may_be_of_table(line) else None
        if found is not None:
            yield found


def _may_be_of_table(line: str) -> bool:
    """Whether a line has a number, ends in letters, and has no mark of instructions."""
    ends = line.rstrip(" \t.")[-1:].isalpha()
    marked = any(mark in line for mark in "(*[;")
    return ends and not marked and any(map(str.isdecimal, line))


def _beside_numbers(line: str, names: set[str]) -> frozenset[str]:
    """ "(A) 9, (B) 2, (A) 9": letters told alike with their numbers, of which one is known.

    A list of them in one line is of one kind: B is a yarn where A is.
    """
    if "," not in line:
        return frozenset()
    for form in (_IN_BRACKETS, _LETTER_AND_NUMBER, _NUMBER_AND_LETTER):
        letters = frozenset(letter.lower() for letter in form.findall(line))
        if len(letters) > 1 and not letters.isdisjoint(names):
            return letters
    return frozenset()


_IN_BRACKETS = regex(r"[(\[]([A-Z])[)\]][ \t]*\d+\b")
_LETTER_AND_NUMBER = regex(r"(?<![^\s,:;.*(])([A-Z])[ \t]+\d+(?=[ \t]*(?:[,;.)]|$))")
_NUMBER_AND_LETTER = regex(r"(?<![^\s,:;.*(])\d+[ \t]*([A-Z])(?=[ \t]*(?:[,;.)]|$))")


_MAIN_AND_CONTRAST = frozenset(("mc", "cc"))
"""Named one against the other: where one of them is a yarn, so is the other."""


def yarn_names(draft: Collected) -> frozenset[str]:
    """Names of yarns and colours, lower case, from where they are put to use or listed."""
    names: set[str] = set()
    text = draft.source.text
    tables = [found for found in _table_lines(text) if found["name"][:1].isupper()]
    begins = (found.start() for found in _CAPITAL.finditer(text))
    used = [
        found
        for at in begins
        if _is_put_to_use(text, at) and (found := _NAME.match(text, at))
    ]
    small = re.finditer(_SMALL, text) if "with" in draft.words else ()
    joined = () if _JOINS.isdisjoint(draft.words) else re.finditer(_JOINED, text)
    for found in (*used, *tables, *small, *joined):
        names.update(word.lower() for word in found["name"].split())
    for line in draft.lines:
        names.update(word.lower() for word in _listed(line.text))
        names.update(_beside_numbers(line.text, names))
    if not names.isdisjoint(_MAIN_AND_CONTRAST):
        names |= _MAIN_AND_CONTRAST & draft.words
    return frozenset(names - _NO_YARNS)
