"""A round worked round two pieces, or a hole, begins a piece that is laid by itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.reading import Draft, read_draft
from hookwright.shape.laying import Piece, heights_in, pieces_laid
from hookwright.source import Source

CASES = Path(__file__).parents[1] / "cases"
DOLL = """US terms. Worked in a spiral.

Legs and Body (make 2 legs)
Rnd 1: 6 sc in a magic ring. (6)
Rnd 2: 2 sc in each st. (12)
Rnds 3-9: Sc in each st. (12)
Fasten off the first leg. Make the second leg the same way, but do not fasten off.
Rnd 10: Ch 2, sc in each st of the first leg, sc in the 2 ch, sc in each st of the second leg, sc in the other side of the 2 ch. (28)
Rnds 11-15: Sc in each st. (28)
"""


def pieces(text: Source | Draft) -> list[tuple[str, Piece]]:
    checked = check(text)
    found = pieces_laid(checked.worked.sizes[0].outcomes, heights_in(checked.worked, 0))
    return [(piece.named(checked.reading.pattern), piece) for piece in found]


def test_a_body_round_two_legs_is_a_piece_of_its_own() -> None:
    (leg, leg_laid), (body, body_laid) = pieces(Source(DOLL))
    assert leg.startswith("Legs and Body")
    assert body == f"{leg}, from Round 10 on"
    assert [course.number for course in leg_laid.graph.courses[1:]] == [6, *[12] * 8]
    assert [course.number for course in body_laid.graph.courses] == [28] * 7
    assert leg_laid.reason == body_laid.reason == ""


@pytest.mark.parametrize("case", ["doll-legs-joined", "gnome-legs-joined"])
def test_every_row_of_a_joined_toy_is_laid(case: str) -> None:
    draft = read_draft(CASES / "round-b" / f"{case}.txt")
    laid = sum(len(piece.outcomes) for _, piece in pieces(draft))
    worked = check(draft).worked.sizes[0].outcomes
    assert laid == len([one for one in worked if one.worked is not None])


def test_a_thumb_is_laid_where_its_hole_is_told() -> None:
    (_, hand), (thumb, laid) = pieces(
        read_draft(CASES / "round-b" / "snowgate-mittens.txt")
    )
    assert not hand.reason
    assert thumb.upper() == "THUMB"
    # Nine stitches were skipped and three chains made: 12 round the hole, as it prints.
    assert laid.graph.courses[1].number == 12
