"""``mockup bench``: the page on the decorator's own computer."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("file", metavar="[FILE or FOLDER]", type=click.Path(path_type=Path), required=False)
@click.option("--no-browser", is_flag=True, help="Print the address; open it yourself.")
@click.option(
    "--port",
    default=0,
    type=click.IntRange(0, 65535),
    metavar="NUMBER",
    help="By default a free one.",
)
def command(file: Path | None, no_browser: bool, port: int) -> None:
    """Work on a piece in the browser: every change redraws it at once, with its checks.

    FILE need not be there yet. With a FOLDER, or with nothing for this folder, the page asks three
    questions and begins a new piece there. It is served to this computer only and needs no
    network; nothing is saved until you save. Ctrl-C ends it.

    Example: mockup bench samples/ruby-thirty.toml
    """
    import webbrowser

    from mockup.bench.address import held

    folder, named = placed(file)
    at = held(port)
    click.echo(f"The bench is at {at.key.address}")
    click.echo("It is open to this computer only. Ctrl-C ends it.")
    if not no_browser:
        webbrowser.open(at.key.address)

    from mockup.bench.serving import Served  # read in while the browser starts

    Served(named, folder, at=at).run()


def placed(file: Path | None) -> tuple[Path, Path | None]:
    """The folder to work in, and the piece file where one is named; raises ``FaultsFound``."""
    from mockup.design.opening import read_text
    from mockup.errors import Fault, FaultsFound

    if file is None or file.is_dir():
        return (file or Path()).resolve(), None
    if file.suffix.lower() != ".toml":
        raise FaultsFound([Fault(str(file), "is no piece file", "name one that ends in .toml")])
    if not file.parent.is_dir():
        raise FaultsFound([Fault(str(file), "its folder is not there", "make the folder first")])
    if file.exists():
        read_text(file)
    return file.resolve().parent, file.resolve()
