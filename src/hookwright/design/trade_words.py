"""Which abbreviations does the trade know, and what does each stand for?

The table stands in `abbreviations.json`. What is put together from its words is known too:
"FPdc", "dc2tog", "scBLO".
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from msgspec import Struct, json

from hookwright.notation.vocabulary import singular
from hookwright.regex import regex

_TABLE = Path(__file__).with_name("abbreviations.json")
_PLURAL = regex(r"[(\[](?:e?s|'s)[)\]]")
_GAPS = regex(r"[\s\u2010-\u2015-]+")
_PARTS = regex(
    r"(?P<post>fp|bp)?(?P<base>sc|hdc|dc|htr|trtr|dtr|tr|esc|edc|st)"
    r"(?P<legs>\d{1,2}tog|tog)?(?P<loop>blo?|flo?)?"
)


class TradeWord(Struct, frozen=True):
    """An abbreviation of the trade.

    Attributes:
        word: How it is spelled.
        meaning: What it stands for.
        us: The meaning as a US text spells it, where that differs.
        kind: "stitch", "word", or "measure" for a unit.
        same: What it has in common with other spellings of the very same thing.
    """

    word: str
    meaning: str
    us: str = ""
    kind: str = "word"
    same: str = ""

    def meaning_in(self, terms: str | None) -> str:
        """The meaning, as a text in some terms spells it."""
        return self.us if self.us and terms != "UK" else self.meaning


def plain_form(word: str) -> str:
    """A word without capitals, stops, hyphens and "(s)": "Ch-sp(s)" is "ch sp"."""
    bare = _PLURAL.sub("", word.lower().replace("’", "'")).replace(".", "").replace("/", "")
    return _GAPS.sub(" ", bare).strip(" *_|:='\"")


@cache
def trade_words() -> Mapping[str, TradeWord]:
    """The abbreviations of the table, by their plain form."""
    rows = json.decode(_TABLE.read_bytes())["abbreviation"]
    words = (
        TradeWord(
            row["word"],
            row["meaning"],
            row.get("us", ""),
            row.get("kind", "word"),
            row.get("same", ""),
        )
        for row in rows
    )
    return {plain_form(word.word): word for word in words}


@cache
def trade_word(plain: str) -> TradeWord | None:
    """The abbreviation that a plain form, or its singular, is; None where it is none."""
    for form in singular(plain):
        found = trade_words().get(form) or _put_together(form)
        if found is not None:
            return found
    return None


@cache
def _stitches_by_name() -> Mapping[str, str]:
    names = {
        word.meaning: plain
        for plain, word in reversed(list(trade_words().items()))
        if word.kind == "stitch"
    }
    short = {name.removesuffix(" crochet"): plain for name, plain in names.items()}
    return {**short, **names, "triple crochet": "tr", "triple": "tr"}


def stitch_by_name(name: str) -> str:
    """The abbreviation of a stitch called by its name: "half treble"; "" for others."""
    return _stitches_by_name().get(plain_form(name), "")


def elements(plain: str) -> tuple[str, ...]:
    """The abbreviations a word is put together from: "fpdc" is "fp" and "dc"."""
    found = _PARTS.fullmatch(plain)
    if found is None:
        return ()
    parts = (found["post"], found["base"], "tog" if found["legs"] else "", found["loop"])
    several = tuple(part for part in parts if part)
    return several if len(several) > 1 else ()


def _put_together(plain: str) -> TradeWord | None:
    parts = elements(plain)
    if not parts:
        return None
    found = _PARTS.fullmatch(plain)
    assert found is not None
    words = trade_words()
    post, loop = found["post"], found["loop"]
    named = [words[post].meaning] if post else []
    named.append("stitches" if found["base"] == "st" else words[found["base"]].meaning)
    if found["legs"]:
        named.append(f"{found['legs'][:-3] or 2} together")
    if loop:
        named.append(f"in the {words[loop[:2]].meaning} only")
    prefix = post.upper() if post else ""
    spelled = f"{prefix}{plain[len(prefix) :]}"
    return TradeWord(spelled, " ".join(named), kind="stitch")


def abbreviates(short: str, long: str) -> bool:
    """Whether a word can stand for some words: its letters are theirs, in their order."""
    letters = [letter for letter in short.lower() if letter.isalpha()]
    words = long.lower().lstrip(" ([\"'")
    if not letters or len(letters) > 8 or words[:1] != letters[0]:
        return False
    rest = iter(words[:80])
    held = all(letter in rest for letter in letters)
    return held and len(letters) < sum(letter.isalpha() for letter in words[:80])
