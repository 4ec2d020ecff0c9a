"""Words beside the instructions that yet tell how a row is worked.

"Now along the other side of the chain" is a remark as "mind the gap here" is one, but the
fabric depends on it.
"""

from __future__ import annotations

import re

from hookwright.notation.tree import Remark
from hookwright.regex import regex

_TELLING = regex(
    r"\b(?:(?:other|opposite) side|legs?|foot|feet|underarms?|armholes?|armpit|picots?|"
    r"(?:behind|working|into)\b.*\b(?:of|from|in|into) (?:the )?(?:rnd|round|row) \d+|"
    r"unworked|wait|later|leave|leaving|remaining|rest|unused|free|left|others?)\b",
    re.IGNORECASE,
)


def is_telling(remark: Remark) -> bool:
    """Whether a remark tells where or how far a row is worked."""
    return _TELLING.search(remark.words) is not None
