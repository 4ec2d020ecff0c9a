"""What is written on the page is kept, whoever else writes and however the desk ends."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

from desk_browser import Watched
from desk_served import Served
from playwright.sync_api import Page, Route, expect
from sand_bar import PATTERN, Opens, at, place, seen, text_of, until, write


def test_a_change_from_elsewhere_is_shown_and_can_be_undone(
    page: Page, project: Path
) -> None:
    (project / "pattern.md").write_text(PATTERN.replace("Sand Bar", "Mud Bank"), "utf-8")
    expect(page.locator(".aside")).to_contain_text("changed outside the desk")
    expect(page.locator(".cm-content")).to_contain_text("Mud Bank")
    page.locator(".cm-content").click()
    page.keyboard.press("Control+z")
    until(lambda: text_of(project) == PATTERN)


def test_two_changes_at_once_are_both_kept(page: Page, desk: Served, project: Path) -> None:
    theirs = PATTERN.replace("Sand Bar", "Mud Bank")

    def changed_first(route: Route) -> None:
        (project / "pattern.md").write_text(theirs, "utf-8")
        route.continue_()

    page.route("**/save", changed_first, times=1)
    at(page, "Written in US terms.")
    page.keyboard.insert_text(" Mine too.")
    expect(page.get_by_role("heading", level=2)).to_contain_text("changed outside the desk")
    assert text_of(project) == theirs
    assert Watched(page).violations() == []
    page.get_by_role("button", name="Go on with yours").click()
    until(lambda: "Mine too." in text_of(project))
    kept = [
        desk.get(f"/earlier/pattern?version={one['id']}").told()["text"]
        for one in desk.get("/earlier/pattern").told()["versions"]
    ]
    assert theirs in kept


def test_an_earlier_version_is_brought_back(page: Page, project: Path) -> None:
    at(page, "Written in US terms.")
    page.keyboard.type(" More words.")
    until(lambda: "More words." in text_of(project))
    page.locator(".head .saved").click()
    page.locator(".versions button").last.click()
    expect(page.locator(".decided del").first).to_be_visible()
    page.get_by_role("button", name="Bring it back").click()
    until(lambda: text_of(project) == PATTERN)


STARTED = [sys.executable, "-m", "hookwright", "desk", "--no-browser"]


def started(project: Path) -> tuple[subprocess.Popen[str], str]:
    desk = subprocess.Popen([*STARTED, str(project)], stdout=subprocess.PIPE, text=True)  # noqa: S603 - ourselves
    assert desk.stdout is not None
    with desk.stdout as told:
        return desk, told.readline().strip().partition(": ")[2]


def test_a_desk_that_is_killed_loses_nothing_and_goes_on(
    window: Opens, tmp_path: Path
) -> None:
    project = tmp_path / "sand-bar"
    project.mkdir()
    write(project)
    desk, url = started(project)
    watched = window(url)
    page = watched.page
    seen(page)
    at(page, "Written in US terms.")
    page.keyboard.type(" Kept.")
    time.sleep(1)
    os.kill(desk.pid, signal.SIGKILL)
    desk.wait()
    assert "Kept." in text_of(project)
    page.keyboard.type(" Written while it was gone.")
    expect(page.locator(".head [role=alert]")).to_contain_text("The desk has stopped")
    place(page, "Costs")
    expect(page.locator(".place")).to_contain_text("The desk has stopped")
    again, same = started(project)
    assert same == url
    until(lambda: "Written while it was gone." in text_of(project))
    expect(page.locator(".head [role=alert]")).to_have_count(0)
    again.send_signal(signal.SIGINT)
    assert again.wait(10) == 0
    assert not (project / ".desk").exists()
