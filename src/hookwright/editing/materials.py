"""Are the colours that the rows are worked in those that the materials list?

A letter is looked for among the letters listed. A name is listed where any of its words
stands outside the rows: what is told of a colour in a sentence is told as well. Where the
yarn is whatever is at hand, or its colours are not told apart, nothing is said.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.design.facts import Colour
from hookwright.editing.heading_colours import (
    colours_alone_in_headings,
    colours_in_headings,
)
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.prose import beside_rows
from hookwright.finding import Finding, Related, Severity
from hookwright.notation.nested import nested
from hookwright.notation.spelling import one_slip
from hookwright.notation.tree import RowText, Yarn
from hookwright.regex import regex
from hookwright.source import Span

_LETTER = regex(r"(?:[Yy]arn |[Cc]olou?r |[Ss]hade )?(?P<letter>MC\d?|CC ?\d?|[A-H])")
_ANY_YARN = regex(
    r"\b(?:scraps?|oddments?|left[ -]?overs?|stash|assorted|various|as many colou?rs|"
    r"any (?:\w+ )?colou?rs?|colou?rs? of your choice|variegated|other colou?rs|"
    r"all the colou?rs)\b",
    re.IGNORECASE,
)
_CHANGES = regex(
    r"(?:chang|switch|swap)\w*(?: colou?r| yarn)? to (?:colou?r |yarn )?", re.IGNORECASE
)
_SWITCHES = regex(
    r"^[^\w\n]{0,6}(?:[Cc]hange|[Ss]witch|[Ss]wap)(?: colou?r| yarn)? to "
    r"(?:colou?r |yarn |shade )?"
    rf"(?P<name>{_LETTER.pattern}|[A-Z][a-z]{{3,}})[^\w\n]{{0,4}}$",
    re.MULTILINE,
)
_WITH = regex(
    r"(?:^[^\w\n]{0,6}|(?<=[.:;]\s)|,\s)(?:[Ww]ith|[Uu]sing|[Ww]ork in)\s"
    r"(?:(?:RS|WS|right side|wrong side) facing(?:,| and)\s)?"
    r"(?P<name>[A-Z][a-z]{3,})(?=\s*(?:[,.:;]|$))(?!, [A-Z])",
    re.MULTILINE,
)
""" "With Rust, ...", "With RS facing and Rust, ..."."""
_STRIPE = regex(
    r"\b(?:\d{1,3}|one|two|three|four|five|six) (?:more )?(?:rows?|rnds?|rounds?|stripes?) "
    r"(?:each )?(?:of |in |with )?(?P<name>(?:MC|CC)\d?|[A-H])(?![\w'’])|"
    r"\b(?P<numbered>(?:MC|CC)\d)(?!\w)"
)
""" "2 rows A, 4 rows B", and CC2 wherever it stands."""
_IN_TURN = regex(
    r"\b(?:chang\w+ (?:the )?(?:colou?rs?|yarn) (?:every|each|after|as|at)|"
    r"(?:rows?|rnds?|rounds?|stripes?) (?:of|in|with|for) (?:each|every)|"
    r"alternat\w+ (?:the )?(?:two |three |both )?colou?rs)\b",
    re.IGNORECASE,
)
""" "Change colour every 6 rows": all of them are used."""
_SHORTEST = 4
_TO_PIECE = regex(r"\s+to\s+[A-H]\b")
""" "Join C to D": pieces, and no yarn."""


class _Used(Struct, frozen=True):
    """A yarn named in a row."""

    name: str
    span: Span
    row: RowText | None = None
    part: str = ""
    sure: bool = False
    """Whether it stands where other headings name listed colours."""


class _Beside(Struct, frozen=True):
    """What stands beside the rows: the text, and its words in small letters.

    Attributes:
        text: The text, with its rows blank.
        words: Its words, but for names that stand only where a yarn is put to use.
        slots: Names put to use anywhere, "With Rust, ...", and how often.
        everywhere: Every word of the draft, and how often it stands there.
        any_yarn: Whether it speaks of scraps, or leaves the colours to the maker.
    """

    text: str
    words: frozenset[str]
    slots: Counter[str]
    everywhere: Counter[str]
    any_yarn: bool

    @classmethod
    def of(cls, manuscript: Manuscript, headed: Sequence[_Used]) -> _Beside:
        """What stands beside the rows of a manuscript."""
        text = beside_rows(manuscript)
        words = _words_of(text)
        words.subtract(Counter(one["name"].lower() for one in _WITH.finditer(text)))
        words.subtract(Counter(one.name.lower() for one in headed))
        told = frozenset(word for word, often in words.items() if often > 0)
        text = _STRIPE.sub(lambda found: " " * len(found[0]), text)
        whole = manuscript.source.text
        slots = Counter(one.name for one in headed)
        slots += Counter(one["name"] for one in _WITH.finditer(whole))
        any_yarn = _ANY_YARN.search(text) is not None
        return cls(text, told, slots, _words_of(whole), any_yarn)

    def tells(self, word: str) -> bool:
        """Whether a word stands there, or a letter is explained there."""
        if len(word) > 3:
            return word.lower() in self.words
        return re.search(_EXPLAINED.format(word), self.text) is not None


def _words_of(text: str) -> Counter[str]:
    """How often each word stands in a text, in small letters."""
    return Counter(word.lower() for word in re.findall(r"[^\W\d_]+", text))


_EXPLAINED = r"(?<![\w'’]){}(?![\w'’])(?=\s?[:=(–—,&/)]|\s-\s|\s(?:and|is|or)\s)"


def materials_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """Colours used and not listed, then colours listed and not used."""
    listed = manuscript.design.colours
    if len(listed) < 2:
        return
    used = list(_used(manuscript))
    names = {word for colour in listed for word in _of(colour) if len(word) > 3}
    headed = [_Used(*one) for one in colours_in_headings(manuscript, sorted(names))]
    alone = list(_alone(manuscript, names | {colour.letter for colour in listed}))
    in_headings = bool(alone) or any(one.name in names for one in headed)
    if not in_headings and not _is_told_apart(manuscript, listed):
        return
    told: set[str] = set()
    beside = _Beside.of(manuscript, headed)
    between = [*_told_between(manuscript, beside.text), *_in_stripes(manuscript, listed)]
    between += [one for one in headed if one.name not in names]
    between += alone
    told_so = (*used, *between, *headed)
    by_name = any(word in names for one in told_so for word in one.name.split())
    for one in (*used, *between):
        found = _not_listed(manuscript, beside, listed, one, by_name=by_name)
        if found is not None and one.name.lower() not in told:
            told.add(one.name.lower())
            yield found
    if used and not told and _IN_TURN.search(manuscript.source.text) is None:
        yield from _not_used(manuscript, listed, used)


def _alone(manuscript: Manuscript, known: set[str]) -> Iterator[_Used]:
    """Names that only a heading has, where others name listed colours or letters."""
    for name, span in colours_alone_in_headings(manuscript, sorted(known)):
        if manuscript.source.text.count(name) == 1:
            yield _Used(name, span, sure=True)


def _is_told_apart(manuscript: Manuscript, listed: tuple[Colour, ...]) -> bool:
    """Whether the rows name a listed colour; else it is the key of something else."""
    rows = (row.span for part in manuscript.pattern.parts for row in part.rows)
    words = {word for colour in listed for word in _of(colour)}
    text = "\n".join(manuscript.source.slice(span) for span in rows)
    return any(_names(word, text) for word in words)


def _used(manuscript: Manuscript) -> Iterator[_Used]:
    for part in manuscript.pattern.parts:
        for row in part.rows:
            for node in nested(row.body):
                if isinstance(node, Yarn) and node.name:
                    place = _name_in(manuscript, row, node)
                    if _TO_PIECE.match(manuscript.source.text, place.end):
                        continue
                    yield _Used(manuscript.source.slice(place), place, row, part.name)


def _told_between(manuscript: Manuscript, beside: str) -> Iterator[_Used]:
    """ "Switch to CC." on a line between the rows."""
    first = min(
        (row.span.start for part in manuscript.pattern.parts for row in part.rows),
        default=len(beside),
    )
    for pattern in (_SWITCHES, _WITH):
        for found in pattern.finditer(beside, first):
            yield _Used(found["name"], Span(*found.span("name")))


def _in_stripes(manuscript: Manuscript, listed: tuple[Colour, ...]) -> Iterator[_Used]:
    """ "Stripes: 2 rows A, 2 rows B", told beside the rows and away from the list."""
    spans = [colour.span for colour in listed]
    for found in _STRIPE.finditer(beside_rows(manuscript)):
        name = "name" if found["name"] else "numbered"
        place = Span(*found.span(name))
        if not any(span.start <= place.start < span.end for span in spans):
            yield _Used(found[name], place)


def _name_in(manuscript: Manuscript, row: RowText, node: Yarn) -> Span:
    """The name itself among the words that put a yarn to use, with a number behind it."""
    span, text = row.place(node.span), manuscript.source.text
    at = text.rfind(node.name, span.start, span.end)
    if at < 0:
        return span
    end = at + len(node.name)
    return Span(at, end + text[end : end + 1].isdigit())


def _not_listed(
    manuscript: Manuscript,
    beside: _Beside,
    listed: tuple[Colour, ...],
    used: _Used,
    *,
    by_name: bool,
) -> Finding | None:
    """What is wrong with a colour; `by_name` says whether the rows name listed ones so."""
    letters = list(dict.fromkeys(colour.letter for colour in listed if colour.letter))
    letter = _LETTER.fullmatch(used.name)
    if letter is not None:
        own = letter["letter"].replace(" ", "")
        numbered = any(letter.rstrip("123456789") == own for letter in letters)
        if len(letters) < 2 or numbered or own in letters or beside.tells(own):
            return None
        message = f"{_worked_in(used, own)}, but the materials list {_all(letters)}."
        return _finding(used, message, f"List {own}, or name the colour that is meant.")
    names = list(dict.fromkeys(colour.name for colour in listed if colour.name))
    if len(names) < 2 or beside.any_yarn:
        return None
    words = re.findall(r"[A-Za-z]{3,}", used.name)
    if not words or (not used.sure and any(beside.tells(word) for word in words)):
        return None
    likely, quoted = _likely(used.name, names), f'"{used.name}"'
    if likely:
        where = next(colour.span for colour in listed if colour.name == likely)
        return _finding(
            used,
            f'{_worked_in(used, quoted)}, but the materials list "{likely}".',
            "Spell the colour the same in both places.",
            (Related(where, "the colour is listed here"),),
        )
    lead = manuscript.source.text[max(0, used.span.start - 40) : used.span.start]
    changes = _CHANGES.search(lead) or _is_put_to_use(beside, used.name, names)
    told = used.name.lower() not in _NO_COLOUR if used.sure else by_name and changes
    if not told or not used.name[:1].isupper():
        return None
    message = f"{_worked_in(used, quoted)}, but the materials list {_all(names)}."
    return _finding(used, message, "List the colour, or name the one that is meant.")


def _is_put_to_use(beside: _Beside, name: str, names: list[str]) -> bool:
    """Whether a name stands only where listed colours stand as well: "With Rust, ..."."""
    slots, everywhere = beside.slots, beside.everywhere
    if not slots[name] or not any(slots[word] for one in names for word in one.split()):
        return False
    return name.lower() not in _NO_COLOUR and everywhere[name.lower()] == slots[name]


_NO_COLOUR = frozenset(
    "right wrong front back main contrast contrasting yarn color colour both each either "
    "hook hooks larger smaller love care pins same second first next sides side rows left "
    "outer inner upper lower large small optional pair easy rounds spiral spirals piece "
    "pieces parts three four five pattern turn turned".split()
)


def _likely(name: str, names: list[str]) -> str:
    """The listed name that is one slip away; "" where none is, or both are right."""
    key = name.lower()
    for listed in names:
        for word in (listed, *listed.split()):
            other = word.lower()
            spelled_so = {key.replace("grey", "gray"), key.rstrip("s")}
            same = spelled_so & {other.replace("grey", "gray"), other.rstrip("s")}
            if not same and len(other) >= _SHORTEST and one_slip(key, other):
                return word if word != listed and word.lower() != key else listed
    return ""


def _not_used(
    manuscript: Manuscript, listed: tuple[Colour, ...], used: list[_Used]
) -> Iterator[Finding]:
    """Colours that are named nowhere but in their list; the first may go without saying."""
    text = manuscript.source.text
    spans = [colour.span for colour in listed]
    first, last = min(spans).start, max(spans).end
    line_end = text.find("\n", last)
    elsewhere = text[:first] + "\n" + text[line_end if line_end >= 0 else len(text) :]
    unused = [
        colour
        for colour in listed
        if not any(_names(word, elsewhere) for word in _of(colour))
    ]
    others = [colour for colour in listed if colour not in unused]
    if len(unused) != 1 or not others or unused[0] is listed[0]:
        return
    (colour,) = unused
    if not all(any(_is_it(other, one.name) for one in used) for other in others[1:]):
        return
    name = " ".join(filter(None, (colour.letter, f"({colour.name})" * bool(colour.name))))
    yield Finding(
        "materials",
        Severity.ADVICE,
        colour.span,
        f"{name if colour.letter else colour.name} is listed among the colours, "
        "but no row is worked in it.",
        "Say where it is used, or take it off the list.",
    )


def _of(colour: Colour) -> list[str]:
    """What a colour may be called: its letter, its name, or the longest word of that."""
    words = [word for word in colour.name.split() if len(word) > 2]
    return [word for word in (colour.letter, colour.name, *words) if word]


def _names(word: str, text: str) -> bool:
    flags = re.NOFLAG if len(word) < 3 else re.IGNORECASE
    return re.search(rf"(?<![\w'’]){re.escape(word)}(?!\w)", text, flags) is not None


def _is_it(colour: Colour, name: str) -> bool:
    return any(_names(word, name) for word in _of(colour))


def _worked_in(used: _Used, name: str) -> str:
    label = used.row.label if used.row is not None else None
    return f"{label.text} is worked in {name}" if label else f"{name} is used here"


def _all(names: list[str]) -> str:
    """ "A, B and C"."""
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]


def _finding(
    used: _Used, message: str, why: str, related: tuple[Related, ...] = ()
) -> Finding:
    label = used.row.label if used.row is not None else None
    numbers = label.numbers if label else ()
    return Finding(
        "materials",
        Severity.WARNING,
        used.span,
        message,
        why,
        related=related,
        row=label.text if label else None,
        part=used.part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )
