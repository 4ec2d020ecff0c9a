"""A lesson that was filmed: rows found, slips told and nothing else, whatever was
misheard."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from examples_checked import example
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.lesson.heard.facts import Heard
from hookwright.lesson.heard.numbers import number_at
from hookwright.lesson.heard.recorded import recorded_lesson
from hookwright.lesson.heard.sounds import likeness, sound
from hookwright.lesson.heard.transcripts import cues_in, words_of

FOLDER = Path(__file__).parent / "recorded"
SHEET = tomllib.loads((FOLDER / "expected.toml").read_text("utf-8"))["transcript"]
HEARD: dict[str, Heard] = {}


def heard(sheet: dict[str, Any]) -> Heard:
    file = sheet["file"]
    if file not in HEARD:
        text = (FOLDER / file).read_text("utf-8")
        HEARD[file] = recorded_lesson(example(sheet["example"]), text, file)
    return HEARD[file]


def seconds(clock: str) -> int:
    minutes, _, rest = clock.partition(":")
    return int(minutes) * 60 + int(rest)


by_file = pytest.mark.parametrize("sheet", SHEET, ids=lambda sheet: sheet["file"])


@by_file
def test_rows_begin_within_five_seconds_of_when_they_do(sheet: dict[str, Any]) -> None:
    found = {f"{one.part}, {one.row}": one.time for one in heard(sheet).chapters}
    assert found.keys() == sheet["chapters"].keys()
    for row, clock in sheet["chapters"].items():
        assert abs(found[row] - seconds(clock)) <= 5, row


@by_file
def test_every_slip_is_told_and_nothing_else(sheet: dict[str, Any]) -> None:
    found = {slip.heard: slip.time for slip in heard(sheet).slips}
    assert found.keys() == sheet["slips"].keys()
    for words, clock in sheet["slips"].items():
        assert abs(found[words] - seconds(clock)) <= 5, words


@by_file
def test_what_is_never_shown_is_named(sheet: dict[str, Any]) -> None:
    told = " ".join(heard(sheet).not_shown)
    assert all(words in told for words in sheet["never"])


@pytest.mark.parametrize(
    ("misheard", "meant"),
    [
        ("crow shay", "crochet"), ("crusha", "crochet"), ("croquet", "crochet"),
        ("crotchet", "crochet"), ("trouble", "treble"), ("have", "half"),
        ("singled", "single"), ("dabble", "double"), ("shane", "chain"),
    ],
)  # fmt: skip
def test_what_is_misheard_sounds_like_what_was_meant(misheard: str, meant: str) -> None:
    assert likeness(sound(misheard.replace(" ", "")), sound(meant)) >= 75


@pytest.mark.parametrize(
    ("words", "number"),
    [
        ("181", 181), ("one hundred and eighty one", 181), ("forty two", 42),
        ("nineteen", 19), ("a hundred", None), ("twenty twenty", 20),
    ],
)  # fmt: skip
def test_numbers_in_words_are_read(words: str, number: int | None) -> None:
    found = number_at(words.split(), 0)
    assert (found and found[0]) == number


def test_captions_and_lines_with_times_say_the_same() -> None:
    vtt = "WEBVTT\n\n00:01:05.500 --> 00:01:07.000\nRow <b>one</b>, chain 3\n"
    srt = "1\n00:01:05,500 --> 00:01:07,000\nRow one, chain 3\n"
    lines = "1:05 Row one, chain 3\n"
    said = [[word.text for word in words_of(cues_in(text))] for text in (vtt, srt, lines)]
    assert said[0] == said[1] == said[2] == ["row", "one", ",", "chain", "3"]
    assert cues_in(vtt)[0].start == pytest.approx(65.5)


@pytest.mark.parametrize(
    "text", ["", "no time at all", "WEBVTT\n\nbroken --> x\n", "12:99 x"]
)
def test_what_has_no_times_is_refused_with_what_to_write(text: str) -> None:
    assert "2:05" in recorded_lesson(example("puffling"), text, "x.txt").refused


def test_words_in_which_no_row_is_announced_are_heard_all_the_same() -> None:
    assert recorded_lesson(example("puffling"), "0:01 chain four", "x.txt").chapters == ()


@settings(max_examples=25)
@given(st.text(max_size=200))
def test_any_text_is_heard(text: str) -> None:
    recorded_lesson(example("kelp-square"), f"0:01 round one {text}", "x.txt")


def test_the_script_of_a_lesson_contradicts_nothing() -> None:
    # What is said by the book is heard without a slip.
    from hookwright.lesson.captions import as_webvtt  # noqa: PLC0415
    from hookwright.lesson.planning import lesson_of  # noqa: PLC0415

    checked = example("kelp-square")
    text = as_webvtt(lesson_of(checked).cues)
    assert recorded_lesson(checked, text, "script.vtt").slips == ()
