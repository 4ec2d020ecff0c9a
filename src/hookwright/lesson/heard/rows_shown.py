"""Which rows are shown, and when does each begin?

Of all that may be an announcement those are taken that together are the likeliest lesson:
rows in the order they are worked, one after another rather than far apart, a new part where
it is named. So one misheard number does not upset the others.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.lesson.facts import RowMoves
from hookwright.lesson.heard.announced import rows_named
from hookwright.lesson.heard.facts import Announced, Chapter, Mentioned, Word
from hookwright.lesson.heard.row_names import Rows

_IN_TURN = 0.3
_FAR = 0.02
_MOST_FAR = 10
_UNNAMED_PART = 0.93
_AGAIN = 0.1
_MUCH = 0.6
_MOST = 1_500
"""Announcements that are looked at: a film of hours has fewer."""


class Shown(Struct, frozen=True):
    """The rows of a lesson in what was heard.

    Attributes:
        chapters: The rows that are announced, in working order.
        until: For each of them the last row that is announced together with it.
        mentioned: Rows that are only looked back or ahead to.
    """

    chapters: tuple[Chapter, ...]
    until: tuple[int, ...]
    mentioned: tuple[Mentioned, ...]


class _Link(Struct, frozen=True):
    """A row announced, and the best way to it."""

    score: float
    time: float
    at: int
    until: int
    before: _Link | None


def rows_shown(words: Sequence[Word], rows: Sequence[RowMoves]) -> Shown:
    """The rows that are announced, in the order they are worked."""
    known = Rows(rows)
    announced, mentioned = rows_named(words, known)
    best: dict[int, _Link] = {}
    for one in announced[:_MOST]:
        found = [_reached(one, place, best, known) for place in one.places]
        for link in found:
            if link is not None:
                best[link.at] = _better(link, best.get(link.at))
    last = max(best.values(), key=lambda link: link.score, default=None)
    chain: list[_Link] = []
    while last is not None:
        chain.append(last)
        last = last.before
    chain.reverse()
    return Shown(
        tuple(
            Chapter(link.time, rows[link.at].part, rows[link.at].name, link.at)
            for link in chain
        ),
        tuple(link.until for link in chain),
        mentioned,
    )


def _better(link: _Link, own: _Link | None) -> _Link:
    """The likelier way to a row; the earlier time where the ways are much the same."""
    if own is None or link.score > own.score + _MUCH:
        return link
    if link.score <= own.score:
        return own
    last = max(own.until, link.until)
    return _Link(link.score, own.time, own.at, last, own.before)


def _reached(
    one: Announced, place: int, best: dict[int, _Link], known: Rows
) -> _Link | None:
    """The best way to a row that is announced; None for no way."""
    until = _last_of(place, one.until, known)
    links = [
        link
        for link in (_after(one, place, until, before, known) for before in best.values())
        if link is not None
    ]
    if not one.in_turn:
        far = _FAR * min(place, _MOST_FAR)
        links.append(_Link(one.weight - far, one.time, place, until, None))
    return max(links, key=lambda link: link.score, default=None)


def _after(
    one: Announced, place: int, until: int, before: _Link, known: Rows
) -> _Link | None:
    if before.at == place and not one.in_turn:
        last = max(before.until, until)
        return _Link(before.score + _AGAIN, before.time, place, last, before.before)
    if place <= before.at:
        return None
    same_part = known.parts[place] == known.parts[before.at]
    next_row = place == before.until + 1 or place == before.at + 1
    if one.in_turn and not (next_row and same_part):
        return None
    if next_row and same_part and one.time == before.time:
        # Named in one sentence: "row three, row four, row five".
        last = max(before.until, until)
        return _Link(before.score + _AGAIN, before.time, before.at, last, before.before)
    score = before.score + one.weight
    score += _IN_TURN if next_row else -_FAR * min(place - before.at, _MOST_FAR)
    if not same_part and not one.with_part:
        score -= _UNNAMED_PART
    return _Link(score, one.time, place, until, before)


def _last_of(place: int, until: int, known: Rows) -> int:
    """The last row of "rows 3 to 13", as a place among all rows."""
    inside = [
        one
        for one in known.by_number.get(until, ())
        if one >= place and known.parts[one] == known.parts[place]
    ]
    return inside[0] if inside else place
