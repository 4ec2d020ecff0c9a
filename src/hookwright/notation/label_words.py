"""What has been read of a label, and the words and marks that tell one."""

from __future__ import annotations

from msgspec import Struct

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.tree import Amount

ROW_NAMES = frozenset("row rows".split())
ROUND_NAMES = frozenset("rnd rnds round rounds rd rds".split())
CALLED = ROW_NAMES | ROUND_NAMES
"""What a row or a round is called."""
NAMED = frozenset(
    "foundation starting start set setup base next dec decrease inc increase "
    "pattern divide dividing body edging border first last final beginning "
    "buttonhole crown brim joining eyelet shell mesh rib picot closing "
    "straight ending neck sleeve cuff heel sole top bottom yoke lace turning "
    "increasing decreasing preparation prep plain return filler ground "
    "underarm hem setting end center centre trim heading chain".split()
)
"""What a row is called that has a name of its own."""
MARKS = (Kind.COLON, Kind.STOP, Kind.DASH, Kind.EQUALS, Kind.CLOSE)
SIDES = {"rs": "RS", "ws": "WS", "right": "RS", "wrong": "WS"}


class LabelWords(Struct):
    """What has been said of a row so far."""

    numbers: list[int]
    is_round: bool = False
    name: str = ""
    side: str = ""
    yarn: str = ""
    ranged: bool = False
    every: str = ""
    until: int = 0
    by_size: tuple[tuple[int, ...], ...] = ()
    next_rows: Amount | None = None
    end: int = 0


def is_marked(cursor: Cursor, ahead: int) -> bool:
    """Whether one of the marks behind a label stands so many words further on."""
    return cursor.peek(ahead).kind in MARKS
