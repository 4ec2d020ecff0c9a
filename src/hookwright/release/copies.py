"""Which copies are put out of a pattern, and what is each file called?

Of every copy in colour there is one on A4 and one on US letter. The others come on the
paper of their terms, letter for US and A4 for UK: they are printed at home, and their
margins are wide enough for either.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from enum import StrEnum

from msgspec import Struct

from hookwright.regex import regex

_OTHER = regex(r"[^a-z0-9]+")
_LONGEST = 60
TERMS = ("US", "UK")


class Edition(StrEnum):
    """For whom a copy is."""

    COLOUR = "colour"
    SPARING = "sparing"
    LEFT_HANDED = "left-handed"
    LARGE = "large"
    TEXT = "text"


class Paper(StrEnum):
    """The paper a copy is for, as the typesetter calls it."""

    A4 = "a4"
    LETTER = "us-letter"
    NONE = ""


class Copy(Struct, frozen=True):
    """A copy of a pattern.

    Attributes:
        name: Its file.
        what: What it is, in words.
        edition: For whom it is.
        terms: "US" or "UK".
        paper: The paper it is for.
        size: The number of its only size; None for all of them.
    """

    name: str
    what: str
    edition: Edition
    terms: str
    paper: Paper = Paper.NONE
    size: int | None = None


def copies_of(title: str, terms: Sequence[str], sizes: Sequence[str]) -> tuple[Copy, ...]:
    """Every copy, those in the terms named first before the others.

    Args:
        title: The name of the design.
        terms: The terms to put it out in.
        sizes: The names of its sizes.
    """
    stem = file_stem(title)
    return tuple(copy for own in terms for copy in _in_terms(stem, own, sizes))


def _in_terms(stem: str, terms: str, sizes: Sequence[str]) -> Iterator[Copy]:
    named = f"{stem}-{terms.lower()}"
    home = home_paper(terms)
    said = f"{terms} terms"
    for paper, words in ((Paper.A4, "A4"), (Paper.LETTER, "letter")):
        name = f"{named}-{words.lower()}.pdf"
        yield Copy(name, f"PDF in {said}, {words}", Edition.COLOUR, terms, paper)
    yield Copy(
        f"{named}-ink-sparing.pdf",
        f"ink-sparing PDF in {said}",
        Edition.SPARING,
        terms,
        home,
    )
    yield Copy(
        f"{named}-left-handed.pdf",
        f"left-handed PDF in {said}",
        Edition.LEFT_HANDED,
        terms,
        home,
    )
    for size, name in enumerate(sizes) if len(sizes) > 1 else ((None, ""),):
        ending = f"-{file_stem(name)}" if name else ""
        words = f", {name}" if name else ""
        yield Copy(
            f"{named}-large-print{ending}.pdf",
            f"large print in {said}{words}",
            Edition.LARGE,
            terms,
            home,
            size,
        )
    yield Copy(f"{named}.txt", f"plain text in {said}", Edition.TEXT, terms)


def home_paper(terms: str) -> Paper:
    """The paper of the country whose terms they are."""
    return Paper.LETTER if terms == "US" else Paper.A4


def file_stem(title: str) -> str:
    """A title as the beginning of a file's name: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    stem = _OTHER.sub("-", plain.lower()).strip("-")[:_LONGEST].rstrip("-")
    return stem or "pattern"


def is_safe_name(name: str) -> bool:
    """Whether a file's name is one that a release makes: no folder, nothing hidden."""
    return re.fullmatch(r"[a-z0-9][a-z0-9.-]*", name) is not None and ".." not in name
