"""The client's page: one file, harmless, light, and the same words as the proof."""

from __future__ import annotations

import re
from base64 import b64decode, b64encode
from dataclasses import replace
from hashlib import sha256
from html import unescape
from html.parser import HTMLParser
from io import BytesIO
from urllib.parse import parse_qs, urlsplit

import pytest
from fontTools.ttLib import TTFont

from mockup.colour.srgb import contrast
from mockup.colour.views import shown_as
from mockup.lengths import format_length
from mockup.piece.assemble import assemble
from mockup.render.fonts import packaged_face
from mockup.render.page.page_asked import PageAsked
from mockup.render.page.style import page_style
from mockup.render.page.typeface import typeface_css
from mockup.render.page.words import approved
from mockup.render.viewpoint import ViewOptions
from tests.render.client_pieces import HOSTILE, LETTER, hundred, page_of, sample, usual_page

MOST_BYTES = 400_000


class Read(HTMLParser):
    """Everything of a page that its tests ask about."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.words: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {key: value or "" for key, value in attrs}))

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    def named(self, tag: str) -> list[dict[str, str]]:
        return [attributes for name, attributes in self.tags if name == tag]

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def test_a_hundred_balloons_in_two_colourways_stay_under_the_limit() -> None:
    assert len(hundred().balloons) == 100
    assert len(usual_page("hundred").encode()) <= MOST_BYTES


def test_the_same_piece_is_the_same_page() -> None:
    assert page_of(sample("juniper-two")) == usual_page("juniper-two")


def test_nothing_runs_and_nothing_is_asked_for_from_outside() -> None:
    page = usual_page("hundred")
    read = Read(page)
    assert not read.named("script")
    assert not any(key.startswith("on") for _, given in read.tags for key in given)
    assert not any("style" in given for _, given in read.tags)
    # Every reference is one into the page, a font inside it, or the reply.
    assert all(href.startswith(("#", "mailto:")) for _, g in read.tags if (href := g.get("href")))
    assert not any("src" in given for _, given in read.tags)
    assert set(re.findall(r"url\(([^)]{1,9})", page)) <= {"data:font"} | {
        found for found in re.findall(r"url\(([^)]{1,9})", page) if found.startswith("#")
    }
    assert "http" not in page.replace("http-equiv", "")


def test_the_policy_allows_this_style_and_nothing_else() -> None:
    page = usual_page("juniper-two")
    style = re.search(r"<style>(.*?)</style>", page, re.DOTALL)
    assert style is not None
    seal = b64encode(sha256(style[1].encode()).digest()).decode()
    policy = Read(page).named("meta")[1]["content"]
    # Content Security Policy Level 3: without script-src the default-src holds for scripts.
    assert policy.split("; ")[:2] == ["default-src 'none'", f"style-src 'sha256-{seal}'"]
    assert "unsafe" not in policy


def test_ids_are_unique_and_every_reference_has_its_target() -> None:
    page = usual_page("hundred")
    read = Read(page)
    ids = [given["id"] for _, given in read.tags if "id" in given]
    assert len(ids) == len(set(ids))
    inside = {given["href"][1:] for _, given in read.tags if given.get("href", "")[:1] == "#"}
    assert inside | set(re.findall(r"url\(#([^)]+)\)", page)) <= set(ids)
    assert {given["for"] for given in read.named("label")} <= set(ids)


def test_hostile_words_are_shown_and_do_nothing() -> None:
    design = replace(
        sample("market-lanterns").design, title=HOSTILE, client=HOSTILE, venue=HOSTILE, note=HOSTILE
    )
    asked = PageAsked(10, LETTER, studio=HOSTILE, reply_to='a"@b.example?bcc=x', seen=HOSTILE)
    page = page_of(replace(sample("market-lanterns"), design=design), asked=asked)
    read = Read(page)
    assert not read.named("script")
    assert page.count("<svg") == page.count("</svg>")
    # The words as they are, with U+FFFD in place of the bell.
    assert read.text.count(HOSTILE.replace("\x07", "\ufffd")) >= 4
    replies = [given["href"] for given in read.named("a") if "mailto" in given["href"]]
    assert all(urlsplit(reply).path == "a%22@b.example%3Fbcc%3Dx" for reply in replies)


def test_the_reply_says_what_is_approved() -> None:
    piece = sample("market-lanterns")
    design = replace(piece.design, revision=2)
    asked = PageAsked(10, LETTER, reply_to="proofs@lark.example")
    read = Read(page_of(replace(piece, design=design), asked=asked))
    replies = [urlsplit(g["href"]) for g in read.named("a") if "mailto" in g["href"]]
    assert [reply.path for reply in replies] == ["proofs@lark.example"] * 2
    bodies = [parse_qs(reply.query)["body"][0].strip() for reply in replies]
    code = re.search(r"proof ([0-9A-F]{8})", bodies[0])
    assert code is not None
    assert bodies == [
        f"I approve colourway A of proof {code[1]}, revision 2.",
        f"I approve colourway after dark of proof {code[1]}, revision 2.",
    ]
    assert all(body in read.text for body in bodies)


def test_a_piece_without_colourways_has_no_switch_and_one_reply() -> None:
    read = Read(usual_page("juniper-two"))
    assert [g for g in read.named("input") if g.get("name") == "way"] == []
    (reply,) = (g["href"] for g in read.named("a") if "mailto" in g["href"])
    assert re.match(r"I approve proof [0-9A-F]{8}, revision 1\.", parse_qs(reply)["body"][0])


def test_a_draft_says_so_and_is_not_approved() -> None:
    read = Read(usual_page("two-checks-fail"))
    assert "This is a draft" in read.text
    assert "I approve" not in read.text
    assert "A draft is not for approval yet" in read.text


def test_the_figures_are_those_of_the_layout() -> None:
    piece = sample("ruby-thirty")
    text = Read(usual_page("ruby-thirty")).text
    for length in (piece.extent.width, piece.extent.height, piece.extent.depth):
        assert format_length(length, "in") in text
    assert piece.fit is not None
    assert f"{format_length(piece.fit.height, 'in')} high when filled" in text
    assert f"{len(piece.balloons)} latex balloons in {len(piece.clusters)} clusters" in text


def test_loose_balloons_of_a_garland_are_no_clusters() -> None:
    words = " ".join(approved(sample("wren-garland")))
    assert "latex balloons along the frame (garland)." in words
    assert "cluster" not in words


def test_shares_of_every_colourway_are_the_same_and_sum_to_a_hundred() -> None:
    read = Read(usual_page("hundred"))
    shares = [int(found) for found in re.findall(r"(\d+) %", _key(read.text))]
    count = len(shares) // 2
    assert shares[:count] == shares[count:]
    assert sum(shares[:count]) == 100


def _key(text: str) -> str:
    """The colours of a page's words."""
    return text.partition("Share of the front")[2].partition("Checked")[0]


def test_in_grey_everything_of_the_piece_is_grey() -> None:
    view = ViewOptions(letters=True, recolour=shown_as("grey"))
    asked = PageAsked(10, LETTER, seen="in grey", view=view)
    page = page_of(sample("juniper-two"), asked=asked)
    drawing = page.partition("<main>")[2].partition("<footer>")[0]
    paints = set(re.findall(r"(?:fill|stroke|stop-color)=\"#(\w{6})\"", drawing))
    # The inks of the sheet are near grey themselves.
    coloured = {p for p in paints if max(_channels(p)) - min(_channels(p)) > 12}
    assert not coloured
    assert "in grey" in Read(page).text


def _channels(colour: str) -> tuple[int, ...]:
    return tuple(bytes.fromhex(colour))


INKS = {"--ink": 7.0, "--soft": 4.5, "--good": 3.0, "--care": 3.0, "--alarm": 3.0, "--ring": 3.0}


@pytest.mark.parametrize("ink", INKS)
@pytest.mark.parametrize("ground", ["--ground", "--card"])
def test_every_ink_stands_out_from_its_ground(ink: str, ground: str) -> None:
    # WCAG 2.2, 1.4.3 and 1.4.11: 4.5 : 1 for text, 3 : 1 for marks and the ring round a focus.
    named = dict(re.findall(r"(--\w+):(#\w{3,6})", page_style(LETTER, (1, 1), (1, 1), 1)))
    assert contrast(_long(named[ink]), _long(named[ground])) >= INKS[ink]


def _long(colour: str) -> str:
    return colour if len(colour) == 7 else "#" + "".join(2 * digit for digit in colour[1:])


def test_a_light_text_stands_out_from_the_dark_grounds() -> None:
    style = page_style(LETTER, (1, 1), (1, 1), 1)
    assert "background:var(--alarm);color:#fff" in style
    assert contrast("#ffffff", "#8f1d21") >= 4.5
    assert contrast("#ffffff", "#3a3a3d") >= 4.5


def test_the_page_carries_the_letters_it_uses_at_the_packaged_widths() -> None:
    css = typeface_css("Zoë Łuk Жук ½ 中")
    files = [b64decode(data) for data in re.findall(r"base64,([^)]+)\)", css)]
    assert len(files) == 2
    font = TTFont(BytesIO(files[0]))
    assert set(map(chr, font.getBestCmap())) == set("Zoë Łuk Жук ½")
    face = packaged_face()
    for code, glyph in font.getBestCmap().items():
        assert font["hmtx"][glyph][0] == round(face.advance(face.characters[code]))
    # As other programs measure it: the ascender that lays out lines.
    assert (font["hhea"].ascent, font["hhea"].descent) == (984, -273)


def test_a_long_title_and_twelve_colours_are_all_there() -> None:
    piece = sample("market-lanterns")
    title = "The very long celebration of " * 7
    page = page_of(replace(piece, design=replace(piece.design, title=title.strip())))
    assert title.strip() in Read(page).text


def test_the_title_in_words_is_the_drawing_for_whoever_cannot_see_it() -> None:
    (drawing,) = (g for g in Read(usual_page("ruby-thirty")).named("svg") if "aria-label" in g
                  and g["aria-label"].startswith("The drawing"))  # fmt: skip
    assert "64 latex balloons" in unescape(drawing["aria-label"])


def test_a_piece_without_balloons_or_numerals_has_a_page() -> None:
    design = sample("juniper-two").design
    middle = replace(design.sections[0], right=(), left=(), end_left=None, end_right=None)
    bare = assemble(replace(design, sections=(middle,), panel=None))
    assert "4 latex balloons in 1 cluster, in one section" in Read(page_of(bare)).text
