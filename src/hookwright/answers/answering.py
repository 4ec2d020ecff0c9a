"""From a checked pattern and what a maker asks to replies."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.answers.another_gauge import another_gauge
from hookwright.answers.another_size import another_size
from hookwright.answers.another_yarn import another_yarn
from hookwright.answers.facts import Reply
from hookwright.answers.her_terms import in_her_terms
from hookwright.answers.in_hand import in_hand
from hookwright.answers.lies import lies
from hookwright.answers.off_count import off_count
from hookwright.checking import Checked


class Question(Struct, frozen=True):
    """What a maker asks, each in her words; "" for what she does not ask.

    Attributes:
        width: How wide she wants it.
        height: How high.
        gauge: Her gauge.
        yarn: What is on the band of her yarn.
        have: What yarn she has.
        count: What she counts in which rows.
        lies: "ruffles", "cups", "curls" or "slants".
        size: The name of the size she makes.
    """

    width: str = ""
    height: str = ""
    gauge: str = ""
    yarn: str = ""
    have: str = ""
    count: str = ""
    lies: str = ""
    size: str = ""


def replies_to(checked: Checked, question: Question) -> tuple[Reply, ...]:
    """A reply to each thing that is asked, in the terms of the pattern.

    Never fails: what cannot be told says why.
    """
    size = _size(checked, question.size)
    if size is None:
        names = ", ".join(checked.sizes) or "one size only"
        why = f'There is no size "{question.size}": the pattern has {names}.'
        return (Reply("Which size", (why,), answered=False),)
    replies = _replies(checked, question, size)
    return tuple(in_her_terms(reply, checked.terms) for reply in replies)


def _size(checked: Checked, name: str) -> int | None:
    names = [own.lower() for own in checked.sizes]
    if not name:
        return 0
    return names.index(name.lower()) if name.lower() in names else None


def _replies(checked: Checked, question: Question, size: int) -> Iterator[Reply]:
    if question.count:
        yield off_count(checked, question.count, size)
    if question.width or question.height:
        yield another_size(
            checked,
            size,
            width=question.width or None,
            height=question.height or None,
            gauge=question.gauge or None,
        )
    elif question.gauge:
        yield another_gauge(checked, size, question.gauge)
    if question.yarn:
        yield another_yarn(checked, size, question.yarn)
    if question.have:
        yield in_hand(checked, size, question.have)
    if question.lies:
        yield lies(checked, question.lies)
