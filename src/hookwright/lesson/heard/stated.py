"""What is stated in what was heard: so many of a stitch, chains, skips, times, counts?

Only what is certain: a number right beside a stitch, behind "chain" or "skip", before
"times" where a repeat is spoken of, or a count at the end of it. A word that merely sounds
like a number states nothing, nor do numbers that are counted aloud.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hookwright.lesson.heard.announced import names_row
from hookwright.lesson.heard.facts import Stated, Word
from hookwright.lesson.heard.numbers import (
    is_counted_aloud,
    number_at,
    sounds_like,
)
from hookwright.lesson.heard.taken_back import is_no_statement, taken_back
from hookwright.lesson.heard.terms import Found, Term, terms_heard, terms_written
from hookwright.lesson.heard.totals import counts_told, times_told

_BEFORE_NEXT = frozenset("in into over around across the of each of".split())
_NEXT = frozenset({"next", "last", "first"})
_PLACES = _NEXT | {"each", "every", "same", "ring", "one", "both"}
_A_PLACE = _NEXT | {"each", "every", "same", "that"}
_ROWS = frozenset("row rows round rounds".split())
_ORDINALLY = frozenset("from space spaces sp loop".split())
_UP_TO = frozenset("and to through".split())
_WORKED = frozenset("in into around across over all to through".split())


def stated_in(
    words: Sequence[Word], terms: Sequence[Term], *, is_written: bool = False
) -> tuple[Stated, ...]:
    """All that is stated, in the order it is said.

    Args:
        words: What was heard, or a row said aloud.
        terms: The words of the trade that it may have.
        is_written: Whether it is the pattern's own text, which has no asides.
    """
    texts = [word.text for word in words]
    named = terms_written if is_written else terms_heard
    found = {one.at: one for one in named(words, terms)}
    at_terms = frozenset(
        at for one in found.values() for at in range(one.at, one.at + one.length)
    )
    told = [
        *_of_terms(words, texts, found, is_written=is_written),
        *times_told(words, texts, None if is_written else at_terms),
        *counts_told(words, texts),
    ]
    meant = (taken_back(one, words, texts, at_terms) for one in told)
    return tuple(sorted((one for one in meant if one), key=lambda one: one.first))


def _of_terms(
    words: Sequence[Word],
    texts: list[str],
    found: Mapping[int, Found],
    *,
    is_written: bool,
) -> Iterator[Stated]:
    spent = 0  # the number behind a chain or a skip is not that of the stitch after it
    for at, one in found.items():
        if is_no_statement(words, texts, at):
            continue
        end = at + one.length
        if one.term.what in {"chain", "skip"}:
            stated, spent = _action(words, texts, one, spent, is_written=is_written)
        else:
            stated = _stitch(words, texts, one, end, spent)
            spent = max(spent, stated.stop if stated is not None else 0)
        if stated is not None:
            yield stated


def _action(
    words: Sequence[Word],
    texts: list[str],
    one: Found,
    spent: int,
    *,
    is_written: bool,
) -> tuple[Stated | None, int]:
    """ "Chain 3", "skip 2", "skip the next 2 stitches", and where its number ends."""
    end = one.at + one.length
    before = texts[one.at - 1 : one.at]
    if texts[end - 1] == "chains" or (one.term.what == "chain" and _A_PLACE & set(before)):
        return None, 0  # a place: "over the next three chains", "in the last chain"
    if one.term.what == "chain" and spent < one.at and _is_one_chain(texts, one.at):
        heard = " ".join(texts[one.at - 1 : end])
        time = words[one.at].time
        return Stated("chain", 1, time, heard, one.sure, one.at - 1, end), end
    at = end
    while at < len(texts) and texts[at] in (_NEXT | {"the"}):
        at += 1
    number = number_at(texts, at)
    if number is None and is_written and one.term.what == "skip" and at > end:
        number = (1, 0)  # "skip the next stitch"
    is_ordinal = at < len(texts) and texts[at] in _ORDINALLY
    if number is None or is_ordinal or is_counted_aloud(texts, at):
        alike = sounds_like(texts[at]) if at < len(texts) else None
        return None, at + 1 if alike is not None else 0
    stop = at + number[1]
    if texts[stop : stop + 1] and texts[stop] in (_ORDINALLY | _ROWS):
        return None, stop
    heard = " ".join(texts[one.at : stop])
    stated = Stated(
        one.term.what, number[0], words[one.at].time, heard, one.sure, one.at, stop
    )
    return stated, stop


def _is_one_chain(texts: list[str], at: int) -> bool:
    """ "Three doubles, one chain, three doubles"; not "all in one chain"."""
    if texts[at - 1 : at] not in (["one"], ["1"]) or _names_row(texts, at - 1):
        return False
    return not {"in", "into", "of", "to", "over", "just"} & set(texts[at - 2 : at - 1])


def _stitch(
    words: Sequence[Word], texts: list[str], one: Found, end: int, spent: int
) -> Stated | None:
    """ "3 double crochet", "double crochet in the next 8", "double crochet 3 together".

    A stitch that is only mentioned, with no number and no place, states nothing.
    """
    what, number, start, stop = one.term.what, None, one.at, end
    of_next = False
    together = number_at(texts, end)
    behind = end + together[1] if together is not None else end
    if together is not None and texts[behind : behind + 1] == ["together"]:
        what = f"{what}{together[0]}tog"
        number, stop = _in_next(texts, behind + 1)
        of_next = number is not None
        if not of_next:
            number, start = _before(texts, one.at)
            number, start = (number, start) if start >= spent else (None, one.at)
    else:
        number, start = _before(texts, one.at)
        if start < spent:
            number, start = None, one.at
        if number in {None, 1}:
            in_next, stop = _in_next(texts, end)
            of_next = in_next is not None
            number = in_next if of_next else number
        if number is None and not _is_worked(texts, end, short=one.term.is_short):
            return None
    heard = " ".join(texts[start:stop])
    counted = None if number == 1 else number
    time = words[start].time
    placed = not of_next and _is_worked(texts, stop, short=True)
    return Stated(what, counted, time, heard, one.sure, start, stop, of_next, placed)


def _is_worked(texts: list[str], end: int, *, short: bool) -> bool:
    """Whether it is told where a stitch goes; "a double in cotton" tells no such place."""
    if not _WORKED & set(texts[end : end + 1]):
        return False
    return not short or bool(_PLACES & set(texts[end + 1 : end + 3]))


def _before(texts: list[str], at: int) -> tuple[int | None, int]:
    """The number that ends right before a word, and where it begins."""
    for length in (5, 4, 3, 2, 1):
        start = at - length
        found = number_at(texts, start) if start >= 0 else None
        if found is not None and found[1] == length and not _names_row(texts, start):
            if is_counted_aloud(texts, start) or (_NEXT & set(texts[start - 1 : start])):
                return None, at
            return found[0], start
    return None, at


def _names_row(texts: list[str], start: int) -> bool:
    """Whether a number is that of a row: "row two double crochet"."""
    before = texts[start - 1] if start else ""
    if before in {"chain", "skip"} or names_row(before):
        return True
    first = number_at(texts, start - 2) if start > 2 and before in _UP_TO else None
    return first is not None and names_row(texts[start - 3])


def _in_next(texts: list[str], end: int) -> tuple[int | None, int]:
    at = end
    while at < len(texts) and texts[at] in (_BEFORE_NEXT | _NEXT):
        at += 1
    if at == end or texts[at - 1] not in _NEXT:
        return None, end
    found = number_at(texts, at)
    if found is None:
        return None, end
    stop = at + found[1]
    other = texts[stop : stop + 1] == ["in"] and _PLACES & set(texts[stop + 1 : stop + 3])
    return (None, end) if other else (found[0], stop)
