"""The page's modules as one: in their order, and nothing that is not understood."""

from __future__ import annotations

from importlib.resources import files

import pytest

from mockup.bench.joining import CannotJoin, joined

ASSETS = {
    one.name.removesuffix(".js"): one.read_text("utf-8")
    for one in (files("mockup.bench") / "assets").iterdir()
    if one.name.endswith(".js")
}


def test_every_module_of_the_page_is_in_it_once_and_after_those_it_needs() -> None:
    made = joined(ASSETS, "bench")
    where = {name: made.index(f"const of_{name} = ") for name in ASSETS}
    for name, text in ASSETS.items():
        assert made.count(f"const of_{name} = ") == 1
        needs = [line.split("./")[1].split(".js")[0] for line in text.splitlines() if "./" in line]
        assert all(where[each] < where[name] for each in needs)
    assert len(ASSETS) > 15


@pytest.mark.parametrize(
    "said",
    [
        'import * as all from "./b.js";',
        'import b from "./b.js";',
        'import "./b.js";',
        "export default 3;",
        "export let a = 1;",
        "export { a };",
    ],
)
def test_what_is_not_known_is_refused(said: str) -> None:
    with pytest.raises(CannotJoin, match="not known here"):
        joined({"a": said, "b": ""}, "a")


def test_modules_that_need_each_other_are_refused() -> None:
    ring = {
        "a": 'import { b } from "./b.js";\nexport const a = b;',
        "b": 'import { a } from "./a.js";\nexport const b = a;',
    }
    with pytest.raises(CannotJoin, match="a imports b imports a"):
        joined(ring, "a")
