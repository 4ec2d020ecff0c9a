"""Requests made at random: whatever a desk is sent, it answers in order.

No answer may be a fault of the server, and none may hold a traceback.
`python tests/desk_requests.py 10000` makes ten thousand.
"""

from __future__ import annotations

import json
import random
import sys
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

from desk_served import KEY, served

_PATHS = (
    "/", "/page/desk.js", "/page/..%2f..%2fpyproject.toml", "/opened", "/earlier/pattern",
    "/earlier/..%2f..%2fetc", "/earlier/worksheet", "/ask/seen", "/ask/word", "/ask/sizes",
    "/ask/colours", "/ask/edging", "/ask/swatch", "/ask/shelf", "/ask/begin", "/ask/note",
    "/ask/lesson", "/ask/testers", "/ask/answers", "/ask/corrections", "/ask/costs", "/ask/leaf",
    "/ask/nothing", "/save", "/draft", "/stop", "/%00", "/ask/%ff", "//", "/earlier/",
)  # fmt: skip
_WORDS = (
    "Row 1: Sc in 2nd ch from hook and in each ch across. (9 sc)", "Ch 10.", "*", "((((", "]",
    "rep from * 999999999999 more times", "\u0000", "\U0001f9f6", "Row 2:", "# ", "in next",
    "dc3tog", "(12, 14, 16)", "\\", "<script>alert(1)</script>", "…", "-1", "1e9", "\n", " ",
)  # fmt: skip
_VALUES: tuple[Any, ...] = (
    None, True, -1, 0, 1, 10**12, 1.5, "", "45 in", "A", [], {}, ["A"], [["A", 2], ["B", 4]],
    {"count": "row 1: 9"}, {"have": "9 balls"}, "pdf", "csv",
    "top", "scallop", "../../etc/passwd", "pattern", "worksheet", "x" * 5000,
)  # fmt: skip
_KEYS = (
    "width", "height", "size", "terms", "write", "repeats", "rows", "side", "stitch", "kind",
    "shape", "stripes", "times", "seed", "at", "table", "key", "number", "value", "keep", "words",
    "asked", "other",
)  # fmt: skip


def make_requests(folder: Path, number: int, seed: int = 1) -> Counter[int]:
    """Make so many requests, and assert that each is answered in order.

    Returns:
        How often each status was answered.
    """
    chance = random.Random(seed)  # noqa: S311 - questions, not secrets
    statuses: Counter[int] = Counter()
    with served(folder) as desk:
        for _ in range(number):
            method = chance.choice(("GET", "POST", "POST", "POST", "HEAD", "PUT", "DELETE"))
            path = chance.choice(_PATHS) + _params(chance)
            answered = desk.request(method, path, _body(chance), _headers(chance))
            statuses[answered.status] += 1
            told = f"{method} {path}: {answered.body[:300]!r}"
            assert answered.status not in {500, 502}, told
            assert b"Traceback" not in answered.body, told
            assert b'"fault"' not in answered.body, told
    return statuses


def _headers(chance: random.Random) -> dict[str, str]:
    headers: dict[str, str] = {}
    if chance.random() < 0.15:
        headers["x-desk-key"] = chance.choice(("", "another", KEY[:-1], KEY * 9))
    if chance.random() < 0.1:
        headers["origin"] = chance.choice(("http://elsewhere.example", "null", ""))
    if chance.random() < 0.1:
        headers["host"] = chance.choice(
            ("elsewhere.example", "", "127.0.0.1", "localhost:1")
        )
    return headers


def _params(chance: random.Random) -> str:
    if chance.random() < 0.7:
        return ""
    name = chance.choice(("version", "name", "other"))
    told = chance.choice(("../pattern.md", "a.docx", "a.pdf", "a.md", "", "x" * 999))
    return f"?{name}={told}"


def _body(chance: random.Random) -> bytes:
    if chance.random() < 0.2:
        return chance.randbytes(chance.randrange(200))
    asked: dict[str, Any] = {
        "text": chance.choice((_text(chance), _text(chance), 7, None)),
        "worksheet": chance.choice(
            ("", "[design]\ntitle = 1\n", "[[yarn]]\nhex = 'red'\n[", "]")
        ),
        "wished": {
            key: chance.choice(_VALUES) for key in chance.sample(_KEYS, chance.randrange(4))
        },
        "file": chance.choice(("pattern", "worksheet", "../x", "/etc/passwd", 3)),
        "made_from": chance.choice(("", "0" * 64)),
    }
    kept = {key: value for key, value in asked.items() if chance.random() < 0.93}
    return json.dumps(kept).encode()


def _text(chance: random.Random) -> str:
    return chance.choice(("\n", " ", "")).join(
        chance.choices(_WORDS, k=chance.randrange(12))
    )


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as place:
        answered = make_requests(Path(place), int(sys.argv[1]))
    sys.stdout.write(f"{sys.argv[1]} requests: {dict(sorted(answered.items()))}\n")
