"""The rows of an edging in words, and one text for all the sizes of a pattern."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.regex import regex
from hookwright.sizing.edging.moves import Form, Moves, made
from hookwright.sizing.edging.spelling import Spelling
from hookwright.sizing.edging.starting import Chains, begun, chain_for

_TALL = ("hdc", "dc", "tr")


class Row(Struct, frozen=True):
    """A row of an edging before it is put into words.

    Attributes:
        moves: Its movements.
        is_round: Whether it is a round.
        side: "RS", "WS" or "".
        ends: What stands behind its stitches: "Turn.", "Fasten off.", "Do not turn.".
    """

    moves: Moves
    is_round: bool = False
    side: str = ""
    ends: str = "Turn."


def with_ends(
    rows: Sequence[Moves], *, first_side: str, turned: Sequence[bool]
) -> tuple[Row, ...]:
    """Rows with their sides and how each ends.

    Args:
        rows: Their movements.
        first_side: The side that faces in the first of them; "" where sides are not told.
        turned: Whether the work is turned before each row behind the first.
    """
    side = first_side
    found: list[Row] = []
    for moves, turns in zip(rows, [*turned, None], strict=True):
        ends = "Turn." if turns else "Do not turn."
        found.append(
            Row(
                moves,
                is_round=False,
                side=side,
                ends="Fasten off." if turns is None else ends,
            )
        )
        if side and turns:
            side = "WS" if side == "RS" else "RS"
    return tuple(found)


def rounds_with_ends(rounds: Sequence[Moves], side: str) -> tuple[Row, ...]:
    """Rounds that are never turned: the first tells its side, the last is cut."""
    last = len(rounds) - 1
    return tuple(
        Row(
            moves,
            is_round=True,
            side="" if at else side,
            ends="Fasten off." if at == last else "",
        )
        for at, moves in enumerate(rounds)
    )


def row_words(
    row: Row, number: int, chains: Chains, spelling: Spelling, *, first: bool
) -> str:
    """A row with its label, without the count behind it.

    `first` is whether it is the first to begin with a chain of its length.
    """
    label = spelling.round_label if row.is_round else spelling.row_label
    side = f" ({row.side})" if row.side else ""
    body = begun(row.moves, chains, spelling, around=row.is_round, first=first)
    join = f"; {_join(row, chains, spelling)}" if row.is_round else ""
    return f"{label} {number}{side}: {body}{join}. {row.ends}".rstrip()


def _join(row: Row, chains: Chains, spelling: Spelling) -> str:
    """How a round is joined: to its first stitch, or to the chain that stands for it."""
    first = row.moves[0]
    if first.stitch in _TALL and chain_for(first) in chains.counting:
        return f"join with {spelling.slip} in top of beginning ch"
    noun = "st" if first.stitch == "crab st" else spelling.stitch(first.stitch)
    return f"join with {spelling.slip} in first {noun}"


def count_words(rows: Sequence[Row], spelling: Spelling) -> str:
    """The count behind a row, one number a size: "(36 sts)", "36 (42, 48) sc."."""
    numbers = [made(row.moves) for row in rows]
    kinds = {m.stitch for m in rows[0].moves if m.makes and m.form is not Form.FREE}
    whole = {move.form for move in rows[0].moves if move.makes} & {Form.TOGETHER}
    only = kinds.pop() if len(kinds) == 1 and not whole else ""
    unit = spelling.stitch(only) if only and only != "crab st" else "sts"
    if len(set(numbers)) == 1:
        return f"({numbers[0]} {unit})"
    return f"{_listed([str(number) for number in numbers])} {unit}."


_NUMBERS = regex(r"\d+")


def for_all_sizes(texts: Sequence[str]) -> str | None:
    """One text for the texts of all sizes; None where they differ in more than numbers.

    "sc in next 24 sts" and "sc in next 28 sts" are "sc in next 24 (28) sts".
    """
    parts = {tuple(_NUMBERS.split(text)) for text in texts}
    if len(parts) != 1:
        return None
    between = parts.pop()
    numbers = list(zip(*(_NUMBERS.findall(text) for text in texts), strict=True))
    told = [own[0] if len(set(own)) == 1 else _listed(own) for own in numbers]
    return "".join(a + b for a, b in zip(between, [*told, ""], strict=True))


def by_sizes(texts: Sequence[str], names: Sequence[str]) -> list[str]:
    """Rows of sizes that differ in more than numbers: "Row 2, size S only: Ch 1, ..."."""
    of: dict[str, list[str]] = {}
    for text, name in zip(texts, names, strict=True):
        of.setdefault(text, []).append(name)
    rows = ((*text.partition(": "), _whom(own)) for text, own in of.items())
    return [f"{label}, {whom} only: {body}" for label, _, body, whom in rows]


def _whom(names: Sequence[str]) -> str:
    if len(names) == 1:
        return f"size {names[0]}"
    return f"sizes {', '.join(names[:-1])} and {names[-1]}"


def _listed(numbers: Sequence[str]) -> str:
    return f"{numbers[0]} ({', '.join(numbers[1:])})"
