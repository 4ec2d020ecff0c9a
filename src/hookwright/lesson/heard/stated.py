"""What is stated in what was heard: so many of a stitch, chains, skips, times, counts?

Only what is certain: a number right beside a stitch, behind "chain" or "skip", before
"times" or before "stitches" where a count is told. A word that merely sounds like a number
states nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hookwright.lesson.heard.facts import Stated, Word
from hookwright.lesson.heard.numbers import number_at, sounds_like
from hookwright.lesson.heard.rows_shown import names_row
from hookwright.lesson.heard.terms import Found, Term, terms_heard

_BEFORE_NEXT = frozenset("in into over around across the of each of".split())
_NEXT = frozenset({"next", "last", "first"})
_PLACES = frozenset(
    "stitch stitches stitched chain chains space spaces row rows st sts place "
    "places".split()
)
_COUNTS = frozenset("have has count counts total makes left altogether all be".split())
_COME_TO = frozenset("with up gives give get gets got thats is now still".split())
_LEAST_COME_TO = 10
"""So small a number of stitches may be one to leave, or to work over."""
_NO = frozenset(
    "not don't dont never instead than like isn't without unlike before".split()
)
_WORKED = frozenset("in into around across over all to".split())
_LOOK_BACK = 4


def stated_in(words: Sequence[Word], terms: Sequence[Term]) -> tuple[Stated, ...]:
    """All that is stated, in the order it is said."""
    texts = [word.text for word in words]
    found = {one.at: one for one in terms_heard(words, terms)}
    told = [*_of_terms(words, texts, found), *_times(words, texts), *_counts(words, texts)]
    return tuple(sorted(told, key=lambda one: one.time))


def _of_terms(
    words: Sequence[Word], texts: list[str], found: Mapping[int, Found]
) -> Iterator[Stated]:
    spent = 0  # the number behind a chain or a skip is not that of the stitch after it
    for at, one in found.items():
        if _NO & set(texts[max(0, at - _LOOK_BACK) : at]):
            continue
        end = at + one.length
        if one.term.what in {"chain", "skip"}:
            stated, spent = _action(words, texts, one, end)
        else:
            stated = _stitch(words, texts, one, end, spent)
        if stated is not None:
            yield stated


def _action(
    words: Sequence[Word], texts: list[str], one: Found, end: int
) -> tuple[Stated | None, int]:
    """ "Chain 3", "skip 2", "skip the next 2 stitches", and where its number ends."""
    at = end
    while at < len(texts) and texts[at] in (_NEXT | {"the"}):
        at += 1
    number = number_at(texts, at)
    is_ordinal = at < len(texts) and texts[at] in {"from", "space", "spaces"}
    if number is None or is_ordinal:
        alike = sounds_like(texts[at]) if at < len(texts) else None
        return None, at + 1 if alike is not None else 0
    stop = at + number[1]
    heard = " ".join(texts[one.at : stop])
    return Stated(one.term.what, number[0], words[one.at].time, heard, one.sure), stop


def _stitch(
    words: Sequence[Word], texts: list[str], one: Found, end: int, spent: int
) -> Stated | None:
    """ "3 double crochet", "double crochet in the next 8", "double crochet 3 together".

    A stitch that is only mentioned, with no number and no place, states nothing.
    """
    what, number, start, stop = one.term.what, None, one.at, end
    together = number_at(texts, end)
    behind = end + together[1] if together is not None else end
    if together is not None and texts[behind : behind + 1] == ["together"]:
        what, stop = f"{what}{together[0]}tog", behind + 1
    else:
        number, start = _before(texts, one.at)
        if start < spent:
            number, start = None, one.at
        if number is None:
            number, stop = _in_next(texts, end)
        if number is None and not _WORKED & set(texts[end : end + 1]):
            return None
    heard = " ".join(texts[start:stop])
    counted = None if number == 1 else number
    return Stated(what, counted, words[start].time, heard, one.sure)


def _before(texts: list[str], at: int) -> tuple[int | None, int]:
    """The number that ends right before a word, and where it begins."""
    for length in (5, 4, 3, 2, 1):
        start = at - length
        found = number_at(texts, start) if start >= 0 else None
        if found is not None and found[1] == length and not _names_row(texts, start):
            return found[0], start
    return None, at


def _names_row(texts: list[str], start: int) -> bool:
    """Whether a number is that of a row: "row two double crochet"."""
    before = texts[start - 1] if start else ""
    return before in {"chain", "skip"} or names_row(before)


def _in_next(texts: list[str], end: int) -> tuple[int | None, int]:
    at = end
    while at < len(texts) and texts[at] in (_BEFORE_NEXT | _NEXT):
        at += 1
    if at == end or texts[at - 1] not in _NEXT:
        return None, end
    found = number_at(texts, at)
    return (found[0], at + found[1]) if found is not None else (None, end)


def _times(words: Sequence[Word], texts: list[str]) -> Iterator[Stated]:
    """ "7 more times", "3 times", "4 times more"."""
    for at in range(len(texts)):
        found = number_at(texts, at)
        if found is None:
            continue
        end = at + found[1]
        after = texts[end : end + 2]
        more = after in (["more", "times"], ["times", "more"])
        if more or after[:1] == ["times"]:
            stop = end + (2 if more else 1)
            what = "more times" if more else "times"
            yield Stated(what, found[0], words[at].time, " ".join(texts[at:stop]))


def _counts(words: Sequence[Word], texts: list[str]) -> Iterator[Stated]:
    """ "You should have 181 stitches": only behind a word that counts."""
    for at in range(len(texts)):
        found = number_at(texts, at)
        if found is None or (at and number_at(texts, at - 1) is not None):
            continue
        end = at + found[1]
        before = set(texts[max(0, at - 3) : at])
        come_to = _COME_TO & before and found[0] >= _LEAST_COME_TO
        if (
            (_COUNTS & before or come_to)
            and not _NEXT & before
            and texts[end : end + 1] in (["stitches"], ["sts"])
        ):
            heard = " ".join(texts[at : end + 1])
            yield Stated("count", found[0], words[at].time, heard)
