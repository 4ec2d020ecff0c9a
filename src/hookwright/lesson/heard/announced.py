"""Which rows are named in what was heard: announced, or only mentioned?

A row is announced by its name or its number, "round 5", "the second row", "divide round";
where rows were announced, by a bare number at the beginning of a sentence that is the next
one ("four is two single crochets"); by its part, "now the ribbing". A name that is looked
back or ahead to ("like row 2", "the end of row 1") announces none.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.lesson.heard.facts import Announced, Mentioned, Word
from hookwright.lesson.heard.numbers import (
    is_counted_aloud,
    number_at,
    ordinal,
    sounds_like,
)
from hookwright.lesson.heard.row_names import Rows
from hookwright.lesson.heard.sentences import STOPS, opens
from hookwright.lesson.heard.sounds import likeness, sound

_ROW = frozenset("row rows round rounds rnd rnds roe rho rowe".split())
_ROW_MISHEARD = frozenset("raw roll grow ground around".split())
"""Words of their own: only where they open a sentence."""
_ONLY_MENTIONED = frozenset(
    "of as like repeat repeating than from into until till before after below under skip "
    "skipping up that did finished since back between remember earlier through above "
    "with".split()
)
_NO_NAME = frozenset("your this whole every each".split())
""" "There is your row, 30 double crochet" names none."""
_LEADS = frozenset("the in to through with on a at".split())
_BEGINS = frozenset("for now to begin start make work next do".split())
_UP_TO = frozenset("to through till until and up all the way thru".split())
_ARE = frozenset({"is", "are"})
_BEHIND_BARE = frozenset("is are to through and , :".split())
_DONE = frozenset("done finished complete".split())
"""Behind a row that was worked in the words before."""
_ONE_ROW = (["row"], ["round"])
_SOUND_OF_ROW = sound("row")
_ROUND = sound("round")
_LIKE_ROUND = 88.0
_NEAR_START = 4.0
"""Seconds: an announcement so soon in a sentence begins with the sentence."""
_SIDE_BY_SIDE = 3
"""Words from one row to the next in "row three, row four, row five"."""
_SURE, _NAMED, _ORDINAL, _MISHEARD, _BARE = 1.0, 1.2, 0.9, 0.6, 0.4


def rows_named(
    words: Sequence[Word], rows: Rows
) -> tuple[tuple[Announced, ...], tuple[Mentioned, ...]]:
    """What is announced, in the order of time, and what is only mentioned."""
    announced: list[Announced] = []
    mentioned: list[Mentioned] = []
    texts = [word.text for word in words]
    for at in range(len(words)):
        one = _at(words, texts, at, rows)
        if isinstance(one, Announced):
            announced.append(_apart(replace(one, word=at), announced, words))
        elif one is not None:
            mentioned.append(one)
    announced.sort(key=lambda one: one.time)
    return tuple(announced), tuple(mentioned)


def _apart(one: Announced, before: Sequence[Announced], words: Sequence[Word]) -> Announced:
    """Of two rows in one sentence, with words between them, the second has its own time."""
    if (
        before
        and before[-1].time == one.time
        and one.word - before[-1].word > _SIDE_BY_SIDE
    ):
        return replace(one, time=words[one.word].time)
    return one


def _at(
    words: Sequence[Word], texts: list[str], at: int, rows: Rows
) -> Announced | Mentioned | None:
    """The row that is named from a word on."""
    named = _by_name(words, texts, at, rows)
    if named is not None:
        return named
    number = _row_number(words, texts, at)
    if number is None:
        return _bare(words, texts, at, rows)
    value, end = number
    places = rows.by_number.get(value, ())
    if not places:
        return None
    if _is_only_mentioned(words, at):
        return Mentioned(at, places)
    weight = _SURE if texts[at] in _ROW else _MISHEARD
    if ordinal(texts[at]) is not None:
        weight = _ORDINAL
    part = _part_before(texts, at, rows)
    inside = tuple(one for one in places if part and rows.parts[one] == part)
    done = texts[at - 1 : at] == ["thats"] or bool(_DONE & set(texts[end : end + 2]))
    return Announced(
        words[at].cue if done else _time(words, at),
        inside or places,
        _until(texts, end),
        _NAMED if inside else weight,
        with_part=bool(inside),
    )


def _row_number(words: Sequence[Word], texts: list[str], at: int) -> tuple[int, int] | None:
    """The number of "row 3", "row, 168", "round to" or "third round", and where it ends."""
    own = ordinal(texts[at])
    if own is not None:
        end = at + 3 if texts[at + 1 : at + 3] == ["and", "last"] else at + 1
        return (own, end + 1) if texts[end : end + 1] in _ONE_ROW else None
    if not names_row(texts[at]) and sound(texts[at]) != _SOUND_OF_ROW:
        return None
    if texts[at] not in _ROW and not opens(words, at):
        return None
    if at and texts[at - 1] in _NO_NAME and words[at - 1].cue == words[at].cue:
        return None
    last = texts[at - 1 : at + 2] == ["last", texts[at], ","]  # "the last row, 168"
    start = at + 2 if last else at + 1
    if texts[start : start + 1] == ["number"]:
        start += 1
    found = number_at(texts, start)
    if found is not None:
        return found[0], start + found[1]
    alike = sounds_like(texts[start]) if start < len(texts) else None
    return (alike, start + 1) if alike is not None else None


def names_row(word: str) -> bool:
    """Whether a word is "row" or "round", or may be that misheard."""
    return (
        word in _ROW
        or word in _ROW_MISHEARD
        or likeness(sound(word), _ROUND) >= _LIKE_ROUND
    )


def _until(texts: list[str], end: int) -> int:
    """The last number of "rows 3 to 13", "rounds 12 and 13"; 0 for a single row."""
    at = end
    while at < len(texts) and at < end + 5 and texts[at] in _UP_TO:
        at += 1
    found = number_at(texts, at) if at > end else None
    return found[0] if found is not None else 0


def _bare(words: Sequence[Word], texts: list[str], at: int, rows: Rows) -> Announced | None:
    """ "Four is two single crochets", "16 through 22", "the fourth one is"."""
    own = ordinal(texts[at]) if texts[at + 1 : at + 2] == ["one"] else None
    found = (own, 2) if own is not None else number_at(texts, at)
    if found is None or not opens(words, at):
        return None
    end = at + found[1]
    last = found[0]
    while (more := number_at(texts, end)) is not None and more[0] == last + 1:
        last, end = more[0], end + more[1]  # "eighteen, nineteen, twenty are ..."
    if texts[end : end + 1] == [] or texts[end] not in _BEHIND_BARE:
        return None
    if last > found[0] and texts[end] not in _ARE:
        return None
    if last == found[0] and is_counted_aloud(texts, at):
        return None
    places = rows.by_number.get(found[0], ())
    if not places:
        return None
    until = last if last > found[0] else _until(texts, end)
    return Announced(_time(words, at), places, until, _BARE, in_turn=True)


def _by_name(
    words: Sequence[Word], texts: list[str], at: int, rows: Rows
) -> Announced | None:
    """ "Divide round", and a part other than the first where it is begun."""
    for name, place in rows.by_name.items():
        if tuple(texts[at : at + len(name)]) == name and not (
            set(texts[max(0, at - 2) : at]) & _ONLY_MENTIONED
        ):
            return Announced(_time(words, at), (place,), 0, _NAMED, with_part=True)
    for name, place in rows.first.items():
        if tuple(texts[at : at + len(name)]) != name:
            continue
        led = at > 1 and texts[at - 1] == "the" and texts[at - 2] in _BEGINS
        named_alone = not _row_follows(words, texts, at + len(name))
        if named_alone and (led or opens(words, at)):
            return Announced(_time(words, at), (place,), 0, _NAMED, with_part=True)
    return None


def _row_follows(words: Sequence[Word], texts: list[str], at: int) -> bool:
    """Whether its row is named right behind a part, in the same caption."""
    if at < len(texts) and texts[at] in {",", ":"}:
        at += 1
    same = at < len(words) and words[at].cue == words[at - 1].cue
    return same and _row_number(words, texts, at) is not None


def _part_before(texts: list[str], at: int, rows: Rows) -> str:
    """The part that is named right before its row: "top edging, row 1"."""
    for name, place in rows.first.items():
        end = at - 1 if at and texts[at - 1] in {",", ":"} else at
        if tuple(texts[max(0, end - len(name)) : end]) == name:
            return rows.parts[place]
    return ""


def _is_only_mentioned(words: Sequence[Word], at: int) -> bool:
    """Whether a row is led to by "of" or "like"; "in row 3" at a beginning announces it."""
    before = [
        word.text
        for word in words[max(0, at - 2) : at]
        if word.cue == words[at].cue and word.text not in STOPS and word.text != ","
    ]
    if before[-1:] == ["from"] and opens(words, at - 1):
        return False  # "from row 3 on"
    led = len(before) == 2 and before[0] in _ONLY_MENTIONED and before[1] in _LEADS
    if led or (before[-1:] and before[-1] in _ONLY_MENTIONED):
        return True
    return before[-1:] == ["in"] and not opens(words, at - 1)


def _time(words: Sequence[Word], at: int) -> float:
    """When an announcement begins: with its sentence, if it stands near the start of it."""
    own = words[at]
    first = at
    while (
        first > 0 and words[first - 1].cue == own.cue and words[first - 1].text not in STOPS
    ):
        first -= 1
    start = own.cue if not first or words[first - 1].cue != own.cue else words[first].time
    trailing = words[at - 1].text == "for" and not opens(words, at)
    return start if trailing or own.time - start <= _NEAR_START else own.time
