"""Who may ask the desk? The page that it has sent itself, on this machine, and nobody else.

Any page in any browser tab can send requests to this machine. So a request must be
addressed to the desk by its own name, must not come from the page of another, and must
bring the secret of this start, which only the opened address holds. The answer says what
the page may load and run: what the desk serves, with the number of that answer.
"""

from __future__ import annotations

from secrets import compare_digest

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

KEY_HEADER = "x-desk-key"
OPEN_TO_ALL = "/page/"
"""Under this and at "/" stand the page's own files, which tell nothing of the folder."""
_METHODS = {"GET", "HEAD", "POST"}

POLICY = (
    "default-src 'none'; script-src 'nonce-{nonce}'; style-src 'self' 'nonce-{nonce}';"
    " font-src 'self'; img-src 'self' blob: data:; connect-src 'self'; base-uri 'none';"
    " form-action 'none'; frame-ancestors 'none'"
)
"""What the page may do; the number is another in every answer."""
_ALWAYS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "x-frame-options": "DENY",
    "cache-control": "no-store",
}


class Guard:
    """Lets through what the desk's own page asks."""

    def __init__(self, app: ASGIApp, port: int, key: str) -> None:
        """Stand before an application.

        Args:
            app: What is guarded.
            port: The port it is served on.
            key: The secret of this start.
        """
        self._app = app
        self._key = key
        self._hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer or refuse."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in _ALWAYS.items():
                    headers[name] = value
                headers.setdefault("content-security-policy", "default-src 'none'")
            await send(message)

        refusal = self._refusal(scope)
        await (refusal or self._app)(scope, receive, with_headers)

    def _refusal(self, scope: Scope) -> PlainTextResponse | None:
        headers = Headers(scope=scope)
        if headers.getlist("host") not in [[host] for host in self._hosts]:
            return _no(400, "This desk is not reached by that name.")
        origin = headers.get("origin")
        if origin is not None and origin != f"http://{headers['host']}":
            return _no(403, "Another page has asked.")
        if headers.get("sec-fetch-site", "none") not in {"none", "same-origin"}:
            return _no(403, "Another page has asked.")
        if scope["method"] not in _METHODS:
            return _no(405, "That is not done here.")
        if self._is_open(scope) or self._knows_key(headers):
            return None
        return _no(403, "Open the desk by the address that it has printed at its start.")

    @staticmethod
    def _is_open(scope: Scope) -> bool:
        path: str = scope["path"]
        return scope["method"] != "POST" and (path == "/" or path.startswith(OPEN_TO_ALL))

    def _knows_key(self, headers: Headers) -> bool:
        given = headers.get(KEY_HEADER, "")
        return compare_digest(given.encode("latin-1"), self._key.encode("latin-1"))


def _no(status: int, why: str) -> PlainTextResponse:
    return PlainTextResponse(why, status)
