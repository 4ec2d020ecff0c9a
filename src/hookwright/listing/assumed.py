"""What the text leaves open, and how it was taken: a sentence each.

A convention that no row turns on is passed over in silence.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from hookwright.checking import Checked
from hookwright.listing.settled import borne_out, joined, settled
from hookwright.listing.verdicts import is_foundation
from hookwright.working.conventions import Conventions
from hookwright.working.left_open import chain_at_start, left_open
from hookwright.working.outcome import Working
from hookwright.working.steps import row_name


def assumed(checked: Checked) -> tuple[str, ...]:
    """The sentences, each once, with the size where sizes differ."""
    if all(map(is_foundation, checked.lines)):
        return ()
    by_size = [tuple(_of_size(checked, working)) for working in checked.worked.sizes]
    if len(set(by_size)) == 1:
        return (*_of_terms(checked), *by_size[0])
    named = zip(checked.sizes, by_size, strict=True)
    return (
        *_of_terms(checked),
        *(f"Size {name}: {_low(sentence)}" for name, own in named for sentence in own),
    )


def _low(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def _of_terms(checked: Checked) -> Iterator[str]:
    pattern = checked.reading.pattern
    terms = checked.terms
    if terms is None:
        yield "Nothing tells US from UK terms; read in US terms."
    elif _is_of_worksheet(checked):
        yield f"Read in {terms} terms, as the worksheet says; the pattern does not."
    elif pattern.terms not in {None, terms}:
        yield f"Read in {terms} terms, as asked; its own words are {pattern.terms} terms."
    elif pattern.terms == terms and not pattern.terms_said:
        yield f"Read in {terms} terms by its stitches; the pattern does not say which."


def _is_of_worksheet(checked: Checked) -> bool:
    """Whether only the worksheet tells the terms it was read in."""
    noted = checked.design.noted
    said = checked.reading.pattern.terms_said
    return noted is not None and not said and noted.terms == checked.terms


def _of_size(checked: Checked, working: Working) -> Iterator[str]:
    taken = list(_taken(checked, working))
    if taken:
        yield f"Read with {joined(taken)}{borne_out(working, working.outcomes)}"
    for rival in working.rivals[:1]:
        ours = working.assumption.conventions
        other = list(_differing(ours, rival.conventions, chain_at_start(working)))
        if other:
            yield f"With {joined(other)} it would close as well."
    yield from settled(checked, working)


def _taken(checked: Checked, working: Working) -> Iterator[str]:
    """Every convention that was open, as it was taken."""
    chain = chain_at_start(working)
    open_ = left_open(checked.reading.pattern, working)
    yield from _chains(chain, open_.counted, count=True)
    yield from _chains(chain, open_.not_counted, count=False)
    if open_.spaces_count:
        yield "the chains of a space counted as stitches"
    if open_.times_are_more is not None:
        how = "so many more" if open_.times_are_more else "the number in all"
        yield f'the "times" of a repeat as {how}'
    if open_.apart:
        yield f"the {chain} left out of the printed counts"
    if open_.spaces_too:
        yield "the chain spaces taken into the printed counts"
    cut = next((o for o in working.outcomes if o.worked and o.worked.cut_short), None)
    if cut is not None:
        yield f"the last repeat of {row_name(cut.step)} stopped before the end of its words"


def _chains(chain: str, lengths: Collection[int], *, count: bool) -> Iterator[str]:
    """Name the lengths: "the turning chain of 3 counted as a stitch"."""
    if not lengths:
        return
    numbers = joined([str(length) for length in sorted(lengths)])
    if len(lengths) == 1:
        counted = "counted as a stitch" if count else "not counted"
        yield f"the {chain} of {numbers} {counted}"
    else:
        counted = "counted as stitches" if count else "not counted"
        yield f"{chain}s of {numbers} {counted}"


def _differing(ours: Conventions, other: Conventions, chain: str) -> Iterator[str]:
    """How another way differs from the one taken."""
    yield from _chains(chain, other.counting_chains - ours.counting_chains, count=True)
    yield from _chains(chain, ours.counting_chains - other.counting_chains, count=False)
    if other.spaces_count != ours.spaces_count:
        how = "counted as stitches" if other.spaces_count else "not counted"
        yield f"the chains of a space {how}"
    if other.times_are_more != ours.times_are_more:
        how = "so many more" if other.times_are_more else "the number in all"
        yield f'the "times" of a repeat as {how}'
