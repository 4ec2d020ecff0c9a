"""What the page is answered: counts, marks, words and changes, with its own offsets."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from desk_requests import make_requests
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.desk.offsets import Offsets
from hookwright.desk.places import PLACES
from hookwright.desk.questions import QUESTIONS, answer_to

SLIP = """# Sand Bar 🧶

Written in US terms.

Ch 10.

**Row 1:** Sc in 2nd ch from hook and in each ch across. (8 sc)
**Row 2:** Ch 1, turn, *sc in next 3 sts; rep from * across. (9 sc)
"""


def _unheard(said: dict[str, Any]) -> None:
    """Progress that nobody waits for."""


def asked(question: str, text: str = SLIP, worksheet: str = "", **wished: object) -> Any:  # noqa: ANN401 - JSON
    given_ = {"text": text, "worksheet": worksheet, "wished": wished}
    return json.loads(answer_to(question, given_, _unheard))


def in_page(text: str, start: int, end: int) -> str:
    """The words between two offsets as a browser counts them, in units of UTF-16."""
    return text.encode("utf-16-le")[2 * start : 2 * end].decode("utf-16-le")


def test_every_row_has_what_it_uses_and_makes() -> None:
    rows = asked("seen")["rows"]
    assert [(row["uses"], row["makes"], row["stated"]) for row in rows[1:]] == [
        ([10], [9], [8]),
        ([9], [9], [9]),
    ]
    assert [row["agrees"] for row in rows] == [True, False, True]
    assert in_page(SLIP, rows[2]["start"], rows[2]["end"]).startswith("Row 2:")


def test_a_finding_stands_at_its_words_behind_a_wide_character() -> None:
    (found,) = [f for f in asked("seen")["findings"] if f["loud"]]
    assert in_page(SLIP, found["start"], found["end"]) == "(8 sc)"
    edit = found["edit"]
    assert in_page(SLIP, edit["from"], edit["to"]) == "8"
    assert edit["insert"] == "9"


def test_labels_and_repeats_are_marked() -> None:
    marks = asked("seen")["marks"]
    assert [in_page(SLIP, *span) for span in marks["labels"]] == ["Row 1", "Row 2"]
    assert [in_page(SLIP, *span) for span in marks["repeats"]] == ["sc in next 3 sts"]


@given(st.text())
@settings(max_examples=60)
def test_offsets_of_the_page_are_units_of_utf_16(text: str) -> None:
    # Source: a browser's strings are UTF-16 (ECMA-262, "The String Type").
    offsets = Offsets(text)
    for at in range(len(text) + 1):
        units = len(text[:at].encode("utf-16-le", "surrogatepass")) // 2
        assert offsets.to_page(at) == units
        assert offsets.from_page(units) == at


def test_a_word_is_explained() -> None:
    at = SLIP.encode("utf-16-le").index("sc in next 3".encode("utf-16-le")) // 2
    found = asked("word", at=at + 1)
    assert found["word"] == "sc"
    assert found["says"] == "sc, single crochet. Uses 1, makes 1."
    assert "UK: dc." in found["more"]


def test_a_place_where_no_word_stands_has_nothing_to_say() -> None:
    assert asked("word", at=10**12) == {"found": False}
    assert asked("word", at=-5) == {"found": False}


@pytest.mark.parametrize("place", [place.name for place in PLACES])
def test_every_place_says_what_is_decided_and_answers(place: str) -> None:
    assert asked("seen")["decided"][place]
    assert "fault" not in asked(place)


def test_a_row_made_wider_comes_as_changes_of_the_text() -> None:
    found = asked("sizes", repeats=5, write=True)
    changed = SLIP.replace("(8 sc)", "(9 sc)")
    found = asked("sizes", text=changed, repeats=5, write=True)
    assert found["open"] == []
    assert {change["insert"] for change in found["changes"]} == {"16", "15"}


def test_a_fabric_of_the_shelf_begins_a_project() -> None:
    names = [f["name"] for family in asked("shelf")["families"] for f in family["fabrics"]]
    assert len(names) == len(set(names)) > 30
    begun = asked("begin", kind="moss")
    assert begun["text"].startswith("# Moss Stitch")
    assert asked("seen", text=begun["text"], worksheet=begun["worksheet"])["findings"] == []
    assert "refused" in asked("begin", kind="../moss")


def test_a_draft_in_another_kind_of_file_is_read_in() -> None:
    page = b"<h1>Bar</h1><p>Ch 10.</p><p>Row 1: Sc in 2nd ch from hook and in each ch across. (9 sc)</p>"
    found = json.loads(answer_to("draft", {"name": "a.html", "data": page}, _unheard))
    assert "# Bar" in found["text"]
    assert "[design]" in found["worksheet"]


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("x.docx", b"PK\x03\x04broken"),
        ("x.pdf", b"%PDF-1.7"),
        ("", b""),
        ("../../x.md", b"\0"),
    ],
)
def test_a_draft_that_cannot_be_read_is_told(name: str, data: bytes) -> None:
    found = json.loads(answer_to("draft", {"name": name, "data": data}, _unheard))
    assert found["refused"]
    assert "fault" not in found


def test_the_worksheet_takes_what_it_may_hold() -> None:
    found = asked("note", table="design", key="title", value="Sand Bar")
    assert 'title = "Sand Bar"' in found["worksheet"]
    assert "refused" in asked("note", table="design", key="terms", value="FR")
    assert "refused" in asked("note", table="os", key="system", value="x")


def test_what_cannot_be_read_is_a_sentence_and_no_fault() -> None:
    for question in QUESTIONS:
        assert "fault" not in asked(question, text="")
        assert "fault" not in asked(question, worksheet="[[[")
    assert "refused" in asked("seen", at="x")


STRIPES = """
[[yarn]]
letter = "A"
colour = "Skerry"
hex = "#33475B"
[[yarn]]
letter = "B"
colour = "Foam"
hex = "#F0EBDD"
[[yarn]]
letter = "C"
colour = "Dulse"
hex = "#7A3340"
[stripes]
keep_apart = [["A", "B"]]
repeated = true
"""


def test_an_order_laid_by_hand_is_judged_as_the_others_are() -> None:
    text = SLIP + "\nStripe sequence: 2 rows A, 2 rows B, 2 rows C.\n"
    found = asked("colours", text, STRIPES, stripes=[["A", 2], ["C", 2], ["B", 4]])
    assert found["order"]["stripes"] == [["A", 2], ["C", 2], ["B", 4]]
    (change,) = found["order"]["changes"]
    assert in_page(text, change["from"], change["to"]) == "2 rows A, 2 rows B, 2 rows C"
    assert "4 rows B" in change["insert"]
    assert found["order"]["breaches"] == []
    touching = asked("colours", text, STRIPES, stripes=[["A", 2], ["B", 2], ["C", 2]])
    assert touching["order"]["breaches"]
    assert "refused" in asked("colours", text, STRIPES, stripes=[["Q", 2]])


def test_a_maker_reads_in_the_letter_what_is_asked_and_how_it_comes_about() -> None:
    text = SLIP.replace("(8 sc)", "(9 sc)")
    found = asked("answers", text, asked={"count": "row 2: 8", "nobody": "x"})
    assert "has 9 stitches; you count 8" in found["letter"]
    assert found["letter"].startswith(found["short"][:60])
    assert "How the numbers come about:" not in found["short"]
    assert "letter" not in asked("answers", text, asked={"count": ""})
    assert "fault" not in asked("answers", text, asked={"lies": "sings", "size": "none"})


def test_what_costs_come_to_is_the_sum_of_what_is_noted() -> None:
    # By hand: 3.50 + 1.5 = 5 h; a copy brings 6.00 less a tenth, 5.40; 21 / 5.40 is 4 copies.
    sheet = (
        '[costs]\nprice = 6.0\nfee = 10\n[[work]]\nwhat = "swatch"\nhours = 3.5\n'
        '[[work]]\nwhat = "text"\nhours = 1.5\n[[spent]]\nwhat = "yarn"\namount = 21\n'
    )
    facts = dict(asked("costs", worksheet=sheet)["facts"])
    assert facts["Hours so far"] == "5.0 h"
    assert facts["A copy brings"] == "5.40"
    assert facts["What was spent"] == "comes back with 4 copies"


def test_a_link_that_leads_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "elsewhere.csv").write_text("tester\nIna\n", "utf-8")
    folder = tmp_path / "project"
    folder.mkdir()
    (folder / "trials.csv").symlink_to(tmp_path / "elsewhere.csv")
    (folder / "versions").symlink_to(tmp_path)
    given_ = {"text": SLIP, "worksheet": "", "folder": str(folder)}
    for place, wished in (
        ("testers", {}),
        ("testers", {"write": True, "words": "x"}),
        ("corrections", {"write": True, "words": "1.0"}),
    ):
        told = json.loads(answer_to(place, {**given_, "wished": wished}, _unheard))
        assert "outside the folder" in told["refused"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["elsewhere.csv", "project"]
    assert (tmp_path / "elsewhere.csv").read_text("utf-8") == "tester\nIna\n"


def test_random_requests_are_answered_in_order(tmp_path: Path) -> None:
    statuses = make_requests(tmp_path, 120)
    assert isinstance(statuses, Counter)
    assert statuses[200] > 10
