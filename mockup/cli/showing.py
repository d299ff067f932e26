"""What the commands show: JSON on stdout, sentences in the terminal, sums on stderr."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import click

from mockup.piece.finding import Finding
from mockup.platforms import knows_every_letter

_COLOURS = {"holds": "green", "look": "yellow", "fails": "red"}
json_option = click.option("--json", "as_json", is_flag=True, help="One JSON object on stdout.")


def show_json(data: Mapping[str, Any]) -> None:
    """One object on stdout, the same bytes for the same data and encoding."""
    import json

    click.echo(json.dumps(data, ensure_ascii=not knows_every_letter(), indent=1))


def show_findings(findings: Iterable[Finding]) -> None:
    """A line for each finding, with its remedy beneath."""
    for finding in findings:
        verdict = click.style(f"{finding.verdict:<5}", fg=_COLOURS[finding.verdict], bold=True)
        click.echo(f"  {verdict}  {finding.name}: {finding.says}")
        if finding.remedy:
            click.echo(f"         {click.style('To mend:', bold=True)} {finding.remedy}.")


def counted(number: int, thing: str) -> str:
    """``1 check``, ``2 checks``."""
    return f"{number:,} {thing}{'' if number == 1 else 's'}"


def checks_fail(number: int) -> str:
    """``1 check fails``, ``2 checks fail``."""
    return f"{counted(number, 'check')} {'fails' if number == 1 else 'fail'}"


def refuse_beside_file(names: Iterable[str]) -> None:
    """Raise a usage error for options that say again what a piece file says already.

    ``names`` are the parameters of the command that is running; only those typed count.
    """
    context = click.get_current_context()
    typed = [
        f"'--{name.replace('_', '-')}'"
        for name in names
        if context.get_parameter_source(name) is click.core.ParameterSource.COMMANDLINE
    ]
    if typed:
        either = "it" if len(typed) == 1 else "them"
        raise click.UsageError(
            f"{' and '.join(typed)} cannot go with a piece file, which says that itself: "
            f"leave {either} out, or change the file."
        )
