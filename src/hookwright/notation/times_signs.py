"""Which stars are times signs: "(sc, inc) * 6", "inc * 3, 6 sc"?"""

from __future__ import annotations

from hookwright.notation.lexer import Kind, Token

_BEFORE = (Kind.CLOSE, Kind.WORD)
_BEHIND = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.DASH, Kind.EQUALS, Kind.OPEN, Kind.CLOSE,
    Kind.LINE, Kind.END,
)  # fmt: skip
_NAMES_A_STAR = frozenset("from to at between and the first last".split())
_GOES_ON = (Kind.WORD, Kind.COMMA)


def read_times_signs(tokens: list[Token], marks: dict[Kind, list[int]]) -> None:
    """Puts an "x" for each star that says how often, and takes it from the marks.

    Behind a star that is still open, another with a number closes it: "*sc, inc* 6".
    """
    stars = marks[Kind.STAR]
    if not stars:
        return
    opened = 0
    for at in sorted((*stars, *marks[Kind.LINE])):
        token = tokens[at]
        if token.kind is Kind.LINE:
            ended = token.value > 1 or tokens[at - 1].kind not in _GOES_ON
            opened = 0 if ended else opened
        elif opened % 2 or not _is_times(tokens, at):
            opened += 1
        else:
            tokens[at] = Token(Kind.WORD, "x", 0, token.start, token.end, token.glued)
    marks[Kind.STAR] = [at for at in stars if tokens[at].kind is Kind.STAR]


def _is_times(tokens: list[Token], at: int) -> bool:
    if not 0 < at < len(tokens) - 2 or tokens[at].value > 1:
        return False
    before, number, behind = tokens[at - 1], tokens[at + 1], tokens[at + 2]
    told = behind.kind in _BEHIND or behind.text in ("times", "time", "x")
    counted = number.kind is Kind.NUMBER and not number.spelled and told
    return counted and before.kind in _BEFORE and before.text not in _NAMES_A_STAR
