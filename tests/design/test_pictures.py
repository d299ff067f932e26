"""Pictures beside a piece file: what is read from them, and every file that is none is told."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from mockup.colour.difference import difference
from mockup.design.model import WallSpec
from mockup.design.pictures import MOST_BYTES, MOST_PIXELS
from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound

# The rows' colours as sRGB values of our own, so that a palette cannot change under the test.
COLOURS = {"A": "#1f6f74", "B": "#efe0c4", "C": "#b3202c", "D": "#101418"}
HEAD = 'title = "W"\nsize = "5in"\n[colours]\n' + "".join(
    f'{letter} = {{ name = "own {letter}", srgb = "{srgb}" }}\n' for letter, srgb in COLOURS.items()
)


def picture_of(rows: list[str], times: int = 1) -> Image.Image:
    clear = (0, 0, 0, 0)
    pixels = [
        [clear if k == "." else (*bytes.fromhex(COLOURS[k][1:]), 255) for k in row] for row in rows
    ]
    every = np.array(pixels, dtype=np.uint8).repeat(times, axis=0).repeat(times, axis=1)
    return Image.fromarray(every, "RGBA")


def read(folder: Path, wall: str = "", rows: tuple[int, int] = (4, 3)) -> WallSpec:
    wide, high = ((n - 1) * 90 + 100 for n in rows)
    frame = f'[frame]\nkind = "wall"\nwidth = "{wide}mm"\nheight = "{high}mm"\n'
    more = wall or 'picture = "a.png"\n'
    text = f'{HEAD}{frame}[wall]\nfill = "10cm"\n{more}'
    found = design_from_text(text, "w.toml", folder).wall
    assert found is not None
    return found


def told(folder: Path, wall: str = "") -> str:
    with pytest.raises(FaultsFound) as found:
        read(folder, wall)
    return str(found.value)


@pytest.mark.parametrize("times", [1, 5, 16])
def test_a_picture_of_a_pixel_a_balloon_is_read_as_it_is(tmp_path: Path, times: int) -> None:
    rows = ["ABCD", "DCBA", "AACC"]
    picture_of(rows, times).save(tmp_path / "a.png")
    wall = read(tmp_path)
    assert list(wall.rows) == rows
    assert (wall.far, wall.furthest, wall.shows) == (0, None, "picture a.png")


@pytest.mark.parametrize("mode", ["RGB", "P", "L", "LA", "1", "RGBA", "I;16"])
def test_every_kind_of_png_is_read(tmp_path: Path, mode: str) -> None:
    """Colour types and depths of the PNG standard (ISO/IEC 15948, 11.2.2)."""
    dark_and_light = picture_of(["DDBB"] * 3)
    if mode == "I;16":
        grey = np.asarray(dark_and_light.convert("L")).astype(np.uint16) * 257
        Image.fromarray(grey).save(tmp_path / "a.png")
    else:
        dark_and_light.convert(mode).save(tmp_path / "a.png")
    assert list(read(tmp_path).rows) == ["DDBB"] * 3


def test_clear_cells_are_the_ground_or_left_out(tmp_path: Path) -> None:
    picture_of(["A..A", "ABBA", "...."]).save(tmp_path / "a.png")
    on = 'picture = "a.png"\nground = "C"\n'
    assert list(read(tmp_path, on).rows) == ["ACCA", "ABBA", "CCCC"]
    none = 'picture = "a.png"\nground = "none"\n'
    assert list(read(tmp_path, none).rows) == ["A..A", "ABBA", "...."]


def test_a_narrow_picture_stands_whole_in_the_middle(tmp_path: Path) -> None:
    picture_of(["BC", "CB", "BC"]).save(tmp_path / "a.png")
    assert list(read(tmp_path, 'picture = "a.png"\nground = "D"\n').rows) == [
        "DBCD",
        "DCBD",
        "DBCD",
    ]


def test_each_balloon_has_the_nearest_of_the_letters_that_may_be_used(tmp_path: Path) -> None:
    shades = np.linspace(0, 255, 12).astype(np.uint8).reshape(3, 4)
    Image.fromarray(shades).save(tmp_path / "a.png")
    wall = read(tmp_path, 'picture = "a.png"\ncolours = "BD"\ndifference = 20\n')
    far = 0
    for row, values in zip(wall.rows, shades.tolist(), strict=True):
        for letter, value in zip(row, values, strict=True):
            away = {k: difference(f"#{value:02x}{value:02x}{value:02x}", COLOURS[k]) for k in "BD"}
            assert letter == min(away, key=lambda k: away[k])
            far += min(away.values()) > 20
    assert wall.far == far > 0
    assert wall.furthest is not None
    assert wall.furthest.away == pytest.approx(
        max(
            min(difference(f"#{v:02x}{v:02x}{v:02x}", COLOURS[k]) for k in "BD")
            for v in shades.ravel().tolist()
        )
    )


def test_a_staggered_wall_looks_at_the_picture_where_its_balloons_are(tmp_path: Path) -> None:
    picture_of(["AABB"] * 3, 8).save(tmp_path / "a.png")
    wall = read(tmp_path, 'mesh = "staggered"\npicture = "a.png"\n')
    assert [len(row) for row in wall.rows] == [4, 3, 4]
    assert wall.rows[0] == "AABB"
    assert wall.rows[1][0] + wall.rows[1][2] == "AB"


def png(wide: int, high: int, body: bytes = b"") -> bytes:
    """A PNG by hand: its head says ``wide`` x ``high``, whatever its pixels are."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        sealed = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + sealed

    head = struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0)
    pixels = chunk(b"IDAT", body or zlib.compress(b"\0" * 100))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + pixels + chunk(b"IEND", b"")


def jpeg() -> bytes:
    stream = BytesIO()
    Image.new("RGB", (4, 3)).save(stream, "JPEG")
    return stream.getvalue()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "is no PNG"),
        (b"<svg/>", "is no PNG; save it as PNG"),
        (jpeg(), "is no PNG"),
        (b"\x89PNG\r\n\x1a\n", "is damaged"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * 40, "is damaged"),
        (png(4, 3)[:40], "is damaged"),
        (png(4, 3, zlib.compress(b"\0" * 5)), "is damaged"),
        (png(4, 3, b"no zlib at all"), "is damaged"),
        (png(0, 3), "is damaged"),
        (png(60_000, 60_000), "is 60,000 x 60,000 pixels; save it smaller"),
        (png(2**31, 2**31 - 1), "pixels; save it smaller"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * MOST_BYTES, "is larger than 10 MB"),
        (None, "there is no picture 'a.png' beside the piece"),
    ],
)
def test_a_file_that_is_no_picture_is_told_at_its_line(
    tmp_path: Path, data: bytes | None, says: str
) -> None:
    if data is not None:
        (tmp_path / "a.png").write_bytes(data)
    said = told(tmp_path)
    assert said.startswith("w.toml:14: the")
    assert says in said


def test_an_image_at_the_limit_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert MOST_PIXELS >= 1_000 * 1_000
    monkeypatch.setattr("mockup.design.pictures.MOST_PIXELS", 40 * 30)
    Image.new("RGB", (40, 30), "#b3202c").save(tmp_path / "a.png")
    assert set("".join(read(tmp_path).rows)) == {"C"}
    Image.new("RGB", (40, 31)).save(tmp_path / "a.png")
    assert "is 40 x 31 pixels; save it smaller" in told(tmp_path)


@pytest.mark.parametrize("name", ["../a.png", "{outside}", "sub/../../a.png", "link.png"])
def test_a_picture_outside_the_folder_is_not_opened(tmp_path: Path, name: str) -> None:
    outside, home = tmp_path / "a.png", tmp_path / "home"
    (home / "sub").mkdir(parents=True)
    picture_of(["AB"]).save(outside)
    (home / "link.png").symlink_to(outside)
    said = told(home, f'picture = "{name.format(outside=outside)}"\n')
    assert "lies outside the folder of the piece" in said


def test_a_picture_in_a_folder_below_is_found(tmp_path: Path) -> None:
    (tmp_path / "pictures").mkdir()
    picture_of(["ABCD", "ABCD", "ABCD"]).save(tmp_path / "pictures/a.png")
    assert read(tmp_path, 'picture = "pictures/a.png"\n').rows == ("ABCD",) * 3


@pytest.mark.parametrize("name", ["sub", "a\\u0000.png", "", "x" * 250 + ".png"])
def test_a_name_that_names_no_file_is_told(tmp_path: Path, name: str) -> None:
    (tmp_path / "sub").mkdir()
    assert "w.toml:14: " in told(tmp_path, f'picture = "{name}"\n')


def test_a_picture_that_is_clear_all_over_leaves_no_balloon(tmp_path: Path) -> None:
    Image.new("RGBA", (4, 3), (0, 0, 0, 0)).save(tmp_path / "a.png")
    assert "clear all over" in told(tmp_path, 'picture = "a.png"\nground = "none"\n')
    assert set("".join(read(tmp_path).rows)) == {"A"}


def test_a_colour_at_fault_is_told_by_itself(tmp_path: Path) -> None:
    picture_of(["ABCD"] * 3).save(tmp_path / "a.png")
    text = HEAD.replace('{ name = "own B", srgb = "#efe0c4" }', '"no such colour"')
    with pytest.raises(FaultsFound) as found:
        design_from_text(
            f'{text}[wall]\nfill = "10cm"\npicture = "a.png"\ncolours = "B"\n', "w.toml", tmp_path
        )
    assert [fault.where for fault in found.value.faults] == ["w.toml:5"]
