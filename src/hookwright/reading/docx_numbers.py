"""The numbers that a word processor sets before the paragraphs of a list.

They are not in the text of a document: a paragraph says only which list and level it is of.
"""

from __future__ import annotations

from xml.etree.ElementTree import Element

from msgspec import Struct

from hookwright.reading.docx_parts import attribute, child, local_name
from hookwright.regex import regex

_PLACE = regex(r"%([1-9])")
_LEVELS = 9
_LETTERS = 26
_DIGITS = regex(r"[0-9]{1,6}")


class Level(Struct, frozen=True):
    """How one level of a list is numbered.

    Attributes:
        form: "decimal", "lowerLetter", "bullet" and the like.
        pattern: What is set, with "%1" for the number of the first level: "Row %1:".
        start: The first number.
    """

    form: str = "decimal"
    pattern: str = ""
    start: int = 1


class NumberedList(Struct, frozen=True):
    """A list: the abstract list it counts along with, its levels, and where it restarts."""

    abstract: str
    levels: dict[int, Level]
    restarts: dict[int, int]


def numbered_lists(numbering: Element | None) -> dict[str, NumberedList]:
    """The lists of a document by their number."""
    if numbering is None:
        return {}
    abstract: dict[str, dict[int, Level]] = {}
    lists: dict[str, NumberedList] = {}
    for element in numbering:
        if local_name(element) == "abstractNum":
            abstract[attribute(element, "abstractNumId") or ""] = _levels(element)
        elif local_name(element) == "num":
            name = attribute(child(element, "abstractNumId"), "val") or ""
            lists[attribute(element, "numId") or ""] = NumberedList(
                name, abstract.get(name, {}), _restarts(element)
            )
    return lists


def whole_number(text: str | None, otherwise: int) -> int:
    """A number as documents write it, or another if it is none."""
    return int(text) if text and _DIGITS.fullmatch(text) else otherwise


def _levels(abstract: Element) -> dict[int, Level]:
    levels = {}
    for element in abstract:
        if local_name(element) == "lvl":
            levels[whole_number(attribute(element, "ilvl"), 0)] = Level(
                attribute(child(element, "numFmt"), "val") or "decimal",
                attribute(child(element, "lvlText"), "val") or "",
                whole_number(attribute(child(element, "start"), "val"), 1),
            )
    return levels


def _restarts(number: Element) -> dict[int, int]:
    restarts = {}
    for element in number:
        start = attribute(child(element, "startOverride"), "val")
        if local_name(element) == "lvlOverride" and start is not None:
            level = whole_number(attribute(element, "ilvl"), 0)
            restarts[level] = whole_number(start, 1)
    return restarts


class ListNumbers:
    """Counts the paragraphs of every list while the document is read from the top."""

    def __init__(self, lists: dict[str, NumberedList]) -> None:
        self._lists = lists
        self._counts: dict[str, dict[int, int]] = {}
        self._begun: set[str] = set()

    def next_label(self, list_name: str, level: int) -> str:
        """The number set before the next paragraph of a list, or nothing.

        Bullets, and numbers in forms that no row label has, give nothing.
        """
        found = self._lists.get(list_name)
        if found is None or level not in found.levels:
            return ""
        counts = self._counts.setdefault(found.abstract, {})
        if list_name not in self._begun:
            self._begun.add(list_name)
            for restarted, start in found.restarts.items():
                counts[restarted] = start - 1
        counts[level] = counts.get(level, found.levels[level].start - 1) + 1
        for deeper in range(level + 1, _LEVELS):
            counts.pop(deeper, None)
        return _label(found, level, counts)


def _label(numbered: NumberedList, level: int, counts: dict[int, int]) -> str:
    label = numbered.levels[level].pattern
    if not _PLACE.search(label):
        return ""
    for place in set(_PLACE.findall(label)):
        at = int(place) - 1
        form = numbered.levels.get(at, Level())
        number = _in_form(counts.get(at, form.start), form.form)
        if number is None:
            return ""
        label = label.replace(f"%{place}", number)
    return label


def _in_form(number: int, form: str) -> str | None:
    if form in {"decimal", "decimalZero"}:
        return str(number)
    if form in {"lowerLetter", "upperLetter"} and 1 <= number <= _LETTERS:
        first = "a" if form == "lowerLetter" else "A"
        return chr(ord(first) + number - 1)
    return None
