"""Pictures of fabric show what was worked: its side, its loops, its yarns, its holes."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray

from hookwright.checking import Checked, check
from hookwright.drawing.fabric import picture as pictures
from hookwright.drawing.fabric.picture import FabricPicture, Wish, fabric_picture
from hookwright.drawing.fabric.scene import lie_of
from hookwright.progress import Cancelled
from hookwright.source import Source

HEAD = "US terms. The ch 1 at the start of a row does not count as a stitch.\n\n"
TALL = "US terms. The ch 3 at the start of a row counts as a dc.\n\n"


def rows(stitch: str, where: str = "each st", number: int = 8, last: int = 7) -> str:
    return (
        f"{HEAD}Ch {number + 1}.\nRow 1 (RS): {stitch} in 2nd ch from hook and in each ch "
        f"across. Turn. ({number} {stitch.lower()})\nRows 2-{last}: Ch 1, {stitch.lower()} in "
        f"{where} across. Turn. ({number} {stitch.lower()})\n"
    )


SC, HDC = rows("Sc"), rows("Hdc")
BACK = rows("Sc", "back loop only of each st")
FRONT = rows("Sc", "front loop only of each st")
DC = (
    f"{TALL}Ch 10.\nRow 1 (RS): Dc in 4th ch from hook and in each ch across. Turn. (8 dc)\n"
    "Rows 2-5: Ch 3, sk first st, dc in next st and in each st across. Turn. (8 dc)\n"
)
USUAL = Wish(width=200)
DISC = (
    f"{HEAD}Rnd 1 (RS): 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
    "Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)\n"
)


@cache
def checked(text: str) -> Checked:
    return check(Source(text))


@cache
def picture(text: str, wish: Wish = USUAL) -> FabricPicture:
    found = fabric_picture(checked(text), wish)
    assert isinstance(found, FabricPicture), found
    return found


def differ(one: FabricPicture, other: FabricPicture) -> float:
    """The share of points that differ by more than a twentieth in some colour."""
    high = min(len(one.points), len(other.points))
    off = np.abs(one.points[:high].astype(int) - other.points[:high].astype(int))
    return float((off.max(axis=2) > 12).mean())


@pytest.mark.parametrize("text", [SC, HDC, DC, BACK])
def test_the_two_sides_of_a_fabric_differ(text: str) -> None:
    wrong = Wish(width=200, wrong_side=True)
    assert differ(picture(text), picture(text, wrong)) >= 0.15


@pytest.mark.parametrize("text", [BACK, FRONT])
def test_stitches_in_one_loop_differ_from_those_in_both(text: str) -> None:
    assert differ(picture(text), picture(SC)) >= 0.15


def inside(text: str) -> NDArray[np.uint8]:
    """How much of each point is covered, a stitch and a half within the edges."""
    clear = picture(text, Wish(width=260, table=""))
    edge = round(1.6 * clear.scale)
    found: NDArray[np.uint8] = clear.points[edge:-edge, edge:-edge, 3]
    return found


@pytest.mark.parametrize("text", [SC, HDC, DC, BACK, FRONT])
def test_the_table_does_not_show_through_solid_fabric(text: str) -> None:
    assert (inside(text) < 128).mean() < 0.02


def test_the_table_shows_through_a_mesh() -> None:
    mesh = (
        "US terms. The ch 5 counts as a dc and a ch-2 sp.\n\nCh 20.\nRow 1 (RS): Dc in 8th ch "
        "from hook, *ch 2, sk next 2 ch, dc in next ch; rep from * across. Turn. (6 dc, 5 "
        "ch-2 sps)\nRows 2-5: Ch 5, dc in next dc, *ch 2, dc in next dc; rep from * across, "
        "working the last dc in 3rd ch of beg ch. Turn. (6 dc, 5 ch-2 sps)\n"
    )
    assert (inside(mesh) < 128).mean() > 0.25


def test_a_left_hander_sees_the_mirror_image() -> None:
    right = picture(SC, Wish(width=160, table=""))
    left = picture(SC, Wish(width=160, table="", left_handed=True))
    mirrored = left.points[:, ::-1, 3].astype(int)
    assert np.abs(mirrored - right.points[..., 3]).mean() < 4
    assert differ(right, left) > 0.15


def test_the_light_comes_from_the_upper_left_for_left_handers_too() -> None:
    for wish in (Wish(width=200), Wish(width=200, left_handed=True)):
        points = picture(SC, wish).points.mean(axis=2)
        assert points[-4:].mean() < points[:4].mean()
        assert points[:, -4:].mean() < points[:, :4].mean()


STRIPES = (
    "US terms. The ch 1 at the start of a row does not count as a stitch.\n\nWith A, ch 9.\n"
    "Row 1 (RS): With A, sc in 2nd ch from hook and in each ch across. Turn. (8 sc)\n"
    "Rows 2-4: Ch 1, sc in each st across. Turn. (8 sc)\n"
    "Row 5: With B, ch 1, sc in each st across. Turn. (8 sc)\n"
    "Rows 6-8: Ch 1, sc in each st across. Turn. (8 sc)\n"
)


def test_rows_have_the_colour_of_their_yarn() -> None:
    found = picture(STRIPES)
    middle = slice(60, -60)
    upper, lower = found.points[40:90, middle], found.points[-90:-40, middle]
    seen = pictures.pieces_seen(checked(STRIPES), Wish())
    (piece,) = (one for one in seen if isinstance(one, pictures.Seen))
    assert [colour.name for colour in piece.colours] == ["A", "B"]
    for part, colour in ((lower, piece.colours[0]), (upper, piece.colours[1])):
        told = np.array([int(colour.code[i : i + 2], 16) for i in (1, 3, 5)], dtype=float)
        mean = part.reshape(-1, 3).mean(axis=0)
        tint = mean / mean.sum() - told / told.sum()
        assert np.abs(tint).max() < 0.05
    assert any("stand-ins" in sentence for sentence in found.said)


def test_the_same_pattern_gives_the_same_points() -> None:
    one = fabric_picture(checked(DC), Wish(width=150))
    other = fabric_picture(checked(DC), Wish(width=150))
    assert isinstance(one, FabricPicture)
    assert isinstance(other, FabricPicture)
    assert np.array_equal(one.points, other.points)


def test_a_row_that_is_added_moves_no_stitch_below_it() -> None:
    lies = []
    for last in (6, 7):
        seen = pictures.pieces_seen(checked(rows("Sc", last=last)), Wish())
        (piece,) = (one for one in seen if isinstance(one, pictures.Seen))
        lies.append(lie_of(piece.cloth))
    shorter, longer = lies
    number = shorter.cloth.size
    assert np.array_equal(shorter.seed, longer.seed[:number])
    apart = shorter.threes[:, 1] - longer.threes[:number, 1]
    assert np.abs(apart - apart[0]).max() < 1e-3


def test_maps_and_strands_look_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    text = rows("Sc", number=24, last=22)
    strands = picture(text).points.astype(float)
    monkeypatch.setattr(pictures, "MANY", 0)
    tiled = fabric_picture(checked(text), Wish(width=200))
    assert isinstance(tiled, FabricPicture)
    maps = tiled.points.astype(float)
    assert maps.shape == strands.shape
    assert np.abs(maps.mean(axis=(0, 1)) - strands.mean(axis=(0, 1))).max() < 8
    blocks = (slice(0, len(maps) // 8 * 8), slice(0, 200))

    def coarse(points: NDArray[np.float64]) -> NDArray[np.float64]:
        own = points[blocks]
        found: NDArray[np.float64] = own.reshape(len(own) // 8, 8, 25, 8, 3).mean((1, 3))
        return found

    assert np.abs(coarse(maps) - coarse(strands)).mean() < 8


def test_a_picture_too_large_to_be_drawn_is_made_smaller_and_that_is_said(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(pictures, "MOST_POINTS", {False: 10_000, True: 10_000})
    found = fabric_picture(checked(SC), Wish(width=400))
    assert isinstance(found, FabricPicture)
    assert found.points.shape[0] * found.points.shape[1] <= 10_200
    assert "no larger one is drawn" in found.said[-1]


def test_a_piece_that_cannot_lie_flat_is_drawn_and_said_to_be_so() -> None:
    disc = (
        f"{HEAD}Rnd 1 (RS): 12 sc in magic ring. (12 sc)\n"
        "Rnd 2: 2 sc in each st around. (24 sc)\nRnd 3: 2 sc in each st around. (48 sc)\n"
        "Rnd 4: 2 sc in each st around. (96 sc)\n"
    )
    found = picture(disc)
    assert found.said
    assert found.stitches == 12 + 24 + 48 + 96


def test_a_tube_is_laid_double() -> None:
    tube = (
        f"{HEAD}Rnd 1 (RS): 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 "
        "sc)\nRnds 3-9: Sc in each st around. (12 sc)\n"
    )
    found = picture(tube)
    assert found.said == ("It stands up, and is shown laid double.",)
    assert found.stitches < 6 + 12 * 8, "what faces away is not drawn"
    assert len(found.points) > 200, "it is higher than wide"


def test_a_disc_is_as_wide_as_high() -> None:
    high, wide, _ = picture(DISC).points.shape
    assert high == pytest.approx(wide, rel=0.08)


def test_work_that_is_stopped_stops() -> None:
    told: list[float] = []

    def stop(done: float, _: str) -> bool:
        told.append(done)
        return done < 0.6

    with pytest.raises(Cancelled):
        fabric_picture(checked(DC), Wish(width=150), stop)
    assert told == sorted(told)


def test_a_pattern_without_rows_says_that_it_has_no_fabric() -> None:
    assert isinstance(fabric_picture(checked("Ch 10.\n"), Wish()), str)


def test_a_spike_reaches_over_the_row_below() -> None:
    text = (
        f"{HEAD}With A, ch 9.\nRow 1 (RS): With A, sc in 2nd ch from hook and in each ch across. "
        "Turn. (8 sc)\nRow 2: Ch 1, sc in each st across. Turn. (8 sc)\n"
        "Row 3: With B, ch 1, sc in first 3 sts, spike sc in next 2 sts, sc in last 3 sts. Turn. "
        "(8 sts)\n"
    )
    seen = pictures.pieces_seen(checked(text), Wish())
    (piece,) = (one for one in seen if isinstance(one, pictures.Seen))
    assert piece.cloth.row[piece.cloth.reach].tolist() == [[3, 1], [3, 1]]
