"""How far is a long piece of work, and is it to go on?

Whatever takes long is given a `Progress`: a function that is told how much is done and what
is being done just now, and answers whether to go on. A terminal draws a line with it, a
page a bar, a test a list. The work itself knows none of these: it calls `tell` between two
steps, and hands on a stretch of its own progress to each part of itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

Progress = Callable[[float, str], bool]
"""Told the share that is done, from 0 to 1 and never falling, and in a few words what is
being done; "" where there is nothing to say of it. False stops the work."""


class Cancelled(Exception):  # noqa: N818 - it was asked for
    """Whoever was told of the work has stopped it."""


def tell(progress: Progress | None, done: float, doing: str = "") -> None:
    """Tell how far the work is; nobody may be listening.

    Raises:
        Cancelled: When the answer is to stop.
    """
    if progress is not None and not progress(min(max(done, 0.0), 1.0), doing):
        raise Cancelled


def stretch(
    progress: Progress | None, begin: float, end: float, doing: str = ""
) -> Progress | None:
    """The progress of a part of some work: its 0 to 1 are `begin` to `end` of the whole.

    Args:
        progress: That of the whole; None where nobody listens.
        begin: The share of the whole that is done when the part begins.
        end: And when it ends.
        doing: What is told where the part itself has nothing to say.
    """
    if progress is None:
        return None

    def told(done: float, words: str) -> bool:
        return progress(begin + (end - begin) * done, words or doing)

    return told


def stretches(
    progress: Progress | None, sizes: Sequence[float]
) -> Iterator[Progress | None]:
    """The progress of each of several parts, as long as the part is large."""
    whole = sum(sizes) or 1.0
    done = 0.0
    for size in sizes:
        yield stretch(progress, done / whole, (done + size) / whole)
        done += size
