"""What stands in brackets in print, told between semicolons where it is to be heard.

"Double crochet in 4th chain from hook; the skipped chains count as double crochet; ...",
"in next space work 5 double crochet; shell made", "Row 1 again; the last 2 dc go in top
of the turning chain".
"""

from __future__ import annotations

from hookwright.notation.chain_phrases import give_meaning
from hookwright.notation.chains import meaning_of
from hookwright.notation.cursor import Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.said_of_work import give_name
from hookwright.notation.tree import InOnePlace, Make, Recall, Remark

_SKIPPED = Sayings((
    "the skipped chains", "the skipped chain", "skipped chains", "skipped chain",
    "the skipped ch", "skipped ch",
))  # fmt: skip
_ENDS = (Kind.SEMICOLON, Kind.STOP, Kind.END, Kind.CLOSE)
_MOST_WORDS = 16


def read_said_aside(reader: Reader) -> bool:
    """What the chains skipped at the hook count as, or what has been made is called."""
    return _meaning(reader) or _name(reader) or _where_one_goes(reader)


def _meaning(reader: Reader) -> bool:
    cursor = reader.cursor
    if not isinstance(reader.last(), Make) or not cursor.is_any(_SKIPPED):
        return False
    start = cursor.at
    ahead = range(start, min(start + _MOST_WORDS, len(cursor.tokens)))
    end = next((at for at in ahead if cursor.tokens[at].kind in _ENDS), start)
    meaning = meaning_of(list(cursor.tokens[start:end]), cursor.own_words)
    if meaning is None:
        return False
    cursor.at = end
    return give_meaning(reader, meaning, cursor.span_from(start))


def _name(reader: Reader) -> bool:
    cursor = reader.cursor
    if not isinstance(reader.last(), (Make, InOnePlace)):
        return False
    start = cursor.at
    stitch = cursor.stitch()
    if stitch is None or not cursor.take_word("made") or cursor.token.kind not in _ENDS:
        cursor.at = start
        return False
    give_name(reader, stitch.id, own=stitch.family == "own")
    return True


def _where_one_goes(reader: Reader) -> bool:
    """Where the first or the last stitches of a row go, which has told them already.

    "The last 2 dc go in tch" is said of a row that is worked again, "the first sc goes
    where you joined" also of work right before it.
    """
    cursor, start = reader.cursor, reader.cursor.at
    again = any(isinstance(item, Recall) for item in reader.items)
    cursor.take_word("the")
    first = reader.has_work() and not reader.depth and cursor.take_word("first")
    if not (first or (again and cursor.take_word("last", "final"))):
        cursor.at = start
        return False
    several = cursor.number() is not None
    if cursor.stitch() is None or not cursor.take_word(*_GOES):
        cursor.at = start
        return False
    ends = _ENDS if several else (*_ENDS, Kind.COMMA)
    while cursor.token.kind not in ends:
        cursor.step()
    return reader.add(Remark(cursor.span_from(start)))


_GOES = ("go", "goes", "going", "fall", "falls", "falling", "lands", "sits", "comes")
