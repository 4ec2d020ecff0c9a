"""A lesson that was filmed: rows found, slips told and nothing else, whatever was
misheard."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from examples_checked import NAMES, example
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.checking import Checked, check
from hookwright.commands.project import draft_at
from hookwright.lesson.captions import as_webvtt
from hookwright.lesson.heard.facts import Heard, Slip
from hookwright.lesson.heard.numbers import number_at
from hookwright.lesson.heard.recorded import recorded_lesson
from hookwright.lesson.heard.sounds import likeness, sound
from hookwright.lesson.heard.telling import heard_lines
from hookwright.lesson.heard.transcripts import cues_in, words_of
from hookwright.lesson.planning import lesson_of
from hookwright.reading.markdown import markdown_draft
from hookwright.shelf import fabrics, starter

FOLDER = Path(__file__).parent / "recorded"
SHEET = tomllib.loads((FOLDER / "expected.toml").read_text("utf-8"))["transcript"]
BLANKET = Path(__file__).parent.parent.parent / "examples" / "low-water-blanket"
WITHIN = 5  # seconds


@cache
def pattern(example_or_fabric: str, terms: str) -> Checked:
    if example_or_fabric == BLANKET.name:
        return check(draft_at(str(BLANKET)))
    if example_or_fabric in NAMES:
        return example(example_or_fabric)
    fabric = next(one for one in fabrics() if one.name == example_or_fabric)
    return check(markdown_draft(starter(fabric, terms), "pattern.md"))


@cache
def heard_in(file: str) -> Heard:
    sheet = next(one for one in SHEET if one["file"] == file)
    name = sheet.get("example") or sheet["fabric"]
    checked = pattern(name, sheet.get("terms", "US"))
    return recorded_lesson(checked, (FOLDER / file).read_text("utf-8"), file)


def heard(sheet: dict[str, Any]) -> Heard:
    return heard_in(sheet["file"])


def seconds(clock: str) -> int:
    minutes, _, rest = clock.partition(":")
    return int(minutes) * 60 + int(rest)


by_file = pytest.mark.parametrize("sheet", SHEET, ids=lambda sheet: sheet["file"])


@by_file
def test_rows_begin_within_five_seconds_of_when_they_do(sheet: dict[str, Any]) -> None:
    found = {f"{one.part}, {one.row}": one.time for one in heard(sheet).chapters}
    assert found.keys() == sheet["chapters"].keys()
    for row, clock in sheet["chapters"].items():
        assert abs(found[row] - seconds(clock)) <= WITHIN, row


@by_file
def test_every_slip_is_told_and_nothing_else(sheet: dict[str, Any]) -> None:
    left = list(heard(sheet).slips)
    for words, clock in sheet["slips"].items():
        told = [one for one in left if is_told(one, words, seconds(clock))]
        assert told, words
        left.remove(told[0])
    assert not left


def is_told(slip: Slip, words: str, time: int) -> bool:
    same = words in slip.heard or slip.heard in words
    return same and abs(slip.time - time) <= WITHIN


@by_file
def test_rows_left_out_between_others_are_named(sheet: dict[str, Any]) -> None:
    assert list(heard(sheet).left_out) == sheet["left_out"]


def test_the_size_that_it_is_held_to_is_named() -> None:
    assert "Held to the size Child." in heard_lines(
        heard_in("cap-child.vtt"), example("petrel-cap").sizes
    )


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
        ("one eighty one", 181), ("hundred and sixty", 160), ("two hundred", 200),
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


def test_lines_that_roll_up_are_heard_once() -> None:
    rolling = (
        "WEBVTT\n\n00:01.000 --> 00:02.990\n \nrow<00:01.500><c> one</c>\n\n"
        "00:02.990 --> 00:03.000\nrow one\n \n\n"
        "00:03.000 --> 00:05.000\nrow one\nchain<00:03.500><c> three</c>\n"
    )
    assert [
        word.text for word in words_of(cues_in(rolling))
    ] == "row one chain three".split()


def test_times_with_an_arrow_in_a_line_are_read() -> None:
    (cue,) = cues_in("[00:14.500 --> 00:20.000]  Chain 28. [Music]\n")
    assert (cue.start, [word.text for word in words_of([cue])]) == (
        14.0,
        ["chain", "28", "."],
    )


@pytest.mark.parametrize(
    ("words", "slips"),
    [
        ("chain 3 and 14 double crochet in the ring, no wait, 15", 0),
        ("chain 3 and 15 double crochet in the ring. No, sorry, 14.", 1),
        ("chain 3, one, two, three, 15 double crochet in the ring", 0),
        ("chain 3 and not 14 but 15 double crochet in the ring", 0),
        ("if you want it larger 18 double crochet, chain 3, 15 double crochet", 0),
        ("chain 3, 15 double crochet. My dog barked about four times.", 0),
        ("chain 3, 15 double crochet, and in round two chain 4", 0),
        ("chain 4, 15 double crochet in the ring", 1),
    ],
)
def test_what_is_corrected_denied_or_said_of_other_things_is_no_slip(
    words: str, slips: int
) -> None:
    text = f"0:01 Chain 4 for the ring.\n0:05 Round one. {words.capitalize()}\n"
    told = recorded_lesson(example("kelp-square"), text, "x.txt").slips
    assert len(told) == slips, told


@pytest.mark.parametrize(
    "text", ["", "no time at all", "WEBVTT\n\nbroken --> x\n", "12:99 x"]
)
def test_what_has_no_times_is_refused_with_what_to_write(text: str) -> None:
    assert "2:05" in recorded_lesson(example("puffling"), text, "x.txt").refused


def test_a_film_that_announces_no_row_has_no_chapters() -> None:
    told = recorded_lesson(example("kelp-square"), "0:01 Good evening to you all.", "x.txt")
    assert (told.chapters, told.slips, told.refused) == ((), (), "")


@settings(max_examples=25, deadline=None)
@given(st.text(max_size=200))
def test_any_text_is_heard(text: str) -> None:
    recorded_lesson(example("kelp-square"), f"0:01 round one {text}", "x.txt")


@pytest.mark.parametrize("name", [*NAMES, BLANKET.name, "ball", "granny-square", "waffle"])
def test_the_script_of_a_lesson_contradicts_nothing(name: str) -> None:
    # What is said by the book is heard without a slip.
    checked = pattern(name, "US")
    text = as_webvtt(lesson_of(checked).cues)
    assert recorded_lesson(checked, text, "script.vtt").slips == ()
