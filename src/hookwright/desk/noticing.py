"""Was a file changed outside the desk?

The files are looked at twice a second. What the desk has written itself is no news.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from contextlib import suppress

from hookwright.desk.folder import FILES, Folder, NotHere, Text

_EVERY_S = 0.5
_Trace = tuple[int, int, int] | None


class Watch:
    """Knows which text each file is known to hold, and tells when it holds another."""

    def __init__(
        self, folder: Folder, tell: Callable[[str, Text], None], saving: asyncio.Lock
    ) -> None:
        """Watch a folder.

        Args:
            folder: The folder.
            tell: Called with the name of a file and the text that it now holds.
            saving: Held while the desk itself writes: it is not looked then, for what was
                just written is known only when that is done.
        """
        self._saving = saving
        self._folder = folder
        self._tell = tell
        self._known: dict[str, str] = {}
        self._traces: dict[str, _Trace] = {}

    def known(self, name: str, mark: str) -> None:
        """The page knows that a file holds this text."""
        self._known[name] = mark

    async def run(self) -> None:
        """Look until cancelled."""
        while True:
            await asyncio.sleep(_EVERY_S)
            for name in FILES:
                async with self._saving:
                    await asyncio.to_thread(self.look, name)

    def look(self, name: str) -> None:
        """Look at one file now."""
        trace = self._trace(name)
        if name in self._traces and trace == self._traces[name]:
            return
        self._traces[name] = trace
        with suppress(NotHere):
            now = self._folder.read(name)
            if self._known.setdefault(name, now.mark) != now.mark:
                self._known[name] = now.mark
                self._tell(name, now)

    def _trace(self, name: str) -> _Trace:
        """What changes whenever a file is written; None where there is none."""
        try:
            told = self._folder.file(name).stat()
        except (OSError, NotHere):
            return None
        return told.st_mtime_ns, told.st_size, told.st_ino
