"""With which chain does a row begin, and does it count?

As the pattern at hand has it: what it says, or what its own rows were read with. Where it
says nothing of a chain of that length, the edging says it in its own words.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Pattern, Topic
from hookwright.sizing.edging.moves import CORNER, Form, Move
from hookwright.sizing.edging.row_words import told
from hookwright.sizing.edging.spelling import Spelling
from hookwright.working.outcome import Working

_CHAINS = {"hdc": 2, "dc": 3, "tr": 4}
"""Turning chains by US stitch; 1 for all others. Source: handbooks of the trade agree."""


class Chains(Struct, frozen=True):
    """What a pattern has of beginning chains.

    Attributes:
        counting: Lengths that count as a stitch.
        said: Lengths that a sentence of the pattern settles; None for all of them.
    """

    counting: frozenset[int]
    said: frozenset[int] | None

    def is_said(self, number: int) -> bool:
        """Whether the pattern says whether so many chains count."""
        return self.said is None or number in self.said


def chains_of(pattern: Pattern, working: Working) -> Chains:
    """What a pattern has of beginning chains."""
    topics = [s for s in pattern.statements if s.topic is Topic.TURNING_CHAIN]
    lengths = {s.chains for s in topics}
    said = None if None in lengths else frozenset(n for n in lengths if n is not None)
    return Chains(working.assumption.conventions.counting_chains, said)


def chain_for(move: Move) -> int:
    """How many chains stand at the beginning of a row before a movement."""
    return _CHAINS.get(move.stitch, 1)


def begun(
    moves: Sequence[Move], chains: Chains, spelling: Spelling, *, around: bool, first: bool
) -> str:
    """The words of a row from its chain on, without how it ends.

    Args:
        moves: All its movements, the first included.
        chains: What the pattern has of beginning chains.
        spelling: Its words.
        around: Whether it is a round.
        first: Whether it is the first row of the edging on such a chain, which says what
            the pattern does not.
    """
    move, *rest = moves
    number = chain_for(move)
    stitch = spelling.stitch(move.stitch) if move.stitch else ""
    counts = number in chains.counting and move.form in (Form.PLAIN, Form.SEVERAL)
    if not counts:
        if move.form is Form.TOGETHER and number > 1:
            number -= 1  # it lies over to the next stitch, and so is shorter
        unsaid = first and not chains.is_said(number)
        aside = " (does not count as a st)" if unsaid or number in chains.counting else ""
        return f"Ch {number}{aside}, {_worked(moves, spelling, around=around)}"
    aside = f" (counts as {_a(stitch)})" if first and not chains.is_said(number) else ""
    if move.form is Form.SEVERAL:
        more = replace(move, makes=move.makes - 1)  # a place of its own, also if it is one
        return f"Ch {number}{aside}, {_worked((more, *rest), spelling, around=around)}"
    if rest and all(one == move for one in rest):
        end = "around" if around else "across"
        words = f"{stitch} in next {move.noun} and in each {move.noun} {end}"
        return f"Ch {number}{aside}, {words if len(rest) > 1 else f'{stitch} in last st'}"
    return f"Ch {number}{aside}, {told(rest, spelling.words, begun=True, around=around)}"


def _a(stitch: str) -> str:
    return f"an {stitch}" if stitch[:1] in "aeiou" else f"a {stitch}"


def _worked(moves: Sequence[Move], spelling: Spelling, *, around: bool) -> str:
    """The movements of a row; one stitch in each place is told at once."""
    first = moves[0]
    if first.form is Form.PLAIN and all(move in (first, CORNER) for move in moves):
        end = "around" if around else "across"
        return f"{spelling.stitch(first.stitch)} in each {first.noun} {end}"
    return told(moves, spelling.words, begun=False, around=around)
