"""Which is the smallest piece that shows every move of a pattern?

Two searches, each through all that is smaller first. Of the repeats: the text is written
anew with one repeat, then with two, until every row of it asks for the same moves as
before. Of the rows: from the first row of a part one may go on to any row that somewhere
follows a row like it, so rows that are worked over and over fall away; of all such ways
from the first to the last row of every part the shortest is taken on which every move is
met.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.lesson.facts import RowMoves
from hookwright.lesson.moves import moves_of
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.rewriting import SizeWritten, rewritten
from hookwright.versions.fabric_of_row import row_made

MOST_REPEATS = 8
"""A swatch of more repeats is no swatch."""
_MOST_STATES = 200_000


class Smallest(Struct, frozen=True):
    """The smallest piece: the text of it as worked, and the rows to work.

    Attributes:
        checked: The pattern with as few repeats as show every move.
        size: The size of it that has fewest stitches, from 0.
        repeats: How many repeats; None where it has none, or they cannot be changed.
        rows: The rows to work, as places among all of them.
        moves: The moves of all rows.
        tried: The numbers of repeats that do not show every move, or cannot be written.
    """

    checked: Checked
    size: int
    repeats: int | None
    rows: tuple[int, ...]
    moves: tuple[RowMoves, ...]
    tried: tuple[int, ...] = ()


def smallest_piece(checked: Checked) -> Smallest:
    """The smallest piece that shows every move."""
    size = _smallest_size(checked)
    wanted = {move.key for row in moves_of(checked, size) for move in row.moves}
    repeats, piece, tried = _fewest_repeats(checked, size, wanted)
    own = size if len(piece.worked.sizes) > size else 0
    moves = moves_of(piece, own)
    rows = fewest_rows(kinds_of(piece, own), moves, wanted)
    return Smallest(piece, own, repeats, rows, moves, tried)


def _smallest_size(checked: Checked) -> int:
    def stitches(size: int) -> int:
        made = [
            outcome.worked.row.makes
            for outcome in checked.worked.sizes[size].outcomes
            if outcome.worked is not None
        ]
        return sum(number for number in made if isinstance(number, int))

    return min(range(len(checked.worked.sizes)), key=stitches)


def _fewest_repeats(
    checked: Checked, size: int, wanted: set[str]
) -> tuple[int | None, Checked, tuple[int, ...]]:
    multiple = next(
        (one for one in multiples_of(checked) if one.size == size and one.stitches), None
    )
    if multiple is None or multiple.repeats < 2:
        now = multiple.repeats if multiple is not None else None
        return now, checked, ()
    tried: list[int] = []
    for repeats in range(1, min(multiple.repeats, MOST_REPEATS + 1)):
        piece = with_repeats(checked, repeats)
        if piece is not None and moves_shown(piece, 0) == wanted:
            return repeats, piece, tuple(tried)
        tried.append(repeats)
    return multiple.repeats, checked, tuple(tried)


def with_repeats(checked: Checked, repeats: int) -> Checked | None:
    """The pattern with so many repeats; None where it cannot be written so."""
    return rewritten(checked, [SizeWritten("", repeats)]).checked


def moves_shown(checked: Checked, size: int) -> set[str]:
    """The keys of all moves that a pattern asks for."""
    return {move.key for row in moves_of(checked, size) for move in row.moves}


def kinds_of(checked: Checked, size: int) -> tuple[tuple[int, int], ...]:
    """The part of each row, and its kind: rows of one kind may stand for one another.

    They make the very same stitches in the same places, on the same side of the work.
    """
    known: dict[object, int] = {}
    result = []
    side = False
    for outcome in checked.worked.sizes[size].outcomes:
        made = row_made(outcome)
        key = (outcome.step.part, made.fabric.bare, made.foundation, made.closed, side)
        result.append((outcome.step.part, known.setdefault(key, len(known))))
        side = side != outcome.turned
    return tuple(result)


def fewest_rows(
    kinds: Sequence[tuple[int, int]], moves: Sequence[RowMoves], wanted: set[str]
) -> tuple[int, ...]:
    """The shortest way through all parts on which every wanted move is met.

    Breadth first, so that no shorter way is passed over; all rows where there are too many
    ways to look at.
    """
    if not kinds:
        return ()
    shows = [frozenset(move.key for move in row.moves) & wanted for row in moves]
    follow = _followers(kinds, shows)
    start = (0, shows[0])
    came: dict[tuple[int, frozenset[str]], tuple[int, frozenset[str]] | None] = {
        start: None
    }
    queue = deque([start])
    last = len(kinds) - 1
    while queue and len(came) < _MOST_STATES:
        at, met = queue.popleft()
        if kinds[at] == kinds[last] and met >= wanted:
            return _way((at, met), came)
        for following in follow.get(at, ()):
            state = (following, met | shows[following])
            if state not in came:
                came[state] = (at, met)
                queue.append(state)
    return tuple(range(len(kinds)))


def _followers(
    kinds: Sequence[tuple[int, int]], shows: Sequence[frozenset[str]]
) -> Mapping[int, tuple[int, ...]]:
    """For each row the rows that may come next, of like ones with like moves the first.

    What follows some row of a kind may follow any other of it; a part is left by its last
    row, or one like it, for the first row of the next part.
    """
    after: dict[tuple[int, int], dict[object, int]] = {}
    for at in range(1, len(kinds)):
        after.setdefault(kinds[at - 1], {}).setdefault((kinds[at], shows[at]), at)
    return {at: tuple(after.get(kind, {}).values()) for at, kind in enumerate(kinds)}


def _way(
    state: tuple[int, frozenset[str]],
    came: Mapping[tuple[int, frozenset[str]], tuple[int, frozenset[str]] | None],
) -> tuple[int, ...]:
    def back() -> Iterator[int]:
        here: tuple[int, frozenset[str]] | None = state
        while here is not None:
            yield here[0]
            here = came[here]

    return tuple(back())[::-1]
