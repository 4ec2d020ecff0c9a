"""No text makes a check go on without end: counted in calls, not in milliseconds.

Each of these took minutes, or grew with the square of its length, before it was mended.
"""

import random

import pytest
from counting import calls

from hookwright.checking import check
from hookwright.remembered import Remembered
from hookwright.source import Source

MOST_CALLS = 8_000_000
"""What the hardest of a few hundred words may take: some seconds on a slow machine."""
LINEAR = 2.4
"""How much more work twice the text may be."""


def calls_for(text: str) -> int:
    return calls(lambda: check(Source(text, "pattern.txt")))


def over_plain_row(row: str, chain: int = 200) -> str:
    return (
        f"US terms. Ch 1 sps count as a st.\n\nCh {chain}.\n\nRow 1: Dc in 4th ch from hook "
        f"and in each ch across. Turn.\n\nRow 2: {row}. Turn.\n\nRow 3: Sc in each st across.\n"
    )


SLIPS_FOR_EVER = (
    "Rnd 1: 12 sc in ring.\n\nRnd 2: *sc in next st, ch 2; rep from * around.\n\n"
    "Rnd 3: *sl st in corner, sl st in next st; rep from * around.\n"
)
REPEATS_IN_TAILS = over_plain_row(
    ", ".join(
        "*dc in next 3 sts, sk next 4 sts; rep from * across, ending with dc2tog over next 2 "
        "sts"
        for _ in range(30)
    ),
    61,
)
NO_PERIOD = "US terms.\n\nCh 100000.\n\n" + "".join(
    f"Row {i + 1}: *Dc in next {i + 2} sts, ch {i + 3}, sk next {i % 7 + 1} sts, sc in each of "
    f"next {i * 13 + 1} sts; rep from * to last {i} sts, dc in next st. ({i * 7} sts)\n\n"
    for i in range(40)
)


@pytest.mark.parametrize("text", [SLIPS_FOR_EVER, REPEATS_IN_TAILS, NO_PERIOD])
def test_work_without_end_comes_to_an_end(text: str) -> None:
    assert calls_for(text) < MOST_CALLS


@pytest.mark.parametrize(
    "row",
    [
        "ch 1, sc in first sc, sc in centre sp",
        "ch 1, dc in {}th sc, sc in next ch-1 sp",
        "ch 1, sc in next sc, sc in last shell",
    ],
)
def test_a_far_place_is_no_longer_a_way_than_a_near_one(
    row: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Remembered, "get", lambda *_: None)  # no text helps another

    def text(repeats: int) -> str:
        return (
            f"Ch {2 * repeats + 2}.\n\nRow 1: Sc in 2nd ch from hook, *ch 1, sk next ch, "
            "(sc, ch 1, sc) in next ch; rep from * across. Turn.\n\n"
            f"Row 2: {row.format(repeats // 2)}. Turn.\n"
        )

    calls_for(text(40))
    near, far = calls_for(text(40)), calls_for(text(400_000_000))
    assert far < 1.2 * near


ITEMS = {
    "skips": (lambda i: f"dc in next st, ch {1 + i % 2}, sk next st", 2),
    "groups": (lambda i: f"({1 + i % 3} dc, ch {i % 4 + 1}, dc) in next st", 1),
    "yarns": (lambda i: f"with {'AB'[i % 2]}, sc in next st", 1),
    "spread": (lambda i: f"work {i + 2} sc evenly across", 1),
    "open": (
        lambda i: f"*dc in next st, ch 1, sk next {2 + i % 3} sts; rep from * across",
        1,
    ),
    "picots": (lambda i: f"sc in next st, ch {3 + i % 2}, sl st in 3rd ch from hook", 1),
}


@pytest.mark.parametrize("kind", ITEMS)
def test_a_row_of_twice_the_instructions_takes_twice_the_work(kind: str) -> None:
    item, each = ITEMS[kind]

    def text(number: int) -> str:
        return over_plain_row(", ".join(map(item, range(number))), each * number + 2)

    calls_for(text(40))
    assert calls_for(text(600)) < LINEAR * calls_for(text(300))


def test_an_edge_of_twice_the_places_takes_twice_the_work() -> None:
    def text(number: int) -> str:
        ring = ", ".join("3 dc in ring, ch 2" for _ in range(number))
        return (
            f"US terms.\n\nRnd 1: {ring}, join.\n\n"
            "Rnd 2: Sl st in next ch-2 sp, ch 3, *3 dc in next ch-2 sp; rep from * around, join.\n"
        )

    calls_for(text(40))
    assert calls_for(text(600)) < LINEAR * calls_for(text(300))


def of_unlike_rows(rows: int, slip: int) -> str:
    """Rows of 60 stitches, no two alike; after one row, every row wants `slip` more."""
    chance = random.Random(5)  # noqa: S311 - the same rows each time, not a secret
    lines = [
        "US terms.\n\nCh 61.\n",
        "Row 1: Sc in 2nd ch from hook and in each ch across.",
    ]
    for row in range(2, rows + 2):
        parts, left = [], 60
        while left:
            number = min(left, chance.randint(3, 15))
            parts.append(f"{chance.choice(['sc', 'hdc', 'dc'])} in next {number} sts")
            left -= number
        if slip:
            parts.append(f"sc in next {slip * row} sts")
        lines.append(f"Row {row}: Ch 1, {', '.join(parts)}. Turn. (60 sts)\n")
    return "\n".join(lines)


def test_a_draft_in_which_no_row_comes_out_takes_little_more_than_one_that_is_right() -> (
    None
):
    calls_for(of_unlike_rows(5, 0))
    right = calls_for(of_unlike_rows(150, 0))
    assert calls_for(of_unlike_rows(150, 1)) < 6 * right


def test_a_slip_among_very_many_numbers_is_not_looked_for_in_each_of_them() -> None:
    row = ", ".join(
        f"dc in next {1 + i % 7} sts, sk next {1 + i % 2} st" for i in range(900)
    )
    assert calls_for(over_plain_row(row)) < MOST_CALLS
