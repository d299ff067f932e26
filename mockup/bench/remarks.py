"""Remarks in a piece file that go where their rows go, and those that stay when a block leaves."""

from __future__ import annotations

from mockup.design.lines import key_lines
from mockup.design.model import KeyPath


def remark_at(line: str) -> int:
    """Where the remark of a line begins (its ``#``), or the line's length; strings are passed over.

    >>> remark_at('a = "#1" # one')
    9
    """
    quote = ""
    at = 0
    while at < len(line):
        char = line[at]
        if quote:
            if char == "\\" and quote == '"':
                at += 1
            elif char == quote:
                quote = ""
        elif char in "\"'":
            quote = char
        elif char == "#":
            return at
        at += 1
    return len(line)


def without_block(text: str, path: KeyPath) -> str:
    """``text`` without the block of one item of a list of tables; remarks around it stay.

    >>> without_block("[[a]]\\nx = 1\\n# of b\\n[[a]]\\nx = 2\\n", ("a", 0))
    '# of b\\n[[a]]\\nx = 2\\n'
    """
    lines = text.split("\n")
    first, end = _block(lines, key_lines(text), path)
    return "\n".join([*lines[:first], *_less_blank(lines[:first], lines[end:])])


def with_block(text: str, name: str, at: int, block: list[str]) -> str:
    """``text`` with one more item of a list of tables after its ``at`` others, or at the end.

    >>> with_block("[[a]]\\nx = 1\\n\\n# of b\\n[b]", "a", 1, ["x = 2"])
    '[[a]]\\nx = 1\\n\\n[[a]]\\nx = 2\\n\\n# of b\\n[b]'
    """
    lines = text.split("\n")
    new = ["", f"[[{name}]]", *block]
    end = _block(lines, key_lines(text), (name, at - 1))[1] if at else len(lines)
    if end == len(lines):
        lines = text.rstrip().split("\n")
        return "\n".join([*lines, *new, ""])
    return "\n".join([*lines[:end], *new, *lines[end:]])


def _block(lines: list[str], known: dict[KeyPath, int], path: KeyPath) -> tuple[int, int]:
    """The first line of an item's block, and the line after its last one that says something."""
    own = max(line for each, line in known.items() if each[: len(path)] == path)
    after = [line - 1 for line in known.values() if line > own and lines[line - 1][:1] == "["]
    end = min(after, default=len(lines))
    while end > own and _idle(lines[end - 1]):
        end -= 1
    return known[path] - 1, end


def _idle(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#")


def _less_blank(before: list[str], after: list[str]) -> list[str]:
    """What follows, without a second blank line in a row."""
    twice = bool(before) and not before[-1].strip() and len(after) > 1 and not after[0].strip()
    return after[1:] if twice else after


def moved_remarks(before: str, after: str, path: KeyPath, at: int, to: int) -> str:
    """``after`` with the remarks of the rows of a list in the order of the rows themselves.

    Only where each row has a line of its own; otherwise remarks stay where they are.
    """
    known = key_lines(before)
    count = sum(len(each) == len(path) + 1 and each[: len(path)] == path for each in known)
    rows = [known.get((*path, place), 0) - 1 for place in range(count)]
    lines = after.split("\n")
    if len(set(rows)) < count or min(rows, default=-1) < 0 or max(rows) >= len(lines):
        return after
    order = list(range(count))
    order.insert(to, order.pop(at))
    remarks = [lines[row][remark_at(lines[row]) :] for row in rows]
    for place, source in enumerate(order):
        bare = lines[rows[place]][: remark_at(lines[rows[place]])].rstrip()
        lines[rows[place]] = f"{bare} {remarks[source]}".rstrip()
    return "\n".join(lines)
