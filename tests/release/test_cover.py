"""The fabric on the cover: a sample of the piece, in its stripes, drawn once."""

from __future__ import annotations

import io
from fractions import Fraction

from examples_checked import FOLDER, example
from PIL import Image
from released import SHEET, WAVES, waves

from hookwright.checking import check
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.reading.markdown import markdown_draft
from hookwright.release.cover import FILE, LEFT_FILE, cover_of, covers_of
from hookwright.release.fabric_key import fabric_key
from hookwright.release.sample import in_stripes, sample_of
from hookwright.release.yarn_amounts import amounts_as_written, balls_for_widths
from hookwright.source import Source

BLANKET = str(FOLDER / "low-water-blanket")


def test_a_sample_has_whole_repeats_and_whole_stripe_sequences() -> None:
    source = check(draft_at(BLANKET), None, worksheet_at(BLANKET))
    sample = sample_of(source)
    assert sample is not None
    body = [line for line in sample.lines if line.part == "Blanket"]
    assert body[0].stitches[0] % 14 == 2  # type: ignore[operator]  # 14 + 2 chains
    assert (body[-1].last[0] or 0) % 20 == 2  # 20 rows a sequence, then 2
    assert all(line.agrees for line in sample.lines)
    stripes = dict(in_stripes(sample, source).worked.pattern.stripes)
    assert [stripes[row] for row in (1, 2, 3, 9, 13, 21)] == ["A", "A", "G", "C", "D", "A"]


def test_what_is_worked_in_rounds_is_shown_whole() -> None:
    assert sample_of(example("kelp-square")) is None


def test_the_fabric_is_drawn_for_both_hands() -> None:
    (right, left) = covers_of(waves(), "fabric")
    with (
        Image.open(io.BytesIO(right.data)) as picture,
        Image.open(io.BytesIO(left.data)) as other,
    ):
        assert picture.size == other.size
        assert picture.width > 1000
    assert cover_of(waves(), FILE, right.data, "fabric") == right
    assert cover_of(waves(), LEFT_FILE, left.data, "fabric") == left


def test_a_fabric_is_the_same_while_its_rows_and_colours_are() -> None:
    other_words = markdown_draft(WAVES.replace("Weave in", "Sew in"), "pattern.md")
    with_sheet = check(other_words, None, Source(SHEET, "worksheet.toml"))
    without = check(other_words)
    assert fabric_key(with_sheet) == fabric_key(waves())
    assert fabric_key(without) != fabric_key(waves())  # other colours


def test_yarn_is_told_only_where_a_swatch_was_weighed() -> None:
    source = check(draft_at(BLANKET), None, worksheet_at(BLANKET))
    (amounts,) = amounts_as_written(source)
    assert set(amounts) == set("ABCDEFGH")
    for amount in amounts.values():  # a ball holds 120 m, bought whole
        assert amount.balls == -(-amount.metres // 120)
    assert amounts_as_written(example("turnstone-wave-throw")) == ()


def test_a_wider_piece_never_takes_fewer_balls() -> None:
    source = check(draft_at(BLANKET), None, worksheet_at(BLANKET))
    widths = [(repeats, Fraction(75 * repeats)) for repeats in (10, 14, 18)]
    found = balls_for_widths(source, widths)
    assert set(found) == {10, 14, 18}
    for letter in "ABCDEFGH":
        balls = [found[repeats][letter].balls or 0 for repeats in (10, 14, 18)]
        assert balls == sorted(balls)


def test_what_is_seen_whole_is_no_larger_than_a_page_needs_it() -> None:
    for cover in covers_of(example("kelp-square"), "fabric"):
        assert cover.picture.kind == "object"
        with Image.open(io.BytesIO(cover.data)) as picture:
            assert max(picture.size) <= 1300
