"""Every page in a real browser: accessible, quiet, and whole without scripts or a wide screen."""
import pytest
from axe_playwright_python.sync_playwright import Axe
from django.db.models import F

from teardowns.models import Unit

pytestmark = pytest.mark.browser
# Only violations are read; writing down what passed takes twice as long as looking.
LEVELS = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
          "resultTypes": ["violations"]}


def richest():
    """The published unit of the largest claim, with lines and claims to look at."""
    largest = F("assessments__claimed_power").desc(nulls_last=True)
    return Unit.objects.published().order_by(largest, "pk").first()


def public_addresses():
    """The public pages, among them a rich, a poor and a contradictory unit."""
    units = Unit.objects.published()
    rich = richest()
    poor = units.filter(assessments__verdict="no evidence").first() or rich
    odd = units.filter(assessments__verdict="evidence contradicts itself").first() or rich
    lines = [line for line in rich.assessments.latest().payload["lines"] if line["used"]]
    claim = rich.claims.filter(kind__in=["output", "total"]).first()
    return [
        "/", "/units/", "/units/?q=nothing-like-this", "/method/", "/styleguide/", "/sign-in/",
        *(unit.get_absolute_url() for unit in (rich, poor, odd)),
        f"/units/{rich.pk}/working/{lines[0]['id']}/low/",
        f"/units/{rich.pk}/claims/{claim.key}/",
    ]


def violations(page):
    found = Axe().run(page, options=LEVELS).response["violations"]
    return [(v["id"], [node["target"] for node in v["nodes"]][:3]) for v in found]


def check(page, address):
    """No violation, nothing sideways, nothing in the console."""
    assert page.goto(address).status == 200, address
    assert violations(page) == [], address
    width = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    assert width <= 0, f"{address} is {width} px wider than the screen"
    assert page.complaints == [], address


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (360, "dark"), (320, "light")])
def test_public_pages_are_sound(page, demo, live_server, width, scheme):
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    for address in public_addresses():
        check(page, live_server.url + address)


def bench_addresses(page, live_server):
    """The sections of a sheet that the demo contributor left as a draft."""
    page.goto(f"{live_server.url}/bench/")
    first = page.locator("main a[href*='/bench/']").filter(has_not_text="Start").first
    page.goto(live_server.url + first.get_attribute("href"))
    return [a.get_attribute("href") for a in page.locator(".rail a").all()]


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (360, "dark")])
def test_the_bench_sheet_is_sound(signed_in, live_server, width, scheme):
    sections = bench_addresses(signed_in, live_server)
    assert len(sections) >= 9
    signed_in.set_viewport_size({"width": width, "height": 800})
    signed_in.emulate_media(color_scheme=scheme)
    for address in ["/bench/", "/bench/new/", *sections]:
        check(signed_in, live_server.url + address)


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
