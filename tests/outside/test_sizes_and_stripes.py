"""Sizes, stripes and sets of rows, against figures that were published by others."""

from hookwright.checking import check
from hookwright.design.stripes import stripe_plans
from hookwright.finding import Finding, Severity
from hookwright.source import Source

THROW = """Finished size: 50 x 60 in
Gauge: 13 sts and 7.5 rows = 4 in in hdc
Ch 1 at the start of a row does not count as a stitch.
Ch {chain}.
Row 1: Hdc in 2nd ch from hook and in each ch across, turn. ({stitches} hdc)
Rows 2-{rows}: Ch 1, hdc in each st across, turn. ({stitches} hdc)
"""


def throw(stitches: int, rows: int) -> list[Finding]:
    text = THROW.format(chain=stitches + 1, stitches=stitches, rows=rows)
    findings = check(Source(text, "throw.md")).findings
    return [f for f in findings if f.rule == "measure"]


def test_a_throw_of_50_by_60_in_has_162_stitches_and_112_rows() -> None:
    # Source: a craft article on how much yarn a blanket takes: 50 x 60 in at 13 st and 7.5 rows
    # to 4 in are 162 (162.5) st and 112 (112.5) rows. rebab.net, read 2026.
    assert throw(162, 112) == []


def test_a_throw_with_too_few_stitches_is_told_how_many_it_takes() -> None:
    # The same source: 162.5 stitches in 50 in, which rounds to 162.
    (found,) = throw(112, 112)
    assert found.severity is Severity.WARNING
    assert (
        "At 13 stitches to 4 in, 112 stitches are 34 1/2 in wide, but 50 in"
        in found.message
    )
    assert "50 in would take 162 stitches" in found.why


def test_a_throw_with_too_few_rows_is_told_how_many_it_takes() -> None:
    (found,) = throw(162, 80)
    assert "60 in would take 112 rows" in found.why


def plan_of(line: str) -> tuple[int, int]:
    """The rows and the stripes of a plan."""
    text = f"{line}\n\nRnd 1: 6 sc in magic ring (6)\n"
    checked = check(Source(text, "stripes.md"))
    (plan,) = stripe_plans(checked.source, checked.reading.pattern)
    return plan.rows(plan.times[0]), plan.number(plan.times[0])


def test_stripes_of_4_1_3_and_1_nine_times_and_4_more_are_85_rows() -> None:
    # Source: alottastitches.wordpress.com 2011/11/29, read 2026: 4-1-3-1 nine times and 4 rows
    # at the end are 85 rows (9 x 9 + 4).
    line = (
        "4 rows A, 1 row B, 3 rows C, 1 row B. Work this sequence 9 times, then 4 rows A."
    )
    assert plan_of(line) == (85, 37)


def test_fourteen_stripes_eight_times_and_17_more_are_129() -> None:
    # Source: rainbowjunkiecorner.wordpress.com, ripple, read 2026: 14 colours eight times and
    # 17 more are 129 stripes.
    colours = "ABCDEFGHIJKLMN"
    once = ", ".join(f"1 row {colour}" for colour in colours)
    after = ", ".join(f"1 row {colour}" for colour in (colours + colours)[:17])
    line = f"{once}. Work this sequence 8 times in all, then {after}: {{}} stripes."
    assert plan_of(line.format(129))[1] == 129
    for claimed, told in ((129, 0), (128, 1)):
        text = f"{line.format(claimed)}\n\nRnd 1: 6 sc in magic ring (6)\n"
        findings = check(Source(text, "stripes.md")).findings
        assert [f.rule for f in findings].count("measure") == told


def test_rows_5_to_25_are_no_whole_number_of_pairs() -> None:
    # Source: a guest post on row counting by numbers, recrochetions.com 2014, read 2026: rows
    # 5-25 that repeat rows 2-3 are 21 rows, so no whole sets of two.
    text = (
        "Ch 11.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc in each st across, turn. (10 sc)\n"
        "Row 3: Ch 1, sc in back loop of each st across, turn. (10 sc)\n"
        "Row 4: Ch 1, sc in each st across, turn. (10 sc)\n"
        "Rows 5-25: Rep Rows 2 and 3 ten times. ({} rows in all)\n"
    )
    assert len(range(5, 26)) % 2 == 1
    told = [f.rule for f in check(Source(text.format(25), "rows.md")).findings]
    assert told.count("row-range") == 1
