"""Which sizes are wanted: by lengths, by names, or by the worksheet?

What is asked for stands in a little text of its own, a line a wish, so that what is wrong
with one can be told at its words. A size of the worksheet goes before a usual one of the
same name; where nothing is asked for, all of the worksheet's sizes are wanted.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Gauge, Measure, SizeWanted
from hookwright.finding import Edit, Finding, Severity
from hookwright.regex import regex
from hookwright.sizing.asked_gauge import gauge_asked
from hookwright.sizing.lengths import NoLength, in_both, length_told, measures_told
from hookwright.sizing.named_sizes import (
    Ease,
    Usual,
    also_of,
    eases,
    hat_rule,
    kinds,
    likeliest,
    sizes_named,
)
from hookwright.source import Source, Span

SIZE_RULE = "size"
_NOTHING = "no size"


class Request(Struct, frozen=True):
    """What is asked for, in the words it was asked in.

    Attributes:
        width: How wide; None if that is not asked.
        height: How high or long.
        sizes: Names, or two lengths: "50 x 60 in".
        gauge: The gauge a maker has instead.
    """

    width: str | None = None
    height: str | None = None
    sizes: tuple[str, ...] = ()
    gauge: str | None = None


class Wish(Struct, frozen=True):
    """A size that is wanted, lengths in millimetres.

    Attributes:
        name: What it is called.
        width: How wide, of a piece that lies flat; None to leave it as it is.
        height: How high or long.
        around: How far around, of a piece worked round a body.
        kind: The kind of a named size: "blanket", "hat"; "" for any.
        baby: Whether it is for a baby.
        said: How its lengths came about, in sentences.
        place: Its words, in the text of what is asked; None for one of the worksheet.
        noted: Its words in the worksheet.
        own: Which of the text's own sizes it is; None for any other.
    """

    name: str
    width: Fraction | None = None
    height: Fraction | None = None
    around: Fraction | None = None
    kind: str = ""
    baby: bool = False
    said: tuple[str, ...] = ()
    place: Span | None = None
    noted: Span | None = None
    own: int | None = None


class Wishes(Struct, frozen=True):
    """All that is wanted.

    Attributes:
        asked: The text of what is asked.
        wishes: The sizes, in the order they were asked for.
        gauges: The gauges a maker has instead.
        findings: What in it cannot be done; spans are of `asked`.
        has_gauge: Whether a gauge is asked for, readable or not.
    """

    asked: Source
    wishes: tuple[Wish, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    findings: tuple[Finding, ...] = ()
    has_gauge: bool = False


def wishes_of(request: Request, checked: Checked) -> Wishes:
    """The sizes that a request and a worksheet want. Never fails."""
    lines = list(_lines(request))
    asked = Source("\n".join(words for words, _ in lines) or _NOTHING, "what is asked for")
    reader = _Reader(checked)
    start = 0
    for words, option in lines:
        reader.read(option, words, Span(start, start + len(words)))
        start += len(words) + 1
    wishes = (*reader.by_length(), *reader.wishes)
    if request.width is None and request.height is None and not request.sizes:
        wishes = tuple(_of_worksheet(checked, reader.unit, reader.likely))
    has_gauge = request.gauge is not None
    return Wishes(asked, wishes, reader.gauges, tuple(reader.findings), has_gauge)


def _lines(request: Request) -> Iterator[tuple[str, str]]:
    """Each wish in a line of its own, with what it is of."""
    own = (("width", request.width), ("height", request.height), ("gauge", request.gauge))
    told = [*own, *(("size", words) for words in request.sizes)]
    for option, words in told:
        if words is not None:
            yield " ".join(words.split()), option


class _Reader:
    """Reads wish after wish and gathers what is wrong with them."""

    def __init__(self, checked: Checked) -> None:
        self.checked = checked
        noted = checked.design.noted
        self.own = noted.sizes if noted is not None else ()
        self.unit = unit_of(checked)
        self.likely = tuple(kinds_of(checked))
        self.findings: list[Finding] = []
        self.wishes: list[Wish] = []
        self.gauges: tuple[Gauge, ...] = ()
        self._lengths: dict[str, tuple[Fraction, Span]] = {}

    def read(self, option: str, words: str, span: Span) -> None:
        """Take one wish."""
        if option == "gauge":
            gauges = gauge_asked(words)
            if isinstance(gauges, NoLength):
                self._tell(span, gauges.message, gauges.why)
            else:
                self.gauges = gauges
        elif option == "size":
            self._size(words, span)
        else:
            length = length_told(words)
            if isinstance(length, NoLength):
                self._tell(span, length.message, length.why)
            else:
                self._lengths[option] = (length, span)

    def by_length(self) -> Iterator[Wish]:
        """The size told by its width, its height or both."""
        if not self._lengths:
            return
        width = self._lengths.get("width", (None, None))[0]
        height = self._lengths.get("height", (None, None))[0]
        spans = [span for _, span in self._lengths.values()]
        yield Wish("As asked", width, height, place=spans[0].to(spans[-1]))

    def _size(self, words: str, span: Span) -> None:
        own = next((s for s in self.own if _same(s.name, words)), None)
        if own is not None:
            wish = _wanted(own, self.unit, self.likely)
            if wish is not None:
                self.wishes.append(wish)
                return
        of_text = [at for at, name in enumerate(self.checked.sizes) if _same(name, words)]
        if of_text:
            self.wishes.append(Wish(words, place=span, own=of_text[0]))
            return
        found = sizes_named(words, self.likely)
        if found:
            self.wishes += [
                _usual(size, words, len(found), span, self.unit) for size in found
            ]
            return
        measures = measures_told(words) if re.search(r"\d", words) else None
        if isinstance(measures, tuple) and len(measures) == 2:
            self.wishes.append(Wish(words, *measures, place=span))
        elif isinstance(measures, NoLength) and _TWO_WAYS.search(words):
            no_unit = f"Write the unit behind them: {words} in, or {words} cm."
            why = measures.why if re.search("[^\\dx× ]", words) else no_unit
            self._tell(span, measures.message, why)
        elif isinstance(measures, tuple):
            self._tell(
                span,
                f'"{words}" is one length, and a size has a name or two lengths.',
                f"Ask for a width or a height of {words}, or for two: 50 x 60 in.",
            )
        elif own is not None:
            self._tell(
                span, f'The worksheet gives "{own.name}" no lengths.', _LENGTHS_NOTED
            )
        else:
            self._unknown(words, span)

    def _unknown(self, words: str, span: Span) -> None:
        own = [*self.checked.sizes, *(size.name for size in self.own)]
        names = [name for name in own if len(name) >= _LONG_ENOUGH]
        likely = likeliest(words, names)
        shown = words if len(words) <= 40 else words[:36] + " ..."
        message = f'There is no size "{shown}".'
        if self.checked.sizes:
            message += f" The text has {_and(self.checked.sizes)}."
        told = f"Sizes are named within {_listed([f'{kind}s' for kind in kinds()])}"
        some = "throw, cot, bed queen, scarf, hat child, woman M"
        if likely:
            why = f'Is "{likely}" meant? {told}.'
            self._tell(span, message, why, Edit(span, likely))
        else:
            self._tell(
                span, message, f"Write one of these, or two lengths: {some}. {told}."
            )

    def _tell(self, span: Span, message: str, why: str, edit: Edit | None = None) -> None:
        found = Finding(SIZE_RULE, Severity.ERROR, span, message, why, edit=edit)
        self.findings.append(found)


_TWO_WAYS = regex(r"\d ?[^\W\d_]{0,6}\"? ?(?:x|×|by) ?[\d½¼¾]", re.IGNORECASE)
_LENGTHS_NOTED = "Write width and height under its name in the worksheet."


_LONG_ENOUGH = 3
"""Any two letters are like one another."""


def _and(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _same(name: str, words: str) -> bool:
    return bool(name) and name.strip().lower() == words.strip().lower()


def _listed(words: Sequence[str]) -> str:
    plural = {"boxs": "boxes", "bodys": "bodies", "headwears": "headwear",
              "households": "household", "scarfs": "scarves"}  # fmt: skip
    own = [plural.get(word, word) for word in words]
    return f"{', '.join(own[:-1])} and {own[-1]}"


def _of_worksheet(checked: Checked, unit: str, likely: Sequence[str]) -> Iterator[Wish]:
    noted = checked.design.noted
    for size in noted.sizes if noted is not None else ():
        wish = _wanted(size, unit, likely)
        if wish is not None:
            yield wish


def _wanted(size: SizeWanted, unit: str, likely: Sequence[str]) -> Wish | None:
    """A size of the worksheet; None for one that tells no length."""
    width, height = _mm(size.width), _mm(size.height)
    around: Fraction | None = None
    said: tuple[str, ...] = ()
    body = _mm(size.to_fit)
    if width is None and body is not None:
        ease, whose = _ease(size, likely)
        around = body + ease
        told = (
            f"{size.name or 'It'} fits {in_both(body, unit)}, and with "
            f"{in_both(ease, unit)} of ease{whose} it is {in_both(around, unit)} around."
        )
        said = (told,)
    if not any((width, height, around)) or any(
        mm is not None and mm <= 0 for mm in (width, height, around)
    ):
        return None
    return Wish(
        size.name or "Size", width, height, around, said=said, noted=size.span,
        baby=_for_baby(size.name),
    )  # fmt: skip


def _ease(size: SizeWanted, likely: Sequence[str]) -> tuple[Fraction, str]:
    """The ease of a size, and whose it is where the worksheet does not tell it."""
    told = _mm(size.ease)
    if told is not None:
        return told, ""
    if "hat" in likely[:1]:
        least, most, _ = hat_rule()
        return -(least + most) / 2, ", as usual for a hat,"
    if "body" in likely[:1]:
        return (_classic().least + _classic().most) / 2, ", as usual for a classic fit,"
    return Fraction(0), ", for none is told,"


def _for_baby(name: str) -> bool:
    found = sizes_named(name)
    return bool(found) and len(found) == 1 and found[0].baby


def _mm(measure: Measure | None) -> Fraction | None:
    return measure.at(0) if measure is not None else None


def _usual(size: Usual, words: str, of: int, span: Span, unit: str) -> Wish:
    said = [*_how_large(size, unit)]
    others = also_of(words, size) if of == 1 else ()
    if others:
        names = " or ".join(f'"{other.kind} {other.name}"' for other in others[:3])
        said.append(
            f'"{words}" was taken as {size.kind} {size.name}; ask for {names} else.'
        )
    around, height = size.around, size.height
    if size.chest is not None:
        around = _garment_girth(size)
    elif around is not None and height is None and size.fits is not None:
        height = hat_rule()[2] * sum(size.fits) / 2
    return Wish(
        size.title,
        size.width,
        size.length if size.length is not None else height,
        around,
        size.kind,
        size.baby,
        tuple(said),
        span,
    )


def _how_large(size: Usual, unit: str) -> Iterator[str]:
    told = f"{size.title}: "
    if size.chest is not None:
        low, high = size.chest
        classic = _classic()
        yield (
            f"{told}a chest of {in_both(low, unit)} to {in_both(high, unit)}; the classic "
            f"fit is {in_both(classic.least, unit)} to {in_both(classic.most, unit)} "
            f"wider, and the middle of both makes {in_both(_garment_girth(size), unit)} "
            "around."
        )
    elif size.around is not None and size.height is not None:
        body = ""
        if size.fits is not None and size.fits[0] != size.around:
            least, most = (in_both(mm, unit) for mm in size.fits)
            body = f" for {least} around"
            if least != most:
                body = f" for {least} to {most} around"
        yield (
            f"{told}{in_both(size.around, unit)} around and "
            f"{in_both(size.height, unit)} high{body}."
        )
    elif size.width is not None and size.length is not None:
        yield f"{told}{in_both(size.width, unit)} x {in_both(size.length, unit)}."
    if size.mattress is not None and size.width is not None:
        drape = (size.width - size.mattress[0]) / 2
        yield (
            f"It hangs {in_both(drape, unit)} over each side of a mattress "
            f"{in_both(size.mattress[0], unit)} wide."
        )
    if size.remark:
        yield f"{told}{size.remark}."


def _classic() -> Ease:
    return next(ease for ease in eases() if ease.fit == "classic")


def _garment_girth(size: Usual) -> Fraction:
    """The middle of the chests with the middle of the classic ease."""
    assert size.chest is not None
    classic = _classic()
    return (sum(size.chest) + classic.least + classic.most) / 2


def unit_of(checked: Checked) -> str:
    """The unit the designer measures in: "in" or "cm"."""
    noted = checked.design.noted
    if noted is not None and noted.units in {"in", "cm"}:
        return noted.units
    told = [m for gauge in checked.design.gauges for m in (gauge.width, gauge.height) if m]
    told += [found.measure for found in checked.design.finished]
    units = [measure.unit for measure in told]
    if not units:
        return "in" if checked.terms != "UK" else "cm"
    return "in" if units[0] in {"in", "ft", "yd"} else "cm"


_OF_KIND = {
    "hat": r"\b(?:hat|cap|beanie|toque|bonnet|tam|beret)s?\b",
    "sock": r"\b(?:sock|stocking|bootie|slipper)s?\b",
    "mitten": r"\b(?:mitten|mitt|glove)s?\b",
    "scarf": r"\b(?:scarf|scarves)\b",
    "cowl": r"\b(?:cowl|snood)s?\b",
    "shawl": r"\b(?:shawl|wrap|stole)s?\b",
    "body": r"\b(?:sweater|jumper|cardigan|tee|top|vest|pullover|tunic|dress)s?\b",
    "household": r"\b(?:dishcloth|washcloth|cloth|coaster|potholder|placemat|cushion)s?\b",
    "bag": r"\b(?:bag|tote)s?\b",
    "blanket": r"\b(?:blanket|throw|afghan|lapghan|coverlet|bedspread)s?\b",
}


def kinds_of(checked: Checked) -> Iterator[str]:
    """The kinds of thing that the title names, or else the names of the parts."""
    names = [part.name for part in checked.reading.pattern.parts]
    for words in (checked.design.title or checked.draft.title, " ".join(names)):
        for kind, pattern in _OF_KIND.items():
            if re.search(pattern, words or "", re.IGNORECASE):
                yield kind
