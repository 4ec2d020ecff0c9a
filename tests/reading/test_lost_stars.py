"""Emphasis in a row that repeats from a star is a pair of stars lost in conversion.

The left side is what a converter left, the right side what the designer wrote. Which
converters do so was seen in public pages; the rows are ours.
"""

from __future__ import annotations

import pytest

from hookwright.reading import read_bytes

BACK = [
    (
        "Row 2: <em>ch 1, sk 1</em>; rep from * across",
        "Row 2: *ch 1, sk 1*; rep from * across",
    ),
    ("<b>Row 2:</b> <i>ch 1, sk 1</i>, rep from *.", "Row 2: *ch 1, sk 1*, rep from *."),
    ("Row 2: <i>ch 1, sk 1; rep from </i> across", "Row 2: *ch 1, sk 1; rep from * across"),
    (
        "Row 2: <em>sc, ch 1; repeat from</em> to end",
        "Row 2: *sc, ch 1; repeat from * to end",
    ),
    ("<em>2 sc, inc</em> x6 (24)", "*2 sc, inc* x6 (24)"),
    ("Rnd 3: <em>2 sc, inc</em> 6 times", "Rnd 3: *2 sc, inc* 6 times"),
    ("<strong>dc, ch 1</strong> rep from ** twice", "**dc, ch 1** rep from ** twice"),
    (
        "Row 4: <em>dc, ch 1</em>*, sk 1; rep from * ending at **",
        "Row 4: *dc, ch 1**, sk 1; rep from * ending at **",
    ),
    (
        "Row 5: Ch 3, <em>dc in next st, ch 1</em> and turn; rep from * once",
        "Row 5: Ch 3, *dc in next st, ch 1* and turn; rep from * once",
    ),
]
NOT_MEANT = [
    "<b>Row 2:</b> *ch 1, sk 1; rep from * across",
    "<em>Row 2</em>: sc, rep from * across",
    "Row 2: dc in <em>each</em> st, *sk 1; rep from * across",
    "Row 2: <em>RS, loosely</em>: *sk 1, sc; rep from * across",
    "Repeat <em>Rows 2 and 3</em> 5 times",
    "Row 2: *<em>ch 1, sk 1</em>; rep from * across",
    "Row 2: Sc in <em>every single, solitary</em> st.",
    "Row 2: <em>sc, dc</em>, <em>ch 1, sk 1</em>, turn; rep from * once",
]


@pytest.mark.parametrize(("page", "row"), BACK)
def test_a_lost_pair_of_stars_is_put_back_and_said(page: str, row: str) -> None:
    draft = read_bytes(f"<p>{page}</p>".encode(), "html", "a.html")
    assert draft.source.text == f"{row}\n"
    assert draft.notes
    assert draft.notes[0].startswith("Stars that a conversion had turned into")


@pytest.mark.parametrize("page", NOT_MEANT)
def test_other_emphasis_stays_plain(page: str) -> None:
    draft = read_bytes(f"<p>{page}</p>".encode(), "html", "a.html")
    plain = page
    for tag in ("em", "b", "i"):
        plain = plain.replace(f"<{tag}>", "").replace(f"</{tag}>", "")
    assert draft.source.text == f"{plain}\n"
    assert draft.notes == ()


def test_a_star_put_back_leads_to_the_words_it_stood_at() -> None:
    draft = read_bytes(b"<p>Row 2: <em>ch 1, sk 1</em>; rep from *</p>", "html", "a.html")
    star = draft.source.text.index("*")
    assert draft.origin_of(star).describe() == "line 1, column 15"
    assert draft.origin_of(star + 1).describe() == "line 1, column 15"
