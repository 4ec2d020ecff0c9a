"""A desk served for a test, asked over the wire."""

from __future__ import annotations

import asyncio
import http.client
import json
import socket
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import quote

from hookwright.desk.application import Desk
from hookwright.desk.folder import Folder
from hookwright.desk.serving import Server

KEY = "the-key-of-this-test"


class Answered:
    """An answer with all of its body."""

    def __init__(self, answer: http.client.HTTPResponse) -> None:
        self.status = answer.status
        self.headers = {name.lower(): value for name, value in answer.getheaders()}
        self.body = answer.read()

    @property
    def text(self) -> str:
        return self.body.decode("utf-8")

    def told(self) -> Any:  # noqa: ANN401 - whatever the desk has told
        return json.loads(self.body)


class Served:
    """A desk that is being served."""

    def __init__(self, port: int, folder: Path) -> None:
        self.port = port
        self.folder = folder
        self.here = f"http://127.0.0.1:{port}"
        self.page = f"{self.here}/#key={KEY}"

    def request(
        self,
        method: str,
        path: str,
        body: bytes = b"",
        headers: Mapping[str, str] | None = None,
        *,
        known: bool = True,
    ) -> Answered:
        """Ask something, byte for byte as it is given."""
        told = {"host": f"127.0.0.1:{self.port}", **({"x-desk-key": KEY} if known else {})}
        told |= dict(headers or {})
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=180)
        try:
            line.putrequest(
                method, quote(path, "/%?&=."), skip_host=True, skip_accept_encoding=True
            )
            for name, value in told.items():
                line.putheader(name, value)
            line.putheader("content-length", str(len(body)))
            line.endheaders(body)
            return Answered(line.getresponse())
        finally:
            line.close()

    def get(self, path: str, **headers: str) -> Answered:
        """Ask for something, with the secret."""
        return self.request("GET", path, headers=headers)

    def post(self, path: str, told: object, **headers: str) -> Answered:
        """Tell something, with the secret."""
        return self.request("POST", path, json.dumps(told).encode(), headers)


@contextmanager
def served(folder: Path) -> Iterator[Served]:
    """A desk on a folder, served as long as it is asked."""
    listening = socket.create_server(("127.0.0.1", 0))
    port = listening.getsockname()[1]
    server = Server(Desk(Folder(folder)), port, KEY)
    running = threading.Thread(
        target=lambda: asyncio.run(server.serve(sockets=[listening])), daemon=True
    )
    running.start()
    try:
        yield Served(port, folder)
    finally:
        server.should_exit = True
        running.join(20)
        listening.close()
