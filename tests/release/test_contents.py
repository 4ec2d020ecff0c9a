"""What stands in a copy: every line of the draft, rows with their counts, cautions that apply."""

from __future__ import annotations

import re

import pytest
from examples_checked import NAMES, example
from released import STAMP, waves

from hookwright.checking import Checked, check
from hookwright.reading.markdown import markdown_draft
from hookwright.release.actions import actions_of
from hookwright.release.contents import contents_of
from hookwright.release.facts import Contents, Row, Run
from hookwright.release.plain_text import as_text
from hookwright.release.shades import yarns_by_row
from hookwright.release.size_lists import lists_in
from hookwright.release.texts import Text, Texts

WORD = re.compile(r"\w+")


def contents(checked: Checked) -> Contents:
    return contents_of(Text(checked), STAMP)


def rows(of: Contents) -> list[Row]:
    return [block for s in of.sections for block in s.blocks if isinstance(block, Row)]


@pytest.mark.parametrize("name", NAMES)
def test_no_word_of_a_draft_is_lost(name: str) -> None:
    source = example(name)
    said = WORD.findall(as_text(contents(source)).lower())
    for word in WORD.findall(source.source.text.lower()):
        assert word in said, word
        said.remove(word)


@pytest.mark.parametrize("name", NAMES)
def test_every_row_of_the_tree_is_a_row_of_the_copy(name: str) -> None:
    source = example(name)
    labelled = [
        row.label.text
        for part in source.reading.pattern.parts
        for row in part.rows
        if row.label
    ]
    assert len([row for row in rows(contents(source)) if row.name]) == len(labelled)


def test_counts_in_sizes_stand_in_columns() -> None:
    last = rows(contents(waves()))[-1]
    assert last.counts == ("48", "(98)")
    assert last.unit == "dc"


def test_what_is_repeated_is_marked_from_its_star_on() -> None:
    row = rows(contents(waves()))[1]
    (repeated,) = [run.words for run in row.runs if run.kind == "repeat"]
    assert repeated.replace("\u00a0", " ") == "*dc in next 5 ch"


def test_a_stripe_sequence_in_a_sentence_colours_the_rows() -> None:
    source = example("turnstone-wave-throw")
    of = contents(source)
    assert of.stripes is not None
    assert [(s.letter, s.rows) for s in of.stripes.sequence] == [
        ("A", 2), ("B", 2), ("C", 4), ("B", 2), ("D", 2),
    ]  # fmt: skip
    first = rows(of)[1]
    assert first.yarns == ("A",)
    assert first.begins
    assert yarns_by_row(source, of.shades)


def test_an_action_a_line_leaves_nothing_out() -> None:
    runs = (
        Run("Ch 1, (dc, ch 2, dc) in next sp, "),
        Run("*sc in next st", "repeat"),
        Run("; rep from * 3 times. Turn."),
    )
    actions = actions_of(runs)
    assert "".join(words for _, words in actions).replace(" ", "") == "".join(
        run.words for run in runs
    ).replace(" ", "")
    assert actions == (
        (0, "Ch 1,"), (0, "(dc, ch 2, dc) in next sp,"), (1, "*sc in next st;"),
        (0, "rep from * 3 times."), (0, "Turn."),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("words", "sizes", "found"),
    [
        ("ch 60 (68, 76)", 3, [("60", "68", "76")]),
        ("Rnds 8-14 (9-16, 10-18)", 3, [("8-14", "9-16", "10-18")]),
        (
            "31 (33, 36 1/2) in / 78 (84, 93) cm",
            3,
            [("31", "33", "36 1/2"), ("78", "84", "93")],
        ),
        ("Rnds 3-13 (14, 15)", 3, [("13", "14", "15")]),
        ("6 (-, 8) times", 3, [("6", "-", "8")]),
        ("5 (6) dc", 2, [("5", "6")]),
        ("3 (dc, ch 2) in next 4 (5) sps", 3, []),
    ],
)
def test_a_list_of_sizes_has_a_word_for_each(
    words: str, sizes: int, found: list[tuple[str, ...]]
) -> None:
    assert [values for _, _, values in lists_in(words, sizes)] == found


def said_of(text: str) -> str:
    draft = f"# Thing\n\n{text}\n\n## Thing\n\nCh 5.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n"
    cautions = contents(check(markdown_draft(draft, "pattern.md"))).cautions
    return " ".join(paragraph.runs[0].words for paragraph in cautions)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        (
            "## Materials\n\n100% acrylic yarn.\n\n## Finishing\n\nSteam lightly.",
            "Acrylic softens",
        ),
        ("A blanket for a baby.", "American"),
        ("A toy.\n\n## Materials\n\nTwo buttons for the eyes.", "choke"),
        ("A toy to be stuffed.\n\nStuff the body.", "filling"),
        ("A potholder.", "melt"),
        ("## Materials\n\n100% wool.", "felts"),
        ("A hat for a child with a pompom.", "strangle"),
    ],
)
def test_cautions_come_where_they_apply(text: str, word: str) -> None:
    said = said_of(text)
    assert word in said or word == "American"
    if word == "American":
        assert "12 months" in said


@pytest.mark.parametrize(
    "text",
    [
        "A scarf for a grown-up.",
        "## Materials\n\n100% superwash wool.",
        "## Materials\n\nAcrylic.",
    ],
)
def test_no_caution_comes_where_none_applies(text: str) -> None:
    assert said_of(text) == ""


def test_the_line_under_the_title_is_in_the_terms_of_the_copy() -> None:
    for terms, word in (("US", "colors"), ("UK", "colours")):
        copy = contents_of(Texts(waves()).of(terms, "short"), STAMP)
        assert copy.subtitle == f"A crochet pattern in two {word} and two sizes"
