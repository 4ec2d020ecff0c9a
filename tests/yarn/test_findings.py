"""What is wrong with the yarns stands under the exact words."""

from __future__ import annotations

import pytest
from yarn_texts import SWATCH, checked, plain, planned, sheet

from hookwright.source import Source
from hookwright.yarn.planning import Request

LINE = "2 rows A, 2 rows Tern. Work this sequence 2 times in all: 8 rows."


def told(worksheet: str) -> list[tuple[int, int, str, str]]:
    """Line, column, words and message of what is wrong in a worksheet."""
    source = Source(worksheet, "worksheet.toml")
    return [
        (*source.position(found.span.start), source.slice(found.span), found.message)
        for found in planned(plain(20, 8), worksheet).noted
    ]


@pytest.mark.parametrize(
    ("yarn", "line", "column", "words", "message"),
    [
        ('letter = "A"\nball_g = 50', 3, 10, "50", "has no length"),
        ('letter = "A"\nball_m = 50', 3, 10, "50", "has no weight"),
        ('letter = "A"\nball_m = 50\nball_g = 9\nprice = 6.35', 5, 9, "6.35",
         "A costs 6.35, and in what money is not told."),
        ('letter = "A"\nball_m = 50\nball_g = 9\nhex = "#12345"', 5, 7, '"#12345"', "hex"),
        ('letter = "A"', 2, 10, '"A"', "has no length"),
    ],
)  # fmt: skip
def test_a_yarn_that_cannot_be_reckoned_with(
    yarn: str, line: int, column: int, words: str, message: str
) -> None:
    (found,) = told(f"[[yarn]]\n{yarn}\n")
    assert found[:3] == (line, column, words)
    assert message in found[3]


def test_a_swatch_that_is_weighed_and_not_counted() -> None:
    swatch = 'stitch = "sc"\nstitches = 20\nwidth = "10 cm"\nweight_g = 12'
    (found,) = told(
        f'[[swatch]]\n{swatch}\n[[yarn]]\nletter = "A"\nball_m = 9\nball_g = 9\n'
    )
    assert found[:3] == (5, 12, "12")


def test_a_colour_that_no_yarn_has() -> None:
    plan = planned(plain(20, 8, LINE), sheet("AB"))
    (found,) = plan.of_pattern
    text = plain(20, 8, LINE)
    assert text[found.span.start : found.span.end] == "Tern"
    assert found.message.endswith("is called so: A, B.")
    # it is reckoned all the same, as a yarn of which nothing else is known
    assert [c.yarn.label for c in plan.sizes[0].colours] == ["A", "Tern"]
    assert plan.sizes[0].colours[1].balls is None


def test_without_a_worksheet_nothing_is_missed() -> None:
    plan = planned(plain(20, 8, LINE))
    assert (plan.noted, plan.of_pattern) == ((), ())
    assert [c.yarn.label for c in plan.sizes[0].colours] == ["A", "Tern"]


@pytest.mark.parametrize(
    "worksheet",
    ["", "[[yarn]]", SWATCH, '[stripes]\nedging = "A"\nedging_rows = 3', "[[yarn]]\nball_m = 9e8",
     '[[size]]\nname = "X"', '[[yarn]]\nletter = "A"\nball_m = 1\nball_g = 1\nin_hand = 0'],
)  # fmt: skip
@pytest.mark.parametrize(
    "text", ["-", "Ch 5.", plain(3, 2), "Row 1: 900000000 sc.", "Sizes: S (M)\n"]
)
def test_nothing_that_is_written_stops_it(worksheet: str, text: str) -> None:
    for request in (Request(), Request(size="cot", from_row=2, gauge="x", instead="y")):
        plan = planned(text, worksheet, request)
        assert isinstance(plan.told, tuple)


def test_the_edging_that_only_the_worksheet_tells_of() -> None:
    more = '[stripes]\nedging = "B"\nedging_rows = 2\n'
    pattern = plain(40, 48).replace(
        "## Strip", "Gauge: 20 sc and 24 rows = 10 cm.\n\n## Strip"
    )
    (size,) = planned(pattern, sheet("AB", more)).sizes
    edging = next(c for c in size.colours if c.yarn.label == "B")
    # By hand: 20 cm x 20 cm at 5 mm a stitch is 160 round, and 8 more in each round.
    assert {u.kind: int(u.number) for u in edging.uses} == {"sc": 168 + 176, "sl st": 2}
    assert checked(pattern).has_rows()
