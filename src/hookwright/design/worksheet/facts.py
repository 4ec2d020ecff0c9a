"""What do the tables of a worksheet tell of the design?"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from msgspec import Struct

from hookwright.design.facts import (
    Colour,
    CostsNoted,
    Extras,
    Gauge,
    LessonWanted,
    Measure,
    Noted,
    SizeWanted,
    State,
    StripesWanted,
    Weighed,
    YarnBeside,
    YarnListed,
)
from hookwright.design.worksheet.colour_names import code_of
from hookwright.design.worksheet.lengths import length_in
from hookwright.source import Span


class Told(Struct, frozen=True):
    """One table as it stands in the worksheet, its wrong values left out.

    Attributes:
        span: Its heading.
        values: Its values by their keys.
        places: Where each value stands.
    """

    span: Span
    values: Mapping[str, Any]
    places: Mapping[str, Span]

    def text(self, key: str) -> str:
        """Words; "" where the key is not there."""
        return str(self.values.get(key, "")).strip()

    def number(self, key: str) -> Fraction | None:
        """A number, exactly as it is written."""
        value = self.values.get(key, "")
        return None if value == "" else Fraction(str(value))

    def money(self, key: str) -> Decimal | None:
        """A price, exactly as it is written."""
        value = self.values.get(key, "")
        return None if value == "" else Decimal(str(value))

    def whole(self, key: str) -> int | None:
        """A whole number."""
        value = self.values.get(key, "")
        return None if value == "" else int(value)

    def wholes(self, key: str) -> tuple[int, ...]:
        """Whole numbers: one of them, or a list."""
        value = self.values.get(key, [])
        many = value if isinstance(value, list) else [value]
        return tuple(int(one) for one in many if one != "")

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of words."""
        return tuple(str(one).strip() for one in self.values.get(key, ()))

    def length(self, key: str) -> Measure | None:
        """A length."""
        return length_in(self.text(key), self.places.get(key, self.span))


def noted_in(tables: Mapping[str, list[Told]]) -> Noted:
    """The facts that stand in the tables of a worksheet."""
    design = next(iter(tables["design"]), Told(Span(0, 0), {}, {}))
    return Noted(
        title=design.text("title"),
        terms=design.text("terms") or None,
        units=design.text("units") or None,
        swatches=tuple(map(_gauge, tables["swatch"])),
        yarns=tuple(map(_yarn, tables["yarn"])),
        sizes=tuple(_size(told) for told in tables["size"]),
        stripes=next(map(_stripes, tables["stripes"]), None),
        designer=design.text("designer"),
        version=design.text("version"),
        date=design.text("date"),
        rights=design.text("rights"),
        corrections=design.text("corrections"),
        extras=next(map(_extras, tables["budget"]), Extras()),
        beside=tuple(map(_beside, tables["beside"])),
        lesson=next(map(_lesson, tables["lesson"]), None),
        costs=_costs(tables),
        house_style=tuple(
            (key, told.text(key))
            for told in tables["house_style"][:1]
            for key in told.values
        ),
    )


def _costs(tables: Mapping[str, list[Told]]) -> CostsNoted | None:
    if not any(tables[name] for name in ("costs", "work", "spent")):
        return None
    told = next(iter(tables["costs"]), Told(Span(0, 0), {}, {}))
    return CostsNoted(
        told.money("price"),
        told.text("currency"),
        told.money("fee"),
        told.money("fee_each"),
        told.money("rate"),
        told.whole("sold"),
        tuple(
            (one.text("what"), one.money("hours") or Decimal(0)) for one in tables["work"]
        ),
        tuple(
            (one.text("what"), one.money("amount") or Decimal(0)) for one in tables["spent"]
        ),
    )


def _lesson(told: Told) -> LessonWanted:
    return LessonWanted(told.number("pace"), told.texts("ready"), told.texts("timed"))


def _gauge(told: Told) -> Gauge:
    stitches, repeats = told.number("stitches"), told.number("repeats")
    width, height = told.length("width"), told.length("height")
    return Gauge(
        told.span,
        stitches=repeats if stitches is None else stitches,
        rows=told.number("rows"),
        width=width,
        height=height or width,
        of="st" if stitches is not None or repeats is None else "repeat",
        stitch=told.text("stitch"),
        state=State(told.text("state")),
        hook_mm=told.number("hook_mm"),
        part=told.text("part"),
        weighed=_weighed(told),
    )


def _weighed(told: Told) -> Weighed | None:
    grams = told.number("weight_g")
    if not grams:
        return None
    return Weighed(
        grams,
        told.places["weight_g"],
        told.text("yarn"),
        told.whole("strands") or 1,
        told.number("whole_stitches"),
        told.number("whole_rows"),
    )


def _extras(told: Told) -> Extras:
    percent = told.number("allowance")
    return Extras(None if percent is None else percent / 100, told.length("tail"))


def _beside(told: Told) -> YarnBeside:
    return YarnBeside(
        told.text("what"),
        told.text("yarn"),
        told.span,
        told.whole("number"),
        told.length("every"),
        told.whole("strands"),
        told.length("length"),
        told.whole("rows"),
        told.text("with"),
    )


def _yarn(told: Told) -> YarnListed:
    place = told.places.get("letter") or told.places.get("colour") or told.span
    colour = Colour(
        told.text("letter"), told.text("colour"), place, code=code_of(told.text("hex"))
    )
    balls, rows = told.number("in_hand"), told.number("rows_a_ball")
    return YarnListed(
        told.span,
        name=told.text("name"),
        weight=told.whole("weight_class"),
        ball_m=told.number("ball_m"),
        ball_g=told.number("ball_g"),
        colours=(colour,) if colour.letter or colour.name or colour.code else (),
        most_rows=told.whole("most_rows"),
        enough_for=None if balls is None or rows is None else int(balls * rows),
        price=told.money("price"),
        currency=told.text("currency"),
        lot=told.text("lot"),
        in_hand=balls,
        places=tuple(told.places.items()),
    )


def _stripes(told: Told) -> StripesWanted:
    def pairs(key: str) -> tuple[tuple[str, str], ...]:
        return tuple((one, other) for one, other in told.values.get(key) or [])

    def is_true(key: str) -> bool:
        return told.values.get(key) is True

    return StripesWanted(
        told.span,
        tuple(told.places.items()),
        apart=pairs("keep_apart"),
        together=pairs("keep_together"),
        favourites=tuple(told.values.get("favourites") or ()),
        rows=told.wholes("rows"),
        favourite_rows=told.wholes("favourite_rows"),
        first_equals_last=is_true("first_equals_last"),
        spread_similar=is_true("spread_similar"),
        least_contrast=told.number("least_contrast"),
        light_dark=is_true("light_dark"),
        blend=is_true("blend"),
        mirrored=is_true("mirrored"),
        repeated=is_true("repeated"),
        looks_random=is_true("looks_random"),
        least_gap=told.whole("least_gap"),
        stripes=told.whole("stripes"),
        carry=is_true("carry"),
        times=told.whole("times"),
        rows_in_all=told.whole("rows_in_all"),
        length=told.length("length"),
        edging=told.text("edging"),
        edging_rows=told.whole("edging_rows"),
    )


def _size(told: Told) -> SizeWanted:
    return SizeWanted(
        told.text("name"),
        told.places.get("name", told.span),
        width=told.length("width"),
        height=told.length("height"),
        to_fit=told.length("to_fit"),
        ease=told.length("ease"),
    )
