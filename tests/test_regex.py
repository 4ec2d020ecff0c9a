"""Patterns wait to be compiled until they are used, and are then like any other."""

from __future__ import annotations

import re
from importlib import import_module
from pkgutil import walk_packages

import pytest

import hookwright
from hookwright.regex import regex

MODULES = [
    found.name
    for found in walk_packages(hookwright.__path__, "hookwright.")
    if not found.name.endswith("__main__")
]


@pytest.mark.parametrize("name", MODULES)
def test_every_pattern_at_the_top_of_a_module_can_be_compiled(name: str) -> None:
    waiting = type(regex(""))
    for value in vars(import_module(name)).values():
        if isinstance(value, waiting):
            assert re.compile(value.pattern, value.flags)


def test_a_pattern_answers_as_one_that_was_compiled_at_once() -> None:
    later, at_once = regex(r"(?P<n>\d+) sts?", re.IGNORECASE), re.compile(r"\d+ st(?i:s)?")
    assert [found["n"] for found in later.finditer("2 sts, 30 ST")] == ["2", "30"]
    assert later.sub("-", "ch 1, 8 sts") == at_once.sub("-", "ch 1, 8 sts")
    assert later.groups == 1


def test_a_pattern_that_cannot_be_compiled_says_so_when_it_is_used() -> None:
    broken = regex("(")
    with pytest.raises(re.error):
        broken.search("sc")
