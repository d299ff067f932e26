"""The door: ``mockup`` and its list of commands, each imported only when it is called."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from typing import Any, NoReturn, TextIO

import click

from mockup import __version__
from mockup.errors import MockupError
from mockup.platforms import settle_console

COMMANDS: dict[str, tuple[str, str]] = {
    "new": ("mockup.cli.new", "Start a piece file."),
    "check": ("mockup.cli.check", "Does it nestle, mirror, alternate, and do the numerals fit?"),
    "proof": ("mockup.cli.proof", "Draw the true-scale colour proof."),
    "approve": ("mockup.cli.approve", "Keep the client's approval beside the piece."),
    "changes": ("mockup.cli.changes", "What has changed since an earlier revision."),
    "fit": ("mockup.cli.fit", "Do these numerals fit that ring?"),
    "layout": ("mockup.cli.layout", "List where every balloon lies."),
    "suggest": ("mockup.cli.suggest", "The best designs that hold, or a proof that none does."),
    "compare": ("mockup.cli.compare", "Versions of a piece side by side."),
    "colours": ("mockup.cli.colours", "Orders of colours, colours told apart, a colour short."),
    "close": ("mockup.cli.close", "How many clusters close a ring, and at which fill."),
    "studio": ("mockup.cli.studio", "Your own figures: bags, prices, minutes, pumps."),
    "buy": ("mockup.cli.buy", "What to buy, at the least cost."),
    "quote": ("mockup.cli.quote", "The price, for the client and for yourself."),
    "build": ("mockup.cli.build", "A sheet to build it by, for paper and for a phone."),
    "gauge": ("mockup.cli.gauge", "The sizing gauge, at true size."),
    "calibrate": ("mockup.cli.calibrate", "Your own measurements turned into your figures."),
    "bench": ("mockup.bench.command", "Work on a piece in the browser, on this computer only."),
    "palettes": ("mockup.cli.palettes", "Show the colours at hand."),
    "schema": ("mockup.cli.schema", "Write the key list with which an editor completes a file."),
}

FIRST_STEPS = """\
mockup: true-scale mock-ups of framed balloon pieces

Three first steps:
  1. mockup new "Ruby turns thirty"    writes ruby-turns-thirty.toml, a piece to start from
  2. mockup check ruby-turns-thirty.toml    says whether it nestles, mirrors and fits
  3. mockup proof ruby-turns-thirty.toml    draws the proof to send to the client

'mockup --help' lists every command; 'mockup proof --help' explains one."""


class ReaderGone(Exception):
    """Whoever read stdout has gone, told past click, which would end with 1: "a check fails"."""


@contextmanager
def _noticed() -> Iterator[None]:
    try:
        yield
    except BrokenPipeError as gone:
        raise ReaderGone from gone


class CommandList(click.Group):
    """A group that knows its commands by name and imports one only to run it."""

    def make_context(self, *given: Any, **extra: Any) -> click.Context:
        """The words of the command line read; some of them, such as --help, are answered here."""
        with _noticed():
            return super().make_context(*given, **extra)

    def invoke(self, ctx: click.Context) -> Any:
        """The command run."""
        with _noticed():
            return super().invoke(ctx)

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Command names in the order in which they are used."""
        del ctx  # click hands it over; the names are the same in every one
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name; an unknown one offers the nearest."""
        if cmd_name not in COMMANDS:
            ctx.fail(_unknown(cmd_name))
        command = import_module(COMMANDS[cmd_name][0]).command
        if not isinstance(command, click.Command):
            raise TypeError(f"{COMMANDS[cmd_name][0]}.command is not a command")
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, without importing any of them."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl([(name, says) for name, (_, says) in COMMANDS.items()])


@click.group(cls=CommandList, invoke_without_command=True)
@click.version_option(__version__, prog_name="mockup")
@click.pass_context
def mockup(ctx: click.Context) -> None:
    """Mock-ups of framed balloon pieces, true to scale.

    Example: mockup proof samples/ruby-thirty.toml
    """
    if ctx.invoked_subcommand is None:
        click.echo(FIRST_STEPS)


def _unknown(name: str) -> str:
    from mockup.spelling import nearest_name

    near = nearest_name(name, COMMANDS)
    hint = f"Did you mean '{near}'?" if near else "'mockup --help' lists the commands."
    return f"There is no command '{name}'. {hint}"


GONE = 128 + 13
"""How a shell tells that a program ended because its reader had gone (SIGPIPE, number 13)."""


def main() -> None:
    """Run the command line; every trouble becomes a sentence and an exit code."""
    settle_console()
    try:
        _run()
    except (BrokenPipeError, ReaderGone):
        _close_quietly()


def _run() -> None:
    try:
        mockup.main(standalone_mode=False)
    except click.exceptions.Exit as end:
        sys.exit(end.exit_code)
    except click.ClickException as trouble:
        trouble.show()
        sys.exit(2)
    except MockupError as trouble:
        click.echo(str(trouble), err=True)
        sys.exit(trouble.exit_code)
    except (KeyboardInterrupt, click.Abort):
        click.echo("Stopped. Nothing that was there before has been changed.", err=True)
        sys.exit(130)
    except BrokenPipeError:
        raise
    except OSError as trouble:
        said = trouble.strerror or "the system refused"
        click.echo(f"The answer could not be written: {said}.", err=True)
        _drop_held(sys.stdout)
        sys.exit(2)


def _drop_held(*streams: TextIO) -> None:
    """Send what is still held for them nowhere, so that the end of the process is silent."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in streams:
        os.dup2(nowhere, stream.fileno())


def _close_quietly() -> NoReturn:
    """A reader such as ``head`` has gone: end without a word, and not as though all was said."""
    _drop_held(sys.stdout, sys.stderr)
    sys.exit(GONE)
