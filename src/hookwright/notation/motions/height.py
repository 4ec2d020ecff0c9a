"""How tall does a stitch stand, and what is it built of?

Every yarn over before the hook goes in asks for one more draw through two loops and makes
the stitch one chain taller: sc 1, dc 3, tr 4, dtr 5, trtr 6 chains by the turning-chain
tables of handbooks; an hdc, drawn off at once, stands at 2.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.notation.motions.places import Place, Where

HEIGHTS = ("sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr")
LOOPS = {"sl st": 1, "sc": 2, "hdc": 3, "dc": 4, "tr": 6, "dtr": 8, "trtr": 10}
"""How often the yarn is pulled through or wound for each: what stays in it as loops."""
YARN_OVERS = {"sl st": 0, "sc": 0, "hdc": 1, "dc": 1, "tr": 2, "dtr": 3, "trtr": 4}

_COIL = 3  # yarn overs drawn off at once from here on make a bullion, as long as a dc
_ON_EDGE = frozenset({Where.NEXT, Where.HERE, Where.NTH, Where.USED})


def unfinished_draws(name: str) -> int:
    """Draws through two loops before the last draw of a plain stitch."""
    return 0 if name in {"sl st", "sc", "hdc"} else YARN_OVERS[name]


class Stitch(Struct):
    """A stitch in work; of several legs the tallest decides how tall it will be."""

    insertions: int = 0  # besides those in the side of a stitch
    links: int = 0  # insertions in the side of a stitch, each as good as a yarn over
    wraps: int = 0  # yarn overs and links, of the leg with most
    link_wraps: int = 0  # yarn overs before a link
    draws_now: int = 0  # draws through two loops, of the leg in work
    draws: int = 0  # the same, of the leg with most
    tall: int = 0  # the height that the words give, as an index of HEIGHTS
    extended: bool = False
    on_edge: bool = False
    on_cloth: bool = False

    def begin_leg(self, wraps: int, place: Place) -> None:
        """The hook goes in once more."""
        self.on_edge |= place.where in _ON_EDGE
        self.on_cloth |= place.where is Where.CLOTH
        if place.where is Where.LINK:
            self.links += 1
            self.link_wraps = max(self.link_wraps, wraps)
        else:
            self.insertions += 1
            self.wraps = max(self.wraps, wraps + self.links)
            self.draws_now = 0

    def draw(self) -> None:
        """Two loops become one."""
        self.draws_now += 1
        self.draws = max(self.draws, self.draws_now)

    def stand_on_side(self) -> None:
        """There is no leg but those in the side of a stitch: the last of them is one."""
        self.wraps = self.link_wraps + self.links - 1
        self.on_edge = True

    def height_and_base(self, draws: int) -> tuple[int, int]:
        """How tall the stitch stands and what it is built of, as indexes of HEIGHTS.

        A stitch of n yarn overs takes at most n + 1 draws to stand full height; what is
        drawn beyond joins it to another. A chain worked into its foot lifts an sc to an hdc
        and the taller ones by half a chain only, which is not said.
        """
        draws = min(draws, self.wraps + 1)
        if draws == 0:
            return max(int(self.wraps > 0), self.tall), 0
        if draws > 1:
            base = min(draws + 1, len(HEIGHTS) - 1)
            return max(base, self.tall), base
        if self.wraps == 0:
            return max(1 + self.extended, self.tall), 1
        return max(2 + (self.wraps >= _COIL), self.tall), 2
