"""The nearest known word to one that is not known, so that a message can offer it."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST = 60
_LIKENESS = 0.6
_SHOWN = 12


def plain_form(name: str) -> str:
    """A name as it is compared: lower case, with single spaces for blanks, hyphens and underscores.

    >>> plain_form("  Deep_Teal ")
    'deep teal'
    """
    return " ".join(name.casefold().replace("-", " ").replace("_", " ").split())


def nearest_name(name: str, names: Iterable[str]) -> str | None:
    """The known name that ``name`` was most likely meant to be, or None where none is near.

    First a name that differs only in case, blanks or hyphens, then the likeliest misspelling, then
    a name that holds all the words written. The same answer for the same names in any order.

    >>> nearest_name("deep teel", ["oat", "deep teal", "brass"])
    'deep teal'
    >>> nearest_name("teal", ["oat", "deep teal"])
    'deep teal'
    >>> nearest_name("zzz", ["oat"]) is None
    True
    """
    if len(name) > _LONGEST:
        return None
    known: dict[str, str] = {}
    for each in sorted(names):
        known.setdefault(plain_form(each), each)
    wanted = plain_form(name)
    found = wanted if wanted in known else _misspelt(wanted, known) or _holding(wanted, known)
    return known[found] if found is not None else None


def _misspelt(wanted: str, known: Iterable[str]) -> str | None:
    from difflib import get_close_matches  # only an error needs it, and it costs time to load

    near = get_close_matches(wanted, list(known), n=1, cutoff=_LIKENESS)
    return near[0] if near else None


def _holding(wanted: str, known: Iterable[str]) -> str | None:
    words = set(wanted.split())
    return next((each for each in known if words and words <= set(each.split())), None)


def did_you_mean(name: str, names: Iterable[str]) -> str:
    """What to write instead of an unknown ``name``: the nearest known one, or what there is.

    >>> did_you_mean("mat", ["matte", "gloss"])
    "did you mean 'matte'?"
    >>> did_you_mean("zzz", ["matte", "gloss"])
    'known here: gloss, matte'
    """
    known = sorted(names)
    near = nearest_name(name, known)
    if near is not None:
        return f"did you mean '{near}'?"
    more = f" and {len(known) - _SHOWN} more" if len(known) > _SHOWN else ""
    return f"known here: {', '.join(known[:_SHOWN])}{more}" if known else ""
