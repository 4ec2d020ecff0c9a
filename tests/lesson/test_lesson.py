"""A lesson to film: what is to be learnt, the smallest piece, the script and its
captions."""

from __future__ import annotations

import io
import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
import webvtt
from click.testing import CliRunner
from examples_checked import FOLDER, NAMES, example
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.checking import Checked, check
from hookwright.cli import main
from hookwright.commands.project import draft_at
from hookwright.lesson import captions, chapters
from hookwright.lesson.facts import Lesson
from hookwright.lesson.moves import moves_of
from hookwright.lesson.pace import Pace, timed_rows
from hookwright.lesson.planning import lesson_of
from hookwright.lesson.teaching_swatch import (
    MOST_REPEATS,
    Smallest,
    fewest_rows,
    kinds_of,
    moves_shown,
    smallest_piece,
    with_repeats,
)
from hookwright.source import Source

BLANKET = "low-water-blanket"


@cache
def pattern(name: str) -> Checked:
    return check(draft_at(str(FOLDER / name))) if name == BLANKET else example(name)


@cache
def lesson(name: str) -> Lesson:
    return lesson_of(pattern(name))


@cache
def smallest(name: str) -> Smallest:
    return smallest_piece(pattern(name))


by_name = pytest.mark.parametrize("name", [*NAMES, BLANKET])


@by_name
def test_no_fewer_repeats_show_every_move(name: str) -> None:
    piece, checked = smallest(name), pattern(name)
    wanted = moves_shown(checked, piece.size)
    assert moves_shown(piece.checked, piece.size) == wanted
    for repeats in range(1, min(piece.repeats or 1, MOST_REPEATS + 1)):
        fewer = with_repeats(checked, repeats)
        assert fewer is None or moves_shown(fewer, 0) != wanted


@by_name
def test_no_shorter_way_through_the_rows_meets_every_move(name: str) -> None:
    # All ways of one row fewer are followed, row after row, as sets of (row, moves met).
    piece = smallest(name)
    kinds = kinds_of(piece.checked, piece.size)
    shows = [frozenset(move.key for move in row.moves) for row in piece.moves]
    wanted = frozenset().union(*shows)
    ways = {(0, shows[0])}
    for _ in range(len(piece.rows) - 1):
        done = any(kinds[at] == kinds[-1] and met == wanted for at, met in ways)
        assert not done
        ways = {
            (following, met | shows[following])
            for at, met in ways
            for other in range(len(kinds) - 1)
            if kinds[other] == kinds[at]
            for following in [other + 1]
        }
    assert any(kinds[at] == kinds[-1] and met == wanted for at, met in ways)


@by_name
def test_the_rows_of_the_swatch_can_be_worked_one_on_the_other(name: str) -> None:
    piece = smallest(name)
    kinds = kinds_of(piece.checked, piece.size)
    followed = {(kinds[at], kinds[at + 1]) for at in range(len(kinds) - 1)}
    ways = pairwise(piece.rows)
    assert all((kinds[one], kinds[other]) in followed for one, other in ways)


def test_a_pattern_in_sizes_is_shown_in_one_repeat_of_its_smallest() -> None:
    # By hand: one repeat has its dc, the sc behind them and both ends.
    rows = (
        "Ch 18 (26, 34).\n\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn.\n\n"
        "Row 2: Ch 1, sc in first st, *dc in next 3 sts, sc in next st; rep from * across. "
        "Turn.\n\nRow 3: Ch 1, sc in each st across. Turn. 17 (25, 33) sc.\n\n"
        "Rows 4-11: Rep Rows 2 and 3. 17 (25, 33) sc.\n"
    )
    text = f"## Sizes\n\nS (M, L)\n\nUS terms. Ch 1 does not count as a stitch.\n\n{rows}"
    piece = smallest_piece(check(Source(text)))
    assert piece.repeats == 1
    assert moves_shown(piece.checked, piece.size) == moves_shown(check(Source(text)), 0)


def test_a_pattern_without_repeated_rows_is_its_own_swatch() -> None:
    assert len(smallest("kelp-square").rows) == 7  # the ring and six rounds, all different


def test_rows_that_only_repeat_fall_away() -> None:
    # By hand: the chain, Rows 1-4 (the colour changes at Row 3, and Row 4 lies as Row 110
    # does), and three rows of each edging.
    assert len(smallest("turnstone-wave-throw").rows) == 1 + 4 + 3 + 3


def test_no_rows_are_no_way() -> None:
    assert fewest_rows((), (), set()) == ()


@by_name
def test_each_move_is_new_once(name: str) -> None:
    rows = moves_of(pattern(name), 0)
    new = [move.key for row in rows for move in row.new]
    assert len(new) == len(set(new))
    assert set(new) == {move.key for row in rows for move in row.moves}


def figures(words: str) -> set[str]:
    return set(re.findall(r"\d+", words))


def numbers_of_row(checked: Checked, at: int, size: int) -> set[str]:
    """The figures of the words of a row, and the number it is called by.

    With the first row of a part go the words that lead to it: "in the first st of Row 102".
    """
    outcomes = checked.worked.sizes[size].outcomes
    outcome = outcomes[at]
    own = outcome.step.text.span
    is_first = at > 0 and outcomes[at - 1].step.part != outcome.step.part
    lead = checked.source.text[: own.start].rpartition("\n## ")[2] if is_first else ""
    told = figures(checked.source.slice(own)) | figures(lead)
    return told | {str(outcome.step.number)}


@by_name
def test_the_script_says_no_number_that_the_row_does_not(name: str) -> None:
    checked = pattern(name)
    size = smallest(name).size
    for scene in lesson(name).scenes:
        said = figures(" ".join(scene.say))
        if scene.at is None:
            assert said <= figures(checked.source.text)
        else:
            assert said <= numbers_of_row(checked, scene.at, size), scene.title


@settings(max_examples=12)
@given(
    st.integers(2, 9), st.integers(1, 6), st.integers(2, 7),
    st.sampled_from(["more times", "times"]), st.sampled_from(["sc", "hdc", "dc"]),
)  # fmt: skip
def test_any_script_says_only_numbers_of_its_row(
    each: int, chain: int, times: int, often: str, stitch: str
) -> None:
    whole = (each + 1) * (times + 1) + 1
    text = (
        "US terms. Ch 1 does not count as a stitch.\n\n"
        f"Ch {whole + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\n"
        f"Row 2: Ch {chain}, *{stitch} in next {each} sts, 2 sc in next st; rep from * "
        f"{times} {often}, sc in last st, turn.\n"
    )
    checked = check(Source(text))
    for scene in lesson_of(checked).scenes:
        if scene.at is not None:
            said = figures(" ".join(scene.say))
            assert said <= numbers_of_row(checked, scene.at, 0)


@by_name
def test_captions_are_webvtt_that_can_be_read_in_time(name: str) -> None:
    # webvtt-py reads them; 37 letters: BBC Subtitle Guidelines; 150 words a minute and two
    # seconds: DCMP Captioning Key, presentation rate.
    told = captions.as_webvtt(lesson(name).cues)
    read = webvtt.from_buffer(io.StringIO(told), format="vtt")
    assert len(read) == len(lesson(name).cues)
    before = 0.0
    for cue in lesson(name).cues:
        assert cue.start >= before - 1e-9
        before = cue.end
        lasts = cue.end - cue.start
        assert lasts >= 2 - 1e-3
        assert sum(len(line.split()) for line in cue.lines) / lasts * 60 <= 150
        assert len(cue.lines) <= 2
        assert all(len(line) <= 37 for line in cue.lines)


@by_name
def test_captions_say_what_the_script_says(name: str) -> None:
    said = " ".join(" ".join(scene.say) for scene in lesson(name).scenes).split()
    assert " ".join(" ".join(cue.lines) for cue in lesson(name).cues).split() == said


@by_name
def test_chapters_are_such_as_players_take(name: str) -> None:
    # support.vevo.com: the first at 0:00, three or more, rising, ten seconds or more each.
    starts = [start for start, _ in chapters.chapters_of(lesson(name).scenes)]
    assert starts[0] == 0
    assert len(starts) >= 3
    assert all(b - a >= 10 for a, b in pairwise(starts))


@by_name
def test_every_row_has_its_time(name: str) -> None:
    checked = pattern(name)
    assert len(lesson(name).rows) == len(checked.worked.sizes[smallest(name).size].outcomes)


def test_a_script_in_uk_terms_says_uk_names() -> None:
    text = (
        "UK terms. The 1 ch does not count as a stitch.\n\n"
        "Ch 11.\nRow 1: Dc in 2nd ch from hook and in each ch across, turn. (10 sts)\n"
        "Row 2: Ch 1, tr in each st across, turn. (10 sts)\n"
    )
    said = " ".join(w for scene in lesson_of(check(Source(text))).scenes for w in scene.say)
    assert "treble crochet" in said.lower()
    assert "single crochet" not in said.lower()


def test_cautions_stand_where_they_belong() -> None:
    told = " ".join(lesson("turnstone-wave-throw").cautions)
    assert "felts" in told
    assert "hand therapist" in told
    assert any("Scissors" in words for words in lesson("kelp-square").scenes[-1].say)


def test_what_is_done_behind_the_last_row_is_to_be_learnt_too() -> None:
    words = [move.words for move in lesson("kelp-square").finishing]
    assert words == ["weaving in the ends", "sewing up", "blocking"]


def test_her_own_times_go_before_the_pace() -> None:
    # 6 minutes 30 seconds are 390 seconds.
    assert timed_rows(["Row 1 = 6:30", "Row 2 = 8", "nonsense"]) == {
        "row 1": 390.0,
        "row 2": 480.0,
    }
    pace = Pace(12.0, {"row 1": 390.0})
    outcome = example("shingle-cloth").worked.sizes[0].outcomes[1]
    assert pace.seconds(outcome, "Row 1") == 390.0
    assert pace.seconds(outcome, "Row 9") == pytest.approx(35 / 12 * 60)  # 35 sc


def test_all_files_of_a_lesson_are_written(tmp_path: Path) -> None:
    out = tmp_path / "lesson"
    words = ["lesson", str(FOLDER / "kelp-square.md"), "--write", str(out)]
    assert CliRunner().invoke(main, words).exit_code == 0
    assert {file.name for file in out.iterdir()} == {
        "captions.vtt", "chapters.txt", "chapters.vtt", "rows.csv", "script.html",
        "script.pdf",
    }  # fmt: skip
    assert webvtt.read(str(out / "chapters.vtt"))
    assert (out / "script.pdf").read_bytes().startswith(b"%PDF")
    assert CliRunner().invoke(main, words).exit_code == 2  # nothing is written over
