"""How is a row worked as it was read before, with other numbers or on another edge?"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Amount, Node
from hookwright.working.conventions import Readings
from hookwright.working.reading_state import State
from hookwright.working.search import Search
from hookwright.working.steps import Step


def worked_after(search: Search, state: State, step: Step, readings: Readings) -> State:
    """The row as it was read before, whatever count is printed with it.

    A reading that only its count asked for is told to the search as one that is settled.
    """
    bare = replace(step, claims=())
    states = search.after([state], bare)
    same = [state for state in states if state.outcomes[-1].readings == readings]
    if same or not readings:
        return (same or states)[0]
    key = (step.part, step.recalled or 0)
    told = search.after([replace(state, settled={**state.settled, key: readings})], bare)
    kept = {at: own for at, own in told[0].settled.items() if at != key}
    as_told = replace(told[0], settled={**kept, **state.settled})
    return as_told if as_told.outcomes[-1].readings == readings else states[0]


def with_changes(
    nodes: tuple[Node, ...], changes: Mapping[int, int], size: int
) -> tuple[Node, ...]:
    """Instructions with something added to some of their numbers."""

    def changed(part: object) -> object:
        more = changes.get(id(part), 0)
        if not more or not isinstance(part, Amount):
            return part
        at = size if len(part.values) > 1 else 0
        value = part.values[at]
        if value is None:
            return part
        return replace(
            part, values=(*part.values[:at], value + more, *part.values[at + 1 :])
        )

    return rebuilt(nodes, changed)
