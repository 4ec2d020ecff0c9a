"""A fabric answers to its names, in US and in UK terms, and to a name misspelt."""

from __future__ import annotations

import pytest

from hookwright.shelf import Fabric, fabrics, fabrics_meant, name_in
from hookwright.shelf.names import names_of

SHELF = fabrics()


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_no_two_fabrics_answer_to_one_name(terms: str) -> None:
    names = [name for fabric in SHELF for name in set(names_of(fabric, terms))]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize("fabric", SHELF, ids=lambda fabric: fabric.name)
def test_a_fabric_answers_to_what_is_listed(fabric: Fabric, terms: str) -> None:
    for asked in (name_in(fabric, terms), name_in(fabric, terms).upper().replace("-", " ")):
        found = fabrics_meant(asked, SHELF, terms)
        assert found.exactly
        assert found.fabrics == (fabric,)


@pytest.mark.parametrize(
    ("asked", "terms", "name"),
    [
        ("Moss Stitch", "US", "moss"),
        ("linen", "US", "moss"),
        ("dc wave", "US", "dc-wave"),
        ("dc wave", "UK", "sc-wave"),
        ("tr-wave", "UK", "dc-wave"),
        ("the shells", "UK", "shells"),
    ],
)
def test_names_of_the_trade(asked: str, terms: str, name: str) -> None:
    found = fabrics_meant(asked, SHELF, terms)
    assert found.exactly
    assert [fabric.name for fabric in found.fabrics] == [name]


@pytest.mark.parametrize(
    ("asked", "names"),
    [
        ("mos", {"moss"}),
        ("wafle", {"waffle"}),
        ("grany square", {"granny-square"}),
        ("circle", {"sc-circle", "hdc-circle", "dc-circle"}),
        ("ripple", {"sc-wave", "dc-wave", "soft-ripple", "feather-ripple"}),
        ("qqqqq", set()),
        ("", set()),
        ("--", set()),
    ],
)
def test_a_name_that_is_none_tells_the_likeliest(asked: str, names: set[str]) -> None:
    found = fabrics_meant(asked, SHELF, "US")
    assert not found.exactly
    assert {fabric.name for fabric in found.fabrics} >= names
    assert bool(found.fabrics) == bool(names)
