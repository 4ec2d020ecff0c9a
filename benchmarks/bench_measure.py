"""How long does it take to lay a blanket out, and what does it cost in memory?

Prints one row a fabric: reading, building the graph, letting it come to rest, what both
take a stitch, and the most memory in use; seconds are those of the processor. Three waves,
each about twice the last or more, show how the work grows; a plain rectangle begins where
it comes to rest. Fabrics are worked from their text. Beside the smaller ones stands the
time that a general layout of graphs takes on the same edges (Fruchterman-Reingold, and
Kamada-Kawai where the graph is small), if igraph is there: `pip install -e '.[bench]'`.
"""

from __future__ import annotations

import importlib
import importlib.util
import resource
import time

import hookwright.shape.measures  # noqa: F401 - numpy is imported before anything is timed
from hookwright.checking import check
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import start_of
from hookwright.source import Source

HEAD = "US terms. The ch at the start of a row does not count as a stitch.\n\n"
SMALL = 3_000
MIDDLING = 20_000


def plain(stitches: int, rows: int) -> str:
    """A rectangle in sc."""
    return (
        f"{HEAD}Ch {stitches + 1}.\n"
        f"Row 1: Sc in 2nd ch from hook and in each ch across. Turn. ({stitches} sc)\n"
        f"Rows 2-{rows}: Ch 1, sc in each st across. Turn. ({stitches} sc)\n"
    )


def wave(repeats: int, rows: int, slope: int = 6) -> str:
    """A ripple in dc of 2k + 4 stitches a repeat."""
    each = 2 * slope + 4
    total = each * repeats + 1
    body = "dc in next {k} {many}, 3 dc in next {one}, dc in next {k} {many}"
    chains = body.format(k=slope, many="ch", one="ch")
    stitches = body.format(k=slope, many="sts", one="st")
    return (
        f"{HEAD}Ch {total + 1}.\n"
        f"Row 1: Dc in 3rd ch from hook, {chains}, *dc3tog over next 3 ch, {chains}; rep "
        f"from * to last 2 ch, dc2tog over last 2 ch. Turn. ({total} sts)\n"
        f"Rows 2-{rows}: Ch 2, sk first st, dc in next st, {stitches}, *dc3tog over next 3 "
        f"sts, {stitches}; rep from * to last 2 sts, dc2tog over last 2 sts. Turn. "
        f"({total} sts)\n"
    )


def main() -> None:
    """Prints the table."""
    fabrics = {
        "sc 60 x 40": plain(60, 40),
        "wave 177 x 100": wave(11, 100),
        "sc 300 x 300": plain(300, 300),
        "queen, sc 315 x 400": plain(315, 400),
        "wave 385 x 165": wave(24, 165),
        "queen, wave 385 x 330": wave(24, 330),
    }
    print(
        "fabric                  stitches  read s  graph s  rest s  steps  us a stitch"
        "  memory MB  peers"
    )
    for name, text in fabrics.items():
        began = time.process_time()
        checked = check(Source(text))
        read = time.process_time()
        heights = heights_in(checked.worked, 0)
        (piece,) = pieces_laid(checked.worked.sizes[0].outcomes, heights)
        built = time.process_time()
        relaxed = relax(piece.graph, start_of(piece.graph))
        rested = time.process_time()
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(
            f"{name:22} {piece.graph.size:9,} {read - began:7.2f} {built - read:8.2f} "
            f"{rested - built:7.2f} {relaxed.steps:6} "
            f"{1e6 * (rested - read) / piece.graph.size:12.1f} {memory:10.0f}  "
            f"{peers(piece.graph, rested - read)}"
        )


def peers(graph: FabricGraph, own: float) -> str:
    """What general layouts take on the same graph, in times of ours."""
    if importlib.util.find_spec("igraph") is None or graph.size > MIDDLING:
        return "-"
    igraph = importlib.import_module("igraph")
    other = igraph.Graph(n=graph.size, edges=graph.edge.tolist())
    layouts = {"FR": "fr"} | ({"KK": "kk"} if graph.size < SMALL else {})
    told = []
    for short, layout in layouts.items():
        began = time.process_time()
        other.layout(layout)
        told.append(f"{short} {(time.process_time() - began) / own:.0f} x")
    return ", ".join(told)


if __name__ == "__main__":
    main()
