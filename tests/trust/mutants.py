"""Single slips put into the code of a room, to see whether its tests notice; not in the test run.

    uv run python tests/trust/mutants.py mockup/stock tests/stock --minutes 20

The tests run once, and each line of the room keeps the tests that came over it. Then one slip at a
time (a comparison, a sign, a number, "and" for "or") is put into a fork of this process, which runs
those tests, quickest first. What survives is printed with its line: kill it by a test, or say in
the contributors' guide why nothing can notice it. Words are left alone, and so is what is reckoned
on import. Where the time is short, the slips are tried in an order thrown once and for all.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import copy
import functools
import gc
import os
import signal
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from types import CodeType, FrameType, FunctionType
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest
from hypothesis import settings

ROOT = Path(__file__).parents[2]
OPTIONS = [
    "-o",
    "addopts=--import-mode=importlib --doctest-modules",
    "-p",
    "no:cacheprovider",
    "-p",
    "no:xdist",
    "-q",
]
OTHER: dict[type[ast.AST], ast.AST] = {
    ast.Lt: ast.LtE(), ast.LtE: ast.Lt(), ast.Gt: ast.GtE(), ast.GtE: ast.Gt(),
    ast.Eq: ast.NotEq(), ast.NotEq: ast.Eq(), ast.In: ast.NotIn(), ast.NotIn: ast.In(),
    ast.Is: ast.IsNot(), ast.IsNot: ast.Is(), ast.Add: ast.Sub(), ast.Sub: ast.Add(),
    ast.Mult: ast.Div(), ast.Div: ast.Mult(), ast.FloorDiv: ast.Div(), ast.Mod: ast.Mult(),
    ast.And: ast.Or(), ast.Or: ast.And(), ast.USub: ast.UAdd(),
}  # fmt: skip
SLOWEST = 60
"""Seconds that the tests of one slip may take at most, before it counts as noticed."""


@dataclass(frozen=True)
class Mutant:
    """One slip: the file, its line, the function it lies in, and what it makes of the line."""

    file: str
    line: int
    name: str
    says: str
    code: CodeType

    def __str__(self) -> str:
        """As it is printed when it survives."""
        return f"{Path(self.file).relative_to(ROOT)}:{self.line}: {self.says}"


@dataclass
class Watch:
    """A pytest plugin: which lines of a room each test comes over, and how long it takes."""

    room: str
    tests: dict[tuple[str, int], set[str]] = field(default_factory=dict)
    took: dict[str, float] = field(default_factory=dict)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        def traced(frame: FrameType, event: str, _: object) -> Any:
            if not frame.f_code.co_filename.startswith(self.room):
                return None
            if event == "line":
                place = frame.f_code.co_filename, frame.f_lineno
                self.tests.setdefault(place, set()).add(item.nodeid)
            return traced

        began = time.process_time()
        sys.settrace(traced)
        yield
        sys.settrace(None)
        self.took[item.nodeid] = time.process_time() - began


def slips(node: ast.AST) -> Iterator[ast.AST]:
    """Each way in which one node may be wrong, as another node for its place."""
    if isinstance(node, ast.Compare):
        for at, sign in enumerate(node.ops):
            wrong = copy.deepcopy(node)
            wrong.ops[at] = OTHER[type(sign)]  # type: ignore[call-overload]  # a sign for a sign
            yield wrong
    elif isinstance(node, ast.BinOp | ast.BoolOp | ast.UnaryOp) and type(node.op) in OTHER:
        swapped: Any = copy.deepcopy(node)
        swapped.op = OTHER[type(node.op)]
        yield swapped
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield copy.deepcopy(node.operand)
    elif isinstance(node, ast.Constant) and type(node.value) is bool:
        yield ast.copy_location(ast.Constant(not node.value), node)
    elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
        assert isinstance(node.value, int | float)
        yield ast.copy_location(ast.Constant(node.value + 1), node)


def functions(tree: ast.AST, above: str = "") -> Iterator[tuple[str, ast.FunctionDef]]:
    """Every function that a module or a class holds, by its qualified name."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.ClassDef):
            yield from functions(node, f"{above}{node.name}.")
        elif isinstance(node, ast.FunctionDef):
            yield above + node.name, node


class Put(ast.NodeTransformer):
    """Puts one node in the place of another."""

    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> Any:
        return self.new if node is self.old else super().generic_visit(node)


def code_of(whole: CodeType, name: str) -> CodeType:
    """The code of the function of a qualified name in a compiled module."""
    for each in whole.co_consts:
        if isinstance(each, CodeType):
            if each.co_qualname == name:
                return each
            with contextlib.suppress(KeyError):
                return code_of(each, name)
    raise KeyError(name)


def mutants(file: Path) -> Iterator[Mutant]:
    tree = ast.parse(file.read_text("utf-8"))
    for name, function in functions(tree):
        for statement in function.body:
            for node in ast.walk(statement):
                for wrong in slips(node):
                    kept, line = function.body, getattr(node, "lineno", function.lineno)
                    function.body = [Put(node, wrong).visit(e) for e in copy_apart(kept, node)]
                    whole = compile(ast.fix_missing_locations(tree), str(file), "exec")
                    function.body = kept
                    says = f"{ast.unparse(node)}  ->  {ast.unparse(wrong)}"
                    yield Mutant(str(file), line, name, says, code_of(whole, name))


def copy_apart(body: list[ast.stmt], node: ast.AST) -> list[ast.stmt]:
    """A copy of a body in which one node is still itself."""
    return copy.deepcopy(body, {id(node): node})


def homes() -> dict[tuple[str, str], list[FunctionType]]:
    """Every function that is loaded, by its file and qualified name."""
    found: dict[tuple[str, str], list[FunctionType]] = {}
    for each in gc.get_objects():
        if isinstance(each, FunctionType):
            place = each.__code__.co_filename, each.__code__.co_qualname
            found.setdefault(place, []).append(each)
    return found


def ended(mutant: Mutant, where: list[FunctionType], tests: list[str], seconds: int) -> int:
    """How the tests end with the slip (0 is well), in a fork that dies when it takes too long."""
    pid = os.fork()
    if pid == 0:
        signal.alarm(seconds)
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        for function in where:
            function.__code__ = mutant.code
        for each in gc.get_objects():
            if isinstance(each, functools._lru_cache_wrapper):
                each.cache_clear()
        os._exit(int(pytest.main([*OPTIONS, "-x", *tests])))
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("room")
    asked.add_argument("tests", nargs="+")
    asked.add_argument("--minutes", type=float, default=20.0)
    asked.add_argument("--only", default="*.py", help="files of the room, as a pattern")
    asked.add_argument("--longest", type=float, default=60.0, help="leave out tests above, seconds")
    asked.add_argument("--again", type=Path, help="only what survived, by what was printed then")
    given = asked.parse_args()
    os.chdir(ROOT)
    settings.register_profile("slips", deadline=None, derandomize=True, database=None)
    settings.load_profile("slips")
    watch = Watch(str(ROOT / given.room))
    if pytest.main([*OPTIONS, *given.tests], plugins=[watch]):
        raise SystemExit("the tests fail as they are")
    every = [m for file in sorted(Path(watch.room).glob(given.only)) for m in mutants(file)]
    lived = given.again.read_text("utf-8").splitlines() if given.again else []
    hunt(
        [m for m in every if not lived or any(said.startswith(str(m)) for said in lived)],
        watch,
        given,
    )


def hunt(every: list[Mutant], watch: Watch, given: argparse.Namespace) -> None:
    seconds = 60 * given.minutes
    Random(30).shuffle(every)
    began, loaded, tried, lived = time.monotonic(), homes(), 0, 0
    for mutant in every:
        if time.monotonic() - began > seconds:
            break
        tried += 1
        reach = watch.tests.get((mutant.file, mutant.line), set())
        tests = [test for test in reach if watch.took[test] <= given.longest]
        quickest = sorted(tests, key=lambda test: watch.took[test])
        longest = min(SLOWEST, 10 + int(5 * sum(watch.took[test] for test in tests)))
        where = loaded.get((mutant.file, mutant.name), [])
        how = ended(mutant, where, quickest, longest) if tests and where else 0
        if how == -signal.SIGALRM:
            print(f"{mutant}  (noticed only by taking too long)", flush=True)
        if how == 0:
            lived += 1
            reached = "" if tests else "  (no test comes here)"
            print(f"{mutant}{reached}", flush=True)
    print(f"{tried} of {len(every)} slips tried, {tried - lived} noticed, {lived} survived")


if __name__ == "__main__":
    main()
