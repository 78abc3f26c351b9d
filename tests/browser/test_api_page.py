"""The page about the API in a real browser: sound on a desk and on a phone in the dark."""
import pytest

from .soundness import check

pytestmark = pytest.mark.browser


@pytest.mark.django_db
def test_the_page_about_the_api_is_sound(page, live_server):
    for width, scheme in ((1280, "light"), (360, "dark")):
        page.set_viewport_size({"width": width, "height": 800})
        page.emulate_media(color_scheme=scheme)
        check(page, live_server.url + "/api/")
    page.get_by_role("link", name="Public units, narrowed by facets and sorted").click()
    example = page.locator("#list-units details")
    example.locator("summary").focus()
    page.keyboard.press("Enter")
    assert "plausibility" in example.locator("pre").inner_text()
