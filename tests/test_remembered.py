"""What is remembered of a text changes no answer: it is only found sooner."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.checking import check
from hookwright.reading.markdown import markdown_draft
from hookwright.remembered import Remembered

EXAMPLES = Path(__file__).parents[1] / "examples"
TEXTS = {
    name: (EXAMPLES / f"{name}.md").read_text("utf-8")
    for name in ("kelp-square", "kelp-square-slip", "petrel-cap", "puffling-slip")
}
PIECES = (
    "",
    "2 ",
    "sc in next st, ",
    "ch 3, ",
    "*",
    "(",
    "\n",
    "Row 9: ",
    "dc2tog = ",
    "hdc ",
)


def checked(text: str, remembered: Remembered | None = None) -> object:
    return check(markdown_draft(text, "pattern.md"), remembered=remembered)


@pytest.mark.parametrize("name", TEXTS)
def test_a_text_asked_about_again_is_answered_alike(name: str) -> None:
    remembered = Remembered()
    for _ in range(2):
        assert checked(TEXTS[name], remembered) == checked(TEXTS[name])


@settings(max_examples=6, deadline=None)
@given(
    name=st.sampled_from(sorted(TEXTS)),
    changes=st.lists(
        st.tuples(st.floats(0, 1), st.integers(0, 6), st.sampled_from(PIECES)),
        min_size=1,
        max_size=4,
    ),
)
def test_a_text_that_is_changed_is_answered_as_if_it_were_new(
    name: str, changes: list[tuple[float, int, str]]
) -> None:
    remembered, text = Remembered(), TEXTS[name]
    checked(text, remembered)
    for part, gone, come in changes:
        at = int(part * len(text))
        text = text[:at] + come + text[at + gone :]
        assert checked(text, remembered) == checked(text)


def test_what_was_asked_for_longest_ago_is_forgotten() -> None:
    remembered = Remembered()
    remembered.under("first")["answer"] = 1
    assert remembered.under("first") == {"answer": 1}
    for number in range(100):
        remembered.under(number)
    assert remembered.under("first") == {}
