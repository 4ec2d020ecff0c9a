"""How does a word sound, so that what a recogniser misheard is still found?

A rough key: letters that sound alike are one, vowels in a row are one vowel, letters twice
are once. "Crochet", "crow shay" and "crusha" come close to one another, "treble" and
"trouble" are the same. How alike two keys are is told by the edits between them
(rapidfuzz).
"""

from __future__ import annotations

from functools import lru_cache

from hookwright.regex import regex

_SOUNDS = (
    (regex(r"[^a-z]"), ""),
    (regex(r"ph"), "f"),
    (regex(r"tch|ch|sh|sch"), "S"),
    (regex(r"wh"), "w"),
    (regex(r"kn"), "n"),
    (regex(r"ck|[cqk]"), "k"),
    (regex(r"x"), "ks"),
    (regex(r"z"), "s"),
    (regex(r"v"), "f"),
    (regex(r"lf"), "f"),
    (regex(r"(?<=[aeiou])[wyh]"), ""),
    (regex(r"[aeiouy]+"), "a"),
    (regex(r"(.)\1+"), r"\1"),
)


@lru_cache(maxsize=20_000)
def sound(words: str) -> str:
    """The key of some words in small letters."""
    key = words
    for pattern, letter in _SOUNDS:
        key = pattern.sub(letter, key)
    return key


def likeness(one: str, other: str) -> float:
    """How alike two keys are, up to 100."""
    from rapidfuzz import fuzz  # noqa: PLC0415 - of use only for a recorded lesson

    return float(fuzz.ratio(one, other))
