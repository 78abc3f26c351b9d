"""Somebody with a charger in hand finds it: by the box, by the keys alone, and by its plate."""
import pytest
from playwright.sync_api import expect

from .soundness import check_shown, check_width

pytestmark = [pytest.mark.browser, pytest.mark.database]
PLATE = "UMBERLISK HUB 65\nUSB-C1: 5V 3A 9V 3A 15V 3A 20V 3.2SA 65W Max"


def test_a_charger_is_found_by_keys_by_a_misread_marking_and_by_its_plate(page, demo, live_server):
    _by_keys(page, live_server)
    _by_a_misread_marking(page, live_server)
    _by_its_plate(page, live_server)


def _by_keys(page, live_server):
    page.goto(f"{live_server.url}/units/")
    box = page.get_by_label("Search", exact=True)
    box.press_sequentially("umber")
    options = page.get_by_role("option")
    expect(options.first).to_have_text("Umberlisk")
    expect(box).to_have_attribute("aria-expanded", "true")
    check_shown(page, "the list of suggestions")
    box.press("Escape")
    expect(options.first).to_be_hidden()
    box.press_sequentially("l")
    expect(options.first).to_be_visible()
    box.press("ArrowDown")
    expect(options.first).to_have_attribute("aria-selected", "true")
    assert box.get_attribute("aria-activedescendant") == options.first.get_attribute("id")
    box.press("Enter")
    page.wait_for_url("**q=Umberlisk**")
    expect(page.locator("mark").first).to_have_text("UMBERLISK")


def _by_a_misread_marking(page, live_server):
    """ZHB-1 with I for 1, and the part of the library beside the units."""
    page.goto(f"{live_server.url}/units/?q=zhbI")
    expect(page.locator("mark").first).to_have_text("ZHB-1")
    expect(page.get_by_text("Also found: part ZHB-1")).to_be_visible()


def _by_its_plate(page, live_server):
    page.goto(f"{live_server.url}/units/by-plate/")
    page.get_by_label("What is printed on the plate").fill(PLATE)
    page.get_by_role("button", name="Find units").click()
    near = page.get_by_role("table").get_by_role("row").nth(1)
    expect(near).to_contain_text("the same model: Hub 65")
    check_shown(page, "by-plate")
    page.get_by_role("link", name="Look up this reading").click()
    expect(page.get_by_label("What is printed on the plate")).to_have_value(
        PLATE.replace("3.2SA", "3.25A"))
    page.set_viewport_size({"width": 360, "height": 800})
    check_width(page, "by-plate, narrow")
    check_shown(page, "by-plate, narrow")
