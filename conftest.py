"""What holds for every test: an example may take as long as a busy machine needs for it."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("unhurried", parent=settings(), deadline=None)
settings.load_profile("unhurried")
