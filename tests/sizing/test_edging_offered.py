"""What is offered for whole patterns, and that each reads back and is proven."""

from __future__ import annotations

from pathlib import Path

import pytest
from edged_texts import TERMS, cloth, edgings, offered, reasons

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.reading import read_draft
from hookwright.sizing.edging import Side, Wish, edgings_of
from hookwright.source import Source
from hookwright.working.printed_lines import Line

ROOT = Path(__file__).parents[2]
EXAMPLES = [p for p in sorted((ROOT / "examples").glob("*.md")) if p.stem != "README"]
CASES = sorted((ROOT / "tests" / "cases").glob("*/*.txt"))[::23]
"""A sample of the cases, in rows and in rounds, with all the quirks of real patterns."""


def last_counts(lines: list[Line]) -> tuple[int | None, ...]:
    """The count of the last row in each size; a size may have rows of its own."""
    counts = [line.stitches for line in lines]
    by_size = (list(own) for own in zip(*counts, strict=True))
    return tuple(next((n for n in reversed(own) if n is not None), None) for own in by_size)


def prove_again(path: Path, wish: Wish) -> int:
    """How many edgings a pattern is offered; each is put in its text and checked anew."""
    checked = check(read_draft(path))
    before = {(f.rule, f.message) for f in checked.findings}
    number = 0
    for side in Side:
        one = Wish((side,), wish.stitch, wish.kind, wish.rows, wish.repeat, wish.shape)
        worked = edgings_of(checked, one)
        if worked.proven is None:
            assert worked.edgings.refused
            continue
        number += 1
        again = worked.proven.checked
        loud = [f for f in again.findings if f.severity is not Severity.ADVICE]
        assert {(f.rule, f.message) for f in loud} <= before
        lines = [line for line in again.lines if line.part in worked.proven.headings]
        assert all(line.agrees for line in lines)
        assert len(lines) >= len(worked.edgings.offered[0].rows)
        assert last_counts(lines) == worked.edgings.offered[-1].stitches
    return number


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("kind", ["plain", "shell"])
def test_edgings_of_examples_are_proven(path: Path, kind: str) -> None:
    prove_again(path, Wish(kind=kind))


@pytest.mark.parametrize("path", CASES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_edgings_of_cases_are_proven(path: Path) -> None:
    prove_again(path, Wish(kind="picot"))


def test_the_throw_and_the_cloth_have_what_they_need() -> None:
    """Their own edgings, written by hand: 163 stitches in the throw's straight row."""
    throw = check(read_draft(ROOT / "examples" / "turnstone-wave-throw.md"))
    found = edgings_of(throw, Wish()).edgings
    assert found.offered[0].stitches == (163,)
    assert {o.side for o in found.offered} == set(Side)
    cloth_found = edgings_of(
        check(read_draft(ROOT / "examples" / "shingle-cloth.md")), Wish()
    )
    assert {o.side for o in cloth_found.edgings.offered} == set(Side)
    assert any('own "Edging" is left out' in note for note in cloth_found.edgings.notes)


def test_an_edging_is_written_in_the_terms_of_the_pattern() -> None:
    uk = (
        cloth(21, 10)
        .replace("US terms", "UK terms")
        .replace("Sc", "Dc")
        .replace("sc", "dc")
    )
    found = offered(uk, Side.ALL, Wish(kind="shell"))
    text = "\n".join(found.lines)
    assert "5 tr in next st" in text
    assert "miss next 2 sts" in text
    assert "sc in" not in text


def test_words_are_those_of_the_rows() -> None:
    skips = (
        cloth(21, 10)
        .replace(
            "Row 2 (WS): Ch 1, sc in each st across.",
            "Row 2 (WS): Ch 1, sc in first st, *ch 1, skip next st, sc in next st; rep from * "
            "across.",
        )
        .replace("Rows 3-10: Rep Row 2. (21 sc)", "")
        .replace("(21 sc)\n\n\n", "(11 sc)\n")
    )
    found = offered(skips, Side.TOP, Wish(kind="shell"))
    assert "skip next 2 sts" in found.rows[-1]
    assert "sc in next ch-1 sp" in found.rows[0]


SIZES = f"""\
Sizes: S (M, L)

{TERMS}

Ch 22 (28, 34).

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. 21 (27, 33) sc.

Row 2 (WS): Ch 1, sc in each st across. Turn. 21 (27, 33) sc.

Rows 3-20: Rep Row 2. 21 (27, 33) sc.
"""


def test_one_text_tells_all_sizes() -> None:
    found = offered(SIZES, Side.TOP)
    assert found.stitches == (21, 27, 33)
    assert found.rows[-1].endswith("21 (27, 33) sc.")
    assert "sc in next 19 (25, 31) sts" in offered(SIZES, Side.ALL).rows[0]


def test_sizes_that_need_different_changes_have_rows_of_their_own() -> None:
    """For 4 + 1, by hand: 21 and 33 take no change, 27 two stitches more, 29 = 7 x 4 + 1."""
    found = offered(SIZES, Side.TOP, Wish(kind="scallop"))
    *own, last = found.rows
    assert [row.partition(":")[0] for row in own] == [
        f"Row 1 (RS), size {size} only" for size in "SML"
    ]
    assert [row.count("2 sc in next st") for row in own] == [0, 2, 0]
    assert "rep from * 4 (6, 7) more times" in last
    assert "M: 29 sts are 7 repeats of 4 + 1" in found.notes[1]


def test_sizes_have_as_many_rows_as_the_one_that_needs_most() -> None:
    """Between corners 21, 25 and 33 scallops of 4 + 1 fit; 27 takes a round to fit it."""
    found = offered(SIZES.replace("22 (28, 34)", "22 (26, 34)").replace(
        "21 (27, 33)", "21 (25, 33)"
    ), Side.ALL, Wish(kind="scallop"))  # fmt: skip
    wider = offered(SIZES, Side.ALL, Wish(kind="scallop"))
    numbers = [
        {row.partition(":")[0].partition(",")[0] for row in one.rows}
        for one in (found, wider)
    ]
    assert numbers[0] <= numbers[1]


LISTED = f"""\
{TERMS}

ABBREVIATIONS
ch = chain
rep = repeat
sc = single crochet
st(s) = stitch(es)

CLOTH

Ch 22.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (21 sc)

Rows 2-20: Ch 1, sc in each st across. Turn. (21 sc)

FINISHING

Weave in the ends.
"""


def test_what_the_list_of_abbreviations_lacks_is_put_in() -> None:
    checked = check(edged(LISTED))
    worked = edgings_of(checked, Wish((Side.TOP,), kind="shell"))
    assert worked.proven is not None
    text = worked.proven.checked.source.text
    assert "ch = chain\ndc = double crochet\nrep = repeat" in text
    assert text.index("Top edging") < text.index("FINISHING")


def edged(text: str) -> Source:
    """A text as a source."""
    return Source(text, "pattern.txt")


TWO_PIECES = f"""\
{TERMS}

FRONT

Ch 22.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (21 sc)

BACK

Ch 32.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (31 sc)
"""


@pytest.mark.parametrize(
    ("text", "side", "words"),
    [
        (TWO_PIECES, Side.TOP, 'Several pieces are begun, "FRONT" and "BACK"'),
        ("Some words.", Side.ALL, "has no rows"),
        ("", Side.LEFT, "has no rows"),
        (cloth(21, 10).replace("(21 sc)\n\nRows", "(22 sc)\n\nRows"), Side.TOP, "come out"),
    ],
)
def test_what_cannot_be_edged_is_told(text: str, side: Side, words: str) -> None:
    assert words in reasons(text, side)[0]


def test_nothing_is_offered_without_its_rows() -> None:
    assert edgings("Ch 20.").offered == ()


@pytest.mark.parametrize(
    ("kind", "rows", "width"),
    [("plain", 2, 1.9), ("crab", 3, 2.85), ("picot", 3, 2.85), ("shell", 3, 3.8)],
)
def test_an_edging_tells_how_wide_it_is(kind: str, rows: int, width: float) -> None:
    """sc 0.95 and dc 1.9 times as high as wide: the heights at which 6 and 12 lie flat."""
    found = check(read_draft(ROOT / "examples" / "shingle-cloth.md"))
    (one,) = edgings_of(found, Wish((Side.ALL,), kind=kind, rows=rows)).edgings.offered
    assert float(one.width) == pytest.approx(width)
    # 16 sts = 10 cm: a stitch is 6.25 mm wide.
    assert one.width_mm is not None
    assert float(one.width_mm) == pytest.approx(width * 6.25)
    assert "wide" in one.wide
    assert ("picots apart" in one.wide) == (kind == "picot")
