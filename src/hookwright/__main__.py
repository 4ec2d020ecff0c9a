"""`python -m hookwright` is `hookwright`."""

from hookwright.cli import run

run()
