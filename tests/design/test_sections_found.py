"""Headings in every dress, and what they hold."""

import pytest

from hookwright.checking import check
from hookwright.source import Source

ROWS = "\n\nRow 1: 6 sc in magic ring. (6)\n"


def found(text: str) -> list[tuple[str, str]]:
    """What each section holds, with the first line of its body."""
    source = Source(text + ROWS)
    return [
        (section.holds.value, source.slice(section.body).strip(" *\n").partition("\n")[0])
        for section in check(source).design.sections
    ]


@pytest.mark.parametrize(
    ("line", "holds", "body"),
    [
        ("MATERIALS\n2 balls", "materials", "2 balls"),
        ("# Materials\n2 balls", "materials", "2 balls"),
        ("**Materials**\n2 balls", "materials", "2 balls"),
        ("🧶 Materials 🧶\n2 balls", "materials", "2 balls"),
        ("• Materials:\n2 balls", "materials", "2 balls"),
        ("1. Materials\n2 balls", "materials", "2 balls"),
        ("Materials (for all sizes)\n2 balls", "materials", "2 balls"),
        ("**Yarn:** 2 balls", "materials", "2 balls"),
        ("MATERIALS-2 balls", "materials", "2 balls"),
        ("## You'll need\n2 balls", "materials", "2 balls"),
        ("## You’ll need\n2 balls", "materials", "2 balls"),
        ("What you will need:\n2 balls", "materials", "2 balls"),
        ("Hook size: 5mm", "materials", "5mm"),
        ("Hook(s): 5mm", "materials", "5mm"),
        ("Hook 5 mm", "materials", "5 mm"),
        ("| Hook | 5 mm |", "materials", "5 mm |"),
        ("Yarn & Hook\n2 balls", "materials", "2 balls"),
        ("Gauge - 16 sts", "gauge", "16 sts"),
        ("Gauge: 16 sts", "gauge", "16 sts"),
        ("Gauge (16 sts)", "gauge", "(16 sts)"),
        ("Tension – 16 sts", "gauge", "16 sts"),
        ("Sizes S (M, L)", "sizes", "S (M, L)"),
        ("SIZE.—About 30 cm", "sizes", "About 30 cm"),
        ("Finished size (approx. 30 cm)", "finished measurements", "(approx. 30 cm)"),
        ("Abbreviations (US terms)\nch = chain", "abbreviations", "ch = chain"),
        (
            "Abbreviations used in this pattern\nch = chain",
            "abbreviations",
            "ch = chain",
        ),
        ("Special Stitches Used:\nV: 2 dc", "special stitches", "V: 2 dc"),
        ("Pattern notes (please read)\nTurn.", "notes", "Turn."),
        ("A few notes\nTurn.", "notes", "Turn."),
        ("Skill Level: Easy", "level", "Easy"),
        ("Difficulty – Easy", "level", "Easy"),
    ],
)
def test_a_heading_is_known_in_every_dress(line: str, holds: str, body: str) -> None:
    assert found(line) == [(holds, body)]


@pytest.mark.parametrize(
    "line",
    [
        "Yarn over twice, then pull through.",
        "All sizes: work in rows.",
        "Work in a spiral.",
        "Note that the brim is turned up.",
        "Hook the loop over the button.",
        "Size matters less than you think",
        "The yarn I used is soft.",
    ],
)
def test_other_lines_head_nothing(line: str) -> None:
    assert found(line) == []


def test_two_things_in_one_heading_are_two_sections() -> None:
    assert found("Finished Size & Gauge\n16 sts") == [
        ("finished measurements", "16 sts"),
        ("gauge", "16 sts"),
    ]


def test_labelled_lines_lie_within_the_section_around_them() -> None:
    text = "Materials\nYarn: DK\nHook: 4 mm\n\nGauge\n16 sts"
    assert [holds for holds, _ in found(text)] == ["materials"] * 3 + ["gauge"]


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("# Kelp Hat\n\nMaterials\n2 balls", "Kelp Hat"),
        ("**KELP HAT**\n\nMaterials\n2 balls", "KELP HAT"),
        ("🌊 Kelp Hat 🌊\nby the sea", "Kelp Hat"),
        ("Materials\n2 balls", ""),
        ("This hat is for my neighbour, who is cold.", ""),
        ("sc = single crochet", ""),
    ],
)
def test_the_first_line_may_be_the_title(text: str, title: str) -> None:
    assert check(Source(text + ROWS)).design.title == title
