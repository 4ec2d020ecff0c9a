"""`python -m hookwright` is `hookwright`."""

from hookwright.cli import main

main(prog_name="hookwright")
