"""What is put out reads back as the pattern it was made from, in US and in UK terms."""

from __future__ import annotations

import re

import pytest
from examples_checked import example
from released import released, waves

from hookwright.checking import Checked, check
from hookwright.reading import read_bytes

EXAMPLES = ("turnstone-wave-throw", "skerry-yoke-tee", "")
"""Stripes and edgings; three sizes and counts by kind; two sizes in columns."""
LABEL = re.compile(r"\s*\((?:RS|WS|right side|wrong side)\)")


def numbers(checked: Checked, size: int | None = None) -> list[tuple[object, ...]]:
    """Each row with its label, its numbers and its printed count, in one size or all."""
    found: list[tuple[object, ...]] = []
    for line in checked.lines:
        columns: tuple[tuple[object, ...], ...] = (
            line.first,
            line.last,
            line.stitches,
            line.uses,
            line.spaces,
            line.stated,
        )
        if size is not None:
            columns = tuple(column[size : size + 1] for column in columns)
        label = LABEL.sub("", line.printed).replace("\u00a0", " ").replace("Round", "Rnd")
        found.append((label, *columns))
    return found


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_copy_has_the_rows_and_counts_of_its_source(name: str) -> None:
    source = example(name) if name else waves()
    for file, made in released(name).items():
        ending = file.rpartition(".")[2]
        if ending not in {"pdf", "html", "txt"} or "large" in file:
            continue
        copy = check(read_bytes(made.data, f".{ending}", file))
        assert numbers(copy) == numbers(source), file
        assert not copy.has_errors(), file


@pytest.mark.parametrize(
    "name", ["turnstone-wave-throw", "petrel-cap", "shingle-cloth", ""]
)
def test_large_print_with_an_action_a_line_is_still_the_same_rows(name: str) -> None:
    source = example(name) if name else waves()
    large = {file: made for file, made in released(name).items() if "large" in file}
    assert len(large) == 2 * max(1, len(source.sizes))
    for file, made in large.items():
        copy = check(read_bytes(made.data, ".pdf", file))
        size = next(
            (
                n
                for n, own in enumerate(source.sizes)
                if file.endswith(f"{own.lower()}.pdf")
            ),
            None,
        )
        rows = [row[3:6] for row in numbers(source, size) if row[3] != (None,)]
        assert [row[3:6] for row in numbers(copy)] == rows, file


def test_copies_say_the_terms_they_are_in() -> None:
    for file, made in released("").items():
        if file.endswith(".txt"):
            read = check(read_bytes(made.data, ".txt", file))
            assert read.terms == ("UK" if "-uk" in file else "US")
