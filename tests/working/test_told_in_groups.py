"""A wrong count of groups or spaces is told in groups or spaces, with the number to write."""

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

MESH = (
    "Ch 32.\n"
    "Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across."
    " ({} spaces)\n"
)
SHELLS = (
    "Shell: 5 dc in same st.\n"
    "Ch 26.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, shell in next ch, sk 2 ch, sc in next"
    " ch; rep from * across. ({} shells)\n"
)
ROUND = "Rnd 1: 6 sc in ring.\nRnd 2: *1 sc, 1 inc* = 9 sc.\nRnd 3: 7 sc, 1 dec = {} sc.\nRnd 4: 8 sc.\n"


def told(text: str) -> list[tuple[str, str]]:
    found = check(Source(text, "pattern.txt")).findings
    loud = [finding for finding in found if finding.severity is not Severity.ADVICE]
    return [(f.message, f.edit.replacement if f.edit else "") for f in loud]


def test_spaces() -> None:
    assert not told(MESH.format(9))
    assert told(MESH.format(8)) == [
        ("Row 1 makes 9 spaces (10 stitches), not 8 spaces.", "9")
    ]


def test_groups() -> None:
    assert not told(SHELLS.format(4))
    ((message, new),) = told(SHELLS.format(5))
    assert "4 shells" in message
    assert new == "4"


def test_groups_beside_stitches() -> None:
    text = SHELLS.replace("{} shells", "{} shells, 5 sc")
    assert not told(text.format(4))
    assert told(text.format(3)) == [
        ("Row 1 makes 4 shells, 5 sc (25 stitches), not 3 shells, 5 sc.", "4")
    ]


def test_a_decrease_is_one_of_the_stitches_counted() -> None:
    assert not told(ROUND.format(8))
    assert told(ROUND.format(7)) == [("Round 3 makes 8 stitches, not 7 sc.", "8")]
