"""Does a row that does not come out hold words that nobody here understood?

What begins no instruction is mostly a comment: "fill the head as you go". In a row that
comes out it surely is. In one that does not, it may be the work that is missing: "narrow",
"every fifth". Such a row is not accused where no one number in it puts it right, and where
one does, only if the words say nothing of stitches, places or repeats. A count that the
next row's own count bears out stays wrong.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Claim, InOnePlace, Node, Remark, Repeat
from hookwright.regex import regex
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.problems import Fault
from hookwright.working.stated import groups_made
from hookwright.working.steps import row_name

_WORD = regex(r"[^\W\d_]+|\d+")
_OF_WORK = frozenset(
    "every each time times twice once row rows round rounds rnd rnds st sts stitch "
    "stitches pair pairs between until till following next last repeat rep again chain "
    "chains ch hook end ends loop loops strand strands increase increasing inc decrease "
    "decreasing dec narrow widen alternate alternately alternating same order both "
    "either corner corners past hole holes space spaces sp sps gap gaps away block "
    "blocks group groups shell shells eyelet eyelets skip skipped sk omit leave double "
    "half two three four five six one first second third fourth fifth sixth eighth "
    "tenth other".split()
)
"""Words that speak of stitches, of places to work in, or of how often."""
_OF_PLACES = frozenset(
    "along back across down up over the other opposite same side underside of "
    "foundation starting beginning base bottom top edge chain ch free loops front rs ws "
    "facing row rnd round keep working".split()
)
"""Words that only tell where the row goes: "along the other side of the chain"."""
_OF_ROW_BELOW = regex(r"\bof (the )?(row|rnd|round) \d+$|^(rows? )?below (the )?next \w+$")
"""A place told once more: "the ch-1 sp of Rnd 2", "(2 rows) below next st"."""


def is_half_read(fault: Fault, worked: WorkedPattern, *, mended: bool) -> bool:
    """Whether a fault is likelier one of the reading; `mended` has one number put right."""
    outcome = worked.sizes[fault.sizes[0]].outcomes[fault.at]
    words = list(_unread(outcome.step.nodes))
    if not words:
        return False
    if fault.finding.rule == "stated-count":
        if _is_near(outcome, fault.sizes[0]) or _is_borne_out(fault, worked):
            return False
        return _speak_of_work(words) or (fault.is_defended and not mended)
    return not mended or _speak_of_work(words)


def _is_near(outcome: Outcome, size: int) -> bool:
    """Whether a count is off by a stitch, a group or two, as a slip of the pen is."""
    off = (_off_by(claim, outcome, size) for claim in outcome.step.claims)
    return any(0 < far <= _NEAR for far in off)


def _off_by(claim: Claim, outcome: Outcome, size: int) -> int:
    """How many stitches, groups and spaces a count is off; 0 where nothing can tell."""
    figures = [figure.amount.at(size) or 0 for figure in claim.figures]
    made = groups_made(claim, outcome.tally, size)
    if made:
        return sum(abs(a - b) for a, b in zip(made, figures, strict=True))
    stitches = outcome.tally.stitches
    return abs(stitches - sum(figures)) if isinstance(stitches, int) else 0


_NEAR = 2


def _unread(nodes: Iterable[Node]) -> Iterator[str]:
    """The words of a row that were taken for a comment, unread."""
    for node in nodes:
        if isinstance(node, Remark):
            if node.unread and not _only_places(node.words):
                yield node.words
        elif isinstance(node, (Repeat, InOnePlace)):
            yield from _unread(node.body)


def _only_places(said: str) -> bool:
    """Whether some words only tell where a row goes, or are a list of numbers."""
    told = " ".join(_words(said))
    if " " in told and not any(map(str.isalpha, told)):
        return True
    return _OF_PLACES.issuperset(told.split()) or bool(_OF_ROW_BELOW.search(told))


def _speak_of_work(words: Iterable[str]) -> bool:
    found = (word for said in words for word in _words(said))
    return any(word.isdigit() or word in _OF_WORK for word in found)


def _words(said: str) -> list[str]:
    return _WORD.findall(said.lower())


def _is_borne_out(fault: Fault, worked: WorkedPattern) -> bool:
    """Whether the next row's printed count agrees with what this row makes."""
    outcomes = worked.sizes[fault.sizes[0]].outcomes
    after = outcomes[fault.at + 1] if fault.at + 1 < len(outcomes) else None
    return after is not None and not after.resized and _agrees(after)


def _agrees(outcome: Outcome) -> bool:
    return bool(outcome.agrees) and all(map(any, outcome.agrees))


def follows(fault: Fault, before: Fault, worked: WorkedPattern) -> bool:
    """Whether no count between a row that was half read and a later one agrees."""
    outcomes = worked.sizes[fault.sizes[0]].outcomes
    near = outcomes[before.at + 1 : fault.at]
    same = outcomes[fault.at].step.part == outcomes[before.at].step.part
    return same and not any(map(_agrees, near))


def half_read(fault: Fault, worked: WorkedPattern) -> Finding:
    """What is told of such a row: which words were passed, and what is missing."""
    found = fault.finding
    step = worked.sizes[fault.sizes[0]].outcomes[fault.at].step
    passed = ", ".join(f'"{" ".join(said.split())}"' for said in _unread(step.nodes))
    return Finding(
        "unclear-rows",
        Severity.ADVICE,
        found.span,
        f"{row_name(step)} does not come out without the words {passed}.",
        f"{found.message} These words were passed as a comment. If they ask for work, say "
        "it stitch by stitch, or tell a word of your own among the special stitches.",
        row=found.row,
        part=found.part,
        sizes=found.sizes,
        numbers=found.numbers,
    )
