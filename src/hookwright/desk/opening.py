"""`hookwright desk`: the folder taken hold of, and its page served until she ends it.

What answers while she types begins first, in a process of its own; meanwhile the server is
brought in.
"""

from __future__ import annotations

import socket
import webbrowser
from contextlib import suppress
from enum import IntEnum
from pathlib import Path
from secrets import token_urlsafe

from hookwright.commands.project import PATTERN_FILE
from hookwright.desk.alone import Address, AlreadyOpen, Hold
from hookwright.desk.folder import Folder
from hookwright.desk.helping import Helper
from hookwright.terminal import ReaderGone, say, say_aside

_HOST = "127.0.0.1"


class Ended(IntEnum):
    """How it ended, as the shell is told."""

    IN_ORDER = 0
    NOT_OPENED = 2


def open_desk(path: str, port: int = 0, *, browser: bool = True) -> Ended:
    """Open the desk on a project folder, and serve it until it is ended.

    Args:
        path: A project folder, there or not, or the pattern.md in one.
        port: The port on this machine; 0 for any that is free.
        browser: Whether the page is opened in the browser.
    """
    folder = _folder_at(path)
    if folder is None:
        return Ended.NOT_OPENED
    try:
        folder.mkdir(parents=True, exist_ok=True)
        hold = Hold(folder)
    except AlreadyOpen as other:
        where = f" Its page: {_page(other.where)}" if other.where is not None else ""
        say_aside(f"{other}{where}")
        return Ended.NOT_OPENED
    except OSError as error:
        why = (error.strerror or "it cannot be reached").lower()
        say_aside(f"The desk cannot be opened in {folder}: {why}.")
        return Ended.NOT_OPENED
    try:
        return _served(folder, hold, port, browser=browser)
    finally:
        hold.let_go()


def _folder_at(path: str) -> Path | None:
    """The folder that is meant; None, and a word about it, where it is none."""
    place = Path(path)
    if place.name == PATTERN_FILE and place.is_file():
        return place.parent
    if place.is_file():
        from hookwright.commands.folder import called_for  # noqa: PLC0415 - seldom

        folder = called_for(place.with_suffix(""))
        say_aside(
            f"The desk opens a folder, and {place} is a file. Open a new one, hookwright"
            f" desk {folder}, and lay the draft on the page."
        )
        return None
    return place


def _served(folder: Path, hold: Hold, port: int, *, browser: bool) -> Ended:
    before = hold.before
    listening = _listening(port, before.port if before is not None else 0)
    if listening is None:
        say_aside(f"Port {port} is in use. Without --port a free one is taken.")
        return Ended.NOT_OPENED
    number = listening.getsockname()[1]
    same = before is not None and before.port == number
    address = Address(number, before.key if same and before else token_urlsafe(24))
    hold.tell(address)
    with suppress(ReaderGone):  # a desk goes on where its terminal is closed
        say(f"The desk is open on {folder}: {_page(address)}")
        say("End it with Ctrl+C. Everything is saved as you write.")
    quick = Helper()
    quick.begin()
    try:
        _run(Folder(folder), address, quick, listening, browser=browser)
    finally:
        quick.stop()
    return Ended.IN_ORDER


def _run(
    folder: Folder,
    address: Address,
    quick: Helper,
    listening: socket.socket,
    *,
    browser: bool,
) -> None:
    """Bring the server in while the helper begins, and serve until it is ended."""
    from hookwright.desk.application import Desk  # noqa: PLC0415 - only now
    from hookwright.desk.serving import Server  # noqa: PLC0415 - only now

    if browser:
        with suppress(webbrowser.Error):
            webbrowser.open(_page(address))
    with suppress(KeyboardInterrupt):  # how the server hands Ctrl+C on
        Server(Desk(folder, quick), address.port, address.key).run(sockets=[listening])


def _page(address: Address) -> str:
    """The address of the page; what stands behind the "#" no browser sends anywhere."""
    return f"http://{_HOST}:{address.port}/#key={address.key}"


def _listening(asked: int, before: int) -> socket.socket | None:
    """A socket that only this machine reaches; None if the port asked for is taken."""
    for port in (asked,) if asked else (before, 0):
        found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            found.bind((_HOST, port))
            found.listen(64)
        except OSError:
            found.close()
            continue
        return found
    return None
