"""The style guide shows every part once, and its colours can be read."""
import re
from pathlib import Path

import pytest
from django.conf import settings

from teardowns.views.styleguide import COLOURS

ROOT = Path(settings.BASE_DIR)
TOKENS = (ROOT / "static/css/tokens.css").read_text()
PAIRS = {
    name: halves for name, *halves in re.findall(
        r"--([\w-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)", TOKENS)
}


@pytest.fixture
def shown(client, db):
    return client.get("/styleguide/").content.decode()


def luminance(colour):
    """Relative luminance of sRGB (WCAG 2.2, definition "relative luminance")."""
    parts = (int(colour[i:i + 2], 16) / 255 for i in (1, 3, 5))
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    """Contrast ratio (WCAG 2.2, definition "contrast ratio")."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_contrast_of_black_and_white_is_twenty_one():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)     # WCAG 2.2: 1 to 21


@pytest.mark.parametrize("half", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "sheet", "wash"])
@pytest.mark.parametrize("text", ["ink", "ink-2", "accent", "test"])
def test_text_has_the_contrast_that_wcag_asks_for(text, ground, half):
    # Success criterion 1.4.3: 4.5 : 1
    assert contrast(PAIRS[text][half], PAIRS[ground][half]) >= 4.5


@pytest.mark.parametrize("half", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "sheet"])
@pytest.mark.parametrize("line", ["edge", "accent", "limit", "practice", "test"])
def test_outlines_and_drawings_have_the_contrast_that_wcag_asks_for(line, ground, half):
    # Success criterion 1.4.11: 3 : 1
    assert contrast(PAIRS[line][half], PAIRS[ground][half]) >= 3


@pytest.mark.parametrize("half", [0, 1], ids=["light", "dark"])
def test_a_filled_button_can_be_read(half):
    assert contrast(PAIRS["paper"][half], PAIRS["ink"][half]) >= 4.5


def test_a_browser_without_light_dark_gets_the_light_half():
    fallback = TOKENS[TOKENS.index("@supports not"):TOKENS.index("@media print")]
    assert dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", fallback)) == {
        name: light for name, (light, _) in PAIRS.items()
    }


def test_no_other_stylesheet_states_a_colour():
    for sheet in (ROOT / "static/css").glob("*.css"):
        if sheet.name != "tokens.css":
            assert not re.search(r":[^;{]*(#[0-9a-f]{3,8}\b|rgb|hsl)", sheet.read_text()), sheet


def test_it_shows_every_colour(shown):
    assert {name for name, _ in COLOURS} == set(PAIRS)
    assert all(shown.count(f'class="c-{name}"') == 2 for name in PAIRS)


def test_it_shows_every_mark(shown):
    drawn = (ROOT / "templates/teardowns/_marks.html").read_text()
    marks = set(re.findall(r'<symbol id="([^"]+)"', drawn))
    assert marks and marks <= set(re.findall(r'href="#([^"]+)"', shown))


def test_it_needs_no_data(client, db, django_assert_num_queries):
    with django_assert_num_queries(0):
        assert client.get("/styleguide/").status_code == 200
    assert client.post("/styleguide/").status_code == 405


def test_no_element_carries_its_own_style_or_script(shown):
    assert not re.search(r'\sstyle="|\son\w+="|<style|<script(?![^>]* nonce=")', shown)


@pytest.mark.parametrize("part", ["search", "printout", "sisters", "review", "discussion",
                                  "differences"])
def test_parts_about_people_and_versions_have_a_sample(shown, part):
    assert f'id="{part}"' in shown


def test_forced_colours_give_each_colour_one_of_the_system():
    forced = TOKENS.split("@media (forced-colors: active)", 1)[1].split("@media print", 1)[0]
    named = set(re.findall(r"--([\w-]+): (?:Canvas|CanvasText|GrayText|LinkText);", forced))
    assert named == PAIRS.keys()
