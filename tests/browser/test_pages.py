"""Pages in a real browser: whole without scripts, by keys, on paper."""
import pytest

from teardowns.models import Unit

from .soundness import richest

pytestmark = pytest.mark.browser


def test_the_unit_page_is_whole_without_scripts(chromium, demo, live_server):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    unit = richest()
    page.goto(live_server.url + unit.get_absolute_url())
    assert page.locator("table.scale svg").count() > 3
    assert page.get_by_text("show the working").count() > 0
    context.close()


def test_a_number_opens_into_its_working(page, demo, live_server):
    unit = richest()
    page.goto(live_server.url + unit.get_absolute_url())
    page.get_by_role("link", name="show the working").first.click()
    assert page.locator("math").count() > 0
    assert page.get_by_text("Rulebook").count() > 0


def test_the_keyboard_reaches_the_record_first(page, demo, live_server):
    page.goto(live_server.url)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("location.hash") == "#main"


def test_print_shows_the_record_without_its_navigation(page, demo, live_server):
    unit = Unit.objects.published().first()
    page.goto(live_server.url + unit.get_absolute_url())
    page.emulate_media(media="print")
    assert not page.locator("header.top nav").is_visible()
    assert page.locator("h1").is_visible()
