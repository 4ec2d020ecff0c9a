"""The page itself: a frame of HTML that brings in the bundle, and the files of it.

What stands in the frame is the same for everybody; the text of the pattern is only ever
set as text by the bundle.
"""

from __future__ import annotations

from importlib.resources import files
from secrets import token_urlsafe

from starlette.responses import HTMLResponse, PlainTextResponse, Response

from hookwright.desk.guarding import POLICY

_KINDS = {
    "desk.js": "text/javascript; charset=utf-8",
    "desk.css": "text/css; charset=utf-8",
    "literata-400.woff2": "font/woff2",
    "literata-400-italic.woff2": "font/woff2",
    "literata-600.woff2": "font/woff2",
}
"""Every file of the page; nothing else is given out."""

_FRAME = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="description" content="A desk for crochet patterns">
<meta name="desk-nonce" content="{nonce}">
<title>The desk</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/page/desk.css">
</head>
<body>
<div id="desk"></div>
<noscript>The desk is a page that writes and draws: let it run its scripts.</noscript>
<script nonce="{nonce}" type="module" src="/page/desk.js"></script>
</body>
</html>
"""


def frame() -> HTMLResponse:
    """The page, which may run its own bundle under a number of this answer alone."""
    nonce = token_urlsafe(18)
    headers = {"content-security-policy": POLICY.format(nonce=nonce)}
    return HTMLResponse(_FRAME.format(nonce=nonce), headers=headers)


def page_file(name: str) -> Response:
    """A file of the page."""
    kind = _KINDS.get(name)
    if kind is None:
        return PlainTextResponse("The page has no such file.", 404)
    data = files("hookwright.desk").joinpath("page", name).read_bytes()
    return Response(data, media_type=kind)
