"""One draft has one answer: nothing hangs on the order in which sets happen to lie."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

CASES = Path(__file__).parent / "cases"
DRAFTS = [
    "round-b/granny-triangle-uk-mixed-terms.txt",
    "round-b/granny-hexagon-sl-st-corner.txt",
    "flat-c/tern-colony-runner.txt",
]


def answer_of(draft: str, seed: str) -> bytes:
    """What a program gets, from an interpreter that lays its sets in an order of its own."""
    command = [sys.executable, "-m", "hookwright", "check", "--json", str(CASES / draft)]
    environment = {**os.environ, "PYTHONHASHSEED": seed}
    return subprocess.run(command, env=environment, capture_output=True, check=False).stdout  # noqa: S603 - our own command


@pytest.mark.parametrize("draft", DRAFTS)
def test_the_answer_does_not_hang_on_the_order_of_sets(draft: str) -> None:
    assert len({answer_of(draft, seed) for seed in ("1", "2", "3")}) == 1
