"""How much yarn is needed beside the stitches: carried, held along, in fringes and tassels?

All of it is a length: what is carried up the side lies along the rows between, what is
carried inside along its rows, what is held along takes the way of the yarn it is held with,
and strands are cut one by one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from math import floor

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Measure, YarnBeside
from hookwright.regex import regex
from hookwright.yarn.cutting import Stretch
from hookwright.yarn.facts import NOTHING, Estimate, RowUsed, Section, exactly
from hookwright.yarn.known import Known

_SLACK = Fraction(105, 100)
"""What lies inside a row or along a side is not pulled tight: our own choice, 5 % more."""
_MM_IN_M = 1000


class Beside(Struct, frozen=True):
    """Yarn beside the stitches.

    Attributes:
        yarn: The label of the yarn.
        length: How much.
        said: How it came about, in a sentence.
    """

    yarn: str
    length: Estimate
    said: str


class Measures(Struct, frozen=True):
    """What a size measures, where that is known.

    Attributes:
        width_mm: How wide it is.
        row_mm: How high a row is.
    """

    width_mm: Fraction | None = None
    row_mm: Fraction | None = None


def told_beside(checked: Checked, known: Known) -> tuple[YarnBeside, ...]:
    """Yarn beside the stitches that the worksheet or the words of the pattern tell."""
    noted = checked.design.noted
    own = noted.beside if noted is not None else ()
    if any(one.what == "held with" for one in own):
        return own
    return (*own, *_held_in_words(checked, known))


_HELD = regex(
    r"\b(?:[Ww]ith |[Uu]sing |[Hh]olding |of )?(?P<one>[A-Z][\w ]{0,20}?) and "
    r"(?P<other>[A-Z][\w ]{0,20}?) held together|"
    r"\b[Hh]olding (?P<first>[A-Z]\w*) and (?P<second>[A-Z]\w*) together|"
    r"\b(?:(?P<n>2|[Tt]wo|3|[Tt]hree) strands (?:of (?:the )?yarn |of [A-Z] )?(?:are )?"
    r"(?:held|worked) together|(?P<double>held double|with yarn doubled))"
)
_STRANDS = {"2": 1, "two": 1, "3": 2, "three": 2}


def _held_in_words(checked: Checked, known: Known) -> Iterator[YarnBeside]:
    """ "A and B held together", "2 strands of yarn held together"."""
    found = _HELD.search(checked.source.text)
    if found is None:
        return
    span = checked.worked.pattern.parts[0].rows[0].span if _has_rows(checked) else None
    if span is None:
        return
    names = (found["one"] or found["first"], found["other"] or found["second"])
    if names[0] and names[1]:
        first, second = (known.find(name) for name in names)
        if first is not None and second is not None:
            yield YarnBeside("held with", second.label, span, beside=first.label)
        return
    more = 1 if found["double"] else _STRANDS[found["n"].lower()]
    for yarn in known.yarns:
        held = YarnBeside("held with", yarn.label, span, strands=more, beside=yarn.label)
        yield held


def _has_rows(checked: Checked) -> bool:
    return any(part.rows for part in checked.worked.pattern.parts)


def beside(
    told: Sequence[YarnBeside],
    known: Known,
    rows: Sequence[RowUsed],
    measures: Measures,
    stitches: Callable[[str], Estimate],
) -> Iterator[Beside]:
    """The yarn beside the stitches of a size.

    Args:
        told: What is wanted.
        known: The yarns.
        rows: The rows of the size.
        measures: What it measures.
        stitches: The length of the stitches of a yarn, by its label; all for "".
    """
    for one in told:
        yarn = known.find(one.yarn)
        label = yarn.label if yarn is not None else one.yarn
        if one.what == "held with":
            yield from _held(one, label, known, stitches)
        elif one.what == "carried inside":
            yield from _inside(one, label, rows, measures)
        else:
            yield from _cut(one, label, measures)


def _held(
    one: YarnBeside, label: str, known: Known, stitches: Callable[[str], Estimate]
) -> Iterator[Beside]:
    other = known.find(one.beside) if one.beside else None
    long = stitches(other.label if other is not None else one.beside)
    if not long.mid:
        return
    times = one.strands or 1
    own = other is not None and other.label == label
    what = f"{times} strand{'' if times == 1 else 's'} more" if own else "Held"
    length = long.times(times)
    told = f"{what} along with {one.beside or 'all stitches'}: {_metres(length.mid)}."
    yield Beside(label, length, told)


def _inside(
    one: YarnBeside, label: str, rows: Sequence[RowUsed], measures: Measures
) -> Iterator[Beside]:
    wide = measures.width_mm
    if not wide:
        yield Beside(label, NOTHING, _unknown("Carried inside rows", "how wide they are"))
        return
    number = one.rows or sum(row.section is Section.PIECE for row in rows)
    long = number * wide * _SLACK
    told = (
        f"Carried inside {number} rows of {float(wide) / 10:.1f} cm, and 5 % as it is not "
        f"pulled tight: {_metres(long)}."
    )
    yield Beside(label, exactly(long), told)


def _cut(one: YarnBeside, label: str, measures: Measures) -> Iterator[Beside]:
    """A fringe or tassels: strands cut one by one; a tassel has one more to tie it."""
    length, wide, every = _mm(one.length), measures.width_mm, _mm(one.every)
    strands = (one.strands or 1) + (one.what == "tassels")
    number, how = one.number, ""
    if number is None and every and wide:
        at_an_end = floor(wide / every) + 1
        number = 2 * at_an_end
        how = (
            f", one every {float(every) / 10:.1f} cm along both ends of "
            f"{float(wide) / 10:.1f} cm,"
        )
    if length and every and not wide:
        yield Beside(label, NOTHING, _unknown("Strands at both ends", "how wide they are"))
    if not length or number is None:
        return
    what = "tassels" if one.what == "tassels" else "bundles"
    tie = ", one of them to tie it," if one.what == "tassels" else ""
    long = number * strands * length
    told = (
        f"{number} {what}{how} of {strands} strands{tie} of {float(length) / 10:.1f} cm: "
        f"{_metres(long)}."
    )
    yield Beside(label, exactly(long), told)


def carried_up(found: Sequence[Stretch], measures: Measures) -> Iterator[Beside]:
    """What colours that are carried up the side take there: the rows between, once more."""
    high = measures.row_mm
    between: dict[str, int] = {}
    for one in found:
        gaps = [b - a - 1 for a, b in zip(one.rows, one.rows[1:], strict=False)]
        between[one.yarn] = between.get(one.yarn, 0) + sum(gaps) * one.make
    for label, number in between.items():
        if number and not high:
            past = f"Carried up the side past {number} rows"
            yield Beside(label, NOTHING, _unknown(past, "how high they are"))
        elif number and high:
            long = number * high * _SLACK
            told = (
                f"Carried up the side past {number} rows of {float(high):.1f} mm, and 5 %"
                f" as it is not pulled tight: {_metres(long)}."
            )
            yield Beside(label, exactly(long), told)


def _unknown(what: str, lacks: str) -> str:
    return f"{what}: left out, for no gauge tells {lacks}."


def _metres(mm: Fraction) -> str:
    return f"{float(mm) / _MM_IN_M:.1f} m"


def _mm(measure: Measure | None) -> Fraction | None:
    return measure.at(0) if measure is not None else None
