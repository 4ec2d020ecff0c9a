"""Does a line without a label go on with the row before it?"""

from __future__ import annotations

from hookwright.notation.collected import Collected, OpenRow
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import Line, is_note, is_section, is_table_row
from hookwright.notation.sections import is_heading
from hookwright.notation.tree import (
    Chain,
    FinishOff,
    InOnePlace,
    Join,
    Loops,
    Make,
    Node,
    Recall,
    Remark,
    Repeat,
    Skip,
    Tail,
    Turn,
    Unread,
)
from hookwright.notation.work import work_in


def goes_on(draft: Collected, opened: OpenRow, line: Line) -> bool:
    """Whether an unlabelled line belongs to the row before it."""
    body = draft.tokens_in(opened)
    empty = not any(token.kind in (Kind.WORD, Kind.NUMBER) for token in body)
    if empty:
        return (
            not is_heading(draft.tokens_in(line), line.text, marked=False) or not line.gap
        )
    if line.gap or is_section(line) or explains_word(draft, line):
        return False
    if _begins_another(draft, opened, line):
        return False
    first, behind = draft.tokens[line.first], draft.cursor(line.first).peek()
    if draft.within_steps and first.kind is Kind.NUMBER and behind.kind is Kind.STOP:
        return False  # "12. Fasten off": the next step
    own = draft.own_letters(first)
    several = first.text in _FOLDS or _works_several(draft, line)
    several = several and _complete(draft, opened)
    if several or _recalls(draft, line) or is_note(line):
        return False
    if own[:1].islower() or first.kind in (Kind.STAR, Kind.NUMBER, Kind.CLOSE, Kind.DASH):
        return not (first.kind is Kind.NUMBER and is_table_row(line))
    if first.kind is Kind.OPEN and not _complete(draft, opened):
        return True
    # the count of a row that is wrapped behind its "Turn."
    counted = _is_bracket(draft.tokens_in(line)) and not draft.read(opened)[1]
    if counted or body[-1].kind in (Kind.COMMA, Kind.SEMICOLON) or _unfinished(body):
        return True
    if _complete(draft, opened):
        return False
    worked = _is_instruction(draft, line) or own.lower() == "total"
    return worked or _closes_round(draft, line) or _ends_with_count(draft, line)


def _ends_with_count(draft: Collected, line: Line) -> bool:
    """ "Fasten off.", with the count of the row in a column beside it."""
    nodes, claims = draft.read(line)
    ended = bool(nodes) and all(isinstance(n, FinishOff | Turn | Remark) for n in nodes)
    return bool(claims) and ended


def _begins_another(draft: Collected, opened: OpenRow, line: Line) -> bool:
    """Whether a line is a row of its own: its name tells it, or the end of the other."""
    if opened.label is None and _complete(draft, opened):  # without labels, rounds each
        return _is_instruction(draft, line)
    tokens = draft.tokens_in(line)
    return _is_named(tokens) and (_is_closed(draft, opened) or _turns_first(tokens))


def _is_closed(draft: Collected, opened: OpenRow) -> bool:
    """Whether the last thing a row does is to close its round."""
    nodes, _ = draft.read(opened)
    last = next((node for node in reversed(nodes) if not isinstance(node, Remark)), None)
    slips = isinstance(last, Make) and last.stitch == "sl st" and last.target is not None
    return isinstance(last, Join) or slips


_FOLDS = frozenset("fold flatten press pinch squeeze lay".split())
"""What is done with a finished piece, before it is closed."""


def _is_bracket(tokens: list[Token]) -> bool:
    """Whether a line is one bracket and nothing else: "(24 (26, 30) dc, 8 ch-2 sps)"."""
    kinds = [token.kind for token in tokens if token.kind not in (Kind.STOP, Kind.LINE)]
    depth = 0
    for at, kind in enumerate(kinds):
        depth += (kind is Kind.OPEN) - (kind is Kind.CLOSE)
        if depth <= 0:
            return at == len(kinds) - 1 and kind is Kind.CLOSE and not depth
    return False


def explains_word(draft: Collected, line: Line) -> bool:
    """Whether a line explains a stitch: "inc = 2 sc in one st", "sc2tog: ...".

    A row may end in such a line where the list of words stands at the end.
    """
    cursor = draft.cursor(line.first)
    if cursor.stitch() is not None and cursor.is_kind(Kind.EQUALS, Kind.COLON):
        return True
    if draft.tokens[line.first].start in draft.squares:
        return True
    begin = draft.tokens[line.first : min(line.first + 6, line.last)]
    named = [token.kind for token in begin]
    name = named[: named.index(Kind.EQUALS)] if Kind.EQUALS in named else []
    return bool(name) and set(name) <= {Kind.WORD, Kind.OPEN, Kind.CLOSE}


def _recalls(draft: Collected, line: Line) -> bool:
    """Whether a line of its own repeats earlier rows."""
    nodes, _ = draft.read(line)
    return (
        bool(nodes)
        and isinstance(nodes[0], Recall)
        and not any(isinstance(node, (Make, Repeat, InOnePlace)) for node in nodes)
    )


def _works_several(draft: Collected, line: Line) -> bool:
    """ "Sc in each st for 6 more rounds": rows of their own."""
    nodes, _ = draft.read(line)
    work = [node for node in nodes if not isinstance(node, Remark)]
    recall = work[-1] if len(work) > 1 else None
    return isinstance(recall, Recall) and recall.rows == (-1,)


def _complete(draft: Collected, opened: OpenRow) -> bool:
    """Whether a row has come to its end: a count, the yarn cut, a turn behind its work."""
    nodes, claims = draft.read(opened)
    worked = [node for node in nodes if not isinstance(node, Remark)]
    if not work_in(worked):
        return False
    return bool(claims) or isinstance(worked[-1], (FinishOff, Turn, Recall))


_UNFINISHED = frozenset("in and next each the of to from st".split())


def _unfinished(body: list[Token]) -> bool:
    """Whether a line breaks off in the middle of a phrase."""
    last = body[-1]
    opens = sum((t.kind is Kind.OPEN) - (t.kind is Kind.CLOSE) for t in body)
    return opens > 0 or last.text in _UNFINISHED


def _is_instruction(draft: Collected, line: Line) -> bool:
    """Whether a line is work to be done rather than words about it."""
    nodes, _ = draft.read(line)
    return instruction_score(nodes) > 0


_WORKED = (Make, Chain, Repeat, InOnePlace, Skip, Join, Recall, Tail, Loops)


def until_cut(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """What is told before the yarn is cut at last; "weave in the ends" behind it is not."""
    ends = [at for at, node in enumerate(nodes) if isinstance(node, FinishOff) and at]
    return nodes[: ends[-1]] if ends else nodes


def instruction_score(nodes: tuple[Node, ...]) -> int:
    """Instructions against remarks, in rough numbers: above 0 it is an instruction."""
    nodes = until_cut(nodes)
    good = sum(
        2
        if isinstance(node, (Repeat, InOnePlace))
        or (isinstance(node, Make) and node.target)
        else 1
        for node in nodes
        if isinstance(node, _WORKED)
    )
    poor = sum(isinstance(node, (Remark, Unread)) for node in nodes)
    return good - poor if good else 0


_LONGEST_NAME = 3


def _is_named(tokens: list[Token]) -> bool:
    """ "Heel opening: ch 16, ...": a name of its own before the work."""
    kinds = [token.kind for token in tokens[: _LONGEST_NAME + 1]]
    words = kinds.index(Kind.COLON) if Kind.COLON in kinds else 0
    return words > 0 and set(kinds[:words]) == {Kind.WORD} and len(tokens) > words + 1


def _turns_first(tokens: list[Token]) -> bool:
    """Whether the work behind a name begins a row: "Flap: Ch 1, turn, sc in ..."."""
    kinds = [token.kind for token in tokens]
    begins = kinds.index(Kind.COLON) + 1
    words = [token.text for token in tokens[begins : begins + _BEGINNING]]
    return "turn" in words and not {*words}.isdisjoint(("ch", "chain"))


_BEGINNING = 5
"""Within so many tokens a row tells its chain and its turn: "ch 1, turn"."""


def _closes_round(draft: Collected, line: Line) -> bool:
    """ "Pull the ring closed; ss in top of 4 ch": a round's end among other words."""
    nodes, _ = draft.read(line)
    return any(
        isinstance(node, Join)
        or (isinstance(node, Make) and node.stitch == "sl st" and node.target)
        for node in nodes
    )
