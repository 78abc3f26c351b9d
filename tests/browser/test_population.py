"""Pictures of many units and a part's page, walked through in Chromium."""
import re

import pytest

from teardowns.models import ListedUnit, Part

from .soundness import check

pytestmark = pytest.mark.browser
WIDTHS = (1280, 360)


def look(page, address):
    """Sound at both widths; then wide again."""
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        check(page, address)
    page.set_viewport_size({"width": 1280, "height": 800})


def test_from_a_unit_to_its_population_and_from_a_point_to_another_unit(page, demo, live_server):
    weighed = ListedUnit.objects.listed().filter(mass__isnull=False, measured_power__isnull=False)
    unit = weighed.first()
    page.goto(f"{live_server.url}/units/{unit.pk}/")
    page.get_by_role("link", name="Its mass against measured power").click()
    page.locator(".plane .this").wait_for()
    assert page.locator("tr.this-row th").inner_text().startswith(unit.title)
    for of in ("mass", "capability", "bulk", "insulation"):
        look(page, f"{live_server.url}/population/?of={of}&unit={unit.pk}")
    drawn = page.locator("#drawn-h").inner_text()
    page.get_by_role("checkbox", name=re.compile("supported")).first.focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Draw").press("Enter")
    page.get_by_label("Narrowed by").wait_for()
    assert page.locator("#drawn-h").inner_text() != drawn
    assert f"unit={unit.pk}" in page.url and "of=insulation" in page.url
    page.goto(f"{live_server.url}/population/")
    point = page.locator(".plane a").first
    led = point.get_attribute("href")
    point.locator("circle").click()
    page.wait_for_url(f"**{led}")
    controller = Part.objects.get(marking="UWK-12")
    look(page, f"{live_server.url}/parts/{controller.pk}/")
    assert page.locator("#powers .plane").count() == 2


def test_it_is_read_without_script_in_the_dark_and_on_paper(chromium, demo, live_server):
    context = chromium.new_context(java_script_enabled=False, color_scheme="dark",
                                   viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto(f"{live_server.url}/population/?of=capability")
    drawn = int(page.locator("#drawn-h").inner_text().split()[0])
    assert page.locator(".plane a").count() == drawn > 0
    page.emulate_media(media="print")
    assert page.locator(".plane").is_visible() and not page.locator(".narrow-down").is_visible()
    context.close()
