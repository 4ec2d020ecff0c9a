"""Who may ask the desk. Source of the checks: the OWASP cheat sheets on cross-site request
forgery and on content policy, and RFC 9110 on the Host field."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from desk_served import KEY, Served, served

SAVE = {"file": "pattern", "text": "Ch 10.\n", "made_from": ""}


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Served]:
    with served(tmp_path) as desk:
        yield desk


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:{port}", "127.0.0.1", "127.0.0.1:80", ""]
)
def test_a_foreign_host_is_refused(desk: Served, host: str) -> None:
    host = host.format(port=desk.port)
    assert desk.get("/", host=host).status == 400
    assert desk.post("/save", SAVE, host=host).status == 400


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "https://127.0.0.1:{port}"]
)
def test_the_page_of_another_is_refused(desk: Served, origin: str) -> None:
    origin = origin.format(port=desk.port)
    assert desk.post("/save", SAVE, origin=origin).status == 403
    assert desk.get("/opened", origin=origin).status == 403


def test_a_request_that_a_browser_calls_cross_site_is_refused(desk: Served) -> None:
    told = {"sec-fetch-site": "cross-site"}
    assert desk.post("/save", SAVE, **told).status == 403


def test_nothing_is_written_or_told_without_the_secret(
    desk: Served, tmp_path: Path
) -> None:
    for key in ("", KEY[:-1], KEY + "x"):
        for path in ("/save", "/draft", "/ask/seen", "/stop", "/page/desk.js"):
            assert desk.post(path, SAVE, **{"x-desk-key": key}).status == 403
        assert desk.get("/opened", **{"x-desk-key": key}).status == 403
    for path in ("/opened", "/earlier/pattern", "/news"):
        assert desk.request("GET", path, known=False).status == 403
    assert list(tmp_path.iterdir()) == []


def test_its_own_page_may_save(desk: Served, tmp_path: Path) -> None:
    assert desk.post("/save", SAVE, origin=desk.here).status == 200
    assert (tmp_path / "pattern.md").read_text("utf-8") == "Ch 10.\n"


def test_the_policy_lets_the_page_run_its_own_bundle_and_nothing_else(
    desk: Served,
) -> None:
    one, other = desk.get("/"), desk.get("/")
    policy = one.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    nonce = re.search(r"script-src 'nonce-([\w-]+)'", policy)
    assert nonce is not None
    assert one.text.count(f'<script nonce="{nonce[1]}"') == one.text.count("<script") == 1
    assert policy != other.headers["content-security-policy"]


def test_every_answer_says_how_it_may_be_used(desk: Served) -> None:
    for path in ("/", "/opened", "/nothing", "/page/nothing"):
        answered = desk.get(path)
        assert answered.headers["x-content-type-options"] == "nosniff"
        assert answered.headers["referrer-policy"] == "no-referrer"
        assert answered.headers["cache-control"] == "no-store"
        assert answered.headers["content-security-policy"]


def test_the_frame_tells_nothing_of_the_folder(desk: Served, tmp_path: Path) -> None:
    shown = desk.get("/").text
    assert KEY not in shown
    assert tmp_path.name not in shown


def test_other_methods_are_refused(desk: Served) -> None:
    for method in ("PUT", "DELETE", "OPTIONS", "TRACE"):
        assert desk.request(method, "/save").status == 405


def test_what_is_sent_has_an_end(desk: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hookwright.desk.bodies.WORDS_BYTES", 1000)
    monkeypatch.setattr("hookwright.reading.limits.FILE_BYTES", 1000)
    long = {**SAVE, "text": "x" * 2000}
    assert desk.post("/save", long).status == 413
    assert desk.post("/ask/seen", long).status == 413
    assert desk.request("POST", "/draft", b"x" * 2000).status == 413
