"""The page's modules as one: twenty small files asked for while the program is still being read in
keep a page waiting longer than all else.

Only what our own modules use is known: ``import { a, b } from "./x.js";`` on a line of its own,
and ``export`` before a function, a class or a const. Anything else is refused.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

_IMPORT = re.compile(r'^import \{ ([\w, ]+) \} from "\./(\w+)\.js";$', re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:async )?(?:function|class|const) (\w+))", re.MULTILINE)
_LEFT = re.compile(r"^\s*(?:import|export)\b.*", re.MULTILINE)


class CannotJoin(ValueError):
    """A module that says something which is not known here, or modules that go round in a ring."""


def joined(modules: Mapping[str, str], first: str) -> str:
    """One module that does what ``first`` does with all that it imports.

    ``modules`` are texts by their names without ending. Raises ``CannotJoin``.

    >>> two = {"a": 'import { b } from "./b.js";\\nb();', "b": "export function b() {}"}
    >>> print(joined(two, "a"))
    const of_b = (() => {
    function b() {}
    return { b };
    })();
    const of_a = (() => {
    const { b } = of_b;
    b();
    return {  };
    })();
    """
    return "\n".join(_wrapped(name, modules[name]) for name in _in_order(modules, first))


def _in_order(modules: Mapping[str, str], first: str) -> list[str]:
    """The names that ``first`` needs, each after those that it needs itself."""
    order: list[str] = []

    def visit(name: str, above: tuple[str, ...]) -> None:
        if name in above:
            raise CannotJoin(f"{' imports '.join((*above, name))}: take what both need apart")
        if name in order:
            return
        for each in _IMPORT.finditer(modules[name]):
            visit(each[2], (*above, name))
        order.append(name)

    visit(first, ())
    return order


def _wrapped(name: str, text: str) -> str:
    """A module as a function that is called at once and gives what it exports."""
    given = ", ".join(each[1] for each in _EXPORT.finditer(text))
    body = _EXPORT.sub("", _IMPORT.sub(r"const { \1 } = of_\2;", text))
    left = _LEFT.search(body)
    if left:
        raise CannotJoin(f"{name}.js: {left[0].strip()!r} is not known here")
    return f"const of_{name} = (() => {{\n{body.rstrip()}\nreturn {{ {given} }};\n}})();"
