"""What are the rows of a lesson called: by number, by name, by the part they begin?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.lesson.facts import RowMoves

_NO_ROW = frozenset({"Foundation chain", "Beginning"})


class Rows:
    """The rows of a lesson by their numbers, their names and their parts."""

    def __init__(self, rows: Sequence[RowMoves]) -> None:
        self.by_number: dict[int, tuple[int, ...]] = {}
        self.by_name: dict[tuple[str, ...], int] = {}
        self.first: dict[tuple[str, ...], int] = {}
        self.parts = [row.part for row in rows]
        opening = next((row.part for row in rows if row.name not in _NO_ROW), "")
        for at, row in enumerate(rows):
            if row.name in _NO_ROW:
                continue
            number = _number_of(row.name)
            if number is None:
                self.by_name.setdefault(tuple(_spelled(row.name)), at)
            else:
                self.by_number[number] = (*self.by_number.get(number, ()), at)
            if row.part and row.part != opening:
                self.first.setdefault(tuple(_spelled(row.part)), at)


def _number_of(name: str) -> int | None:
    last = name.rpartition(" ")[2]
    return int(last) if last.isdigit() else None


def _spelled(name: str) -> list[str]:
    words = "".join(c if c.isalnum() else " " for c in name.lower()).split()
    return ["round" if word == "rnd" else word for word in words]
