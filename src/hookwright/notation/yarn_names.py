"""Which words of a draft are names of its yarns or colours?"""

from __future__ import annotations

import re

from hookwright.notation.collected import Collected

_YARN_WORD = re.compile(
    r"(?i:\bwith|\busing|\bchange(?:\s+(?:colou?r|yarn))?\s+to|\bjoin|\bswitch\s+to|\bin|"
    r"\byarn|\bcolou?r|\bshade|\battach)\s+"
    r"(?:(?:yarn|colou?r|shade)\s+)?(?P<name>[A-Z][a-z]*(?:\s[A-Z][a-z]+)?|MC|CC\d?)\b"
)


_TABLE_LINE = re.compile(
    r"^[ \t]*(?:(?:rows?|rnds?|rounds?)[ \t]+)?\d+(?:[ \t]*(?:[-–,&]|and|to)[ \t]*\d+)*"
    r"[ \t]*[:.=]?[ \t]+(?P<name>[A-Z][a-z]+(?: [A-Z][a-z]+)?|[A-Z]|MC|CC)[ \t]*\.?[ \t]*$",
    re.MULTILINE | re.IGNORECASE,
)


_NO_YARNS = frozenset(
    "row rnd round the ch sc dc rs ws pattern next each loop us uk sl st i".split()
)


def yarn_names(draft: Collected) -> frozenset[str]:
    """Names of yarns and colours, lower case, from where they are put to use or listed."""
    names: set[str] = set()
    tables = [m for m in _TABLE_LINE.finditer(draft.source.text) if m["name"][:1].isupper()]
    for found in (*_YARN_WORD.finditer(draft.source.text), *tables):
        names.update(word.lower() for word in found["name"].split())
    return frozenset(names - _NO_YARNS)
