"""No two symbols of a chart lie on one another, in patterns of many kinds."""

from __future__ import annotations

from pathlib import Path

import pytest
from charted import charts
from overlapping import overlaps

from hookwright.checking import check
from hookwright.reading import read_draft

CASES = Path(__file__).parents[1] / "cases"
OF_MANY_KINDS = (
    "flat-c/corner-to-corner-blocks",
    "flat-b/sandbar-rectangle-corner-blocks",
    "flat-c/bench-ripple-back-loops",
    "flat-c/filet-insertion-meshes-second",
    "flat-c/mountain-shawl-back-loops",
    "flat-c/moss-cloth-x18",
    "flat-c/granny-stripes-uk-second",
    "flat-c/long-wave-inc-dec",
    "flat-c/fan-dishcloth-miscount-second",
    "flat-b/turnstone-wrap-count",
    "flat/curlew-shawl-six-a-row",
    "flat/fog-bank-linen-uk",
    "round-b/hexagon-flower-spikes-third",
    "round-b/square-end-at-stars",
    "round-b/mossy-shells-cowl",
    "round-b/puff-hat-count-third",
    "round-b/beret-chain-counts",
    "round/buoy-keyring-repeats",
    "round/puffin-toy-uk",
    "round/ringed-plover-mandala-standing-stitches",
    "round/fulmar-cowl-foundation-hdc",
    "round/kittiwake-oval-basket",
    "round/dog-whelk-hat-brim-in-rows",
    "round-b/spoonbill-sleeve-turned",
    "round-b/eelgrass-oval-uk",
    "round-b/kelp-basket-handles",
    "round-b/hedge-rose-layers",
    "round-b/vintage-medallion-join-third",
    "flat-c/crossed-stitch-wrap",
    "flat-c/rope-strap-rows-below",
    "flat-c/fan-sample-square",
    "flat-b/spindrift-cloth-spikes",
)


@pytest.mark.parametrize("name", OF_MANY_KINDS)
def test_symbols_of_a_chart_lie_apart(name: str) -> None:
    for drawn in charts(check(read_draft(CASES / f"{name}.txt"))):
        found = overlaps(drawn.marks)
        assert [(a.symbol.id, a.node, b.symbol.id, b.node) for a, b in found] == []
