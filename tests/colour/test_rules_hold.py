"""Every rule holds in every order that claims it.

The rules are looked at again here, in the rows of the whole piece and in words of their
own, so that the program is not judged by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from colour_texts import planned, worksheet
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from hookwright.colour.facts import ColourPlan, Kind, Order, Rule
from hookwright.colour.wishes import SIMILAR

CODES = some.integers(0, 0xFFFFFF).map("#{:06X}".format)
PALETTES = some.lists(CODES, min_size=2, max_size=7, unique=True)
LETTERS = some.sampled_from("ABCDEFG")
PAIR = some.tuples(LETTERS, LETTERS).map(lambda pair: f'["{pair[0]}", "{pair[1]}"]')
PAIRS = some.lists(PAIR, min_size=1, max_size=2).map(lambda them: f"[{', '.join(them)}]")
YES = some.just("true")
WISHES = some.fixed_dictionaries(
    {},
    optional={
        "keep_apart": PAIRS,
        "keep_together": PAIRS,
        "favourites": LETTERS.map('["{}"]'.format),
        "rows": some.sampled_from(["2", "3", "[2, 4]", "[1, 2, 3]"]),
        "favourite_rows": some.sampled_from(["6", "[6, 8]"]),
        "first_equals_last": YES,
        "spread_similar": YES,
        "least_contrast": some.sampled_from(["10", "25.5"]),
        "light_dark": YES,
        "blend": YES,
        "mirrored": YES,
        "repeated": YES,
        "looks_random": YES,
        "least_gap": some.sampled_from(["1", "2", "3"]),
        "stripes": some.integers(2, 16).map(str),
        "carry": YES,
        "times": some.sampled_from(["1", "3"]),
        "rows_in_all": some.sampled_from(["20", "97"]),
    },
).map(lambda wishes: "".join(f"{key} = {value}\n" for key, value in wishes.items()))


def whole_piece(plan: ColourPlan, order: Order) -> list[int]:
    """The colour of each stripe of the piece."""
    assert plan.palette is not None
    labels = [shade.label for shade in plan.palette.shades]
    return [labels.index(run.colour) for run in order.worked.runs]


def holds(  # noqa: C901, PLR0912 - one case for each rule
    plan: ColourPlan, order: Order, rule: Rule, *, around: bool
) -> bool:
    """Whether an order holds a rule, row for row; `around` if it is worked over and over."""
    palette = plan.palette
    assert palette is not None
    stripes = whole_piece(plan, order)
    runs = order.worked.runs
    rows = [run.last - run.first + 1 for run in runs]
    touching = {frozenset(pair) for pair in pairwise(stripes)}
    light = [palette.shades[colour].lightness for colour in stripes]
    match rule.kind:
        case Kind.NEIGHBOURS:
            return all(len(pair) == 2 for pair in touching)
        case Kind.APART:
            return frozenset(rule.colours) not in touching
        case Kind.TOGETHER:
            seam = {frozenset((stripes[-1], stripes[0]))} if around else set()
            return frozenset(rule.colours) in touching | seam
        case Kind.CONTRAST:
            pairs = [(a, b) for a, b in pairwise(stripes) if a != b]
            return all(palette.difference[a][b] >= rule.number for a, b in pairs)
        case Kind.SPREAD:
            near = [
                *pairwise(stripes),
                *zip(stripes, stripes[2:], strict=False),
            ]
            return all(a == b or palette.difference[a][b] >= SIMILAR for a, b in near)
        case Kind.LIGHT_DARK:
            triples = zip(light, light[1:], light[2:], strict=False)
            return all((a < b > c) or (a > b < c) for a, b, c in triples)
        case Kind.GAP:
            return all(
                a != b
                for far in range(2, rule.number + 1)
                for a, b in zip(stripes, stripes[far:], strict=False)
            )
        case Kind.RANDOM:
            return not has_square([stripe.colour for stripe in order.stripes])
        case Kind.FIRST_LAST:
            return stripes[0] == stripes[-1]
        case Kind.MIRRORED:
            return stripes == stripes[::-1]
        case Kind.ROWS:
            return set(others(plan, order, rows)) <= set(rule.choices)
        case Kind.FAVOURITES:
            own = [
                n
                for run, n in zip(runs, rows, strict=True)
                if run.colour in favourites(plan)
            ]
            if rule.choices:
                return set(own) <= set(rule.choices)
            return not own or min(own) > max(others(plan, order, rows), default=0)
        case Kind.CARRY:
            return all(number % 2 == 0 for number in rows)
        case Kind.LIMIT:
            label = palette.label(rule.colours[0])
            return dict(order.worked.rows_of).get(label, 0) <= rule.number


FAVOURITES: dict[int, set[str]] = {}


def favourites(plan: ColourPlan) -> set[str]:
    return FAVOURITES[id(plan)]


def others(plan: ColourPlan, order: Order, rows: Sequence[int]) -> list[int]:
    """The rows of the stripes that are in no favourite."""
    runs = order.worked.runs
    return [
        n for run, n in zip(runs, rows, strict=True) if run.colour not in favourites(plan)
    ]


def has_square(letters: Sequence[str]) -> bool:
    """Whether two to six letters are followed by themselves."""
    word = list(letters)
    return any(
        word[at : at + n] == word[at + n : at + 2 * n]
        for n in range(2, 7)
        for at in range(len(word) - 2 * n + 1)
    )


@settings(max_examples=120, suppress_health_check=[HealthCheck.too_slow])
@given(PALETTES, WISHES, some.integers(0, 3))
def test_a_rule_that_is_not_told_as_broken_holds(
    codes: list[str], wishes: str, seed: int
) -> None:
    plan = planned(worksheet(codes, wishes), orders=3, seed=seed)
    letters = {chr(ord("A") + at) for at in range(len(codes))}
    wished = wishes.partition('favourites = ["')[2][:1]
    FAVOURITES.clear()
    FAVOURITES[id(plan)] = {wished} & letters
    assert plan.orders
    for order in plan.orders:
        broken = {breach.rule for breach in order.breaches}
        for rule in plan.rules:
            if rule not in broken:
                around = "repeated = true" in wishes
                told = (rule.says, order.worked.line)
                assert holds(plan, order, rule, around=around), told
        assert bool(order.score.breaches) == bool(broken)
        runs = order.worked.runs
        assert runs[0].first == 1
        assert runs[-1].last == order.worked.rows
        assert all(b.first == a.last + 1 for a, b in pairwise(runs))
        assert order.score.breaches <= plan.orders[0].score.breaches
