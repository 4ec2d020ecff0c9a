"""The work done grows with the text and no faster: counted in calls, not in milliseconds."""

from counting import calls

from hookwright.checking import check
from hookwright.source import Source

ROW = (
    "Row {}: Ch 3 (counts as dc), sk first st, dc in next 3 sts, *ch 1, sk next st, dc in next "
    "3 sts; rep from * to last 3 sts, dc in last 3 sts. Turn. (43 sts)\n\n"
)


def pattern(rows: int) -> str:
    first = (
        "Ch 45.\n\nRow 1: Dc in 4th ch from hook and in each ch across. Turn. (43 dc)\n\n"
    )
    return (
        "US terms. Ch 1 sps count as a st.\n\n"
        + first
        + "".join(ROW.format(number) for number in range(2, rows + 1))
    )


def sized(sizes: int) -> str:
    def numbers(first: int, step: int) -> str:
        values = [first + step * size for size in range(sizes)]
        return f"{values[0]} ({', '.join(map(str, values[1:]))})"

    names = "XS (S, M, L, XL, XXL, 3X, 4X)".split()[:sizes]
    names = [name.strip("(),") for name in names]
    head = f"US terms. Sizes: {names[0]} ({', '.join(names[1:])}). Do not turn.\n\n"
    rounds = "".join(
        f"Rnd {n}: Ch 1, sc in each st around, join. {numbers(64, 8)} sc.\n\n"
        for n in range(2, 30)
    )
    return (
        f"{head}Ch {numbers(64, 8)}, join with sl st to form a ring.\n\n"
        f"Rnd 1: Ch 1, sc in each ch around, join. {numbers(64, 8)} sc.\n\n{rounds}"
    )


def calls_for(text: str) -> int:
    return calls(lambda: check(Source(text, "pattern.txt")))


def test_twice_the_rows_take_twice_the_work() -> None:
    calls_for(pattern(5))
    small, large = calls_for(pattern(40)), calls_for(pattern(80))
    assert large < 2.3 * small


def test_twice_the_sizes_take_twice_the_work() -> None:
    small, large = calls_for(sized(3)), calls_for(sized(6))
    assert large < 2.5 * small


def test_a_repeat_costs_the_same_however_often_it_is_worked() -> None:
    def text(times: int) -> str:
        return (
            f"Ch {times * 7 + 8}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. "
            "Turn.\n\nRow 2: Ch 1, *sc in next 5 sts, 2 sc in next st, sk next st; rep from * "
            f"{times} more times. Turn.\n"
        )

    calls_for(text(3))
    assert calls_for(text(900_000_000)) < 1.05 * calls_for(text(9))
