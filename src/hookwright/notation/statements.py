"""Conventions a pattern states in a sentence: what counts, which loops, when to turn."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from hookwright.notation.begun_together import decrease_counted
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import is_line_mark
from hookwright.notation.place_words import IGNORED, STITCH_NOUNS
from hookwright.notation.tree import Statement, Topic
from hookwright.source import Span

_NOT = frozenset(
    "not never neither don't doesn't isn't won't aren't uncounted no nor without cannot "
    "can't".split()
).union(IGNORED)
_CHAIN = frozenset("ch chs chain chains tch".split())
_BEGINS = frozenset(
    "turning turn beginning beg starting start starts opening opens open first "
    "row rnd round throughout always turns tch head edge begin begins "
    "beginnings stands".split()
)
_INSIDE = frozenset("inside within between among".split())
_EVER = frozenset("always throughout".split())
_BEGINNING = frozenset("turning beginning beg starting tch".split())
_STARTS = frozenset("start starts begin begins opens opening".split())
_ROUNDS = frozenset("rnd rnds round rounds".split())
_ROWS = _ROUNDS | {"row", "rows"}
_COUNT = frozenset(
    "count counts counted counting is are acts act stands stand equals = "
    "considered as too represents".split()
).union(IGNORED)
_MAKES = frozenset("make makes form forms give gives".split())
_SPACES = frozenset("sp sps space spaces hole holes gap gaps".split())
AT_HOOK = frozenset(
    "skipped missed left passed omitted unworked beginning start began edge".split()
)
"""What is said of the chains that a row begins with."""


def statements_in(tokens: list[Token]) -> Iterator[Statement]:
    """The conventions stated in some tokens, sentence by sentence."""
    for sentence in sentences(tokens):
        for said in _neither(sentence):
            for each in _each_subject(said):
                for clause in filter(None, _clauses(each)):
                    yield from _of_sentence(clause)


def _neither(tokens: list[Token]) -> Iterator[list[Token]]:
    """ "The turning ch never counts, and neither do the 2 ch skipped" says two things.

    So does "except the ch 3 of Row 7, which is a dc", of a chain that it gives a length.
    """
    at = next((i for i, token in enumerate(tokens) if token.text in ("neither", "nor")), 0)
    other = next((i for i, token in enumerate(tokens) if token.text == "except"), 0)
    if other and not at and _chain_length(tokens[other:]) is not None:
        at = other
    yield tokens[:at] or tokens
    if at:
        yield tokens[at:]


def _each_subject(tokens: list[Token]) -> Iterator[list[Token]]:
    """ "Ch 1 and the first 2 ch are never a stitch" says one thing of two chains."""
    verbs = (_COUNT | _NOT | {"do", "does", "will"}) - {"neither", "nor"}
    verb = next((i for i, token in enumerate(tokens) if token.text in verbs), 0)
    joints = [i for i in range(verb) if tokens[i].text in ("and", "nor", "or")]
    ends = [*joints, verb]
    subjects = [tokens[a:b] for a, b in pairwise([0, *ends])] if joints else []
    lengths = [_chain_length(subject) for subject in subjects]
    if len({*lengths}) < len(subjects) or None in lengths or not subjects:
        yield tokens
        return
    for subject in subjects:
        yield [*subject, *tokens[verb:]]


def _clauses(tokens: list[Token]) -> Iterator[list[Token]]:
    """ "Ch 3 counts as a dc, ch 4 as a dc and ch 1" says two things.

    So does "3 ch stand for a tr, 2 ch for a htr", with one verb for both.
    """
    verb = next((token for token in tokens if token.text in _VERBS), None)
    for clause in _parted(tokens):
        yield _with_verb(clause, verb)


_VERBS = frozenset("counts count stands stand acts act".split())
_MEANING = frozenset("for as".split())


def _with_verb(clause: list[Token], verb: Token | None) -> list[Token]:
    """A clause with the verb of its sentence, where it has none of its own."""
    at = next((i for i, token in enumerate(clause) if token.text in _MEANING), 0)
    chain = at and _chain_length(clause[:at]) is not None
    meant = _stitch_named(clause[at:]) or not _NOT.isdisjoint(t.text for t in clause[at:])
    if verb is None or not (chain and meant) or any(t.text in _COUNT for t in clause[:at]):
        return clause
    return [*clause[:at], verb.moved(clause[at].start - verb.start), *clause[at:]]


def _parted(tokens: list[Token]) -> Iterator[list[Token]]:
    """The clauses of a sentence that begin with a chain and tell what it stands for."""
    if not tokens or _chain_length(tokens[:8]) is None:
        yield tokens
        return
    told = _COUNT | _MEANING if any(t.text in _VERBS for t in tokens) else _COUNT
    first = 0
    for i, token in enumerate(tokens):
        near, far = (5, 7) if token.kind is Kind.COMMA else (3, 4)
        if token.kind is not Kind.COMMA and token.text != "and":
            continue
        begins = _chain_length(tokens[i + 1 : i + 1 + near]) is not None
        if begins and any(t.text in told for t in tokens[i + 1 : i + 1 + far]):
            if i > first:  # not between a comma and "and"
                yield tokens[first:i]
            first = i + 1
    yield tokens[first:]


def sentences(tokens: list[Token]) -> Iterator[list[Token]]:
    """Tokens up to each stop, semicolon, or line end with a gap or a list mark behind."""
    sentence: list[Token] = []
    line = 0  # where the present line begins in the sentence
    for at, token in enumerate(tokens):
        ends = token.kind in (Kind.STOP, Kind.SEMICOLON, Kind.END) or (
            token.kind is Kind.LINE
            and (
                token.value > 1
                or _explains(sentence)
                or _is_entry(sentence[line:])
                or _listed(tokens, at + 1)
            )
        )
        if ends:
            if sentence:
                yield sentence
            sentence = []
        elif token.kind is not Kind.LINE:
            sentence.append(token)
        line = len(sentence) if ends or token.kind is Kind.LINE else line
    if sentence:
        yield sentence


def _listed(tokens: list[Token], at: int) -> bool:
    """Whether an entry of a list begins here."""
    return at < len(tokens) and is_line_mark(tokens[at])


def _is_entry(line: list[Token]) -> bool:
    """ "htr - half treble": a line of a list that has a dash between word and meaning."""
    dashes = [i for i, token in enumerate(line) if token.kind is Kind.DASH]
    if len(dashes) != 1 or not 0 < dashes[0] <= _LONGEST_ENTRY_NAME:
        return False
    wide = not line[dashes[0]].glued and len(line) <= _LONGEST_ENTRY
    return wide and not any(token.text in _COUNT for token in line)


_LONGEST_ENTRY_NAME, _LONGEST_ENTRY = 3, 12  # words and marks


def _is_of_another(tokens: list[Token], known: set[str]) -> bool:
    """Whether a stitch is explained, "V = (dc, ch 1, dc)", or every chain spoken of.

    So it is where "the ch 2 and the first dc stand together for a dc2tog".
    """
    left = not known & _COUNT - _IS and _tells_what_is_left(tokens)
    if "together" in known or left:
        return True
    if _explains(tokens) and not any(t.text in _CHAIN for t in tokens[:4]):
        return True
    begins = _BEGINS - _EVER - (_ROWS if known & _INSIDE else frozenset())
    if _of_every_chain(tokens) and not known & begins:
        return True
    return _beside_stitch(tokens) and not known & _BEGINS


def _beside_stitch(tokens: list[Token]) -> bool:
    """ "A sc and a ch-1 each count as one st": the chains that stand between stitches."""
    verb = next((i for i, t in enumerate(tokens) if t.text in _COUNT), 0)
    subject = tokens[:verb]
    joined = any(token.text in ("and", "or") for token in subject)
    return (
        joined and any(t.text in _CHAIN for t in subject) and bool(_stitch_named(subject))
    )


def _of_every_chain(tokens: list[Token]) -> bool:
    """ "Each ch-1 counts as a st": chains between stitches."""
    return any(
        token.text in ("each", "every", "all", "any")
        and any(near.text in _CHAIN for near in tokens[i + 1 : i + 3])
        for i, token in enumerate(tokens)
    )


def _explains(tokens: list[Token]) -> bool:
    """Whether a line explains a word, "V = 2 dc in one place": it ends with the line.

    So does a list of words that ends with one, unless a comma says that it goes on.
    """
    told = tokens[1:4] if tokens and tokens[-1].kind is Kind.COMMA else tokens[1:]
    return any(token.kind is Kind.EQUALS for token in told)


def _of_sentence(tokens: list[Token]) -> Iterator[Statement]:
    words = [token.text for token in tokens]
    known = set(words)
    span = Span(tokens[0].start, tokens[-1].end)
    chain = _turning_chain(tokens, known, span)
    if chain is not None:
        yield chain
    space = _space_counts(tokens, known, span)
    begins = known & _BEGINNING or (known & _STARTS and known & _ROWS)
    if not known & _SPACES and begins and not _of_every_chain(tokens):
        space = None
    if space is not None:
        yield space
    if _slips_count(tokens, known):
        yield Statement(Topic.SLIPS, holds=True, span=span)
    yield from _turning(words, known, span)
    if "spiral" in known and not known & {"not"}:
        yield Statement(Topic.SPIRAL, holds=True, span=span)
    behind = known & {"behind"} and known & {"skip", "skipped", "sk", "miss", "missed"}
    if behind:
        yield Statement(Topic.STITCH_BEHIND, holds=True, span=span)
    if _count_stays(tokens, known):
        yield Statement(Topic.COUNT_STAYS, holds=True, span=span)


_STAYS = frozenset("stays stay remains remain same constant unchanged".split())
_OF_SOME = frozenset(
    "except until from after before if when should may might border edging side".split()
)


def _count_stays(tokens: list[Token], known: set[str]) -> bool:
    """ "The stitch count stays the same in every row": of all rows, or it is not read."""
    counted = known & {"count", "number"} and known & STITCH_NOUNS
    every = known & {"throughout", "every", "each", "all", "always"}
    if not (counted and every and known & _STAYS) or known & (_NOT | _OF_SOME):
        return False
    return not any(token.kind in (Kind.NUMBER, Kind.ORDINAL) for token in tokens)


def _turning_chain(tokens: list[Token], known: set[str], span: Span) -> Statement | None:
    """ "Ch 3 counts as dc throughout", "the turning chain is ignored", "3ch is a tr"."""
    if not known & _CHAIN or not known & (_COUNT | _MAKES) or "between" in known:
        return None
    if _is_of_another(tokens, known) or _chains_counted(tokens, known):
        return None
    as_two = (
        _either_of_two(tokens, span)
        or _begun_together(tokens, span)
        or _stitch_and_space(tokens, span)
    )
    if as_two is not None or not known & _COUNT:
        return as_two
    length = _chain_length(tokens)
    begins = bool(known & _BEGINS)
    between = _is_single_between(tokens) and not known & (_BEGINNING | _STARTS)
    if between or (length is None and not begins):
        return None
    negative = bool(known & _NOT)
    about = known & (
        {
            "count",
            "counts",
            "counted",
            "counting",
            "stands",
            "stand",
            "acts",
            "equals",
            "=",
        }
        | IGNORED
        | STITCH_NOUNS
    )
    stitch = _stitch_named(tokens)
    if known & _SPACES and not known & {"turning", "beginning", "beg", "t"}:
        return None
    if negative:
        if not about or _is_not_otherwise(tokens, known):
            return None
        return Statement(Topic.TURNING_CHAIN, holds=False, span=span, chains=length)
    if not stitch and not known & {"count", "counts", "counted"}:
        return None
    plain = _is_plainly(tokens)
    if not (begins or plain or known & (_VERBS | {"="})):
        return None
    return Statement(Topic.TURNING_CHAIN, holds=True, span=span, chains=length, word=stitch)


def _is_single_between(tokens: list[Token]) -> bool:
    """ "A ch-1 is a stitch here", "count every ch 1": of the chains between stitches."""
    for at, token in enumerate(tokens[1:-1], 1):
        if token.text not in _CHAIN:
            continue
        dashed = tokens[at + 1].kind is Kind.DASH
        every = tokens[at - 1].text in ("each", "every", "all", "any")
        if every or (dashed and tokens[at - 1].text == "a"):
            return tokens[at + 1 + dashed].value == 1
    return False


def _tells_what_is_left(tokens: list[Token]) -> bool:
    """ "Until 3 ch are left, ch 1, sk 2 ch": how far a row goes."""
    behind = {after.text for word, after in pairwise(tokens) if word.text in ("is", "are")}
    return bool(behind & _LEFT)


_LEFT = frozenset("left remaining over unworked still reached".split())


def _is_plainly(tokens: list[Token]) -> bool:
    """ "Ch 3 is a dc."; not "a bead is a sc with the ch-1 behind it"."""
    at = next((i for i, t in enumerate(tokens[:5]) if t.text in ("is", "are")), 0)
    return at > 1 and any(token.text in _CHAIN for token in tokens[:at])


def first_of_count(tokens: list[Token]) -> Iterator[Statement]:
    """ "(16 sts - the chains you skipped are the first of them)": such chains count."""
    words = [token.text for token in tokens]
    known = set(words)
    if not tokens or tokens[0].kind is not Kind.NUMBER or known & _NOT:
        return
    first = {("first", "of"), ("number", "one"), ("number", "1")} & set(pairwise(words))
    if first and known & _CHAIN and known & AT_HOOK:
        span = Span(tokens[0].start, tokens[-1].end)
        yield Statement(Topic.TURNING_CHAIN, holds=True, span=span, word="st")


_IS = frozenset("is are as too".split())
_NO_STITCH = frozenset("a an as any one your part considered included worked".split())


def _is_not_otherwise(tokens: list[Token], known: set[str]) -> bool:
    """ "Ch 60, join, taking care that it is not twisted": not in what it counts for."""
    if known & _COUNT - _IS:
        return False
    behind = {after.text for word, after in pairwise(tokens) if word.text in _NOT}
    return not behind & (_NO_STITCH | STITCH_NOUNS | set(_PLAIN))


def _begun_together(tokens: list[Token], span: Span) -> Statement | None:
    """ "Ch 2, dc in next st at the start of a row counts as dc2tog"."""
    chains, decrease = _chain_length(tokens), decrease_counted(tokens)
    if chains is None or not decrease or {token.text for token in tokens} & _NOT:
        return None
    topic = Topic.BEGUN_TOGETHER
    return Statement(topic, holds=True, span=span, chains=chains, word=decrease)


def _either_of_two(tokens: list[Token], span: Span) -> Statement | None:
    """ "Ch 4 = tr, or dc and ch 1": it counts, and the row tells as which of them."""
    at = next((i for i, token in enumerate(tokens) if token.text in _COUNT), len(tokens))
    parts = [i for i, token in enumerate(tokens) if i > at and token.text == "or"]
    length = _chain_length(tokens[:at])
    if length is None or not parts or {token.text for token in tokens} & _NOT:
        return None
    either = _stitch_named(tokens[at : parts[0]]), _stitch_named(tokens[parts[0] :])
    if not all(either) or either == ("st", "st"):
        return None
    return Statement(Topic.TURNING_CHAIN, holds=True, span=span, chains=length, word="st")


def _stitch_and_space(tokens: list[Token], span: Span) -> Statement | None:
    """ "Ch 5 at the start of a row counts as 1 dc and a ch-2 sp", "makes a dc and 2 ch"."""
    at = next((i for i, token in enumerate(tokens) if token.text in _COUNT), None)
    at = _where_it_makes(tokens) if at is None else at
    if at is None or {token.text for token in tokens} & _NOT:
        return None
    length = _chain_length(tokens[:at])
    stitch, above = _stitch_named(tokens[at:]), _chain_length(tokens[at:])
    if length is None or above is None or above >= length or stitch in ("", "st"):
        return None
    return Statement(
        Topic.TURNING_CHAIN,
        holds=True,
        span=span,
        chains=length,
        word=stitch,
        stands_chains=above,
    )


def _where_it_makes(tokens: list[Token]) -> int | None:
    """Where "makes" stands behind a chain and nothing worked: "the ch 5 at each turn"."""
    for i, token in enumerate(tokens[:_LONGEST_SUBJECT]):
        if token.text in _MAKES:
            return i
        if token.kind not in (Kind.WORD, Kind.NUMBER, Kind.DASH):
            return None
    return None


_LONGEST_SUBJECT = 10


def _chain_length(tokens: list[Token]) -> int | None:
    for i, token in enumerate(tokens):
        if token.text not in _CHAIN:
            continue
        ahead = [t for t in tokens[i + 1 : i + 3] if t.kind is not Kind.DASH]
        if ahead and ahead[0].kind is Kind.NUMBER:
            return ahead[0].value
        before = [t for t in tokens[max(0, i - 2) : i] if t.kind is not Kind.DASH]
        if before and before[-1].kind is Kind.NUMBER:
            return before[-1].value
    return None


_PLAIN = {
    "sc": "sc", "hdc": "hdc", "dc": "dc", "htr": "htr", "tr": "tr", "dtr": "dtr",
    "single": "sc", "double": "dc", "treble": "tr",
    "st": "st", "stitch": "st", "sts": "st", "stitches": "st",
}  # fmt: skip


def _stitch_named(tokens: list[Token]) -> str:
    half = False
    for at, token in enumerate(tokens):
        if token.text == "half":
            half = True
        elif token.text == "double" and [t.text for t in tokens[at + 1 : at + 2]] == [
            "treble"
        ]:
            return "dtr"
        elif token.text in _PLAIN:
            name = _PLAIN[token.text]
            if half:
                return {"dc": "hdc", "tr": "htr"}.get(name, name)
            if name != "st" or token.text in ("st", "stitch"):
                return name
    return ""


def _space_counts(tokens: list[Token], known: set[str], span: Span) -> Statement | None:
    """ "Each ch-1 space counts as a stitch", "when you come to a hole, it is one st"."""
    if _chains_counted(tokens, known):
        return Statement(Topic.SPACES, holds=True, span=span)
    if not known & (_SPACES | {"ch-1"}) and "ch" not in known:
        return None
    if not known & STITCH_NOUNS:
        return None
    if not known & _SPACES and not ("ch" in known and "1" in known):
        return None
    counts = known & {"counts", "counted", "count", "stands", "stand", "hole"}
    if not counts and not _each_is_one(tokens, known):
        return None
    holds = not known & _NOT
    worth = _stitches_told(tokens) if holds else 0
    if worth:
        chains = _chain_length(tokens)
        return Statement(Topic.SPACES, holds, span, chains, stands_stitches=worth)
    apart = None if holds else _chain_length(tokens)  # "the ch-2 sp is never counted"
    edge = "edge" if holds and known & _EDGES and known & _TOO else ""
    return Statement(Topic.SPACES, holds=holds, span=span, chains=apart, word=edge)


def _stitches_told(tokens: list[Token]) -> int:
    """The 2 of "a ch-3 sp counts as 2 sts"; 0 where as many are told as it has chains."""
    at = next((i for i, token in enumerate(tokens) if token.text in _COUNTED_AS), 0)
    chains, behind = _chain_length(tokens[:at]), tokens[at + 1 : at + 4]
    if not chains or [t.text for t in behind[:1]] not in (["as"], ["for"]):
        return 0
    told = len(behind) > _AS_ONE and behind[_AS_ONE].text in STITCH_NOUNS
    number = behind[1].value if told and behind[1].kind is Kind.NUMBER else 0
    return number if number > 0 and number != chains else 0


_COUNTED_AS = frozenset("count counts counted stand stands".split())
_AS_ONE = 2
"""Where the noun stands in "as 2 sts"."""
_INCLUDED = frozenset("counted included".split())
_INCLUDING = frozenset("counting including".split())
_ALL_CHAINS = frozenset("chs chains sps spaces".split())


def _chains_counted(tokens: list[Token], known: set[str]) -> bool:
    """ "41 places in every row, chains counted", "31 sts, counting the ch sps"."""
    if known & (_BEGINNING | _NOT) or _chain_length(tokens) is not None:
        return False
    words = [token.text for token in tokens if token.text not in ("the", "all", "ch")]
    return any(
        (one in _ALL_CHAINS and other in _INCLUDED)
        or (one in _INCLUDING and other in _ALL_CHAINS)
        for one, other in pairwise(words)
    )


_EDGES = frozenset("edge edges side end turning".split())
_TOO = frozenset("too also included including".split())


def _each_is_one(tokens: list[Token], known: set[str]) -> bool:
    """ "Each sc and each ch-1 sp is one st"."""
    at = next((i for i, token in enumerate(tokens) if token.text in ("is", "are")), None)
    if at is None or not known & {"each", "every"}:
        return False
    behind = [token.text for token in tokens[at + 1 : at + 4]]
    return behind[:1] != [] and behind[0] in _ONE and bool(STITCH_NOUNS & set(behind))


_ONE = frozenset("a one 1 also itself".split())


SLIP_WORDS = frozenset("sl ss slst slip".split())


def _slips_count(tokens: list[Token], known: set[str]) -> bool:
    """ "The sl st at the start of a row counts as a st": it is part of the fabric."""
    if not known & SLIP_WORDS or known & (_CHAIN | _NOT) or not known & _COUNTED:
        return False
    at = next(i for i, token in enumerate(tokens) if token.text in _COUNTED)
    return is_a_stitch(tokens[at:])


_COUNTED = frozenset("count counts counted counting".split())


def is_a_stitch(tokens: list[Token]) -> bool:
    """Whether something "counts as a st", or just counts: of a slip stitch behind it."""
    words = [token.text for token in tokens if token.kind in (Kind.WORD, Kind.NUMBER)]
    counted = bool(words) and words[0] in _COUNTED and not _NOT & set(words)
    return counted and (len(words) == 1 or bool(set(words) & (STITCH_NOUNS | set(_PLAIN))))


def _turning(words: list[str], known: set[str], span: Span) -> Iterator[Statement]:
    if "turn" not in known and "turned" not in known and "turning" not in known:
        return
    about_rows = known & {
        "row",
        "rows",
        "rnd",
        "rounds",
        "round",
        "every",
        "each",
        "never",
        "always",
        "after",
        "without",
    }
    if not about_rows or known & _CHAIN - {"chains"}:
        return
    if known & _NOT:
        yield Statement(Topic.NO_TURN, holds=True, span=span)
    elif known & {"every", "each", "always", "after"} and len(words) < 14:
        rows = "row" if known & {"row", "rows"} else ""
        word = "round" if known & _ROUNDS else rows
        yield Statement(Topic.TURN, holds=True, span=span, word=word)
