"""The faces that text is drawn with: a font file of the user's first, then the packaged one.

Only what a drawing needs is read from a font file, and only when it is first needed: which glyph
stands for a character, how far it moves the pen, how close a pair stands, and its outline.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from mockup.errors import MockupError
from mockup.render.kerning import pair_kerning
from mockup.render.record import Weight

NOTHING = ".notdef"
"""The glyph every font draws for a character it lacks (an open box)."""

_PACKAGED = {"regular": "SourceSansPro", "bold": "SourceSansProBold"}
_OWN: ContextVar[tuple[Path, Path] | None] = ContextVar("own_font", default=None)


class CannotUseFont(MockupError):
    """A font file that cannot be read as one."""


class Face:
    """One font file: lengths in its own units, of which ``cap_height`` are a capital's height.

    ``key`` begins the ids of its glyphs, so that two faces of one drawing never share one.
    """

    def __init__(self, path: Path, key: str) -> None:
        self.path = path
        self.key = key
        self._outlines: dict[str, str] = {}
        self._advances: dict[str, float] = {}
        self._font = _opened(path)

    @cached_property
    def characters(self) -> dict[int, str]:
        """Glyph name by code point."""
        found: dict[int, str] | None = self._font.getBestCmap()
        if not found:
            raise CannotUseFont(f"{self.path}: the font has no Unicode characters; use another")
        return found

    @cached_property
    def cap_height(self) -> float:
        """Height of a flat capital in font units, as ISO 3098 measures lettering.

        Measured on the H, since the height that a font states may be a little off.
        """
        stated = getattr(self._font["OS/2"], "sCapHeight", 0) if "OS/2" in self._font else 0
        return float(self._height_of_h() or stated or 0.7 * self._font["head"].unitsPerEm)

    @cached_property
    def units_per_em(self) -> float:
        """Font units in one em, the size that other programs call the font's."""
        return float(self._font["head"].unitsPerEm)

    @cached_property
    def family(self) -> str:
        """The name by which other programs know the font."""
        return str(self._font["name"].getDebugName(1) or self.path.stem)

    @cached_property
    def kern(self) -> Callable[[str, str], float]:
        """How much nearer (below zero) or further the second of two glyphs stands."""
        return pair_kerning(self._font)

    def advance(self, glyph: str) -> float:
        """How far ``glyph`` moves the pen, font units."""
        if glyph not in self._advances:
            self._advances[glyph] = float(self._font["hmtx"][glyph][0])
        return self._advances[glyph]

    def glyph_number(self, glyph: str) -> int:
        """The number by which the font file counts a glyph."""
        return int(self._font.getGlyphID(glyph))

    def glyph_name(self, number: int) -> str:
        """The name of the glyph that the font numbers so."""
        return str(self._font.getGlyphName(number))

    def outline(self, glyph: str) -> str:
        """SVG path data of ``glyph`` in font units, y up; empty for a space."""
        if glyph not in self._outlines:
            self._outlines[glyph] = self._drawn(glyph)
        return self._outlines[glyph]

    def char_string(self, glyph: str) -> Any:
        """The outline of ``glyph`` as a compact font (CFF) keeps it, with its advance."""
        from fontTools.pens.t2CharStringPen import T2CharStringPen

        pen = T2CharStringPen(round(self.advance(glyph)), self._glyphs)
        self._glyphs[glyph].draw(pen)
        return pen.getCharString()

    def _drawn(self, glyph: str) -> str:
        from fontTools.pens.svgPathPen import SVGPathPen

        pen = SVGPathPen(self._glyphs, ntos=_short)
        self._glyphs[glyph].draw(pen)
        return str(pen.getCommands())

    @cached_property
    def _glyphs(self) -> Any:
        return self._font.getGlyphSet()

    def _height_of_h(self) -> float:
        from fontTools.pens.boundsPen import BoundsPen

        pen = BoundsPen(self._glyphs)
        if ord("H") in self.characters:
            self._glyphs[self.characters[ord("H")]].draw(pen)
        return float(pen.bounds[3]) if pen.bounds else 0.0


@dataclass(frozen=True)
class Faces:
    """The faces of one weight in the order they are asked for a character."""

    faces: tuple[Face, ...]

    def face_for(self, character: str) -> Face | None:
        """The first face that has ``character``, or None."""
        return next((face for face in self.faces if ord(character) in face.characters), None)

    def drawing(self, character: str) -> Face:
        """The face that draws ``character``; the last draws a box for what none has."""
        for face in self.faces:
            if ord(character) in face.characters:
                return face
        return self.last

    @property
    def last(self) -> Face:
        """The packaged face."""
        return self.faces[-1]


def faces(weight: Weight = "regular") -> Faces:
    """The faces in use for ``weight``.

    >>> faces("bold").last.family, faces().last.cap_height
    ('Source Sans Pro', 656.0)
    """
    return _faces(weight, _OWN.get())


@contextmanager
def lettered_with(regular: Path | str, bold: Path | str | None = None) -> Iterator[None]:
    """Draw text with a font file of the user's; what it lacks still comes from the packaged one.

    Raises ``CannotUseFont`` when a file is missing or is no font. Without ``bold`` the one file
    serves both weights.
    """
    own = Path(regular), Path(bold if bold is not None else regular)
    token = _OWN.set(own)
    try:
        for weight in ("regular", "bold"):
            _require_usable(_faces(weight, own).faces[0])
        yield
    finally:
        _OWN.reset(token)


def packaged_files() -> tuple[Path, ...]:
    """The packaged font's files, one for each weight."""
    import font_source_sans_pro as packaged

    return tuple(Path(packaged.font_files_otf[name]) for name in _PACKAGED.values())


def packaged_face(weight: Weight = "regular") -> Face:
    """The packaged face alone, whatever font the user chose."""
    return _faces(weight, None).last


@cache
def _faces(weight: Weight, own: tuple[Path, Path] | None) -> Faces:
    regular, bold = packaged_files()
    packaged = Face(bold, "b") if weight == "bold" else Face(regular, "r")
    if own is None:
        return Faces((packaged,))
    return Faces((Face(own[weight == "bold"], "v" if weight == "bold" else "u"), packaged))


def _require_usable(face: Face) -> None:
    try:
        glyphs = list(dict.fromkeys(face.characters.values()))[:100]
        usable = face.cap_height > 0.0 and all(face.advance(glyph) >= 0.0 for glyph in glyphs)
        face.kern(glyphs[0], glyphs[-1])
        for glyph in glyphs:
            face.outline(glyph)
    except CannotUseFont:
        raise
    except Exception as broken:  # fontTools raises whatever its readers of tables stumble over
        raise CannotUseFont(f"{face.path}: the font file is damaged; use another") from broken
    if not usable:
        raise CannotUseFont(f"{face.path}: the font has no usable heights or widths; use another")


def _opened(path: Path) -> Any:
    from fontTools.ttLib import TTFont, TTLibError

    try:
        return TTFont(path, lazy=True, fontNumber=0)
    except FileNotFoundError as missing:
        raise CannotUseFont(f"{path}: there is no such font file; check its name") from missing
    except (TTLibError, OSError, ImportError) as unread:
        raise CannotUseFont(f"{path}: not a font that can be read; use a TTF or OTF") from unread


def _short(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".") if value != int(value) else str(int(value))
