"""Find units as a reader does: by choices, by words, from page to page; and watch a search."""
import pytest
from playwright.sync_api import expect

from .soundness import check, check_shown, check_width

pytestmark = pytest.mark.browser
ROWS = "table.units tbody tr"
TITLE = "table.units tbody th > a:first-of-type"


def test_a_reader_narrows_sorts_searches_and_watches(page, demo, live_server):
    page.goto(live_server.url)
    page.locator(".ways").get_by_role("link", name="Browse").click()
    check_shown(page, "the list")
    _turn_pages(page)
    _narrow_by_keyboard(page)
    _search(page)
    _watch(page, demo.passwords["alma"])


def test_it_is_found_and_narrowed_on_a_phone_and_without_script(chromium, demo, live_server):
    context = chromium.new_context(viewport={"width": 360, "height": 740},
                                   java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{live_server.url}/units/")
    assert page.locator(ROWS).first.bounding_box()["y"] < 740      # choices are folded away
    page.get_by_text("Narrow down and sort").click()
    page.get_by_role("group", name="Verdict").get_by_label("supported").check()
    page.get_by_label("Sort by").select_option("gap")
    page.get_by_role("button", name="Show").click()
    assert "verdict=supported" in page.url and "sort=gap" in page.url
    expect(page.get_by_role("list", name="Narrowed by")).to_contain_text("Verdict: supported")
    context.close()


def test_its_pages_are_sound_on_a_phone(page, demo, live_server):
    page.set_viewport_size({"width": 360, "height": 740})
    for address in ("/units/?verdict=supported&year=20", "/units/?q=hurdlop&kind=other",
                    "/units/list-columns/", "/"):
        check(page, live_server.url + address)
    page.goto(f"{live_server.url}/units/")
    page.evaluate("document.querySelectorAll('details').forEach((one) => (one.open = true))")
    check_width(page, "/units/, all open")


def _turn_pages(page):
    first = page.locator(TITLE).first.inner_text()
    page.get_by_role("link", name="Next page").click()
    expect(page.locator(".found .span")).to_contain_text("26 to")
    page.get_by_role("link", name="Previous page").click()
    expect(page.locator(TITLE).first).to_have_text(first)


def _narrow_by_keyboard(page):
    """A box is ticked and the form sent without a pointer."""
    page.get_by_role("group", name="Verdict").get_by_label("supported").focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    narrowed = page.get_by_role("list", name="Narrowed by")
    expect(narrowed).to_contain_text("Verdict: supported")
    assert page.locator(f"{ROWS} .chip", has_text="supported").count() == page.locator(
        ROWS).count() > 0
    check_shown(page, "narrowed")
    page.get_by_role("link", name="remove Verdict: supported").click()
    expect(narrowed).to_have_count(0)


def _search(page):
    page.get_by_label("Search", exact=True).fill("hurdlop")
    page.get_by_role("button", name="Show").click()
    expect(page.locator("mark").first).to_have_text("Hurdlop")
    check_shown(page, "searched")


def _watch(page, password):
    page.get_by_role("link", name="Sign in to watch this search").click()
    page.get_by_label("Username").fill("alma")
    page.get_by_label("Password").fill(password)
    page.locator("main").get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/units/?q=hurdlop*")
    page.get_by_role("button", name="Watch this search").click()
    expect(page.locator(".notice")).to_contain_text("You get a notice")
    page.get_by_role("link", name="Your saved searches").click()
    expect(page.locator(".searches li")).to_have_count(1)
    page.get_by_text("Rename").first.click()
    check_shown(page, "saved searches")
