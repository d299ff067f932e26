"""The samples that are walls, counted again from the picture's own bytes and the proof's list."""

from __future__ import annotations

import struct
import zlib
from collections import Counter
from pathlib import Path

from mockup.design.palette_files import shipped_folder
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.stock.picking import pick

SAMPLES = shipped_folder("samples")


def pixels(file: Path) -> list[list[str]]:
    """Every pixel as #rrggbb, or "" where it is clear: a PNG of eight bits read by hand.

    PNG, ISO/IEC 15948: chunks (5.3), palette (11.2.3) or RGBA, and the filters of 9.2.
    """
    data = file.read_bytes()
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    chunks: dict[bytes, bytes] = {}
    at = 8
    while at < len(data):
        (long,) = struct.unpack(">I", data[at : at + 4])
        kind = data[at + 4 : at + 8]
        chunks[kind] = chunks.get(kind, b"") + data[at + 8 : at + 8 + long]
        at += 12 + long
    wide, high, depth, colour, _, _, interlaced = struct.unpack(">IIBBBBB", chunks[b"IHDR"])
    assert (depth, colour, interlaced) == (8, 6, 0)
    lines = zlib.decompress(chunks[b"IDAT"])
    before, rows = bytes(4 * wide), []
    for number in range(high):
        start = number * (4 * wide + 1)
        line = unfiltered(lines[start], lines[start + 1 : start + 1 + 4 * wide], before)
        rows.append([
            f"#{line[k : k + 3].hex()}" if line[k + 3] else "" for k in range(0, 4 * wide, 4)
        ])  # fmt: skip
        before = line
    return rows


def unfiltered(kind: int, line: bytes, above: bytes) -> bytes:
    done = bytearray(line)
    for k, value in enumerate(line):
        left = done[k - 4] if k >= 4 else 0
        corner = above[k - 4] if k >= 4 else 0
        guess = left + above[k] - corner
        near = min((left, above[k], corner), key=lambda each: abs(guess - each))
        added = (0, left, above[k], (left + above[k]) // 2, near)[kind]
        done[k] = (value + added) % 256
    return bytes(done)


def test_the_lugger_is_its_picture_a_balloon_a_pixel() -> None:
    design = read_design(SAMPLES / "lugger-wall.toml")
    assert design.wall is not None
    letters = {use.srgb: letter for letter, use in design.colours.items()} | {"": "A"}
    drawn = ["".join(letters[pixel] for pixel in row) for row in pixels(SAMPLES / "lugger.png")]
    assert list(design.wall.rows) == drawn
    assert (design.wall.far, design.wall.kind) == (0, "quad")
    counted = Counter("".join(drawn))
    piece = assemble(design)
    assert Counter(b.letter for b in piece.balloons) == counted
    assert len(piece.clusters) * 4 == len(piece.balloons) == sum(counted.values()) == 24 * 18
    bought = {need.name: need.count for need in pick([(design, 1)]).needs}
    assert bought == {design.colours[k].name: n for k, n in counted.items()}


def test_miras_wall_has_its_letters_in_two_colours_on_a_staggered_mesh() -> None:
    design = read_design(SAMPLES / "kestrel-wall.toml")
    assert design.wall is not None
    assert design.wall.staggered
    assert design.wall.word_rows >= 7
    rows = design.wall.rows
    assert {len(row) for row in rows[::2]} == {len(rows[1]) + 1}
    across = {k: [row.index(k) for row in rows if k in row] for k in "BC"}
    assert min(across["B"]) < min(across["C"])
    assert set(rows[0]) == set(rows[-1]) == {"A"}
