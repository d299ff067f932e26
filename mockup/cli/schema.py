"""``mockup schema``: the JSON Schema of a piece file, for editors."""

from __future__ import annotations

import click

from mockup.cli.showing import show_json


@click.command()
def command() -> None:
    """Print the JSON Schema of a piece file, with which an editor completes its keys.

    Example: mockup schema > piece.schema.json
    """
    from mockup.design.schema import json_schema

    show_json(json_schema())
