"""The colours of a worksheet, what they are called, and what is wrong with them."""

from __future__ import annotations

from colour_texts import FIVE, checked, planned, worksheet
from hypothesis import given, settings
from hypothesis import strategies as some

from hookwright.colour.facts import ColourPlan
from hookwright.design.stripes import stripe_plans
from hookwright.notation.tree import Pattern
from hookwright.source import Source


def told(sheet: str, plan: ColourPlan) -> list[tuple[int, int, str]]:
    """Line, column and message of what is wrong in the worksheet."""
    source = Source(sheet)
    return [(*source.position(f.span.start), f.message) for f in plan.findings]


def test_a_yarn_without_a_colour_is_told_and_left_out() -> None:
    sheet = worksheet() + '[[yarn]]\nletter = "F"\n'
    plan = planned(sheet)
    assert told(sheet, plan) == [
        (17, 1, "F has no colour on a screen, so it is left out of the orders.")
    ]
    assert plan.palette is not None
    assert [shade.label for shade in plan.palette.shades] == list("ABCDE")


def test_a_hex_that_is_none_is_told_at_its_place() -> None:
    sheet = worksheet(["#5B7C99", "#A1442A", "#12345G"])
    plan = planned(sheet)
    assert told(sheet, plan)[0] == (
        7,
        1,
        "C has no colour on a screen, so it is left out of the orders.",
    )
    assert told(sheet, plan)[1][:2] == (9, 7)
    assert '"#12345G"' in told(sheet, plan)[1][2]


def test_a_wish_for_a_colour_that_is_not_there_is_told_at_its_place() -> None:
    sheet = worksheet(FIVE, 'keep_apart = [["A", "Q"]]\nedging = "Z"\n')
    assert told(sheet, planned(sheet)) == [
        (17, 14, '"Q" is none of the yarns: A, B, C, D and E.'),
        (18, 10, '"Z" is none of the yarns: A, B, C, D and E.'),
    ]


def test_a_name_of_two_yarns_means_neither() -> None:
    sheet = worksheet(FIVE, 'favourites = ["Skarrow"]\n')
    for letter in "AB":
        sheet = sheet.replace(
            f'letter = "{letter}"', f'letter = "{letter}"\nname = "Skarrow"'
        )
    assert told(sheet, planned(sheet)) == [
        (19, 14, '"Skarrow" is the name of several yarns.')
    ]


def test_a_colour_paired_with_itself_is_told() -> None:
    sheet = worksheet(FIVE, 'keep_apart = [["A", "A"]]\n')
    assert told(sheet, planned(sheet)) == [(17, 14, '"A" is paired with itself.')]


def test_one_colour_is_nothing_to_arrange() -> None:
    assert planned(worksheet(FIVE[:1])).palette is None
    assert planned(worksheet(())).orders == ()


def test_names_of_web_pages_are_colours_too() -> None:
    plan = planned(worksheet(["teal", "Sea Green"]))
    assert plan.palette is not None
    assert [shade.code for shade in plan.palette.shades] == ["#008080", "#2e8b57"]


def test_a_colour_of_the_stripes_that_no_yarn_has_is_told_in_the_pattern() -> None:
    text = (
        "# Strip\n\nStripes: 2 rows A, 4 rows Slate. Work this sequence 9 times in all: 54 rows.\n\n"
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
    )
    plan = planned(worksheet(), text)
    (finding,) = plan.of_pattern
    source = checked(worksheet(), text).source
    assert source.slice(finding.span) == "Slate"
    assert source.position(finding.span.start) == (3, 27)
    assert plan.own == ()


def test_the_stripes_of_the_pattern_are_judged_like_the_others() -> None:
    text = (
        "# Strip\n\nStripes: 2 rows A, 4 rows B, 2 rows C. Work this sequence 9 times in all: 72 rows.\n\n"
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
    )
    wishes = 'keep_apart = [["C", "A"]]\nfirst_equals_last = true\nrows = 2\n'
    plan = planned(worksheet(FIVE[:3], wishes), text)
    (own,) = plan.own
    # By hand: behind each C an A begins again; B has 4 rows; the last stripe is C.
    assert [breach.says for breach in own.breaches] == [
        "C and A touch (stripes 3 and 1).",
        "The first stripe is A, the last C.",
        "B has 4 rows (stripe 2).",
    ]
    assert own.worked.times == 9
    assert not own.proven
    # The ring of three is the only one there is: its differences are the best order's.
    assert own.score.as_told()[1:3] == plan.orders[0].score.as_told()[1:3]


NAMES = some.text(some.characters(codec="utf-8", exclude_characters='"\\\n\r'), max_size=14)


@settings(max_examples=40)
@given(some.lists(NAMES, min_size=2, max_size=4))
def test_whatever_colours_are_called_their_line_is_read_back(names: list[str]) -> None:
    sheet = "".join(
        f'[[yarn]]\ncolour = "{name}"\nhex = "{code}"\n'
        for name, code in zip(names, FIVE, strict=False)
        if name.isprintable()
    )
    plan = planned(sheet, orders=1)
    for order in plan.orders:
        (read,) = stripe_plans(Source(order.worked.line), Pattern(()))
        assert read.stripes == order.stripes
        assert read.claimed == order.worked.rows
