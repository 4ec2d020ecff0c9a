"""Where a stitch is worked, in words: "in next 4 sts", "between first 2 groups"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import (
    amount_words,
    is_one,
    is_trade_stitch,
    ordinal,
    plural,
    stitch_words,
)
from hookwright.notation.tree import MIDDLE, Amount, Target, Which

_PHRASES = {
    "base": "base of ch",
    "elsewhere": "other side of ch",
    "base of": "base of next st",
    "here": "there",
    "leg": "first leg",
    "made": "st just made",
    MIDDLE: "the middle",
    "piece": "first section",
    "ring": "ring",
}
_NOUNS = frozenset({"st", "sp", "mesh", "group", "gap", "row end"})
_ENDS = (Which.FIRST, Which.LAST)
_PASSED_ON = (*_ENDS, Which.EACH)
_POSTLESS = ("tch", "ring", "gap", "here")


def place(target: Target, wording: Wording, *, around_post: bool = False) -> str:
    """A place with the word before it: "in next dc", "between next 2 dc"."""
    if _is_between(target) and target.of is not None:
        return f"between {noun_phrase(target.of, wording)}"
    all_around = target.noun == "leg" and target.which is Which.EACH
    around = all_around or (around_post and target.noun not in _POSTLESS)
    return f"{'around' if around else 'in'} {noun_phrase(target, wording)}"


def _is_between(target: Target) -> bool:
    """Whether "between" alone says which gap: that of the things it lies between."""
    of = target.of
    if target.noun != "gap" or of is None or target.amount is not None or _is_beside(of):
        return False
    passed_on = of.which in _PASSED_ON or of.amount is None
    return target.which is (of.which if passed_on else Which.NEXT)


def _is_beside(of: Target) -> bool:
    """Whether a gap is told by one thing beside it: "the gap before the first group"."""
    return of.which in _ENDS and of.amount is None


def noun_phrase(target: Target, wording: Wording) -> str:
    """A place without the word before it: "next 4 sts", "3rd dc of next shell"."""
    if target.rows_below:
        return _below(target, wording)
    if target.noun == "marker":
        return _marker(target)
    words = _PHRASES.get(target.noun) or _named(target, wording)
    for i, other in enumerate(target.also, 1):
        mark = " and" if i == len(target.also) else ","
        words += f"{mark} {_other(other, wording, listed=len(target.also) > 1)}"
    if target.until is not None:
        words += f" {up_to(target.until, wording)}"
    if target.left_out:
        words += f" except last {_left_out(target.left_out)}"
    return words


def up_to(until: Target, wording: Wording) -> str:
    """ "To next ch-2 sp", "to the 3 ch"."""
    words = noun_phrase(until, wording)
    chains = until.noun == "ch" and until.amount is not None
    if chains and until.which is Which.NEXT and until.of is None:
        return f"to the {words.removeprefix('next ')}"
    return f"to {words}"


def _marker(target: Target) -> str:
    """ "Next marker", "2 sts before next marker"."""
    amount = f"{amount_words(target.amount)} sts before " if target.amount else ""
    return f"{amount}next marker"


def _other(target: Target, wording: Wording, *, listed: bool) -> str:
    """A further kind of the same "each": "each st and ch-1 sp", "each dc, tr and sp"."""
    plain = target == Target(target.noun, Which.EACH, target.span, chains=target.chains)
    if target.noun == "sp" and target.of is not None and target.of.noun == "tch":
        return noun_phrase(replace(target, which=Which.NEXT), wording)  # there is but one
    shared = target.noun == "sp" or (listed and plain)
    return _noun(target) if shared else noun_phrase(target, wording)


def _left_out(number: int) -> str:
    return "st" if number == 1 else f"{number} sts"


def _below(target: Target, wording: Wording) -> str:
    """ "st 2 rows below next dc": the row below the working edge is the first of them."""
    if target.row:
        return f"{noun_phrase(replace(target, rows_below=0), wording)} of Row {target.row}"
    down = f"{target.rows_below + 1} rows below"
    above = noun_phrase(replace(target, rows_below=0), wording)
    if target.which in (Which.NEXT, Which.EACH):
        return f"st {down} {above}"
    if target.which is Which.SKIPPED and target.rows_below == 1:
        return f"{above} below"
    return f"{above} {down}"


def _named(target: Target, wording: Wording) -> str:
    if target.noun == "tch":
        return _turning_chain(target, wording)
    if target.noun == "gap" and target.of is not None:
        return _gap(target, target.of, wording)
    if target.noun == "underside":
        return f"underside of {noun_phrase(replace(target, noun='ch'), wording)}"
    if target.from_hook:
        return f"{ordinal(target.ordinal or 1)} ch from hook"
    if target.which is Which.BEHIND and target.of is not None:
        return f"{_noun(target)} after {noun_phrase(target.of, wording)}"
    loop = f"{target.loop} loop of " if target.loop else ""
    alone = "single " if target.alone else ""
    words = f"{loop}{_which(target, wording)}{alone}{_noun(target)}"
    return words if target.of is None else f"{words} of {noun_phrase(target.of, wording)}"


def _turning_chain(target: Target, wording: Wording) -> str:
    """ "tch", "top of beg ch-3", "3rd ch of beg ch-4"."""
    chain = "tch" if target.chains is None else f"beg ch-{target.chains}"
    if target.ordinal:
        whole = chain if target.of is None else noun_phrase(target.of, wording)
        return f"{ordinal(target.ordinal)} ch of {whole}"
    if target.which is Which.NEXT:
        return chain if target.chains is None else f"top of {chain}"
    return f"{_which(target, wording)}{chain}"


def _gap(target: Target, of: Target, wording: Wording) -> str:
    """ "gap before first group", "gap between edge pair and first group"."""
    if target.ordinal and target.which in _ENDS:
        sides = ["edge pair", noun_phrase(of, wording)]
        first = target.which is Which.FIRST
        return f"gap between {' and '.join(sides if first else reversed(sides))}"
    if _is_beside(of) and target.which in _ENDS and target.amount is None:
        side = "before" if target.which is Which.FIRST else "after"
        return f"gap {side} {noun_phrase(of, wording)}"
    next_to_first = target.which is Which.NEXT and of.which is Which.FIRST
    if _is_beside(of) and next_to_first and target.amount is None:
        return f"gap after {noun_phrase(of, wording)}"
    between = noun_phrase(of, wording)
    return f"{_which(target, wording)}{_noun(target)} between {between}"


def _ordinals(target: Target) -> str:
    """ "6th", or one for each size: "6th (7th, 8th)"."""
    if target.ordinals is None:
        return ordinal(target.ordinal or 1)
    first, *others = (ordinal(value or 1) for value in target.ordinals.values)
    return f"{first} ({', '.join(others)})"


def _which(target: Target, wording: Wording) -> str:
    """The words before the noun: "next 4 ", "each of next 5 ", "each ", "3rd "."""
    amount = "" if target.amount is None else f"{amount_words(target.amount)} "
    if target.which is Which.NTH:
        return f"{amount}{_ordinals(target)} "
    nth = f"{ordinal(target.ordinal)} " if target.ordinal else ""
    if target.which is Which.EACH and amount:
        return f"each of {'last' if target.last else 'next'} {amount}{nth}"
    if target.which is Which.NEXT and target.of is not None and _is_between_or_in(target):
        return nth
    if target.begun:
        return f"the {amount}{nth}"
    word = wording.centre if target.which is Which.CENTRE else target.which.value
    return f"{word} {amount}{nth}"


def _is_between_or_in(target: Target) -> bool:
    """Whether "next" is said of what it belongs to: "gap between next 2 dc"."""
    return target.noun in ("sp", "gap") and target.amount is None


def _noun(target: Target) -> str:
    if target.noun == "ch":
        return "ch"
    if target.noun == "sp":
        return counted_noun("sp", target.amount, target.chains)
    return counted_noun(target.noun, target.amount)


def counted_noun(noun: str, amount: Amount | None, chains: int | None = None) -> str:
    """What is counted or worked into: "sts", "ch-2 sp", "row ends", "3 shells"."""
    if noun == "ch":
        return noun
    if noun in _NOUNS:
        length = "" if chains is None else f"ch-{chains} "
        return f"{length}{noun if is_one(amount) else plural(noun)}"
    return stitch_words(noun, amount)


def is_noun(word: str) -> bool:
    """Whether a word names a kind of place, or a stitch of the trade."""
    return word == "ch" or word in _NOUNS or is_trade_stitch(word)
