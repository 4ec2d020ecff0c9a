"""Works done in a process of their own come to what they would come to here."""

from __future__ import annotations

import os
import sys
import threading
import time
from multiprocessing import active_children

import pytest

from hookwright.progress import Cancelled, Progress, tell
from hookwright.release.aside import Aside, Work

FORKS = sys.platform == "linux"


def number(progress: Progress | None) -> int:
    tell(progress, 0.5, "counting")
    return os.getpid()


def wrong(_: Progress | None) -> int:
    raise ValueError("Row 1 is another fabric.")


def endless(progress: Progress | None) -> int:
    while True:
        tell(progress, 0.1, "for ever")
        time.sleep(0.01)


def large(_: Progress | None) -> bytes:
    return bytes(10_000_000)


def dies(_: Progress | None) -> int:
    if FORKS and os.getpid() != HERE:
        os._exit(1)
    return 7


HERE = os.getpid()


def test_works_are_done_in_their_order_by_another_process() -> None:
    works: list[Work[object]] = [number, large, number]
    forks = FORKS and threading.active_count() == 1  # other tests may leave threads
    with Aside() as aside:
        first, bulk, last = aside.begin(works)
        assert bulk.result() == bytes(10_000_000)
        assert first.result() == last.result() == first.result()
        assert (first.result() != os.getpid()) is forks


def test_what_a_work_raises_is_raised_where_its_result_is_asked_for() -> None:
    with Aside() as aside:
        bad, good = aside.begin([wrong, number])
        assert good.result()
        with pytest.raises(ValueError, match="another fabric"):
            bad.result()


def test_whoever_is_told_of_a_work_can_stop_it_at_once() -> None:
    told: list[tuple[float, str]] = []

    def twice(share: float, words: str) -> bool:
        told.append((share, words))
        return len(told) < 2

    with Aside() as aside:
        (begun,) = aside.begin([endless])
        with pytest.raises(Cancelled):
            begun.result(twice)
    assert told[0] == (0.1, "for ever")


def test_a_process_that_ends_before_its_time_leaves_the_work_to_be_done_here() -> None:
    with Aside() as aside:
        before, after = aside.begin([number, dies])
        assert before.result()
        assert after.result() == 7


def test_what_nobody_asks_for_is_given_up() -> None:
    before = set(active_children())
    with Aside() as aside:
        aside.begin([endless])
    assert set(active_children()) <= before
