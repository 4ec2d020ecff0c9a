"""The drawings of a release: in both terms, for both hands, laid out once."""

from __future__ import annotations

from functools import cache

from examples_checked import example
from released import Before, waves

from hookwright.release.aside import Aside
from hookwright.release.building import Made
from hookwright.release.charts import drawing_kept, drawings_of
from hookwright.release.copies import Edition
from hookwright.release.drawn import Drawn
from hookwright.release.manifest import Entry
from hookwright.release.pictures import pictures_of

NAMES = [
    f"{kind}-1-of-1-{terms}{hand}.svg"
    for kind in ("chart", "schematic")
    for hand in ("", "-left-handed")
    for terms in ("us", "uk")
]


@cache
def drawings() -> tuple[Drawn, ...]:
    with Aside() as aside:
        return drawings_of(example("kelp-square"), "fabric", aside)


def test_a_square_has_drawings_in_both_terms_and_for_both_hands() -> None:
    assert [drawing.picture.file for drawing in drawings()] == NAMES
    us, uk, left, _ = drawings()[:4]
    assert "double crochet" in us.picture.alt
    assert "treble crochet" in uk.picture.alt
    assert us.data != left.data
    assert us.picture.caption == left.picture.caption == "Symbol chart of Square"
    assert Edition.LEFT_HANDED not in us.editions
    assert left.editions == (Edition.LEFT_HANDED,)


def test_a_drawing_of_an_earlier_release_is_what_it_was() -> None:
    for drawing in drawings():
        kept = drawing_kept(drawing.picture.file, drawing.data, "fabric")
        assert kept == drawing
    assert drawing_kept("fabric.jpg", b"", "fabric") is None


class Damaged(Before):
    """A release of which a file was written over."""

    def keep(self, name: str, made_of: str) -> bytes | None:
        return None if name == NAMES[0] else super().keep(name, made_of)


def test_pictures_are_taken_over_all_together_or_not_at_all() -> None:
    with Aside() as aside:
        first = pictures_of(waves(), Before({}), aside)
        files = {one.picture.file: _made(one) for one in first}
        assert {"fabric.jpg", "fabric-left-handed.jpg", *NAMES} == set(files)
        again = pictures_of(waves(), Before(files), aside)
        assert sorted(again, key=_file) == sorted(first, key=_file)
        assert pictures_of(waves(), Damaged(files), aside) == first


def _made(drawn: Drawn) -> Made:
    entry = Entry(_file(drawn), drawn.picture.alt, len(drawn.data), "", drawn.made_of)
    return Made(entry, drawn.data, kept=False)


def _file(drawn: Drawn) -> str:
    return drawn.picture.file
