"""``mockup calibrate``: your own measurements turned into the studio book's figures."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import Any

import click

from mockup.cli.showing import json_option, show_json
from mockup.design.model import KIND_COUNTS
from mockup.errors import MockupError
from mockup.lengths import MM_PER, NotALength, Unit, parse_length, unit_of
from mockup.stock.calibrating import Calibration, pump_factor, shrink_of, squeeze_of

_BUILD = re.compile(r"\s*(\d{1,4})\s+([a-z]+?)s?\s+of\s+(.+?)\s+took\s+(.+?)\s*", re.IGNORECASE)
_BUILD_FORM = '"12 quads of 4 1/2in took 38in"'


def writing(command: Callable[..., None]) -> Callable[..., None]:
    """The options of every calibration; the command gets the book to write into, or None."""

    @wraps(command)
    def with_book(write: bool, book: Path | None, **rest: Any) -> None:
        command(book=_book(book) if write else None, **rest)

    return json_option(
        click.option("--write", is_flag=True, help="Write the figure into the studio book.")(
            click.option(
                "--book",
                type=click.Path(path_type=Path),
                help="The studio book; by default the one in force here.",
            )(with_book)
        )
    )


class NotAMeasurement(MockupError):
    """A measurement that cannot be read; the message shows the right form."""


class NoBook(MockupError):
    """A figure cannot be written where there is no studio book."""


@click.group()
def command() -> None:
    """Turn your own measurements into your figures: pump, squeeze, foil.

    Example: mockup calibrate pump "hand pump" 4=4.5in 2=3.6in
    """


@command.command()
@click.argument("name")
@click.argument("measured", nargs=-1, required=True)
@writing
def pump(name: str, measured: tuple[str, ...], as_json: bool, book: Path | None) -> None:
    """Strokes of a pump and the diameters they gave, as STROKES=DIAMETER.

    Example: mockup calibrate pump "hand pump" 4=4.5in 3=4.1in 2=3.6in 1=2.8in
    """
    from mockup.stock.calibrated_book import write_pump

    pairs = [_pair(one, "4=4.5in") for one in measured]
    readings = [(one, _strokes(one, left), _length(one, right)) for one, left, right in pairs]
    fit, unit = pump_factor(readings), unit_of(pairs[0][2])
    strokes = max(strokes for _, strokes, _ in readings)
    gives = fit.factor * strokes ** (1 / 3)
    if book:
        write_pump(book, name, strokes, gives, unit)
    if as_json:
        _show_data("pump", {"name": name, "strokes": strokes, "gives_mm": gives}, fit, book)
        return
    _show(fit, lambda mm: _said(mm, unit))
    given = "1 stroke gives" if strokes == 1 else f"{strokes:g} strokes give"
    click.echo(f"{name}: {given} {_said(gives, unit)}.")
    _tell_written(book)


@command.command()
@click.argument("builds", nargs=-1, required=True)
@click.option(
    "--knot-to-knot",
    is_flag=True,
    help="The lengths run from the first knot to the last, not one cluster further.",
)
@writing
def squeeze(builds: tuple[str, ...], knot_to_knot: bool, as_json: bool, book: Path | None) -> None:
    """How far clusters are pressed together, from runs of equal clusters on a tube.

    Example: mockup calibrate squeeze "12 quads of 4 1/2in took 38 3/4in"
    """
    fit = squeeze_of([_build(one, knot_to_knot) for one in builds])
    unit = unit_of(builds[0])
    figure = _Figure("squeeze", "squeeze", max(0.0, 1 - fit.factor))
    _tell(figure, fit, lambda mm: f"balloons {_said(mm, unit)} apart", as_json, book)


@command.command()
@click.argument("measured", nargs=-1, required=True)
@writing
def foil(measured: tuple[str, ...], as_json: bool, book: Path | None) -> None:
    """How much foil numerals lose in height when filled, as FLAT=FILLED.

    Example: mockup calibrate foil 16in=14in 34in=30in
    """
    pairs = [_pair(one, "16in=14in") for one in measured]
    fit = shrink_of([(one, _length(one, left), _length(one, right)) for one, left, right in pairs])
    unit = unit_of(pairs[0][2])
    figure = _Figure("foil_shrink", "foil shrink", 1 - fit.factor)
    _tell(figure, fit, lambda mm: _said(mm, unit), as_json, book)


def _pair(text: str, form: str) -> tuple[str, str, str]:
    left, mark, right = text.partition("=")
    if not mark:
        raise NotAMeasurement(f"'{text}' has no =; write it as {form}")
    return text, left, right


def _length(text: str, written: str) -> float:
    try:
        return parse_length(written)
    except NotALength as trouble:
        raise NotAMeasurement(f"'{text}': {trouble}") from trouble


def _strokes(text: str, written: str) -> float:
    if not re.fullmatch(r"\s*\d{1,3}(\.\d{1,3})?\s*", written):
        raise NotAMeasurement(f"'{text}': '{written}' is no number of strokes; write 4=4.5in")
    return float(written)


def _build(text: str, knot_to_knot: bool) -> tuple[str, int, float, float]:
    """A run of clusters as (words, balloons in a cluster, diameter, pitch)."""
    found = _BUILD.fullmatch(text)
    kind = found[2].lower() if found else ""
    if found is None or kind not in KIND_COUNTS:
        raise NotAMeasurement(f"'{text}' cannot be read; write it as {_BUILD_FORM}")
    steps = int(found[1]) - (1 if knot_to_knot else 0)
    if steps < 2:
        raise NotAMeasurement(f"'{text}': measure a run of three clusters at least")
    return text, KIND_COUNTS[kind], _length(text, found[3]), _length(text, found[4]) / steps


def _said(mm: float, unit: Unit) -> str:
    """A measurement in the unit in which it was given, to a hundredth."""
    return f"{mm / MM_PER[unit]:.2f} {unit}"


@dataclass(frozen=True)
class _Figure:
    """A share of the book: its key, what it is called, what it came to."""

    key: str
    name: str
    share: float


def _tell(
    figure: _Figure,
    fit: Calibration,
    said: Callable[[float], str],
    as_json: bool,
    book: Path | None,
) -> None:
    """A share written where it is to be, and told."""
    from mockup.stock.calibrated_book import write_share

    if book:
        write_share(book, figure.key, figure.share)
    if as_json:
        _show_data(figure.key, {"share": figure.share}, fit, book)
        return
    _show(fit, said)
    click.echo(f"{figure.name}: {figure.share:.1%}")
    _tell_written(book)


def _show(fit: Calibration, said: Callable[[float], str]) -> None:
    """Each measurement with what the fit says and how far it lies off."""
    for off in fit.offs:
        click.echo(
            f"  {off.reading.says}: {said(off.reading.y)}, the fit says {said(off.fitted)} "
            f"({off.share:+.1%})"
        )


def _show_data(
    key: str, figure: dict[str, str | float], fit: Calibration, book: Path | None
) -> None:
    offs = [
        {
            "measured": off.reading.says,
            "value_mm": round(off.reading.y, 3),
            "fit_mm": round(off.fitted, 3),
            "off": round(off.share, 5),
        }
        for off in fit.offs
    ]
    rounded = {k: v if isinstance(v, str) else round(v, 5) for k, v in figure.items()}
    written = str(book) if book else None
    show_json({"version": 1, "figure": key, **rounded, "measurements": offs, "written": written})


def _tell_written(book: Path | None) -> None:
    if book:
        click.echo(f"Written into {book}.")


def _book(asked: Path | None) -> Path:
    from mockup.design.studio_book import book_for

    book = asked or book_for(Path.cwd())
    if book is None:
        raise NoBook("there is no studio book to write into; 'mockup studio new' writes one")
    return book
