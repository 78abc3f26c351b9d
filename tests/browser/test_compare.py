"""Collecting units, and reading them side by side, in a real browser."""
from copy import deepcopy

import pytest

from teardowns.models import Photo, PhotoScale
from teardowns.services.import_unit import import_unit
from teardowns.services.receive_photo import receive_photo
from tests.cast import person
from tests.photographs import photograph
from tests.published import confirm_all, published
from tests.views.opened import DOCUMENT

from .conftest import watched
from .entering import visit
from .soundness import check_shown, check_width

pytestmark = pytest.mark.browser


@pytest.fixture
def pair(transactional_db, tmp_path):
    """Two units whose boards were photographed: in one 100 pixels are 20 mm, in the other 10."""
    alice = person("alice")
    return [with_photo(alice, tmp_path, name, millimetres)
            for name, millimetres in (("Veltrice VQ-45", 20.0), ("Ollerby P20", 10.0))]


def with_photo(author, folder, title, millimetres):
    document = deepcopy(DOCUMENT)
    document["unit"]["title"] = title
    unit = import_unit(document, author, "draft")
    received = receive_photo(contributor=author, unit_pk=unit.pk, name="board.png",
                             path=photograph(folder, f"{unit.pk}.png"), stage="component_side")
    PhotoScale.objects.create(photo=Photo.objects.get(pk=received.photo.pk), author=author,
                              points=[[50, 50], [150, 50]], lengths=[millimetres / 1e3])
    confirm_all(unit)
    published(unit)
    return unit


def pixels_a_millimetre(page):
    """Of each photo, on the screen; and what each shows."""
    return page.eval_on_selector_all(".scaled", """drawings => drawings.map(one => [
        one.getBoundingClientRect().width / one.viewBox.baseVal.width,
        one.getAttribute("viewBox")])""")


def collect(page, live_server, pair):
    first, second = (unit.get_absolute_url() for unit in pair)
    visit(page, live_server, first)
    tray = page.locator("compare-tray")
    assert not tray.is_visible()
    link = page.locator("a.to-compare[aria-pressed]").first          # the element is there
    link.focus()
    page.keyboard.press("Space")                    # a link that acts as a button
    assert link.get_attribute("aria-pressed") == "true"
    assert "at least one more" in tray.get_by_role("status").inner_text()
    assert tray.get_by_role("link").count() == 0          # nothing to compare one unit with
    visit(page, live_server, second)
    page.locator("a.to-compare[aria-pressed]").first.click()
    tray.get_by_text("Which").press("Enter")
    assert tray.get_by_role("listitem").count() == 2
    tray.get_by_role("button", name="Remove Veltrice VQ-45").press("Enter")
    assert tray.get_by_role("listitem").count() == 1
    visit(page, live_server, first)
    page.locator("a.to-compare[aria-pressed]").first.press("Enter")
    check_shown(page, first)
    tray.get_by_role("link", name="Compare 2 units").click()


def test_units_are_collected_and_read_side_by_side(page, live_server, pair):
    collect(page, live_server, pair)
    page.wait_for_url(f"**/compare/?units={pair[1].pk},{pair[0].pk}")
    assert not page.locator("compare-tray").is_visible()
    page.locator("compare-photos[data-ready]").wait_for()
    check_shown(page, page.url)
    (one, shown), (other, _) = pixels_a_millimetre(page)
    assert one == pytest.approx(other, rel=1e-3)

    page.locator(".scaled-frame").first.press("+")
    page.locator(".scaled-frame").nth(1).press("ArrowRight")
    (_, near), (_, far) = pixels_a_millimetre(page)
    assert near == far != shown                      # what one shows, all show
    box = page.locator(".scaled").first.bounding_box()
    page.mouse.move(box["x"] + 60, box["y"] + 60)
    page.mouse.down()
    page.mouse.move(box["x"] + 90, box["y"] + 80, steps=3)
    page.mouse.up()
    (_, dragged), (_, with_it) = pixels_a_millimetre(page)
    assert dragged == with_it != near
    page.get_by_role("button", name="Whole").click()
    assert pixels_a_millimetre(page)[1][1] == shown

    page.set_viewport_size({"width": 360, "height": 800})
    check_shown(page, page.url)
    page.emulate_media(color_scheme="dark")
    check_shown(page, page.url)
    page.emulate_media(media="print")
    check_width(page, page.url)


def test_without_a_script_a_link_asks_for_another_unit(chromium, live_server, pair):
    context = chromium.new_context(java_script_enabled=False,
                                   viewport={"width": 360, "height": 800})
    page = watched(context.new_page())
    visit(page, live_server, pair[0].get_absolute_url())
    page.locator("a.to-compare").first.click()
    page.get_by_role("searchbox", name="Find a unit").fill("Ollerby")
    page.get_by_role("button", name="Find").click()
    page.get_by_role("link", name="Add Ollerby P20").click()
    assert page.get_by_role("heading", level=1).inner_text() == "Two units compared"
    assert page.locator(".scaled image").count() == 2
    assert page.locator(".to-scale figcaption a").first.get_attribute("href").startswith("/units/")
    context.close()
