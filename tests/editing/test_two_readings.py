"""Two readings of a phrase: told where both fit and make different numbers, else not."""

import pytest
from working_texts import checked

from hookwright.finding import Finding, Severity

IN_PLACES = """Ball, US terms.

Rnd 1: 6 sc in a magic ring. (6)
Rnd 2: Inc in each st around. (12)
Rnd 3: *2 sc, sc; rep from * around.{}
Rnd 4: Sc in each st around.
"""
IN_RING = """Motif, US terms.

Ch 4, join to form a ring.
Rnd 1: Ch 3 (counts as dc), 2 dc in ring, *ch 2, 3 dc in ring; rep from * 3 times{}, ch 2,
join to top of ch 3.{}
"""
MESH = """Mesh, US terms.

Ch 22.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (21)
Row 2: Ch 4 (counts as dc and ch 1), sk first 2 sts, dc in next st, *ch 1, sk next st, dc
in next st; rep from * across, turn. (11 dc, 10 ch-1 sps)
Row 3: Ch 1, sc in {} across.{}
"""
SHORT_CHAIN = """Band, US terms.

Ch 21.
Row 1: Hdc in 3rd ch from hook and in each ch across, turn.{}
Row 2: Ch 2{}, hdc in each st across, turn.
"""
OPEN = {
    "several in one place": (
        IN_PLACES.format(""),
        "2 sc",
        '"2 sc" may go into 2 places, or into one: Round 3 makes 12 or 18 stitches',
        'Write "sc in next 2 sts", or "2 sc in next st".',
    ),
    "times more or in all": (
        IN_RING.format("", ""),
        "3 times",
        '"3 times" may mean 3 more, or 3 in all: Round 1 makes 15 or 12 stitches',
        'Write "3 more times", or "3 times in all".',
    ),
    "each stitch of a mesh": (
        MESH.format("each st", ""),
        "sc in each st across",
        '"sc in each st across" may pass the chain spaces, or go into them too: Row 3 makes 11 or 21 stitches',
        'Write "in each st and ch sp", or name the stitches: "in each dc".',
    ),
}
SETTLED = {
    "by a count": IN_PLACES.format(" (18)"),
    "by the other count": IN_PLACES.format(" (12)"),
    "by words": IN_RING.format(" more", ""),
    "by a count in the ring": IN_RING.format("", " (12 dc)"),
    "by naming the stitch": MESH.format("each dc", ""),
    "by a count of the mesh": MESH.format("each st", " (21)"),
    "by words about the chain": SHORT_CHAIN.format("", " (does not count)"),
    "by a count behind the chain": SHORT_CHAIN.format(" (20)", ""),
    "by custom, and told at the end": SHORT_CHAIN.format("", ""),
    "by the usual chain": SHORT_CHAIN.format("", "").replace("3rd ch", "4th ch").replace("Ch 2", "Ch 3")
    .replace("dc in", "Dc in"),
    "by the stitches beside it": IN_PLACES.format("").replace("*2 sc, sc;", "*2 sc, dc;"),
    "by the maker": MESH.format("each st", "").replace("sc in each st across", "sc evenly across"),
}  # fmt: skip


def doubts(text: str) -> list[Finding]:
    return [finding for finding in checked(text).findings if finding.rule == "two-readings"]


@pytest.mark.parametrize(("text", "words", "message", "why"), OPEN.values(), ids=OPEN)
def test_both_readings_are_told_with_their_numbers(
    text: str, words: str, message: str, why: str
) -> None:
    found = checked(text)
    assert [(f.rule, f.message, f.why) for f in found.findings] == [
        ("two-readings", f"{message}, and no count tells which.", why)
    ]
    assert found.source.slice(found.findings[0].span) == words
    assert found.findings[0].severity is Severity.WARNING
    assert not found.has_errors()


@pytest.mark.parametrize("text", SETTLED.values(), ids=SETTLED)
def test_what_is_settled_is_not_asked(text: str) -> None:
    assert doubts(text) == []


def test_nothing_is_asked_where_something_is_wrong() -> None:
    assert doubts(IN_PLACES.format("") + "Rnd 5: Sc in each st around. (14)\n") == []


def test_a_row_that_only_closes_one_way_is_settled_by_the_next() -> None:
    text = IN_PLACES.format("").replace(
        "Sc in each st around", "(Sc in next 5 sts, inc) twice"
    )
    assert doubts(text) == []


def test_post_stitches_go_round_one_post_each() -> None:
    text = """Rib mat, US terms. Ch 3 counts as a st.

Ch 28.
Row 1: Dc in 4th ch from hook and in each ch across, turn. (26)
Row 2: Ch 3, *2 fpdc, 3 bpdc, 1 fpdc; rep from * until last st remains, dc in last st, turn.
"""
    assert checked(text).findings == ()
