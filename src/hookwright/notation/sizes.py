"""Which sizes has a pattern, and which of them is a row for?"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from hookwright.notation.bracket_runs import in_one_bracket
from hookwright.notation.collected import Collected
from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.number_lists import (
    has_lists,
    lengths_of_lists,
    sizes_by_lists,
)
from hookwright.notation.size_order import sizes_by_order
from hookwright.notation.size_words import AGE, BETWEEN, NAME, WORD_NAME
from hookwright.notation.sizes_in_sentences import aged_in_passing, sizes_in_sentence
from hookwright.regex import regex

# Most patterns are in one size, so what tells sizes is compiled where a line may tell them.
_SIZE_LINE = (
    r"(?:^|[.;!] )\W*(?!all |every )(?:[\w\-]+,? ){0,4}?"
    r"(?:sizes?|ages?|fits|to fit)\b[^\n(\[]{0,30}?[:\s]\s*"
    r"(?P<first>[\w/½-]+(?: to \d+)?)?"
    r"(?P<unit>\s*(?:months?|mths?|mos?|years?|yrs?|cm|in))?,?\s*"
    r"[(\[](?P<rest>[^)\]\n]+)[)\]](?:\s*(?P<last>[\w-]+))?"
)


_SIZE_NAME = (
    r"(?:(?:(?:child|teen|adult|youth|wom[ae]n|m[ae]n)(?:'?s)?[ -])?"
    r"(?:\d*X*(?:S|M|L)(?:/\d*X*(?:S|M|L))?|small|medium|large)|\d[XT]|newborn|nb|preemie|"
    r"baby|toddler|child|teen|adult|"
    r"extra[ -]?(?:small|large)|youth|wom[ae]n|m[ae]n|"
    r"\d+(?:[-–/]\d+)?(?:\s*(?:m|mo|months?|cm|in|y|yrs?|years?))?)"
)


_UNIT = regex(r"\s*(?:months?|mths?|mos?|years?|yrs?|cm|in)$", re.IGNORECASE)


def size_names(draft: Collected) -> tuple[str, ...]:
    """The names of the sizes, from a line that lists them, or numbered where none does."""
    texts = [_without_leader(line.text.strip()) for line in draft.lines]
    texts = _without_colons(draft, texts)
    folded = [in_one_bracket(text) for text in texts]
    names = (folded != texts and _names_told(draft, folded)) or _names_told(draft, texts)
    return _parted_by_lists(draft, names)


def _parted_by_lists(draft: Collected, names: tuple[str, ...]) -> tuple[str, ...]:
    """ "S (M-L)" as three sizes where the numbers are listed so: "28 (32-36)"."""
    parted = tuple(part for name in names for part in name.split("-"))
    if len(parted) == len(names) or not all(map(_is_name, parted)):
        return names
    more = rf"(?:\s*[-–]\s*\d+){{{len(parted) - 2}}}"
    dashed = re.findall(rf"\d\s*[(\[]\s*\d+{more}\s*[)\]]", draft.source.text)
    return parted if len(dashed) >= _SEVERAL_LISTS else names


_SEVERAL_LISTS = 3


def _without_leader(line: str) -> str:
    """ "SIZES ....... S (M)": the dots that lead to a value stand for a colon."""
    return _LEADER.sub(": ", line) if "..." in line else line


_LEADER = regex(r"(?<=\w) ?\.{3,} ?(?=\w)")


_COLON_NAME = r"(?:[A-Za-z]+ )?(?:X*[SML]|small|medium|large|child|teen|adult|baby|toddler)"
_BY_COLONS = regex(rf"\b({_COLON_NAME})((?::{_COLON_NAME})+)(?![\w:])", re.IGNORECASE)
_NUMBERS_BY_COLONS = regex(r"(?<![\d:])\d+(?::\d+)+(?![\d:])")


def _without_colons(draft: Collected, texts: Sequence[str]) -> list[str]:
    """ "Small:Medium:Large" as "Small (Medium, Large)", where numbers are listed so."""
    lengths = {found.count(":") for found in _NUMBERS_BY_COLONS.findall(draft.source.text)}

    def in_brackets(found: re.Match[str]) -> str:
        if found[2].count(":") not in lengths:
            return found[0]
        return f"{found[1]} ({', '.join(found[2][1:].split(':'))})"

    return [_BY_COLONS.sub(in_brackets, text) for text in texts] if lengths else list(texts)


def _names_told(draft: Collected, texts: Sequence[str]) -> tuple[str, ...]:
    lines = _joined_lines(texts)
    return (
        _declared(draft, texts)
        or next(filter(None, map(_bare_dashes, texts)), ())
        or next(filter(None, map(_told_in_words, texts)), ())
        or next(filter(None, map(_told_as_changes, texts)), ())
        or next(filter(None, map(_listed, lines)), ())
        or next(filter(None, map(_dashed, lines)), ())
        or next(filter(None, map(_bare, texts)), ())
        or _told_in_words(_behind_title(texts))
        or _in_title(draft, texts)
        or aged_in_passing(draft, texts)
        or sizes_in_sentence(draft, texts)
        or sizes_by_lists(draft)
    )


def _behind_title(texts: Sequence[str]) -> str:
    """ "Bear Bonnet - 3 months (6 months, 12 months)": what the first line says besides."""
    title = next(filter(None, texts), "")
    return re.split(r"\s[-–—]\s|:\s", title, maxsplit=1)[-1]


_TITLE = r"[^()\n]*\w[^()\n]*[(](?P<names>[^()\n]+)[)]\W*"


def _in_title(draft: Collected, texts: Sequence[str]) -> tuple[str, ...]:
    """ "Cuff with a tuck {small; medium; large}": as many as the lists have numbers."""
    title = in_one_bracket(next(filter(None, texts), ""))
    found = re.fullmatch(_TITLE, title) if has_lists(draft) else None
    # "S/M (L/XL)" has a size of two letters in the bracket, "(S/M/L)" has three sizes.
    listed = found["names"].strip() if found else ""
    between = r"\s*[,;/]\s*" if listed.count("/") > 1 else r"\s*[,;]\s*|\s+/\s+"
    names = tuple(re.split(between, listed))
    known = len(names) > 1 and all(name.lower() in _USUAL_NAMES for name in names)
    return names if known and len(names) in lengths_of_lists(draft) else ()


_DECLARED = regex(
    r"sizes\s*:\s*(?P<first>[^,;:()\[\]]+?)\s*[(\[](?P<rest>[^()\[\]]+)[)\]]\.?",
    re.IGNORECASE,
)
_NAME_OF_ANY_WORDS = regex(r"(?=.*\w)[\w'’./& -]{1,40}")
_NO_NAME = regex(
    r"\b(?:one|any|all|every) sizes?\b|^(?:about|approx\w*|from|up to|see|as|or)\b|"
    r"^[\d./½¼¾ -]+ ?(?:mm|cm|m|in|inch(?:es)?)\.?$",
    re.IGNORECASE,
)


def _declared(draft: Collected, texts: Sequence[str]) -> tuple[str, ...]:
    """ "Sizes: Lap (Bed, Adult scarf).", whatever the names, where numbers are listed so.

    Such a line goes before lists that stand anywhere else. A heading "Sizes" may stand for
    its first word.
    """
    for line, below in pairwise([*texts, ""]):
        alone = line.strip(" :#*").lower() == "sizes"
        names = _names_declared(f"Sizes: {below}" if alone else line)
        if names and len(names) in lengths_of_lists(draft):
            return names
    return ()


def _names_declared(line: str) -> tuple[str, ...]:
    found = _DECLARED.fullmatch(line)
    if found is None:
        return ()
    told = _told_in_words(line)
    if told:
        return told
    names = tuple(
        name.strip() for name in (found["first"], *re.split("[,;]", found["rest"]))
    )
    named = all(
        _NAME_OF_ANY_WORDS.fullmatch(name) and not _NO_NAME.search(name) for name in names
    )
    return names if named and len({name.lower() for name in names}) == len(names) else ()


_IN_TWO_UNITS = (
    r"\d ?cm\b[^)\]]*?[(\[][^)\]]*?(?:\d ?in\b|\d ?inch|[\"”″])|"
    r"(?:\d ?in|inch(?:es)?|[\"”″])\s*[(\[][^)\]]*?\d ?cm\b"
)
"""One length told twice: "Size: about 15 cm (6 in)"."""


def _listed(line: str) -> tuple[str, ...]:
    """ "Sizes: S (M, L)", "To fit 0-3[3-6:6-12] months"."""
    found = re.search(_SIZE_LINE, line, re.IGNORECASE)
    if found is None or _is_in_two_units(found[0]):
        return ()
    names = [_in_two_words(found)] if found["first"] else []
    if names and names[0].lower() in ("size", "sizes", "is", "are", "for", "in"):
        names = []
    rest = re.split(r"\s*[,:;]\s*", found["rest"].strip())
    spans = bool(names) and "-" in names[0]  # "0-3 months (3-6 months)"
    if len(rest) == 1 and not spans:
        rest = re.split(r"\s*-\s*", rest[0])
    if len(rest) == 1 and not names:
        rest = rest[0].split("/")
    told = [name.strip() for name in rest if name.strip()]
    if names and found["unit"]:
        names[0] += found["unit"]
    ends = (_UNIT.search(one) for one in (*names, *told))
    units = {end[0].strip().lower()[:1] for end in ends if end is not None}
    names += told
    # "(6 months, 2 years)" needs its units; one that is told throughout says nothing
    if len(units) <= 1:
        names = [_UNIT.sub("", name) for name in names]
    if names and found["last"] and _is_name(found["last"]):
        names.append(found["last"])  # "Small (Medium) Large"
    return tuple(names) if len(names) > 1 and all(map(_is_name, names)) else ()


def _in_two_words(found: re.Match[str]) -> str:
    """The first size, with the word before it: "Small child" of "small child (child)"."""
    before = found.string[: found.start("first")].split()[-1:]
    both = " ".join([*before, found["first"]])
    return both if re.fullmatch(WORD_NAME, both, re.IGNORECASE) else found["first"]


def _is_in_two_units(words: str) -> bool:
    return "cm" in words.lower() and bool(re.search(_IN_TWO_UNITS, words, re.IGNORECASE))


def _is_name(words: str) -> bool:
    if words.lower() in _USUAL_NAMES:
        return True
    return re.fullmatch(_SIZE_NAME, words, re.IGNORECASE) is not None


_USUAL_NAMES = frozenset("xs s m l xl xxl small medium large".split())


_TOLD = (
    rf"(?P<lead>(?:[\w'-]+ ){{0,4}}?(?:sizes?|to fit|fits|ages?|for)\b"
    r"(?:\s*\([^()\n]{1,30}\)(?=\s*:))?\s*:?\s*)?"
    rf"(?P<names>{NAME}(?:{BETWEEN}{NAME})+)\s*[)\]]*\s*{AGE}?\s*[.;]?"
    r"(?:\s*\((?:numbers|figures|changes|larger|others?|the)\b[^()\n]{0,60}\)\.?)?"
)
_SLASHED = regex(r"[SML]/\d*X*[SML]\b")  # one size between two, among others
_LONGEST_LIST = 160  # characters of a line that lists sizes and says no more
_LISTED = frozenset(",;/([")
_AGED = regex(rf"[\d)\]]\s*{AGE}\b", re.IGNORECASE)


def _told_in_words(line: str) -> tuple[str, ...]:
    """ "Sizes: S, M, L", "0 to 3 months (3 to 6 months, 6 to 12 months)", and no more."""
    listed = len(line) <= _LONGEST_LIST and not _LISTED.isdisjoint(line)
    listed = listed and _may_begin_a_list(line.lower())
    found = re.fullmatch(_TOLD, line, re.IGNORECASE) if listed else None
    if found is None:
        return ()
    lead = (found["lead"] or "").lower()
    named = re.search(r"size|fit|age", lead) is not None
    bracketed = re.search(r"[(\[]", line) is not None
    aged = _AGED.search(line) or re.search(WORD_NAME, found["names"], re.IGNORECASE)
    if not named and not (bracketed and aged):
        return ()
    if _SLASHED.search(line) and re.search(r"[,;(\[]", line):
        return ()
    names = [name.strip() for name in re.findall(NAME, found["names"], re.IGNORECASE)]
    units = {
        unit[0].lower() for unit in re.findall(rf"\d\s*({AGE})\b", line, re.IGNORECASE)
    }
    names = [re.sub(r"(?<=\d)\s*(?:to|–)\s*(?=\d)", "-", name) for name in names]
    if len(units) < 2:
        names = [_UNIT.sub("", name) for name in names]
    return tuple(names) if len(names) > 1 and len(set(names)) == len(names) else ()


_LEADS = ("size", "fit", "age", "for")
_MOST_WORDS_BEFORE = 5  # "to" of "to fit" may be one more than `_TOLD` passes


def _may_begin_a_list(line: str) -> bool:
    """Whether a line in small letters may begin with a size, or words that lead to one."""
    letters = line.lstrip("x")  # "XXL", and no more letters behind it
    letter = letters[:1] in {"s", "m", "l"} and not letters[1:2].isalnum()
    if letter or line.startswith(_FIRST_WORDS):
        return True
    if line[:1].isdecimal():
        return True
    for word in line.split(" ", _MOST_WORDS_BEFORE + 1)[: _MOST_WORDS_BEFORE + 1]:
        if word.startswith(_LEADS):
            return True
        letters = word.replace("-", "").replace("'", "").replace("_", "")
        if letters and not letters.isalnum():
            return False
    return False


_CHANGES = (
    rf"\bfor\s+(?:the\s+)?(?:sizes?\s+)?(?P<first>{NAME})(?:\s+sizes?\b)?[.;,]?\s*"
    r"(?:with\s+|and\s+)?(?:the\s+)?"
    r"(?:changes|others?|other sizes|larger sizes|sizes)\s+(?:for\s+)?(?:the\s+)?"
    rf"(?:sizes?\s+)?(?P<rest>{NAME}(?:{BETWEEN}{NAME})*)(?:\s+sizes?\b)?\s+"
    r"(?:(?:are|is|given|set|put|shown)\s+)*"
    r"(?:in|inside|within)\s+(?:parenthes|brackets)"
)


def _told_as_changes(line: str) -> tuple[str, ...]:
    """ "Directions are for size S. Changes for M and L are in parentheses."."""
    lower = line.lower()
    if "parenthes" not in lower and "brackets" not in lower:
        return ()
    found = re.search(_CHANGES, line, re.IGNORECASE)
    if found is None:
        return ()
    rest = re.findall(NAME, found["rest"], re.IGNORECASE)
    names = [name.strip() for name in (found["first"], *rest)]
    plain = [_UNIT.sub("", name) for name in names]
    return tuple(plain if len(set(plain)) == len(plain) else names)


def _dashed(line: str) -> tuple[str, ...]:
    """ "Sizes 2-4-6 years", "sizes s - m - l"."""
    found = re.search(_DASHED_SIZES, line, re.IGNORECASE)
    names = re.split(r"\s*[-–—/]\s*", found[1]) if found else []
    aged = [_UNIT.search(name) is not None for name in names]
    return tuple(names if all(aged) else (_UNIT.sub("", name) for name in names))


_BEGINNINGS = frozenset("xsmlnbtcayw")
"""The first letters of sizes that are told by a letter or a word."""


def _bare(line: str) -> tuple[str, ...]:
    """ "S (M, L)" on a line of its own, "Child (Adult)." at its beginning."""
    letter = line[:1].lower()
    begins = letter in _BEGINNINGS or letter.isdecimal()
    if not begins or _LISTED.isdisjoint(line):
        return ()
    slashed = "/" in line and re.match(_BARE_SLASHES, line, re.IGNORECASE)
    if slashed:
        return tuple(re.split(r"\s*/\s*", slashed[1]))
    worded = line[:_LONGEST_WORD].lower().startswith(_FIRST_WORDS)
    words = re.match(_BARE_WORDS, line, re.IGNORECASE) if worded else None
    if words is not None:
        return (words[1], *re.split(r"\s*[,:;-]\s*", words[2]))
    found = re.match(_BARE_SIZES, line) if line[0] in "XSM" else None
    if found is None:
        return ()
    return (found[1], *(name for name in re.split(r"[\s,:;-]+", found[2]) if name))


def _bare_dashes(line: str) -> tuple[str, ...]:
    """ "S - M - L (head 52 - 56 - 60 cm)" on a line of its own."""
    found = _BARE_DASHES.fullmatch(line) if line[:1] in _LETTERS else None
    return tuple(re.split(r"\s*[-–—]\s*", found["names"])) if found else ()


_LETTERS = ("X", "S", "M")
_BARE_DASHES = regex(
    r"(?P<names>(?:X{0,3}S|M|X{0,3}L|[2-5]XL)(?:\s*[-–—]\s*(?:X{0,3}S|M|X{0,3}L|[2-5]XL))+)"
    r"\s*(?:\([^()\n]*\))?[.:]?"
)


_WORD_SIZE = (
    r"(?:(?:x-?)?small|medium|(?:x-?)?large|newborn|baby|toddler|child|teen|adult|youth|"
    r"wom[ae]n|m[ae]n)"
)
_FIRST_WORDS = (
    "small", "x-small", "xsmall", "medium", "large", "x-large", "xlarge", "newborn", "baby",
    "toddler", "child", "teen", "adult", "youth", "woman", "women", "man", "men", "preemie",
)  # fmt: skip
"""How the names of sizes begin that are words."""
_LONGEST_WORD = 7
_DASHED_SIZE = rf"(?:\d+(?:\s(?:months?|mths?|years?|yrs?))?|\d*X*[SML]|{_WORD_SIZE})"
_DASHED_SIZES = (
    rf"(?:sizes?|ages?|fits?)\b[^\n\d(]{{0,12}}?"
    rf"\b({_DASHED_SIZE}(?:\s*[-–—/]\s*{_DASHED_SIZE}){{2,}})\b"
)
_BARE_SLASHES = rf"({_DASHED_SIZE}(?:\s*/\s*{_DASHED_SIZE}){{2,}})\s*(?:$|[,.;:–—-])"
_BARE_WORDS = rf"({_WORD_SIZE})\s*[(\[]({_WORD_SIZE}(?:\s*[,:;-]\s*{_WORD_SIZE})*)[)\]]"
_BARE_SIZES = (
    r"(X*S|S|M|XXS)\s*[(\[]\s*((?:[\dX]*[SML](?:\s*[,:;-]\s*)?)+)[)\]]"
    r"(?:\.|\s*[-–—,:]|\s*$)"
)


def _joined_lines(texts: Sequence[str]) -> list[str]:
    """Lines that speak of sizes; a short one, "Size:", may stand above its list."""
    joined = (
        f"{a} {b}" if len(a.split(maxsplit=_SHORT)) <= _SHORT else a
        for a, b in pairwise([*texts, ""])
    )
    return [text for text in joined if _says_sizes(text)]


def _says_sizes(text: str) -> bool:
    words = text.lower()
    if "size" in words:
        return True
    near = "fit" in words or "age" in words
    return near and re.search(r"fits?\b|ages?\b", words) is not None


_SHORT = 2


def is_size_line(line: str) -> bool:
    """Whether a line does nothing but list sizes: "S (M, L) - to fit a child"."""
    line = in_one_bracket(line)
    told = re.match(r"\W*(?:for )?(?:sizes?|ages?|to fit|fits)\b", line, re.IGNORECASE)
    bare = line.strip()
    listed = _told_in_words(bare) or _names_declared(bare) or _bare(bare)
    return bool(listed or (told and (_listed(line) or _dashed(line))))


def read_size_prefix(
    draft: Collected, cursor: Cursor, *, in_row: bool = False
) -> tuple[str, ...] | None:
    """ "Size 3 only:", "Ages 4 and 6 only:" before a row; () for "All sizes:".

    Within a row a colon does for "only": "Rnd 7: Child: sc in each st. Adult: inc in each."
    """
    start = cursor.at
    if not _may_tell_sizes(draft, cursor.token):
        return None
    cursor.take_word("for")
    if cursor.take_phrase("all sizes", "every size", "all ages", "every age"):
        named: tuple[str, ...] = ()
    elif by_order := sizes_by_order(draft.sizes, cursor):
        named = by_order
    elif cursor.take_word(*_SIZE_WORDS) or _is_size(draft, cursor, colon=in_row):
        cursor.take_kind(Kind.COLON)
        named = names_of_sizes(draft, cursor)
        if not named or cursor.is_kind(Kind.OPEN):  # "Size S (M, L)" lists the sizes
            cursor.at = start
            return None
    else:
        cursor.at = start
        return None
    cursor.take_word("only", "continue", "alone")
    while cursor.take_kind(Kind.COLON, Kind.DASH, Kind.COMMA, Kind.STOP):
        pass
    return named


def _may_tell_sizes(draft: Collected, token: Token) -> bool:
    """Whether a word begins like one that tells sizes; anything but a word may."""
    if token.kind is not Kind.WORD:
        return True
    letters = _first_letters(draft.sizes)
    return token.text[0] in letters or draft.own_letters(token)[0].lower() in letters


@lru_cache(maxsize=64)
def _first_letters(sizes: tuple[str, ...]) -> frozenset[str]:
    """Those of the names of sizes, and of the other words that tell some of them."""
    return frozenset(name[:1].lower() for name in sizes).union(
        "f",  # for, first
        "ae",  # all, ages, every
        "sltb",  # sizes, smallest, largest, last, the, biggest
    )


_SIZE_WORDS = ("size", "sizes", "age", "ages")


def _is_size(draft: Collected, cursor: Cursor, *, colon: bool) -> bool:
    """Whether names of sizes stand here alone, with "only" after them, or a colon."""
    own = draft.own_letters(cursor.token)
    words = {name.lower() for name in draft.sizes if len(name) > 1}
    start = cursor.at
    several = _name_of_words(draft, cursor)
    cursor.at = start
    if own not in draft.sizes and own.lower() not in words and not several:
        return False
    for ahead in range(1, sum(map(_tokens_of, draft.sizes)) + len(draft.sizes) + 2):
        token = cursor.peek(ahead)
        if token.text == "only" or (colon and token.kind is Kind.COLON):
            return True
        within = (Kind.WORD, Kind.NUMBER, Kind.COMMA, Kind.DASH)
        if token.kind not in within and token.text != "/":
            return False
    return False


def _tokens_of(name: str) -> int:
    """How many words and marks a name may be: "Adult S/M" is four."""
    return len(re.findall(r"\w+|\W", name.replace(" ", "")))


_SIZE_UNITS = frozenset(
    "size sizes month months mths mos year years yrs cm months' years'".split()
)


def names_of_sizes(draft: Collected, cursor: Cursor) -> tuple[str, ...]:
    """ "M and L", "6 and 12 months", as far as names of sizes stand here."""
    names = []
    by_lower = {name.lower(): name for name in draft.sizes}
    initials = {"small": "s", "medium": "m", "large": "l"}
    while True:
        several = _name_of_words(draft, cursor)
        if several:
            names.append(several)
            continue
        word = cursor.token.text
        name = by_lower.get(word) or by_lower.get(initials.get(word, ""))
        if name is None:
            name = next((n for n in draft.sizes if initials.get(n.lower()) == word), None)
        if name is not None:
            names.append(name)
        elif word not in ("and", ",", "only") and not (names and word in _SIZE_UNITS):
            return tuple(names)
        if word == "only":
            return tuple(names)
        cursor.step()


def _name_of_words(draft: Collected, cursor: Cursor) -> str:
    """The name of a size that is more than one word, "Adult S/M", if it stands here."""
    start = cursor.token.start
    for name in draft.sizes:
        end = start + len(name)
        here = draft.source.text[start : end + 1].translate(_DASHES)
        if _IS_LONG.search(name) and here[: len(name)].lower() == name.lower():
            if here[len(name) :].isalnum():
                continue
            while cursor.token.start < end and not cursor.done():
                cursor.step()
            return name
    return ""


_DASHES = str.maketrans("–—", "--")
_IS_LONG = regex(r"\w\W+\w|\d[A-Za-z]")
