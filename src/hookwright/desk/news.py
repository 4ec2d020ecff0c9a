"""News for the page: a stream of events that stays open as long as the page is."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from typing import Any

import msgspec

_A_SIGN_OF_LIFE_S = 10.0
_MOST_WAITING = 200


class News:
    """What happened, for every page that listens."""

    def __init__(self) -> None:
        """Nobody listens yet."""
        self._listeners: set[asyncio.Queue[bytes]] = set()
        self._over = asyncio.Event()
        self._loop: asyncio.AbstractEventLoop | None = None

    def begin(self) -> None:
        """Be ready to be told from other threads."""
        self._loop = asyncio.get_running_loop()

    def tell(self, kind: str, what: dict[str, Any]) -> None:
        """Tell all who listen; from any thread."""
        data = b"event: %b\ndata: %b\n\n" % (kind.encode(), msgspec.json.encode(what))
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self._put, data)

    def _put(self, data: bytes) -> None:
        for queue in self._listeners:
            if queue.qsize() < _MOST_WAITING:
                queue.put_nowait(data)

    def end(self) -> None:
        """Let every stream end, so that the server can."""
        self._over.set()
        self._put(b"")

    async def stream(self) -> AsyncIterator[bytes]:
        """The events for one page."""
        queue: asyncio.Queue[bytes] = asyncio.Queue()
        self._listeners.add(queue)
        try:
            yield b": here\n\n"
            while not self._over.is_set():
                try:
                    yield await asyncio.wait_for(queue.get(), _A_SIGN_OF_LIFE_S)
                except TimeoutError:
                    yield b": here\n\n"
        finally:
            self._listeners.discard(queue)
