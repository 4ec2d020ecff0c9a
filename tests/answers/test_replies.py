"""Replies about size, gauge and yarn, held against figures of the trade."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest
from click.testing import CliRunner
from examples_checked import FOLDER, example

from hookwright.answers.another_gauge import another_gauge
from hookwright.answers.another_size import another_size
from hookwright.answers.another_yarn import another_yarn
from hookwright.answers.enough import balls_for, rows_from, rows_of_growing, shared_out
from hookwright.answers.help_sheet import help_sheet
from hookwright.answers.in_hand import in_hand
from hookwright.answers.lies import KINDS, lies
from hookwright.answers.listed_yarn import listed_yarn
from hookwright.answers.yarn_told import in_hand_told
from hookwright.checking import check
from hookwright.cli import main
from hookwright.commands import answer as answer_command
from hookwright.commands.project import draft_at
from hookwright.shape.facts import Measures
from hookwright.sheets.markdown import as_markdown
from hookwright.sizing.lengths import NoLength
from hookwright.source import Source

THROW = example("turnstone-wave-throw")
CLOTH = example("shingle-cloth")
CAP = example("petrel-cap")


@pytest.mark.parametrize(
    ("need", "ball", "balls"), [(1800, 109, 17), (600, 90, 7), (1690, 124, 14)]
)
def test_substitution_by_length_rounds_up(need: int, ball: int, balls: int) -> None:
    # Worked examples of yarn pages, in yards: 1800/109, 600/90, 1690/124.
    assert balls_for(Fraction(need), Fraction(ball)) == balls


def test_rows_left_in_a_ball() -> None:
    # A maker's own example: 100 g, 15 g a row, 10 g kept for the end: 6 rows.
    assert rows_from(Fraction(100), Fraction(15), Fraction(10)) == 6


def test_balls_of_six_rows_each_make_a_length() -> None:
    # A maker's own example: 15 balls of 6 rows, 2 cm a row: 90 rows, 180 cm.
    rows = rows_from(Fraction(15 * 6), Fraction(1))
    assert (rows, rows * 2) == (90, 180)


def test_weight_of_many_rows() -> None:
    # A blanket that was weighed: 84 rows took 750 g, so 375 g are 42 rows.
    assert rows_from(Fraction(375), Fraction(750, 84)) == 42


def test_equal_balls_of_several_colours_end_with_the_hungriest() -> None:
    # Equal balls made 9 1/2, 10 and 12 blocks: whole blocks of all three are 9.
    assert shared_out([Fraction(19, 2), Fraction(10), Fraction(12)], Fraction(1)) == (9, 0)


def test_growing_rows_are_summed() -> None:
    # 1 + 2 + 3 + 4 = 10, by hand; one gram less is a row less.
    rows = [Fraction(n) for n in (1, 2, 3, 4, 5)]
    assert rows_of_growing(Fraction(10), rows) == 4
    assert rows_of_growing(Fraction(9), rows) == 3


def test_the_listed_yarn_is_that_of_the_size() -> None:
    assert [need.balls for need in listed_yarn(THROW, 0)] == [3, 4, 4, 2]
    assert listed_yarn(CAP, 0)[0].balls == 1
    assert listed_yarn(CAP, 4)[0].balls == 2
    assert listed_yarn(CLOTH, 0)[0].name == "Wet Shingle"


def test_a_wider_throw_has_its_chain_and_its_edgings() -> None:
    # (45 in less one stitch of 5.75 mm) / 115 mm = 9.9: 10 waves, 20 x 10 + 2 chains, and
    # 18 x 10 + 1 stitches along the straight edges, by hand.
    reply = another_size(THROW, 0, width="45in")
    figures = dict(reply.figures)
    assert (figures["chain"], figures["repeats"]) == (202, 10)
    assert sum("181 stitches" in line for line in reply.answer[1:]) >= 2


def test_another_gauge_keeps_the_stitches_and_changes_the_size() -> None:
    # 9 waves of 4 in and a stitch: about 36 in, against 41 in.
    reply = another_gauge(THROW, 0, "1 repeat = 4 in, 8 rows = 4 in")
    assert dict(reply.figures)["as written, width_mm"] == pytest.approx(
        9 * 101.6 + 5.08, abs=1
    )
    assert "36 1/4 in" in reply.answer[0]


def test_another_yarn_is_counted_by_length_in_each_colour() -> None:
    # 600, 800, 800 and 400 m over 180 m: 3.3, 4.4, 4.4, 2.2.
    figures = dict(another_yarn(THROW, 0, "100 g = 180 m").figures)
    assert list(figures.values()) == [4, 5, 5, 3]


def test_a_yarn_of_another_thickness_is_named() -> None:
    assert any("thicker" in line for line in another_yarn(THROW, 0, "100 g = 90 yd").answer)
    assert any("thinner" in line for line in another_yarn(THROW, 0, "50g=210m").answer)


def test_yarn_that_is_enough_is_enough() -> None:
    assert in_hand(CLOTH, 0, "2 balls").answer[0].startswith("Yes")


def test_yarn_that_is_short_tells_the_row() -> None:
    reply = in_hand(CLOTH, 0, "70 g")
    figures = dict(reply.figures)
    assert figures["share Wet Shingle"] == pytest.approx(0.7)
    rows = figures["rows Wet Shingle"]
    assert isinstance(rows, int)
    # 144 of 1,439 stitches are edging: at 70 % about 60/90 of 37 rows, by hand.
    assert 23 <= rows <= 26


def test_the_balls_that_are_lacking_are_told_whole() -> None:
    # 70 g of 100 g are 1.4 of 2 balls: 0.6 lacking, one ball to get.
    reply = in_hand(CLOTH, 0, "70 g")
    assert dict(reply.figures)["balls more Wet Shingle"] == 1
    assert any("get 1 more" in line for line in reply.answer)


def test_fourteen_balls_make_a_larger_piece() -> None:
    # 14 balls are 7 times the two that are listed, so the same width is longer.
    reply = in_hand(CLOTH, 0, "14 balls")
    (wide, *_) = [line for line in reply.answer if "as wide as written" in line]
    assert int(wide.split(" rows")[0].rsplit(" ", 1)[1]) > 7 * 37


def test_yarn_of_a_larger_size_grows_with_its_stitches() -> None:
    # 13 of 9 waves of 20 stitches and one, and the edgings with them: 261/181 is 1.442.
    reply = another_size(THROW, 0, width="60in")
    assert any("1.44 times as much; 3 x 1.44" in line for line in reply.working)
    assert dict(reply.figures)["balls A (Turnstone)"] == 5


def test_yarn_in_hand_is_held_against_weighed_swatches_where_no_balls_are_listed() -> None:
    blanket = check(draft_at(str(FOLDER / "low-water-blanket")))
    few, more = (in_hand(blanket, 0, f"{n} balls") for n in (12, 30))
    assert any("of what is asked for" in line for line in few.answer)
    assert more.answer[0].startswith("Yes")


def test_pieces_are_counted_where_several_are_made() -> None:
    reply = in_hand(example("kelp-square"), 0, "3 balls of B")
    assert any("6 of the 12 pieces" in line for line in reply.answer)


def test_what_is_counted_need_not_be_said_twice() -> None:
    told = in_hand_told("3 balls of A and 2 of B, 250 g of C")
    assert not isinstance(told, NoLength)
    assert [(int(one.number), one.unit, one.of) for one in told] == [
        (3, "balls", "A"), (2, "balls", "B"), (250, "g", "C"),
    ]  # fmt: skip


@pytest.mark.parametrize("words", ["", "some", "3 balls of Mauve"])
def test_yarn_that_is_not_told_is_asked_for(words: str) -> None:
    assert not in_hand(THROW, 0, words).answered


@pytest.mark.parametrize("kind", KINDS)
def test_how_it_lies_is_answered_with_its_caution(kind: str) -> None:
    reply = lies(THROW, kind, lambda _: Measures(()))
    assert reply.answer
    assert (kind == "slants") or any("felts" in line for line in reply.cautions)


def test_acrylic_and_heat_come_with_a_warning() -> None:
    text = THROW.source.text.replace("100% wool", "100% acrylic")
    reply = lies(check(Source(text)), "curls", lambda _: Measures(()))
    assert any("Acrylic melts" in line for line in reply.cautions)


def test_the_sheet_of_help_has_every_count() -> None:
    sheet = as_markdown(help_sheet(CAP))
    assert "| Crown, Rnd 7 | 56 |" in sheet
    assert "My count is off" in sheet


def test_the_command_answers_several_questions_at_once() -> None:
    words = ["answer", str(FOLDER / "shingle-cloth.md"), "--count", "row 3: 34"]
    result = CliRunner().invoke(main, [*words, "--have", "3 balls", "--json"])
    told = json.loads(result.stdout)
    assert result.exit_code == 0
    assert [reply["question"] for reply in told["replies"]] == [
        "My count is off",
        "Is my yarn enough?",
    ]


def test_a_reply_is_in_the_terms_of_the_maker() -> None:
    words = ["answer", str(FOLDER / "turnstone-wave-throw.md"), "--for", "uk"]
    result = CliRunner().invoke(main, [*words, "--gauge", "1 repeat = 4 in, 8 rows = 4 in"])
    assert result.exit_code == 0
    assert "tension" in result.stdout
    assert "gauge" not in result.stdout.lower()


def test_terms_that_cannot_be_written_safely_are_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    class Otherwise:
        differs = "Row 3"

    monkeypatch.setattr(answer_command, "write_pattern", lambda *_given: Otherwise())
    words = ["answer", str(FOLDER / "turnstone-wave-throw.md"), "--for", "uk"]
    result = CliRunner().invoke(main, [*words, "--gauge", "1 repeat = 4 in, 8 rows = 4 in"])
    assert result.exit_code == 0
    assert "Not every row reads the same in UK terms" in " ".join(result.stderr.split())
    assert "gauge" in result.stdout.lower()


def test_a_question_is_wanted() -> None:
    result = CliRunner().invoke(main, ["answer", str(FOLDER / "shingle-cloth.md")])
    assert result.exit_code == 2
