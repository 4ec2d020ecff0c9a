"""What does the desk answer? Its page, the words of the folder, questions about them."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from typing import Any

import msgspec
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route
from starlette.types import ASGIApp

from hookwright.desk.bodies import TooMuch, body_of, question_of, save_of
from hookwright.desk.folder import FILES, Folder, NotHere, Text
from hookwright.desk.guarding import Guard
from hookwright.desk.helping import Helper, Stopped
from hookwright.desk.keeping import Changed, Keeper
from hookwright.desk.news import News
from hookwright.desk.noticing import Watch
from hookwright.desk.shell import frame, page_file
from hookwright.reading import limits

_AT_ONCE = {"seen", "word"}
"""Asked while she types: these have a process of their own and wait for nothing else."""
_LAID = {"cloth", "measurements", "drawing", "symbol", "sample"}
"""What lays stitches out; so has this, for no place is to wait until a cloth is at rest."""
_Answer = Callable[["Desk", Request], Awaitable[Response]]


class Desk:
    """One folder with all that the page asks of it."""

    def __init__(self, folder: Folder, quick: Helper | None = None) -> None:
        """Take a folder that nobody else has.

        Args:
            folder: The folder.
            quick: What answers while she types, where it has begun already.
        """
        self.folder = folder
        self.keeper = Keeper(folder)
        self.news = News()
        self._saving = asyncio.Lock()
        self.watch = Watch(folder, self._changed, self._saving)
        self.quick, self.slow, self.laying = quick or Helper(), Helper(), Helper()

    def _changed(self, name: str, now: Text) -> None:
        self.news.tell("changed", {"file": name, "text": now.words, "mark": now.mark})

    async def opened(self, request: Request) -> Response:
        """The folder as the page opens it."""
        del request
        texts = {name: await asyncio.to_thread(self.folder.read, name) for name in FILES}
        for name, text in texts.items():
            self.watch.known(name, text.mark)
        return as_json(
            {
                "folder": self.folder.name,
                **{n: {"text": t.words, "mark": t.mark} for n, t in texts.items()},
            }
        )

    async def ask(self, request: Request) -> Response:
        """The answer to a question."""
        name = request.path_params["question"]
        asked = await question_of(request)
        helper = self._who_answers(name)
        given = {
            "text": asked.text,
            "worksheet": asked.worksheet,
            "wished": asked.wished,
            "folder": str(self.folder.path),
        }

        def progress(said: dict[str, Any]) -> None:
            self.news.tell("progress", {"question": name, **said})

        return Response(
            await helper.ask(name, given, progress), media_type="application/json"
        )

    def _who_answers(self, question: str) -> Helper:
        if question in _AT_ONCE:
            return self.quick
        return self.laying if question in _LAID else self.slow

    def rest(self) -> None:
        """End every process that answers."""
        for helper in (self.quick, self.slow, self.laying):
            helper.stop()

    async def stop(self, request: Request) -> Response:
        """Stop the long answer that is being worked out."""
        del request
        self.slow.stop()
        return as_json({"stopped": True})

    async def draft(self, request: Request) -> Response:
        """A draft in any file, as the pattern that it would become."""
        data = await body_of(request, limits.FILE_BYTES)
        given = {"name": request.query_params.get("name", "")[:200], "data": data}
        return Response(await self.slow.ask("draft", given), media_type="application/json")

    async def save(self, request: Request) -> Response:
        """A text put in its place, or both texts where another one stands there."""
        asked = await save_of(request)
        async with self._saving:
            try:
                now = await asyncio.to_thread(
                    self.keeper.save,
                    asked.file,
                    asked.text,
                    asked.made_from,
                    decided=asked.decided,
                )
            except Changed as other:
                self.watch.known(asked.file, other.now.mark)
                told = {"text": other.now.words, "mark": other.now.mark}
                return as_json({"changed": told})
            self.watch.known(asked.file, now.mark)
        return as_json({"mark": now.mark})

    async def earlier(self, request: Request) -> Response:
        """The earlier versions of a file, or the words of one."""
        name = request.path_params["file"]
        asked = request.query_params.get("version")
        if asked is not None:
            words = await asyncio.to_thread(self.keeper.version, name, asked)
            return as_json({"text": words})
        versions = await asyncio.to_thread(self.keeper.earlier, name)
        return as_json({"versions": msgspec.to_builtins(versions)})

    async def copy(self, request: Request) -> Response:
        """A file of the release that is out."""
        from hookwright.desk.released import released  # noqa: PLC0415 - seldom

        name = request.path_params["name"]
        data = await asyncio.to_thread(released, self.folder, name)
        return Response(data, media_type="application/octet-stream")

    async def listen(self, request: Request) -> Response:
        """The news, as they happen."""
        del request
        return StreamingResponse(self.news.stream(), media_type="text/event-stream")

    @asynccontextmanager
    async def open(self, app: Starlette) -> AsyncIterator[None]:
        """All that runs beside the answers, from the start to the end."""
        del app
        self.news.begin()
        watching = asyncio.create_task(self.watch.run())
        warming = asyncio.create_task(self._warm())
        try:
            yield
        finally:
            for task in (watching, warming):
                task.cancel()
            self.rest()

    async def _warm(self) -> None:
        """Have the first answer ready before the page asks for it."""
        with suppress(Stopped, NotHere):
            texts = {n: await asyncio.to_thread(self.folder.read, n) for n in FILES}
            words = texts["pattern"].words or "Row 1: Ch 1."
            given = {"text": words, "worksheet": texts["worksheet"].words}
            await self.quick.ask("seen", {**given, "folder": str(self.folder.path)})


def as_json(value: object, status: int = 200) -> Response:
    """A value as JSON."""
    return Response(msgspec.json.encode(value), status, media_type="application/json")


def application(desk: Desk, port: int, key: str) -> ASGIApp:
    """The desk as an application, guarded."""

    def route(path: str, answer: _Answer, method: str) -> Route:
        async def answered(request: Request) -> Response:
            try:
                return await answer(desk, request)
            except TooMuch:
                return as_json({"refused": "That is more than the desk takes."}, 413)
            except msgspec.DecodeError:
                return as_json({"refused": "The desk cannot read that question."}, 400)
            except NotHere as refusal:
                return as_json({"refused": str(refusal)}, 404)
            except Stopped:
                return as_json({"refused": "Stopped.", "stopped": True}, 503)

        return Route(path, answered, methods=[method])

    async def shown(request: Request) -> Response:
        del request
        return frame()

    async def given(request: Request) -> Response:
        return await asyncio.to_thread(page_file, request.path_params["name"])

    routes = [
        Route("/", shown),
        Route("/page/{name}", given),
        route("/opened", Desk.opened, "GET"),
        route("/copy/{name}", Desk.copy, "GET"),
        route("/news", Desk.listen, "GET"),
        route("/earlier/{file}", Desk.earlier, "GET"),
        route("/ask/{question}", Desk.ask, "POST"),
        route("/stop", Desk.stop, "POST"),
        route("/draft", Desk.draft, "POST"),
        route("/save", Desk.save, "POST"),
    ]
    return Guard(Starlette(routes=routes, lifespan=desk.open), port, key)
