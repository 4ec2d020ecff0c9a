"""Small pieces for the tests of edgings, and what is offered for them."""

from hookwright.checking import Checked, check
from hookwright.sizing.edging import Edgings, Offered, Shape, Side, Wish, edgings_of
from hookwright.source import Source

TERMS = "US terms. Ch 1 at the start of a row does not count as a stitch."

HEXAGON = """\
US terms. Ch 3 at the start of a round counts as a dc. Do not turn.

Ch 4; join with sl st in first ch to form a ring.

Rnd 1: Ch 3, dc in ring, ch 1, (2 dc in ring, ch 1) 5 times; join with sl st in top of beg
ch-3. (12 dc, 6 ch-1 sps)

Rnd 2: Ch 3, dc in next dc, *(dc, ch 1, dc) in next ch-1 sp, dc in next 2 dc; rep from * 4
more times, (dc, ch 1, dc) in next ch-1 sp; join with sl st in top of beg ch-3. (24 dc, 6
ch-1 sps)
"""


def cloth(stitches: int, rows: int, *, stitch: str = "sc", gauge: str = "") -> str:
    """A piece of so many stitches and rows, in sc or in taller stitches over one row of sc."""
    chain, counted = {"sc": (1, ""), "hdc": (2, "2"), "dc": (3, "3"), "tr": (4, "4")}[
        stitch
    ]
    said = f" Ch {counted} at the start of a row counts as a {stitch}." if counted else ""
    first = (
        f"Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. ({stitches} sc)"
        if stitch == "sc"
        else f"Row 1 (RS): {stitch.title()} in {chain + 1}th ch from hook and in each ch"
        f" across. Turn. ({stitches} {stitch})"
    )
    chains = stitches + (1 if stitch == "sc" else chain - 1)
    worked = "each st" if stitch == "sc" else "next st and in each st"
    return (
        f"{TERMS}{said}\n\n{gauge}\n\nCh {chains}.\n\n{first}\n\nRow 2 (WS): Ch {chain}, "
        f"{stitch} in {worked} across. Turn. ({stitches} {stitch})\n\n"
        f"Rows 3-{rows}: Rep Row 2. ({stitches} {stitch})\n"
    )


def ripple(slope: int, waves: int, rows: int, gauge: str = "") -> str:
    """A ripple in dc: so many plain stitches a slope, 3 in one, 3 together."""
    half = f"dc in next {slope} sts, 3 dc in next st, dc in next {slope} sts"
    stitches = waves * (2 * slope + 4) + 1
    more = f"*{half}, dc3tog over next 3 sts; rep from * {waves - 2} more times, {half}"
    first = half.replace("sts", "ch").replace("next st", "next ch")
    first_more = f"*dc3tog over next 3 ch, {first}; rep from * {waves - 2} more times"
    return (
        "US terms. The chain at the start of a row never counts as a stitch, and neither do"
        f" the 2 chains skipped at the start.\n\n{gauge}\n\nCh {stitches + 1}.\n\n"
        f"Row 1 (RS): Dc in 3rd ch from hook, {first}, {first_more}, dc2tog over last 2 ch."
        f" Turn. ({stitches} sts)\n\n"
        f"Row 2 (WS): Ch 2, dc2tog over first 2 sts, {more}, dc2tog over last 2 sts. Turn."
        f" ({stitches} sts)\n\nRows 3-{rows}: Rep Row 2. ({stitches} sts)\n"
    )


def read(text: str) -> Checked:
    """A text, read and worked."""
    return check(Source(text, "pattern.txt"))


def edgings(text: str, wish: Wish | None = None) -> Edgings:
    """What is offered for a text."""
    return edgings_of(read(text), wish or Wish()).edgings


def offered(text: str, side: Side, wish: Wish | None = None) -> Offered:
    """The one edging of a side."""
    asked = wish or Wish()
    wish = Wish((side,), asked.stitch, asked.kind, asked.rows, asked.repeat, asked.shape)
    found = edgings(text, wish)
    assert [refused.reason.message for refused in found.refused] == []
    (only,) = found.offered
    return only


def reasons(text: str, side: Side, wish: Wish | None = None) -> list[str]:
    """Why a side has no edging."""
    found = edgings(text, wish)
    return [r.reason.message for r in found.refused if r.side is side]


def words(found: Offered) -> str:
    """All rows of an edging."""
    return "\n".join(found.rows)


STRAIGHT = Wish(shape=Shape.STRAIGHT)
FOLLOWING = Wish(shape=Shape.WAVE)
