"""Is a desk open on this folder already? Then where?

A file in the folder is held locked as long as a desk is open, and the system lets go of it
however the desk ends. It also tells under which address the desk is reached; one that was
cut off is opened at the same address again, so that its page goes on by itself.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path

import msgspec
from msgspec import Struct

LOCK = ".desk"
_WAYS = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0)
_HELD_BYTE = 1 << 20
"""Where systems that lock bytes lock one: far behind all that is read."""


class Address(Struct, frozen=True):
    """How a desk is reached.

    Attributes:
        port: Its port on this machine.
        key: The secret of its start.
    """

    port: int
    key: str


class AlreadyOpen(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """Another desk has the folder; the message is a sentence."""

    def __init__(self, where: Address | None) -> None:
        """Bring the address of the other one, where it has told it."""
        super().__init__(
            "A desk is open on this folder already. End it first, or go on in it."
        )
        self.where = where


class Hold:
    """The hold of one desk on its folder."""

    def __init__(self, folder: Path) -> None:
        """Take hold.

        Raises:
            AlreadyOpen: If another desk has the folder.
            OSError: If nothing can be written there.
        """
        self._path = folder / LOCK
        self._handle = os.open(self._path, _WAYS, 0o600)
        told = _told(self._handle)
        if not _locked(self._handle):
            os.close(self._handle)
            raise AlreadyOpen(told)
        self.before = told

    def tell(self, address: Address) -> None:
        """Note where the desk is reached."""
        os.lseek(self._handle, 0, os.SEEK_SET)
        os.ftruncate(self._handle, 0)
        os.write(self._handle, msgspec.json.encode(address))

    def let_go(self) -> None:
        """End the hold in order; nothing is left behind."""
        with suppress(OSError):
            os.ftruncate(self._handle, 0)
            self._path.unlink()
        with suppress(OSError):
            os.close(self._handle)


def _told(handle: int) -> Address | None:
    try:
        return msgspec.json.decode(os.read(handle, 4096), type=Address)
    except (OSError, msgspec.DecodeError):
        return None


def _locked(handle: int) -> bool:
    try:
        if sys.platform == "win32":
            import msvcrt  # noqa: PLC0415 - of that system only

            os.lseek(handle, _HELD_BYTE, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl  # noqa: PLC0415 - of the other systems only

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
