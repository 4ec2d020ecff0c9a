"""What a pattern leaves to custom: what counts, and how often "times" means.

Conventions hold for the whole pattern. A *reading* settles one phrase within one row.
"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from hookwright.notation.tree import Statement


class Conventions(Struct, frozen=True):
    """One way to take what the pattern does not say.

    Attributes:
        counting_chains: Lengths of beginning chains that count as a stitch.
        spaces_count: Whether the chains of a space count as stitches.
        spaces_worth: Lengths of spaces with the stitches they are said to count for.
        spaces_apart: Lengths of the spaces that are said to be no stitches all the same.
        times_are_more: Whether "rep from * 5 times" is five more (six in all).
        stands: What the text says that chains of a length stand for.
        loops_at_hook: Lengths of chains skipped at the hook that later rows work into, as
            in a piece of blocks worked from corner to corner.
        loops_of_groups: Lengths of beginning chains that are loops of groups in the rows.
        under_edge: Whether rows are worked into the space that a chain at the edge leaves.
        edges_count: Whether the space that a chain leaves at the edge counts with them.
        slips_count: Whether a slip stitch at the beginning of a row is a stitch of it.
    """

    counting_chains: frozenset[int]
    spaces_count: bool = False
    times_are_more: bool = True
    stands: tuple[Statement, ...] = ()
    loops_at_hook: frozenset[int] = frozenset()
    slips_count: bool = False
    under_edge: bool = False
    spaces_apart: frozenset[int] = frozenset()
    loops_of_groups: frozenset[int] = frozenset()
    edges_count: bool = False
    spaces_worth: tuple[tuple[int, int], ...] = ()

    def stitches_in(self, chains: int) -> int:
        """How many stitches a space of so many chains counts for."""
        counts = self.spaces_count and chains not in self.spaces_apart
        return dict(self.spaces_worth).get(chains, chains) if counts else 0

    def said_of(self, number: int) -> Statement | None:
        """What the text says that this many chains at the start of a row stand for."""
        return next((s for s in self.stands if s.chains == number), None)


class Choice(StrEnum):
    """A question within one row that only counting settles."""

    LOOSE_NOUNS = "the stitch named is only what lies next"
    EACH_TAKES_SPACES = "each stitch takes in the chain spaces"
    OTHER_TIMES = "times in the other sense"
    SEVERAL_IN_ONE = "several in one place"
    SKIP_UNDER_CHAIN = "the stitch skipped is the one under the chain"
    SKIP_BESIDE = "the stitch skipped is not the one behind a stitch of a lower row"
    BETWEEN = "a stitch of a lower row stands between two others, and over none"
    START_WORKED_FIRST = "the space named first is the one the round starts in"
    START_WORKED_LAST = "the space the round starts in is worked into at its end"
    ON_FROM_JOIN = "the next stitch is the one behind the first, which was joined in"
    PAST_START = "the last stitches of a round are those before the one it starts on"
    PAST_GROUP = "what is left of a group is passed on the way to the next stitch"
    GAP_AT_EDGE = "the gap beside the chain at the edge is worked into too"
    PAIRS_BETWEEN_GAPS = "two stitches lie between the gaps worked into"
    EDGE_STITCH = "the long chain at the edge is a tall stitch and a space"
    FIRST_CHAIN = "the first stitch goes into the first chain, and none is skipped"
    TAIL_INSTEAD = "the words after the repeats stand for the end of the last one"
    TWO_PIECES = "the layers are two pieces laid together, and no piece folded"
    OTHERS_AMONG = "stitches of other kinds are among those that are named"
    SKIPPED_APART = (
        "the chains skipped at the hook are no stitch, as those of later rows are"
    )
    FIRST_SPACE = "the chain that the first group begins with is a space, as in all of them"
    AS_MANY_AS_FIT = "as many repeats as fit"


Readings = frozenset[Choice]
PLAIN_READING: Readings = frozenset()
