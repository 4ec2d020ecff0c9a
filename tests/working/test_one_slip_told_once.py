"""A row that only fails for the slip in the row under it is no second fault."""

from hookwright.checking import check
from hookwright.source import Source

_ROUND = "Rnd 1: Ch 60, join, ch 1, sc in each ch around. (60 sc)\n"
_SHELLS = (
    "Rnd 2: Ch 1, sc in same st, *skip 2 sts, 5 dc in next st, skip 2 sts, sc in next st; "
    "rep from * {} more times, skip 2 sts, 5 dc in next st, skip 2 sts, join. {}\n"
)
_OVER = (
    "Rnd 3: Ch 1, sc in same st, *skip next dc, sc in next 3 dc, skip next dc, sc in next sc; "
    "rep from * {} more times, skip next dc, sc in next 3 dc, skip last dc, join.\n"
)


def _told(text: str) -> list[tuple[str, int]]:
    found = check(Source("US terms.\n" + _ROUND + text, "p.md")).findings
    return [
        (f.rule, text[: f.span.start - len("US terms.\n" + _ROUND)].count("\n") + 2)
        for f in found
        if f.severity == "error"
    ]


def test_shells_as_they_should_be_are_not_told() -> None:
    assert _told(_SHELLS.format(8, "(10 shells, 10 sc)") + _OVER.format(8)) == []


def test_a_round_over_shells_that_left_places_over_is_not_told_as_well() -> None:
    text = _SHELLS.format(7, "(10 shells, 10 sc)") + _OVER.format(8)
    assert _told(text) == [("stitches-left", 2)]


def test_nor_is_it_where_no_count_is_printed() -> None:
    assert _told(_SHELLS.format(7, "") + _OVER.format(8)) == [("stitches-left", 2)]


def test_one_over_shells_with_the_count_that_is_printed_is_told() -> None:
    text = _SHELLS.format(8, "(10 shells, 10 sc)") + _OVER.format(9)
    assert [at for _, at in _told(text)] == [3]


def test_a_second_slip_over_a_plain_edge_is_told() -> None:
    text = "Rnd 2: Ch 1, sc in each st around, join. (62 sc)\nRnd 3: Ch 1, sc in next 50 sts, join. (50 sc)\n"
    assert [at for _, at in _told(text)] == [2, 3]


_SIZED = """Sizes: S (M, L, XL)
Ch 22 (26, 30, 34).
Row 1: Hdc in 3rd ch from hook and in each ch across. 20 (24, 28, 32) hdc
Row 2: Ch 2, turn, 2 hdc in first hdc, hdc in each hdc across. 21 (25, 29, 33) hdc
Rows 3-5 (6, 7{}): Repeat Row 2. 24 (29, 34, 39) hdc
Next row: Ch 2, turn, hdc in next 24 (29, 34, 39) hdc. 24 (29, 34, 39) hdc
"""


def _rules_of(text: str) -> list[str]:
    found = check(Source(text, "p.md")).findings
    return [finding.rule for finding in found if finding.severity == "error"]


def test_what_follows_from_a_label_with_a_size_lacking_is_not_told_as_well() -> None:
    assert _rules_of(_SIZED.format("")) == ["size-list"]
    assert _rules_of(_SIZED.format(", 8")) == []
