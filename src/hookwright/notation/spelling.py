"""The word most likely meant by a misspelt one."""

from __future__ import annotations

from hookwright.notation.vocabulary import Phrases

_STITCHES = (
    "sc",
    "dc",
    "hdc",
    "tr",
    "htr",
    "dtr",
    "ch",
    "fpdc",
    "bpdc",
    "sc2tog",
    "dc2tog",
    "dc3tog",
    "sk",
    "inc",
    "dec",
    "shell",
    "cluster",
    "bobble",
    "popcorn",
    "puff",
)
# Slips met more than once in public patterns: the key next to the right one, letters
# changed about, a letter too many.
_NEAR_KEYS = {
    "a": "sqwz", "s": "adwxe", "d": "sfexcr", "c": "xvdf", "h": "gjnby", "t": "rygf",
    "r": "etdf", "k": "jlmi", "i": "uok", "n": "bmhj", "e": "wrsd", "o": "ipl", "v": "cbfg",
}  # fmt: skip


def likely_word(word: str, own_words: Phrases) -> str:
    """The likeliest stitch or term one slip away from a word; "" where none is."""
    known = set(_STITCHES) | {
        first for first, rows in own_words.items() if len(rows[0][0]) == 1
    }
    near = [good for good in known if one_slip(word, good)]
    if len(near) > 1:
        likelier = [good for good in near if _slip_of_a_finger(word, good)]
        near = likelier or near
    return min(near, key=_rank) if near else ""


def _rank(word: str) -> tuple[int, str]:
    order = _STITCHES.index(word) if word in _STITCHES else -1
    return (order, word)


def one_slip(word: str, good: str) -> bool:
    """Whether a word is another with a letter wrong, missing, too many, or two swapped."""
    if word == good or abs(len(word) - len(good)) > 1:
        return False
    if len(word) == len(good):
        wrong = [i for i, (a, b) in enumerate(zip(word, good, strict=True)) if a != b]
        if len(wrong) == 1:
            return True
        swapped = len(wrong) == 2 and wrong[1] == wrong[0] + 1
        return swapped and sorted(word) == sorted(good)
    longer, shorter = (word, good) if len(word) > len(good) else (good, word)
    return len(shorter) > 1 and any(
        longer[:i] + longer[i + 1 :] == shorter for i in range(len(longer))
    )


def _slip_of_a_finger(word: str, good: str) -> bool:
    if len(word) != len(good):
        doubled = [i for i in range(1, len(word)) if word[i] == word[i - 1]]
        return any(word[:i] + word[i + 1 :] == good for i in doubled)
    pairs = [(a, b) for a, b in zip(word, good, strict=True) if a != b]
    return len(pairs) > 1 or any(a in _NEAR_KEYS.get(b, "") for a, b in pairs)
