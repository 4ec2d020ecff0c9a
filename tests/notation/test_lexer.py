"""How a text is cut into words and marks."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.notation.lexer import Kind, tokens_of

_WORDS = (
    "d c s h t r d. s. H. d.c. air stitches lifting loops Chair dc3tog innext ch sc ch. . , "
    "( ) * ** 1 2nd ½ 3-6 => x7 “a” inch acros ..."
).split()
_GAPS = ("", " ", "  ", "\t", "\n", " \n ", "\n\n", "\u00a0")


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(_WORDS), st.sampled_from(_GAPS)), max_size=12))
def test_nothing_of_a_text_is_lost_or_read_twice(pairs: list[tuple[str, str]]) -> None:
    text = "".join(map("".join, pairs))
    tokens = tokens_of(text)
    ends = [0, *(token.end for token in tokens)]
    between = [text[end : token.start] for end, token in zip(ends, tokens, strict=False)]
    assert {gap.strip() for gap in between} <= {"", "."}  # a stop that only abbreviates
    assert [token.start for token in tokens] == sorted(token.start for token in tokens)
    assert tokens[-1].kind is Kind.END
    assert sum(t.value for t in tokens if t.kind is Kind.LINE) == text.count("\n")


def test_letters_that_stand_apart_are_one_abbreviation() -> None:
    found = [token.text for token in tokens_of("1 s c, 2 d. c. in next t r, air stitches")]
    assert found == ["1", "sc", ",", "2", "dc", "in", "next", "tr", ",", "ch", ""]


def test_letters_on_two_lines_are_two_words() -> None:
    found = [token.text for token in tokens_of("sc in s.\nc in d\nc")]
    assert found == ["sc", "in", "s", ".", "\n", "c", "in", "d", "\n", "c", ""]
