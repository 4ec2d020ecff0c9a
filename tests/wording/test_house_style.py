"""The house style of the worksheet, the spoken form, one size, and the value laid out."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.checking import Checked, check
from hookwright.reading import read_draft
from hookwright.reading.markdown import markdown_draft
from hookwright.source import Source, Span
from hookwright.wording import Asked, Form, write_pattern
from hookwright.wording.asked import HouseStyle
from hookwright.wording.house import house_style
from hookwright.wording.pictures import pictures_in
from hookwright.wording.written import Paragraph, RowWritten, WordList

EXAMPLES = Path(__file__).parents[2] / "examples"
TEXT = """# Tide Mat

A mat.

## Size

About 10 1/2 in (26.5 cm) square.

## Notes

Written in US terms.

Ch 1 does not count as a st.

## Mat

Ch 12.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (11 sc)

Row 2: Ch 1, *2 sc, ch 1, sk next st; rep from * 2 more times, sc in last 2 sts. Turn. (8 sc)
"""


def written(asked: Asked, text: str = TEXT) -> str:
    found = write_pattern(check(markdown_draft(text, "mat.md")), asked)
    assert found.differs is None
    return found.text


@pytest.mark.parametrize(
    ("style", "says"),
    [
        (HouseStyle(repeats="brackets"), "[2 sc, ch 1, sk next st] 3 times"),
        (HouseStyle(repeats="stars"), "*2 sc, ch 1, sk next st; rep from * twice more"),
        (HouseStyle(counts="dash"), "turn. - 8 sc"),
        (HouseStyle(numbers="behind"), "*sc 2, ch 1"),
        (HouseStyle(fractions="½"), "About 10½ in"),
        (HouseStyle(fractions="0.5"), "About 10.5 in"),
        (HouseStyle(fractions="0,5"), "About 10,5 in"),
    ],
)
def test_rows_and_numbers_are_set_in_the_house_style(style: HouseStyle, says: str) -> None:
    text = written(Asked(style=style))
    assert says in text


def test_a_worksheet_says_how_she_writes() -> None:
    sheet = Source('[house_style]\nrepeats = "brackets"\nfractions = "½"\n')
    checked = check(Source(TEXT), worksheet=sheet)
    assert house_style(checked.worksheet) == HouseStyle(repeats="brackets", fractions="½")
    assert house_style(None) == HouseStyle()


def test_what_is_heard_has_no_star_bracket_or_sign() -> None:
    for path in sorted(EXAMPLES.glob("*.md")):
        if path.stem.endswith("-slip") or path.name == "README.md":
            continue
        checked = check(read_draft(path))
        size = 1 if len(checked.sizes) > 1 else None
        found = write_pattern(checked, Asked(form=Form.SPOKEN, size=size))
        assert not set(found.text) & set("*()[]{}<>=%&/½"), path


def test_a_repeat_a_place_and_a_count_are_said() -> None:
    text = written(Asked(form=Form.SPOKEN))
    assert "work the following 3 times: 2 single crochet; chain 1; skip next stitch" in text
    assert "end of repeat" in text
    assert "You now have 8 single crochet." in text
    assert "Row 1, right side: Single crochet in 2nd chain from hook" in text


@pytest.mark.parametrize("name", ["low-water-blanket/pattern", "turnstone-wave-throw"])
def test_how_a_stitch_of_the_trade_is_made_is_said_with_its_repeats(name: str) -> None:
    text = write_pattern(checked_example(name), Asked(form=Form.SPOKEN)).text
    assert "Work the following twice: yarn over" in text
    assert "end of repeat, yarn over and pull through all 3 loops on hook." in text
    assert ",," not in text
    assert "Repeat Row 2 in the stripe sequence. You now have" in text


def test_a_short_name_that_is_explained_stays_where_it_is() -> None:
    checked = check(
        Source(
            "Mat\n\nUS terms.\nMB (make bobble): 5 dc tog in the same st.\n\nCh 8.\n"
            "Row 1: Sc in 2nd ch from hook and in each ch across. (7 sc)\n"
        )
    )
    assert (
        "MB (make bobble): 5 double" in write_pattern(checked, Asked(form=Form.LONG)).text
    )


def test_one_action_a_line_sets_repeats_in() -> None:
    text = written(Asked(one_a_line=True))
    assert "Row 2:\nCh 1,\n*2 sc,\n  ch 1,\n  sk next st;\nrep from * twice more,\n" in text


def checked_example(name: str) -> Checked:
    return check(read_draft(EXAMPLES / f"{name}.md"))


def test_one_size_has_its_numbers_only() -> None:
    found = write_pattern(checked_example("petrel-cap"), Asked(size=0))
    assert "Rnds 8-14: Ch 1, hdc in each st around" in found.text
    assert "1 ball of Storm Petrel" in found.text
    assert "Rnd 8: Ch 1, *hdc in next 6 sts" not in found.text
    assert "Sizes" not in found.text


def test_the_list_of_abbreviations_is_one_of_what_is_used() -> None:
    found = write_pattern(checked_example("fulmar-lace-scarf"), Asked(terms="UK"))
    words = [entry.word for entry in found.written.abbreviations]
    assert words == sorted(words, key=str.lower)
    assert "sk" not in words
    assert "dc" in words
    assert write_pattern(found.checked, Asked(terms="US")).written.abbreviations


def test_a_whole_pattern_says_its_level_with_reasons() -> None:
    found = write_pattern(checked_example("petrel-cap"), Asked())
    assert "Skill level: Easy, for its post stitches." in found.text
    level = found.written.level
    assert level is not None
    assert (level.name, level.stated, level.reasons) == (
        "Easy",
        False,
        ("its post stitches",),
    )


def test_every_word_of_the_text_stands_in_some_block() -> None:
    for name in ("kelp-square", "petrel-cap", "puffling", "turnstone-wave-throw"):
        found = write_pattern(checked_example(name), Asked())
        told = " ".join(
            word
            for section in found.written.sections
            for words in (section.heading, *map(_words, section.blocks))
            for word in words.split()
        )
        missing = [word for word in found.text.split() if word.strip(":.-=()") not in told]
        assert missing == []


def _words(block: object) -> str:
    match block:
        case RowWritten() | Paragraph():
            return block.text
        case WordList():
            return " ".join(f"{entry.word} {entry.meaning}" for entry in block.entries)
        case _:
            return ""


def test_a_row_knows_its_lines_colours_and_actions() -> None:
    checked = checked_example("kelp-square")
    written_ = write_pattern(checked, Asked()).written
    rows = [b for s in written_.sections for b in s.blocks if isinstance(b, RowWritten)]
    fourth = next(row for row in rows if row.label == "Rnd 4")
    assert fourth.count == "(12 sc, 8 hdc, 16 dc, 4 ch-2 sps)"
    assert "B" in fourth.colours
    assert [checked.lines[at].printed for at in fourth.lines] == ["Rnd 4"]
    assert [action.words for action in fourth.actions][:2] == [
        "Join B with sl st in any dc",
        "ch 1",
    ]
    square = next(section for section in written_.sections if section.part == 0)
    assert (square.heading, square.make) == ("Square (make 12)", 12)


def test_pictures_are_found_where_they_stand() -> None:
    (picture,) = pictures_in("# Mat\n\n![A mat on a table](mat.jpg)\n")
    assert (picture.path, picture.alternative) == ("mat.jpg", "A mat on a table")
    assert picture.span == Span(7, 35)
