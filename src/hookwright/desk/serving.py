"""The server of the page: it ends when it is told to, whatever is still open."""

from __future__ import annotations

import asyncio
import logging
import socket

import uvicorn

from hookwright.desk.application import Desk, application


class Server(uvicorn.Server):
    """A server whose open streams end when it is told to."""

    def __init__(self, desk: Desk, port: int, key: str) -> None:
        super().__init__(
            uvicorn.Config(
                application(desk, port, key),
                log_level="warning",
                access_log=False,
                ws="none",
                server_header=False,
                date_header=False,
                timeout_graceful_shutdown=1,
                h11_max_incomplete_event_size=64 * 1024,
            )
        )
        self._desk = desk

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """End first what would stay open as long as its page, or its long answer."""
        logging.getLogger("uvicorn.error").setLevel(logging.CRITICAL)
        self._desk.news.end()
        self._desk.rest()
        await asyncio.sleep(0)
        await super().shutdown(sockets)
