"""Options that several commands have."""

from __future__ import annotations

import click

read_in_terms = click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="Read the pattern in these terms, whatever it says of itself.",
)
