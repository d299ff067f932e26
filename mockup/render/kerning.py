"""Pair kerning out of an OpenType font's GPOS table (lookups of types 2 and 9, OpenType 1.9)."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

_PAIR = 2
_EXTENSION = 9


def pair_kerning(font: Any) -> Callable[[str, str], float]:
    """A function that gives the change of advance between two glyphs, in font units.

    ``font`` is a fontTools ``TTFont``. The lookups named by any ``kern`` feature are asked in
    order; in each the first table that covers the pair answers. A font without them gives 0.
    """
    lookups = _kern_lookups(font)

    @cache
    def kern(first: str, second: str) -> float:
        return sum(_in_lookup(tables, first, second) for tables in lookups)

    return kern


def _kern_lookups(font: Any) -> list[list[Any]]:
    table = font["GPOS"].table if "GPOS" in font else None
    if table is None or table.FeatureList is None or table.LookupList is None:
        return []
    used = {
        index
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "kern"
        for index in record.Feature.LookupListIndex
    }
    return [_pair_tables(table.LookupList.Lookup[index]) for index in sorted(used)]


def _pair_tables(lookup: Any) -> list[Any]:
    tables = [
        table.ExtSubTable if lookup.LookupType == _EXTENSION else table for table in lookup.SubTable
    ]
    return [table for table in tables if table.LookupType == _PAIR]


def _in_lookup(tables: list[Any], first: str, second: str) -> float:
    for table in tables:
        found = _in_table(table, first, second)
        if found is not None:
            return found
    return 0.0


def _in_table(table: Any, first: str, second: str) -> float | None:
    coverage = table.Coverage.glyphs
    if first not in coverage:
        return None
    if table.Format == 1:
        pairs = table.PairSet[coverage.index(first)].PairValueRecord
        record = next((pair for pair in pairs if pair.SecondGlyph == second), None)
        return None if record is None else _advance(record.Value1)
    group = table.ClassDef1.classDefs.get(first, 0)
    other = table.ClassDef2.classDefs.get(second, 0)
    return _advance(table.Class1Record[group].Class2Record[other].Value1)


def _advance(value: Any) -> float:
    return float(getattr(value, "XAdvance", 0) or 0)
