"""From the words of ``mockup proof``'s options to how the proof is wished."""

from __future__ import annotations

from contextlib import AbstractContextManager, nullcontext
from typing import TYPE_CHECKING, Any

from mockup.errors import Fault, FaultsFound, printable

if TYPE_CHECKING:
    from mockup.colour.sight import Sight
    from mockup.render.sheets.aspects import Aspect
    from mockup.render.sheets.proof import Asked

DPI = (36, 1200)
"""The least and the most dots per inch of a PNG."""

_VIEWS: dict[str, Aspect] = {
    "front": "front",
    "side": "side",
    "from the right": "side",
    "plan": "plan",
    "from above": "plan",
}


def wished(asked: dict[str, Any]) -> Asked:
    """The proof as asked; raises ``FaultsFound`` with every option that is wrong."""
    from mockup.cli.asking import address, day, whole
    from mockup.colour.views import shown_as, sight_words
    from mockup.render.sheets.proof import Asked
    from mockup.render.viewpoint import ViewOptions

    faults: list[Fault] = []
    sight = _sight(asked, faults)
    scale, views = _scale(asked["scale"], faults), _views(asked["views"], faults)
    landscape, issued = _way_round(asked, faults), day("--issued", asked["issued"], faults)
    address("--reply-to", asked["reply_to"], faults)
    whole("--dpi", asked["dpi"], *DPI, faults)
    if faults:
        raise FaultsFound(faults)
    letters = asked["letters"] or sight == "grey"
    view = ViewOptions(letters=letters)
    if sight != "normal":
        view = ViewOptions(letters=letters, recolour=shown_as(sight))
    return Asked(
        paper=asked["paper"],
        landscape=landscape,
        scale=scale,
        views=views,
        units="both" if asked["both_units"] else "own",
        studio=asked["studio"].strip(),
        issued=issued,
        view=view,
        seen=sight_words(sight),
        figure=asked["figure"],
    )


def lettering(asked: dict[str, Any]) -> AbstractContextManager[None]:
    """The user's font in force, or the packaged one; raises ``CannotUseFont`` on entering."""
    if not asked["font"]:
        if asked["bold_font"]:
            raise FaultsFound([Fault("--bold-font", "stands alone", "give --font as well")])
        return nullcontext()
    from mockup.render.fonts import lettered_with

    return lettered_with(asked["font"], asked["bold_font"])


def _sight(asked: dict[str, Any], faults: list[Fault]) -> Sight:
    if asked["grey"] and asked["seen_as"]:
        faults.append(Fault("--seen-as", "does not go with --grey", "leave one of them out"))
    sight: Sight = "grey" if asked["grey"] else asked["seen_as"] or "normal"
    return sight


def _way_round(asked: dict[str, Any], faults: list[Fault]) -> bool | None:
    """Whether the sheet lies; None leaves it to the piece."""
    if asked["portrait"] and asked["landscape"]:
        faults.append(Fault("--landscape", "does not go with --portrait", "leave one of them out"))
    return True if asked["landscape"] else False if asked["portrait"] else None


def _scale(text: str | None, faults: list[Fault]) -> int | None:
    """``1:5`` as 5."""
    if text is None:
        return None
    figure = text.removeprefix("1:").strip()
    if figure.isascii() and figure.isdigit() and 0 < len(figure) < 6 and int(figure) > 0:
        return int(figure)
    faults.append(Fault("--scale", f"'{printable(text)}' is no scale", "write one such as 1:5"))
    return None


def _views(text: str, faults: list[Fault]) -> tuple[Aspect, ...]:
    """``front, side`` as views, the front always the first."""
    from mockup.spelling import did_you_mean

    found: list[Aspect] = ["front"]
    for word in (part.strip().lower() for part in text.split(",")):
        view = _VIEWS.get(word)
        if view is None:
            hint = did_you_mean(word, _VIEWS) if word else "write front, side or plan"
            faults.append(Fault("--views", f"there is no view '{printable(word)}'", hint))
        elif view not in found:
            found.append(view)
    return tuple(found)
