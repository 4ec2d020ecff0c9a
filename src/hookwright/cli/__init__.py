"""The commands and their options; what each does stands in `commands/`.

A command is a module of its name in this folder, with a function of that name. It is
imported when it is called, so that `--help` answers at once and no command waits for the
options of another.
"""

from __future__ import annotations

import atexit
import gc
import os
import sys
from importlib import import_module
from typing import Any

import click

from hookwright import __version__

COMMANDS = {
    "answer": "Write a reply to a maker's question, with the working shown.",
    "bring": "Make a project folder of a draft: its pattern.md, and a worksheet.toml.",
    "check": "Work every stitch of a pattern and say whether its counts add up.",
    "colours": "Put the colours of a worksheet in several good orders of stripes.",
    "corrections": "Tell what changed since a version that is out: in the fabric, or only "
    "in words.",
    "costs": "Reckon what a pattern costs its designer, and the copies that bring it back.",
    "desk": "Open the desk: write, see and decide everything in one page.",
    "draw": "Draw symbol charts, the fabric, outlines with measures, and stripes.",
    "edge": "Write edgings that fit a piece, each proven together with it.",
    "lesson": "Plan the filmed lesson of a pattern, or hold a filmed one against it.",
    "measure": "Lay out every stitch and tell how large each piece lies, and whether flat.",
    "new": "Make a project folder with a pattern to begin from: the sample of a fabric.",
    "release": "Put out a pattern: PDF, large print, plain text, and a page for a blog.",
    "size": "Work out chains, repeats and rows for a wanted size.",
    "trials": "Tell what test makers report: yarn, gauge, hours, rows that confuse, gaps.",
    "write": "Write the pattern in other terms, in full, to be heard, or in one size.",
    "yarn": "Reckon the yarn of every size by colour: metres, grams, balls, cost.",
}
"""Every command, and the first line of its help."""

STOPPED = 130
"""The exit status of a command stopped from the keyboard. Source: the POSIX shell, 2.8.2,
more than 128 for a command ended by a signal; 128 and its number, 2, by common practice."""


def run() -> None:
    """The program from the shell.

    A check makes frozen values, which hold no cycles, and then the program ends: to look
    for cycles among them would take a tenth of its time.
    """
    gc.disable()
    statuses: list[int] = []
    atexit.register(_end_at_once, statuses)  # the first told is the last to be called
    try:
        main(prog_name="hookwright")
    except SystemExit as end:
        told = 1 if end.code else 0  # a sentence is a failure; nothing said is none
        statuses.append(end.code if isinstance(end.code, int) else told)
        raise
    finally:
        gc.freeze()


def _end_at_once(statuses: list[int]) -> None:
    """Ends the process, when all else that ends with it has ended.

    The system takes its memory back as a whole; to give it back value by value takes a
    twentieth of the time of a check.
    """
    for status in statuses:
        try:
            for stream in (sys.stdout, sys.stderr):
                if stream is not None:
                    stream.flush()
        except (OSError, ValueError):
            return  # nobody reads any more: the interpreter says so in its own way
        os._exit(status)


class _ImportedWhenCalled(click.Group):
    """The group of all commands, none of which is imported to be listed."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, as the help lists them."""
        del ctx
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of a name, or None if there is none."""
        del ctx
        return command_of(cmd_name) if cmd_name in COMMANDS else None

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 - what click returns
        """Run a command; Ctrl-C ends it at once, with a status of its own."""
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt:
            click.echo("Stopped.", err=True)
            sys.exit(STOPPED)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands, each with its line."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(sorted(COMMANDS.items()))


def command_of(name: str) -> click.Command:
    """The command of a name in `COMMANDS`."""
    found = getattr(import_module(f"hookwright.cli.{name}"), name)
    assert isinstance(found, click.Command)
    return found


@click.group(
    cls=_ImportedWhenCalled, context_settings={"help_option_names": ["-h", "--help"]}
)
@click.version_option(__version__, message="%(prog)s %(version)s")
def main() -> None:
    """Read written crochet patterns and prove their counts."""
