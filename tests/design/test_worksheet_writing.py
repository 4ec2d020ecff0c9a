"""A worksheet with one value changed keeps all else: comments, order, unknown keys."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from hookwright.design.worksheet.reading import read_worksheet
from hookwright.design.worksheet.writing import NotWritable, Value, set_value
from hookwright.source import Source

TEXT = """# mine

[design]   # the whole
title = "Eider Strip" # its name
mood   = 'calm'       # nothing that is read

[[yarn]] # first
letter = "A"

[[yarn]]
letter = "B"
# price = 6.5
"""


def test_a_value_is_changed_and_nothing_else() -> None:
    new = set_value(TEXT, "design", "title", "Gannet")
    assert new == TEXT.replace('"Eider Strip"', '"Gannet"')


def test_a_key_is_added_to_the_table_that_is_meant() -> None:
    new = set_value(TEXT, "yarn", "price", 6.5, number=1)
    assert new == TEXT.replace(
        'letter = "B"\n# price = 6.5\n', 'letter = "B"\n# price = 6.5\nprice = 6.5\n'
    )


def test_a_further_table_is_made() -> None:
    new = set_value(TEXT, "yarn", "letter", "C", number=2)
    assert new.startswith(TEXT.rstrip("\n"))
    noted = read_worksheet(Source(new)).noted
    assert [yarn.colours[0].letter for yarn in noted.yarns] == ["A", "B", "C"]


def test_tables_that_are_not_there_are_made() -> None:
    text = set_value(
        set_value("# mine\n", "swatch", "width", "4 in"), "design", "terms", "UK"
    )
    assert text.startswith("# mine\n")
    noted = read_worksheet(Source(text)).noted
    assert noted.terms == "UK"
    assert noted.swatches[0].width is not None


@pytest.mark.parametrize(
    ("table", "key", "value", "said"),
    [
        ("desing", "title", "x", 'There is no table "desing"'),
        ("design", "titel", "x", 'has no key "titel"'),
        ("design", "terms", "French", 'is to be "US" or "UK"'),
        ("swatch", "width", "4", "is to be a length"),
    ],
)
def test_what_a_worksheet_does_not_take_is_refused(
    table: str, key: str, value: Value, said: str
) -> None:
    with pytest.raises(NotWritable, match=said):
        set_value(TEXT, table, key, value)


@pytest.mark.parametrize("text", ["[design\n", "design = 3\n", "yarn = 1\n"])
def test_a_worksheet_that_cannot_be_read_is_not_written(text: str) -> None:
    with pytest.raises(NotWritable, match="cannot be changed"):
        set_value(
            text,
            "yarn" if "yarn" in text else "design",
            "letter" if "yarn" in text else "title",
            "x",
        )


COMMENTS = some.text(some.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]))


@given(
    COMMENTS,
    some.text(some.characters(codec="utf-8", exclude_categories=["Cs"]), min_size=1),
)
def test_any_words_can_be_written_and_read_back(comment: str, title: str) -> None:
    text = f"# {comment}\n[design]\ntitle = 'x' # {comment}\n[lesson]\nother = 1\n"
    new = set_value(text, "design", "title", title)
    assert f"# {comment}\n[design]" in new
    assert f"# {comment}\n[lesson]\nother = 1\n" in new
    assert read_worksheet(Source(new)).noted.title == title.strip()
