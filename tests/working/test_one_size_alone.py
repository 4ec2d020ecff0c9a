"""A size of a pattern in several is worked as a pattern in that size alone would be."""

from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st
from working_texts import checked

from hookwright.notation.tree import Amount, Make, Target, Which
from hookwright.source import Span
from hookwright.working.lists_by_size import in_size, is_by_size

HERE = Span(0, 0)


def listed(numbers: Sequence[object]) -> str:
    first, *others = map(str, numbers)
    return f"{first} ({', '.join(others)})" if others else first


def yoke(wedges: list[int], rounds: int, gap: int) -> str:
    """Rounds of eight wedges, in one size or several; then a division, and lace."""
    names = "S M L XL".split()[: len(wedges)]
    head = f"Sizes: {listed(names)}.\n\n" if len(wedges) > 1 else ""
    text = [
        f"US terms. {head}Ch 1 does not count as a stitch.\n\n",
        f"Ch {listed([8 * n for n in wedges])}, join with sl st to form a ring.\n",
        "Rnd 1: Ch 1, sc in each ch around, join.\n",
    ]
    for number in range(2, 2 + rounds):
        before = listed([n + number - 3 for n in wedges])
        group = f"*sc in next {before} sts, 2 sc in next st; rep from * 7 more times"
        text.append(f"Rnd {number}: Ch 1, {group}, join.\n")
    now = [8 * (n + rounds) for n in wedges]
    skipped, chains = [n // 4 for n in now], listed([gap + at for at in range(len(now))])
    kept = listed([n // 4 for n in now])
    skip = f"ch {chains}, sk next {listed(skipped)} sts; rep from * once more, join."
    text += [
        f"Rnd {2 + rounds}: Ch 1, *sc in next {kept} sts, {skip}\n",
        f"Rnd {3 + rounds}: Ch 1, sc in each st and ch around, join.\n",
        f"Rnd {4 + rounds}: Ch 1, *sc in next st, ch 1, sk next st; rep from *, join.\n",
    ]
    return "".join(text)


@settings(max_examples=12)
@given(
    st.lists(st.integers(3, 14), min_size=2, max_size=4),
    st.integers(0, 4),
    st.integers(2, 7),
)
def test_each_size_comes_to_what_it_does_alone(
    wedges: list[int], rounds: int, gap: int
) -> None:
    together = checked(yoke(wedges, rounds, gap)).worked.sizes
    for size, wedge in enumerate(wedges):
        alone = checked(yoke([wedge], rounds, gap + size)).worked.sizes[0]
        for one, other in zip(together[size].outcomes, alone.outcomes, strict=True):
            assert (one.tally, one.below) == (other.tally, other.below)


@given(st.lists(st.integers(0, 99) | st.none(), min_size=2, max_size=5), st.integers(0, 6))
def test_a_list_is_its_number_for_the_size(values: list[int | None], size: int) -> None:
    amount = Amount(tuple(values), HERE)
    target = Target("dc", Which.NTH, HERE, ordinals=amount)
    nodes = (Make("sc", HERE), Make("dc", HERE, amount, target))
    (plain, told) = in_size(nodes, size)
    assert plain is nodes[0]
    assert is_by_size((told,)) is (size >= len(values))
    if size < len(values):
        own = Amount((values[size],), HERE)
        there = Target("dc", Which.NTH, HERE, ordinals=own)
        assert told == Make("dc", HERE, own, there)
