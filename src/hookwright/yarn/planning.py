"""The yarn of a design: what each size takes, what it costs, and what the stash makes."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.regex import regex
from hookwright.yarn.beside import told_beside
from hookwright.yarn.facts import (
    Law,
    Reach,
    RowUsed,
    Section,
    SizeCounted,
    SizeNeed,
    Use,
    Yarn,
    YarnPlan,
)
from hookwright.yarn.findings import not_in_palette, wrong_in_worksheet
from hookwright.yarn.known import PLAIN, Known, known_yarns, only_named
from hookwright.yarn.loop_length import at_gauge, law_of
from hookwright.yarn.lots import lots_of
from hookwright.yarn.needing import Terms, need_of
from hookwright.yarn.sizes import Sizes, sizes_counted
from hookwright.yarn.stash import Search, reaches
from hookwright.yarn.stripes import Stripes, in_stripes, sequence_of
from hookwright.yarn.thickness import thickness
from hookwright.yarn.weighed import Weighed, weighed_swatches

ALLOWANCE = Fraction(1, 10)
"""Bought over the need, where nothing else is told: 10 to 20 % is usual.

Source: ehow.com/how_5788335 (estimate yarn for a crochet project); reasonthread.com
(project planning).
"""
TAIL = Fraction(6 * 254, 10)
"""The length of an end: 6 in. Source: crochetsoiree.blogspot.com/2010/02 (weaving in)."""


class Request(Struct, frozen=True):
    """What is asked for.

    Attributes:
        size: One size by its name; None for all.
        from_row: The row from which on it is to be reckoned; None for the whole.
        gauge: A gauge that a maker has instead; None for that of the design.
        instead: The length of a ball of another yarn, in words; None if none is asked for.
    """

    size: str | None = None
    from_row: int | None = None
    gauge: str | None = None
    instead: str | None = None


def yarn_plan(checked: Checked, request: Request = Request()) -> YarnPlan:  # noqa: B008 - frozen
    """The yarn of a pattern. Never fails: what cannot be reckoned is told.

    Args:
        checked: The pattern, read with its worksheet where there is one.
        request: What is wanted.
    """
    known = known_yarns(checked)
    sizes = sizes_counted(checked, request.size, request.gauge)
    stripes = sequence_of(checked, known)
    other, asked = _instead(request.instead)

    def coloured(rows: Sequence[RowUsed]) -> tuple[RowUsed, ...]:
        return in_stripes(rows, stripes, known, sizes.body)

    swatches = weighed_swatches(checked, sizes.multiples)
    laws = dict(_laws(checked, known, swatches, sizes))
    terms = _terms(checked, known, laws, other, sizes)
    edging = _edging(checked, sizes)
    found = []
    for size in sizes.sizes:
        rows = coloured((*size.rows, *edging(size)))
        found.append(replace(size, rows=rows))
    kept, none_left = _from_row(found, sizes.body, request.from_row)
    needs = tuple(need_of(size, terms) for size in kept)
    needs = tuple(replace(need, lots=tuple(lots_of(need, terms))) for need in needs)
    noted = checked.worksheet.findings if checked.worksheet is not None else ()
    wrong = (*noted, *wrong_in_worksheet(checked, known))
    return YarnPlan(
        needs,
        tuple(laws.items()),
        tuple(_reach(sizes, needs, coloured, terms, stripes, request)),
        tuple(_told(sizes, stripes, terms, known)),
        tuple(sorted(wrong, key=lambda one: one.span)),
        tuple(not_in_palette(checked, known)),
        (*sizes.asked, *asked, *none_left),
        request.from_row,
    )


def _instead(words: str | None) -> tuple[Fraction | None, tuple[str, ...]]:
    """The length of a ball of another yarn, in millimetres."""
    if words is None:
        return None, ()
    found = _BALL.fullmatch(words.strip())
    metres = (
        Fraction(found["number"].replace(",", ".")) if found is not None else Fraction(0)
    )
    if found is None or not metres:
        return None, (f'"{words}" is no length of a ball: write 120 m, or 131 yd.',)
    return metres * (_YARD if found["unit"].lower().startswith("y") else 1000), ()


_BALL = regex(
    r"(?P<number>\d{1,5}(?:[.,]\d{1,3})?)\s*(?P<unit>m|met(?:er|re)s?|yds?|yards?)",
    re.IGNORECASE,
)
_YARD = Fraction(9144, 10)


def _laws(
    checked: Checked, known: Known, swatches: Sequence[Weighed], sizes: Sizes
) -> Iterator[tuple[str, Law]]:
    """How long a loop is in each yarn; colours of one yarn share their swatches."""
    hook = _hook(checked)
    done: dict[object, Law] = {}
    for yarn in known.yarns or (only_named(PLAIN),):
        own = tuple(s for s in swatches if _is_of(s, yarn, known))
        weight = yarn.listed.weight if yarn.listed is not None else None
        key = (own, yarn.mm_per_g, weight)
        if key not in done:
            thick = thickness(weight, yarn.mm_per_g, hook)
            law = law_of(own, yarn.mm_per_g, hook, thick, sizes.cell)
            done[key] = law if sizes.factor == 1 else at_gauge(law, sizes.factor)
        yield yarn.label, done[key]


def _hook(checked: Checked) -> Fraction | None:
    noted = checked.design.noted
    told = [s.hook_mm for s in noted.swatches] if noted is not None else []
    told += [hook.mm for hook in checked.design.hooks]
    return next((mm for mm in told if mm), None)


def _is_of(swatch: Weighed, yarn: Yarn, known: Known) -> bool:
    """Whether a swatch is of a yarn: of this colour, or of another of the same yarn."""
    if not swatch.yarn:
        return True
    named = known.find(swatch.yarn)
    if named is None:  # the name of a yarn that comes in several colours
        return swatch.yarn.casefold() in map(str.casefold, yarn.names)
    return named == yarn or _kind(named) == _kind(yarn)


def _kind(yarn: Yarn) -> object:
    """What colours of one yarn have alike."""
    listed = yarn.listed
    if listed is None:
        return yarn.label
    return (listed.name.casefold(), listed.ball_m, listed.ball_g, listed.weight)


def _terms(
    checked: Checked,
    known: Known,
    laws: Mapping[str, Law],
    other: Fraction | None,
    sizes: Sizes,
) -> Terms:
    row = sizes.gauge.row if sizes.gauge is not None else None
    noted = checked.design.noted
    extras = noted.extras if noted is not None else None
    allowance = extras.allowance if extras is not None else None
    tail = extras.tail.at(0) if extras is not None and extras.tail is not None else None
    carried = noted is not None and noted.stripes is not None and noted.stripes.carry
    return Terms(
        known,
        laws,
        ALLOWANCE if allowance is None else allowance,
        TAIL if tail is None else tail,
        carried,
        other,
        told_beside(checked, known),
        row.mm if row is not None else None,
    )


class _Edging(Struct, frozen=True):
    """Rounds of sc that only the worksheet tells of."""

    rounds: int = 0
    yarn: str = ""
    stitch_mm: Fraction | None = None
    kind: str = "sc"

    def __call__(self, size: SizeCounted) -> Iterator[RowUsed]:
        """The rounds about a size; none where its measures are not known."""
        wide, high, each = size.width_mm, size.height_mm, self.stitch_mm
        if not self.rounds or not wide or not high or not each:
            return
        last, yarn = size.rows[-1], self.yarn
        for number in range(1, self.rounds + 1):
            around = round(2 * (wide + high) / each) + 8 * number
            yield RowUsed(
                part=-1,
                number=None,
                label=f"Edging round {number}",
                section=Section.EDGING,
                uses=(Use(yarn, self.kind, 2, around), Use(yarn, "sl st", 1, 1)),
                own=True,
                cut=number == self.rounds,
                ends=Fraction(0),
                place=last.place,
            )


def _edging(checked: Checked, sizes: Sizes) -> _Edging:
    """The edging of the worksheet, where the text works none."""
    noted = checked.design.noted
    wanted = noted.stripes if noted is not None else None
    worked = any(r.section is Section.EDGING for size in sizes.sizes for r in size.rows)
    if wanted is None or not wanted.edging_rows or worked or sizes.gauge is None:
        return _Edging()
    stitch = sizes.gauge.stitch
    kind = "dc" if checked.worked.terms == "UK" else "sc"
    return _Edging(wanted.edging_rows, wanted.edging, stitch.mm if stitch else None, kind)


def _from_row(
    sizes: Sequence[SizeCounted], body: int, first: int | None
) -> tuple[list[SizeCounted], tuple[str, ...]]:
    """What is still to be worked from a row on: it, and the parts behind."""
    if first is None:
        return list(sizes), ()
    kept, asked = [], []
    for size in sizes:
        at = [
            n
            for n, row in enumerate(size.rows)
            if row.part == body and row.number is not None and row.number >= first
        ]
        if not at:
            last = max((r.number or 0 for r in size.rows if r.part == body), default=0)
            name = f" of {size.name}" if size.name else ""
            asked.append(f"There is no row {first}{name}: its last row is {last}.")
            continue
        kept.append(replace(size, rows=size.rows[at[0] :]))
    return kept, tuple(asked)


def _reach(
    sizes: Sizes,
    needs: tuple[SizeNeed, ...],
    coloured: Callable[[Sequence[RowUsed]], tuple[RowUsed, ...]],
    terms: Terms,
    stripes: Stripes | None,
    request: Request,
) -> Iterator[Reach]:
    """What the balls in hand make, where all colours tell what is in hand."""
    resizer = sizes.resizer
    if resizer is None or request.from_row is not None or not needs:
        return
    if any(need.enough is None for need in needs) or not resizer.body:
        return
    part = next(
        (m for m in sizes.multiples if m.stitches and m.repeats == resizer.repeats), None
    )
    if part is None or part.stitches is None:
        return
    search = Search(
        resizer, coloured, terms, stripes, sizes.gauge,
        part.stitches.each, part.stitches.extra,
    )  # fmt: skip
    yield from reaches(search, needs)


def _told(
    sizes: Sizes, stripes: Stripes | None, terms: Terms, known: Known
) -> Iterator[str]:
    """Sentences about all sizes."""
    if stripes is not None:
        yield stripes.said
    if sizes.unsure:
        kinds = ", ".join(filter(None, sizes.unsure))
        yield f"How many loops these take is not told, and was taken as usual: {kinds}."
    if terms.carried:
        yield "Colours are carried up the side where that can be done."
    if any(one.what in {"fringe", "tassels"} for one in terms.beside):
        yield _FRINGES
    if not known.yarns:
        yield "No yarn is told of, neither in a worksheet nor among the materials."


_FRINGES = (
    "Leave fringes and tassels off what is for babies and small children: their strands"
    " come loose."
)
"""Source: the cautions for babies' things, sizing/data/cautions.toml."""
