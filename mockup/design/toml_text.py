"""Plain values written in TOML."""

from __future__ import annotations


def as_toml(value: object) -> str:
    """A plain value in TOML.

    >>> as_toml("5in"), as_toml(True), as_toml(["50%", "95%"]), as_toml('say "hi"')
    ('"5in"', 'true', '["50%", "95%"]', '"say \\\\"hi\\\\""')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"[{', '.join(as_toml(one) for one in value)}]"
    return _basic_string(value) if isinstance(value, str) else str(value)


def _basic_string(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else _escape(c) for c in escaped) + '"'


def _escape(one: str) -> str:
    return f"\\u{ord(one):04X}" if ord(one) <= 0xFFFF else f"\\U{ord(one):08X}"
