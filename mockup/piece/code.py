"""The proof code: eight letters and digits that stand for what the design says."""

from __future__ import annotations

from dataclasses import Field, fields, is_dataclass
from datetime import date
from typing import Any

from mockup.design.model import Design

LENGTH = 8
# Where a thing stands in its file is no part of what it says; nor is the weather on the day.
# Revisions count the codes; what a pump gives is in the diameters of the clusters.
_COUNTED_ELSEWHERE = {"revision", "pump"}
_NOT_CONTENT = {"path", "lines", "file_name", "climate"}


def proof_code(design: Design) -> str:
    """The first eight hex digits (upper case) of SHA-256 over the design's content.

    Two files that say the same have the same code, whatever their names, comments, order of keys
    or way of writing a length; any difference in what they say changes it.

    >>> from mockup.design.model import FrameSpec
    >>> len(proof_code(Design("Ruby", FrameSpec(), (), {})))
    8
    """
    return _code(content(design))


def code_of(*says: object) -> str:
    """The code of other things that are said, such as where the pieces of a job stand.

    >>> code_of("stage", 1.0) == code_of("stage", 1.0), code_of("stage", 1.0) == code_of("stage", 2)
    (True, False)
    """
    return _code(_content(says))


def _code(plain: object) -> str:
    import hashlib  # it loads a whole library of ciphers, which a check can do without
    import json

    canonical = json.dumps(plain, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(canonical.encode("utf-8")).hexdigest()[:LENGTH].upper()


def content(design: Design) -> dict[str, Any]:
    """What a design says as plain data, lengths in mm: what the code stands for."""
    plain = _content(design)
    return {key: each for key, each in plain.items() if key not in _COUNTED_ELSEWHERE}


def _says(value: Any, one: Field[Any]) -> bool:
    """Whether a field is part of what is said: not one that came later and is left as it is."""
    return not (one.metadata.get("later") and getattr(value, one.name) == one.default)


def _content(value: Any) -> Any:
    """``value`` as JSON can hold it; lengths to a thousandth, so that 1in and 2.54cm agree."""
    if is_dataclass(value):
        kept = (f.name for f in fields(value) if f.name not in _NOT_CONTENT and _says(value, f))
        return {name: _content(getattr(value, name)) for name in kept}
    if isinstance(value, dict):
        return {str(key): _content(each) for key, each in value.items()}
    if isinstance(value, tuple | list):
        return [_content(each) for each in value]
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value
    if isinstance(value, int | float):
        return round(float(value), 3) + 0.0
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"a design holds no {type(value).__name__}")
