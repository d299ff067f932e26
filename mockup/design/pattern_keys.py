"""The keys of a section's pattern, and what they must be for its clusters."""

from __future__ import annotations

from mockup.design.clusters import Ground, letters_needed
from mockup.design.kinds import Choice, Matching, Number
from mockup.design.model import KIND_COUNTS, ClusterSpec
from mockup.design.tables import Given, Key
from mockup.symmetry.patterns import PATTERNS

ROUND_THE_FRAME = ("rows", "spiral", "blocks")
"""The patterns that deal their colours out round the frame."""
_EACH = ("bands", "blocks")

PATTERN_KEYS = (
    Key(
        "pattern",
        Choice(("alternate", "any", *PATTERNS)),
        "What its colours must do; the clusters that name no colours are coloured by it.",
        "alternate",
    ),
    Key(
        "order",
        Matching("[A-Z]{1,12}", "capital letters, one a colour", '"ABC"'),
        "The colours of the pattern in order; every colour of the file without it.",
    ),
    Key(
        "starts",
        Number(1, 12, whole=True, example="2"),
        "How often the order begins anew round the frame; as often as it goes without it.",
    ),
    Key(
        "hand", Choice(("right", "left")), "Which way a spiral winds; right is a screw's.", "right"
    ),
    Key(
        "each",
        Number(1, 100, whole=True, example="2"),
        "How many clusters a band or block is long.",
        1,
    ),
)


def order_letters(table: Given, ground: Ground) -> str:
    """The order of colours as written, or "" for every colour of the file."""
    pattern: str = table.get("pattern", "alternate")
    for key, goes in (("order", PATTERNS), ("starts", ROUND_THE_FRAME), ("hand", ("spiral",)),
                      ("each", _EACH)):  # fmt: skip
        if key in table.written and pattern not in goes:
            what = f"'{key}' does not go with the pattern '{pattern}'"
            named = " or ".join(f'"{word}"' for word in goes[:3])
            ground.faults.add(table.at(key), what, f"take it out, or write pattern = {named}")
    written: str = table.get("order", "")
    unknown = sorted(set(written) - ground.known) if ground.known else []
    if unknown:
        what = f"'{unknown[0]}' in 'order' is not among the colours"
        ground.faults.add(table.at("order"), what, f"add {unknown[0]} to [colours]")
    return written


def starts_of(table: Given, run: list[ClusterSpec], order: str, ground: Ground) -> int:
    """How often the order goes round; a fault where it does not come out even on a cluster."""
    letters = order or "".join(ground.letters)
    pattern: str = table.get("pattern", "alternate")
    kinds = list(dict.fromkeys(spec.kind for spec in run if spec.by_pattern))
    if pattern not in ROUND_THE_FRAME or not kinds or not letters:
        return int(table.get("starts", 1))
    usual = max(1, min(KIND_COUNTS[kind] for kind in kinds) // len(letters))
    starts = int(table.get("starts", usual))
    for kind in kinds:
        if KIND_COUNTS[kind] % (len(letters) * starts):
            again = f" {starts} times" if starts > 1 else ""
            what = f"{len(letters)} colours{again} do not come out even round a {kind}"
            instead = f"write 'order' and 'starts' to suit: {letters_needed(kind)}"
            ground.faults.add(table.at("order" if order else "pattern"), what, instead)
            break
    return starts
