"""Stitches the pattern defines: "Shell: 5 dc in same st", "inc = 2 sc in one st"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from msgspec.structs import replace

from hookwright.notation.bodies import as_crossed, as_listed
from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.makes import read_square_name
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    NEXT_WORDS,
    STITCH_NOUNS,
    UNUSED_WORDS,
)
from hookwright.notation.rows import read_row
from hookwright.notation.sections import section_of
from hookwright.notation.tree import Chain, Definition, Make, Node, Which
from hookwright.notation.vocabulary import (
    Phrases,
    StitchWord,
    base_stitch,
    compound,
    phrases,
)
from hookwright.source import Span

_LONGEST_NAME = 5
_NOT_NAMES = frozenset(
    "row rows rnd rnds round rounds note notes tip gauge tension hook "
    "materials size sizes panel yarn with using ch chain multiple finished skill "
    "level row1 foundation instructions pattern rs ws beg rep repeat sk skip "
    "st sts lp lps yo tog rem begin repeat join abbreviations body border "
    "edging pattern you turn fasten finishing dk fo mc cc so then now start "
    "begin here size total next last first after before also but and in into between from "
    "on around onto through please no without".split()
)


def read_definition(
    tokens: list[Token],
    text: str,
    own_words: Phrases,
    *,
    listed: bool,
    before: Definition | None = None,
) -> Definition | None:
    """A definition that takes up these tokens (a line or an entry of a list).

    `listed` is true inside a list of stitches or abbreviations, where the mark between name
    and meaning may be a stop, a dash or missing. `before` is the definition before it,
    which "the same from the back" goes back to.
    """
    tokens = _within_bars(without_quotes(tokens))
    name, body_at = _name(tokens, listed=listed)
    if not name:
        return None
    body = tokens[body_at:]
    if _begins_row(body):
        return None
    if not body or (beginning_names(name) and _is_like_another(body)):
        return None
    short = _short_names(tokens[:body_at])
    more = [other for one in (name, *short) for other in beginning_names(one)]
    names = tuple(dict.fromkeys((name, *short, *more)))
    end = Token(Kind.END, "", 0, body[-1].end, body[-1].end)
    span = Span(tokens[0].start, body[-1].end)
    over = _places_named(tokens[:body_at])
    if not over and _go_past_one_another(body):
        over = _width_named(tokens[:body_at])
    posted = _round_post([*body, end])
    same = "" if posted or over > 1 else _same_round_post(body, before)
    if (posted or same) and not _is_known(name):
        told = before is not None and bool(same) and before.in_motions
        return Definition(names, span, stitch=posted or same, in_motions=told)
    found = _meaning(names, [*body, end], text, own_words, span, over, listed=listed)
    if found is None or found.body or found.is_alias:
        return found
    return replace(found, words=_in_one_line(text[body[0].start : end.start]))


_BAR = "|"


def _within_bars(tokens: list[Token]) -> list[Token]:
    """ "| V-st | (tr, ch 1, tr) in one st |": an entry in a table, without its last bar."""
    while tokens and tokens[-1].text == _BAR:
        tokens = tokens[:-1]
    return tokens


_QUOTES = frozenset("\"“”„«»'‘’")


def without_quotes(tokens: list[Token]) -> list[Token]:
    """ "'Corner' = (2 dc, ch 2, 2 dc) in the sp": a name in quotes, and no quotes."""
    if not tokens or tokens[0].text not in _QUOTES:
        return tokens
    near = range(2, min(len(tokens), _LONGEST_NAME + 3))
    closed = next((at for at in near if tokens[at].text in _QUOTES), 0)
    return [*tokens[1:closed], *tokens[closed + 1 :]] if closed else tokens


def _begins_row(body: list[Token]) -> bool:
    """ "Sides: Rnd 4: Ch 1, ...", "Side: 4th rnd:": the name of a part, and a row of it."""
    if len(body) < 2:
        return False
    row, number = (body[1], body[0]) if body[0].kind is Kind.ORDINAL else body[:2]
    return number.kind in (Kind.NUMBER, Kind.ORDINAL) and row.text in _ROWS


_ROWS = frozenset("row rows rnd rnds round rounds".split())


def _in_one_line(words: str) -> str:
    """Some words without line ends, and without the marks that part entries of a list."""
    return " ".join(words.replace(";", ".").split()).rstrip(".")


def _short_names(tokens: list[Token]) -> list[str]:
    """The "cm" of "Closed mesh (cm)", where it is no stitch of the trade.

    The "s" of "Solid (S)" stands apart; that of "sl st(s)" only says there may be several.
    """
    opened = next((i for i, token in enumerate(tokens) if token.kind is Kind.OPEN), None)
    closed = next((i for i, token in enumerate(tokens) if token.kind is Kind.CLOSE), 0)
    inside = tokens[opened + 1 : closed] if opened is not None else []
    words = [token.text for token in inside]
    glued = opened is not None and tokens[opened].glued
    if (words in _PLURAL and glued) or not 0 < len(words) <= _MOST_SHORT:
        return []
    if inside[0].kind is not Kind.WORD or any(
        t.kind is not Kind.WORD and not t.glued for t in inside
    ):
        return []
    short = len(words[-1]) <= 6 and not _NOT_NAMES & {*words[len(words) > 1 :]}
    return [" ".join(words)] if short and not is_stitch_name(words) else []


_MOST_SHORT = 2
_PLURAL = (["s"], ["es"])
"""What stands in brackets where there may be several: "sl st(s)"."""
_BEGINNING = ("beginning", "beg", "starting", "start")


def beginning_names(name: str) -> list[str]:
    """ "Beginning tile" is called "beg tile" as well, unless it is told otherwise."""
    first, _, rest = name.partition(" ")
    others = (word for word in _BEGINNING if word != first)
    return [f"{word} {rest}" for word in others] if first in _BEGINNING and rest else []


_COMPLETE = frozenset("finish complete close end continue finished completed".split())


def _is_like_another(body: list[Token]) -> bool:
    """ "Beg pc: the same with ch 3 in place of the first dc": a pc, as any other.

    So it is where it only ends so: "ch 3, 3 dc in same place, finish as pc".
    """
    cursor = Cursor([*body, Token(Kind.END, "", 0, 0, 0)])
    cursor.take_word("work", "make", "do")
    if cursor.take_phrase("the same", "same", "as for", "as the", "as", "like"):
        return True
    words = [token.text for token in body]
    return any(a in _COMPLETE and b in ("as", "like") for a, b in pairwise(words))


def _name(tokens: list[Token], *, listed: bool) -> tuple[str, int]:
    words: list[str] = []
    led = _to_make(tokens)
    if led:
        name, at = _name_before_mark(tokens[led:])
        return _checked(name) if name else "", led + at
    for i, token in enumerate(tokens):
        if token.kind in (Kind.COLON, Kind.EQUALS) and words:
            return _checked(_without_article(words)), i + 1
        if token.text in ("is", "means") and i > 1 and tokens[0].text in ARTICLES:
            return _checked(words[1:]), i + 1
        if token.kind is Kind.DASH and words:
            wide = not token.glued
            if wide and (listed or is_stitch_name(words)):
                return _checked(words), i + 1
            continue
        if listed and words and _ends_name(token, words):
            return _checked(words), i + 1
        if token.kind is Kind.OPEN and words:
            at = _marked_bracket(tokens, i)
            return (_checked(words), at) if at else ("", 0)
        if not _may_be_named(tokens, i, listed=listed) or len(words) >= _LONGEST_NAME:
            return "", 0
        loose = token.kind is Kind.NUMBER and not _is_glued(tokens, i)
        words.append("" if loose else token.text)
    return "", 0


def _ends_name(token: Token, words: list[str]) -> bool:
    """Whether a mark parts a name from its meaning in a list: a stop, or a table's bar."""
    comma = token.kind is Kind.COMMA and len(words) == 1
    return token.kind is Kind.STOP or token.text == _BAR or comma


def _may_be_named(tokens: list[Token], at: int, *, listed: bool) -> bool:
    """Whether a token may be part of a name: "1st" of a stitch of its own may begin one."""
    token = tokens[at]
    if not at and (token.kind is Kind.ORDINAL or token.text == "first"):
        return _begins_a_stitch(tokens) or (listed and _is_first_block(tokens))
    return token.kind in (Kind.WORD, Kind.NUMBER)


def _is_first_block(tokens: list[Token]) -> bool:
    """ "First tile: ch 5, hdc in 3rd ch, ...": the block that a row begins with."""
    kinds = [token.kind for token in tokens[1:3]]
    chained = kinds == [Kind.WORD, Kind.COLON] and tokens[3:4]
    return bool(chained) and tokens[3].text in CHAIN_NOUNS


def _begins_a_stitch(tokens: list[Token]) -> bool:
    """ "1st cluster (B1):" is a stitch of its own; "1st round:" is none."""
    behind = Cursor([*tokens[1:], Token(Kind.END, "", 0, 0, 0)])
    stitch = behind.stitch()
    marked = behind.is_kind(Kind.OPEN, Kind.COLON, Kind.EQUALS)
    return stitch is not None and stitch.family != "plain" and marked


ARTICLES = ("a", "an", "each", "one")


def _without_article(words: list[str]) -> list[str]:
    """ "A block = ch 3 and 3 dc": no article is part of a name; "A = ..." has one."""
    to_do = len(words) == _TO_DO and words[0] == "to"  # "To cross: skip a st, ..."
    article = len(words) > 1 and words[0] in ("a", "an", "the")
    return words[1:] if to_do or article else words


_TO_DO = 2


def _to_make(tokens: list[Token]) -> int:
    """How many words of "To make an open mesh (om), ch 2 ..." stand before its name."""
    words = [token.text for token in tokens[:3]]
    made = words[:1] in (["to"], ["for"]) and len(words) == 3
    at = 1 + (words[1] in ("make", "work")) if made else 0
    return at + 1 if at and words[at : at + 1] and words[at] in ARTICLES else 0


def _name_before_mark(tokens: list[Token]) -> tuple[list[str], int]:
    """The words up to a comma or colon, past a bracket, and where the meaning begins."""
    words: list[str] = []
    for i, token in enumerate(tokens[: _LONGEST_NAME + 4]):
        if token.kind in (Kind.COMMA, Kind.COLON):
            return words, i + 1
        bracketed = any(before.kind is Kind.OPEN for before in tokens[: i + 1])
        if (token.kind is Kind.WORD or token.spelled) and not bracketed:
            words.append(token.text)
        elif not bracketed:
            break
    return [], 0


def _is_glued(tokens: list[Token], at: int) -> bool:
    """Whether a number stands within a word, as in "C4F"."""
    following = tokens[at + 1 : at + 2]
    after = bool(following) and following[0].glued and following[0].kind is Kind.WORD
    return (at > 0 and tokens[at].glued) or after


def _marked_bracket(tokens: list[Token], at: int) -> int:
    """Where the meaning begins behind "Shell (sh) (over 5 sts):"; 0 without such a mark."""
    marks = (Kind.COLON, Kind.EQUALS, Kind.DASH)
    for i in range(at, min(len(tokens) - 1, at + 12)):
        following = tokens[i + 1].kind
        if tokens[i].kind is Kind.CLOSE and following is not Kind.OPEN:
            return i + 2 if following in marks else 0
    return 0


def is_stitch_name(words: list[str]) -> bool:
    """Whether some words are a stitch that everybody knows."""
    end = Token(Kind.END, "", 0, 0, 0)
    cursor = Cursor([*(Token(Kind.WORD, w, 0, 0, 0) for w in words), end])
    return cursor.stitch() is not None and cursor.done()


_BEGINS = ("beg", "first")
_NEVER_IN_NAMES = frozenset(
    "uk us terms written pattern row rnd round rows rnds rounds count counts".split()
)


def _checked(words: list[str]) -> str:
    if not words[0] and len(words) == 1:
        return ""
    if words[0] == "r" and len(words) > 1 and words[1].isdecimal():
        return ""  # "* R1: sc across": a row, in a list
    words = _without_places(words)
    single = words[0] in ("st", "rs") and len(words) == 1
    begins = words[0] in _BEGINS and len(words) > 1 and words[1] not in _NOT_NAMES
    if words[0] in _NOT_NAMES and not (single or begins):
        return ""
    if not _NEVER_IN_NAMES.isdisjoint(words) or words[-1] in _SEAMS:
        return ""
    return " ".join(word for word in words if word)


_SEAMS = ("seam", "seams")
"""What is closed so is a place of the piece: "Heel seam: sl st through both layers"."""


def _without_places(words: list[str]) -> list[str]:
    """ "Cable over 4 sts": how many it takes is no part of its name."""
    over = words.index("over") if "over" in words[1:] else 0
    behind = [word for word in words[over + 1 :] if word not in NEXT_WORDS]
    counted = behind[:1] == [""] and {*behind[1:]} <= STITCH_NOUNS
    return words[:over] if over and counted else words


def _meaning(
    names: tuple[str, ...],
    body: list[Token],
    text: str,
    own_words: Phrases,
    span: Span,
    over: int,
    *,
    listed: bool,
) -> Definition | None:
    name = names[0]
    if section_of(name) is not None:
        return None
    if _is_known(name):
        return _short_for(names, span)
    body = _behind_long_name(_behind_width(body))
    whole = text[body[0].start : body[-1].end]
    same = _plain_name(body) or read_square_name(Cursor(body))
    if same is not None:
        return Definition(names, span, stitch=same)
    if _in_hook_motions(body):
        # Few patterns tell motions, and reading them takes modules and tables of its own.
        from hookwright.notation.hook_motions import read_motions  # noqa: PLC0415

        motions = read_motions(whole, body[0].start)
        if motions is not None and motions.heads + motions.chains > 0:
            heads = 1 if _ends_in_one(name) else motions.heads
            side = _side({token.text for token in body}) if _around_post(body) else ""
            return Definition(
                names, span, (), motions.passes, heads,
                stitch=_PREFIX.get(side, "") + motions.base, in_motions=True,
            )  # fmt: skip
    cursor = Cursor(_first_sentence(body), own_words=own_words)
    nodes, _ = read_row(cursor, text)
    if not listed and _works_a_row(nodes):
        return None
    crossed = as_crossed(names, nodes, span)
    if crossed is None and over > 1 and _go_past_one_another(body):
        made = (node.stitch for node in nodes if isinstance(node, Make))
        return Definition(names, span, (), over, over, stitch=next(made, ""))
    found = crossed or as_listed(names, nodes, span, body)
    if found is not None and over and over > 1 and not found.is_alias:
        return _over_several(found, over)
    return found


def _works_a_row(nodes: Sequence[Node]) -> bool:
    """ "Band: ch 1, sc in each st." begins a row, and goes all along the one below."""
    begun = bool(nodes) and isinstance(nodes[0], Chain)
    return begun and any(
        isinstance(node, Make)
        and node.target is not None
        and node.target.which is Which.EACH
        and node.target.noun == "st"
        and node.target.amount is None
        for node in nodes
    )


def _behind_width(body: list[Token]) -> list[Token]:
    """ "(A cross is) two stitches wide: sk next st, ...": the work, not the width."""
    cursor = Cursor([*body, Token(Kind.END, "", 0, 0, 0)])
    cursor.take_word("worked", "made")
    cursor.take_word("over", "across")
    told = cursor.number() is not None and cursor.take_word(*STITCH_NOUNS)
    cursor.take_word("wide", "across", "long")
    return body[cursor.at + 1 :] if told and cursor.is_kind(Kind.COLON) else body


def _behind_long_name(body: list[Token]) -> list[Token]:
    """ "(V-st:) V stitch: (dc, ch 1, dc) in one st": what the stitch is made of."""
    cursor = Cursor([*body, Token(Kind.END, "", 0, 0, 0)])
    named = cursor.stitch() is not None and cursor.at > 1
    if not named or not cursor.take_kind(Kind.COLON, Kind.COMMA, Kind.EQUALS):
        return body
    return body[cursor.at :] if cursor.is_kind(Kind.OPEN) else body


def _short_for(names: tuple[str, ...], span: Span) -> Definition | None:
    """ "Long sc (Lsc): ...": the stitch is known, and its short name now is too."""
    short = tuple(name for name in names[1:] if not _is_known(name))
    words = [Token(Kind.WORD, word, 0, 0, 0) for word in names[0].split()]
    stitch = Cursor([*words, Token(Kind.END, "", 0, 0, 0)]).stitch()
    return Definition(short, span, stitch=stitch.id) if short and stitch else None


_POSTS = frozenset("post stem stalk".split())
_PREFIX = {"front": "fp", "back": "bp"}


def _side(words: set[str]) -> str:
    """Whether some words speak of the front or of the back; "" for both or neither."""
    sides = words & set(_PREFIX)
    return sides.pop() if len(sides) == 1 else ""


def _around_post(body: list[Token]) -> bool:
    """Whether the hook goes in around a post: "insert hook from front round stem of st"."""
    return any(token.text in _POSTS for token in body)


def _round_post(body: list[Token]) -> str:
    """ "1 tr round the post of the stitch from the front": a post stitch, named anew."""
    words, bases = _beside_stitches(body)
    side = _side(words)
    if not words & _POSTS or not side or words & {"yo", "yoh", "yrh", "insert"}:
        return ""
    return _PREFIX[side] + bases.pop() if len(bases) == 1 else ""


def _beside_stitches(body: list[Token]) -> tuple[set[str], set[str]]:
    """The words that are no part of a stitch's name, and the plain stitches named.

    In "front post treble crochet around each st" the post is in the name.
    """
    cursor = Cursor(body)
    words, bases = set(), set()
    while not cursor.done():
        stitch = cursor.stitch()
        if stitch is None:
            words.add(cursor.step().text)
        elif stitch.family == "plain" and base_stitch(_without_post(stitch.id)):
            bases.add(_without_post(stitch.id))
    return words, bases


def _without_post(stitch: str) -> str:
    return stitch.removeprefix("fp").removeprefix("bp")


def _same_round_post(body: list[Token], before: Definition | None) -> str:
    """ "the same from the back": the post stitch before it, from the other side."""
    words = {token.text for token in body}
    side = _side(words)
    base = _without_post(before.stitch) if before is not None else ""
    if not side or "same" not in words or before is None or base == before.stitch:
        return ""
    return _PREFIX[side] + base


def _over_several(found: Definition, over: int) -> Definition:
    """A stitch said to be worked over so many places, whatever its words come to."""
    base = next((node.stitch for node in found.body if isinstance(node, Make)), "")
    stitch = base or found.stitch
    return replace(found, passes=over, body=(), in_one_place=False, stitch=stitch)


_OVER = ("worked", "work", "over", "across", "uses", "in", "next")


def _places_named(tokens: list[Token]) -> int:
    """The 2 of "Twist (worked over 2 sts)"; 0 where nothing is said."""
    for i, token in enumerate(tokens):
        if token.kind is Kind.OPEN and i + 2 < len(tokens) and tokens[i + 1].text in _OVER:
            for number, noun in pairwise(tokens[i + 1 : i + 6]):
                if number.kind is Kind.NUMBER and noun.text in STITCH_NOUNS:
                    return max(0, min(number.value, 99))
    return 0


def _width_named(tokens: list[Token]) -> int:
    """The 4 of "Twist (4 sts)" and "4-st twist"; 0 where nothing is said."""
    told = [token for token in tokens if token.kind is not Kind.DASH]
    for before, number, noun in zip(told, told[1:], told[2:], strict=False):
        opened = before.kind is Kind.OPEN and number.kind is Kind.NUMBER
        if opened and noun.text in STITCH_NOUNS:
            return min(number.value, 99)
    first = told[0] if len(told) > 1 and told[0].kind is Kind.NUMBER else None
    named = first is not None and told[1].text in STITCH_NOUNS
    return min(first.value, 99) if first is not None and named else 0


def _go_past_one_another(body: list[Token]) -> bool:
    """ "... in front of these", "go back and ...", "crossing behind": stitches cross."""
    words = [token.text for token in body]
    return not _CROSSED.isdisjoint(words) or not _CROSSINGS.isdisjoint(pairwise(words))


_CROSSED = frozenset("cross crossing crossed".split())
_CROSSINGS = frozenset((
    ("front", "of"), ("go", "back"), ("going", "back"), ("goes", "back"),
    ("behind", "these"), ("behind", "those"), ("behind", "them"),
))  # fmt: skip


def _ends_in_one(name: str) -> bool:
    """Whether a name of the trade is of many stitches that leave one top: "popcorn"."""
    end = Token(Kind.END, "", 0, 0, 0)
    words = [Token(Kind.WORD, word, 0, 0, 0) for word in name.split()]
    stitch = Cursor([*words, end]).stitch()
    return stitch is not None and stitch.family == "cluster"


def _is_known(name: str) -> bool:
    """Whether a name is a stitch everybody knows: its definition only explains it."""
    end = Token(Kind.END, "", 0, 0, 0)
    words = [Token(Kind.WORD, word, 0, 0, 0) for word in name.split()]
    cursor = Cursor([*words, end])
    stitch = cursor.stitch()
    if stitch is None or not cursor.done():
        return name in ("ch", "chain", "turn", "skip")
    return stitch.family in ("plain", "slip", "foundation") or (
        stitch.legs > 1 and name != "dec"
    )


def _first_sentence(body: list[Token]) -> list[Token]:
    """What a stitch is stands in the first sentence; more of them explain it.

    "Working in front of these, dc in each of the 2 skipped sts" is the rest of it, and so
    is one that begins with "then".
    """
    for i, token in enumerate(body):
        worded = i == 1 and body[0].kind is Kind.WORD and len(body[0].text) > _ABBREVIATED
        behind = body[i + 1 : i + 2]
        if token.kind is Kind.STOP and (
            [t.text for t in behind] == ["then"] or _goes_back(body[i + 1 :])
        ):
            continue
        if token.kind is Kind.STOP and (i > 1 or worded):
            return [*body[:i], Token(Kind.END, "", 0, token.start, token.start)]
    return body


GOES_ON = frozenset("then working passing crossing".split())
"""Words that a sentence goes on with, and no definition begins with."""


def _goes_back(rest: list[Token]) -> bool:
    """Whether a sentence goes on with the stitches skipped before."""
    stop = next((i for i, token in enumerate(rest) if token.kind is Kind.STOP), len(rest))
    words = [token.text for token in rest[:stop]]
    return words[:1] != [] and words[0] in GOES_ON and not _LEFT_BEFORE.isdisjoint(words)


_LEFT_BEFORE = UNUSED_WORDS | {"passed", "left"}


_ABBREVIATED = 3
"""A word so short may bear a stop of its own: "st.", "dc."."""


def _in_hook_motions(body: list[Token]) -> bool:
    words = {token.text for token in body}
    return bool(
        words & {"yo", "yoh", "yrh", "insert", "draw", "pull", "pulled", "holding", "drawn"}
        or ({"loop", "hook"} <= words)
        or ({"work", "off"} <= words)
        or ({"leaving", "last"} <= words)
        or ({"last", "loop"} <= words)
    )


def _plain_name(body: list[Token]) -> str | None:
    """ "st = single crochet", "W = 3 sc in one st" is not; "dc: double crochet" is."""
    cursor = Cursor(body)
    cursor.take_word("a", "an", "the", "one", "1", "plain")
    stitch = cursor.stitch()
    if stitch is None:
        return None
    cursor.take_word("stitch", "st", "stitches")
    while cursor.token.kind in (
        Kind.STOP,
        Kind.COMMA,
        Kind.SEMICOLON,
        Kind.LINE,
        Kind.OTHER,
    ):
        cursor.step()
    if cursor.token.kind is Kind.OPEN or cursor.done():
        return stitch.id
    return None


def words_for(definitions: list[Definition]) -> Phrases:
    """The own stitches of a pattern as vocabulary."""
    return phrases(
        (name.split(), _word_for(definition.names[0], definition))
        for definition in definitions
        for name in definition.names
    )


def _word_for(name: str, definition: Definition) -> StitchWord:
    if definition.is_alias:
        return (
            base_stitch(definition.stitch)
            or compound(definition.stitch)
            or StitchWord(definition.stitch, "plain", height=1)
        )
    passes = definition.passes if definition.passes is not None else 1
    if definition.body:
        return StitchWord(name, "own", passes, definition.heads)
    if definition.heads == 1 and passes > 1:
        return StitchWord(name, "together", passes, 1, legs=passes)
    return StitchWord(name, "own", passes, definition.heads)
