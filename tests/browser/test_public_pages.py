"""Every public page in a real browser, on a desk; and no page wider than the narrowest screen."""
import pytest

from .soundness import check, check_width, public_addresses

pytestmark = pytest.mark.browser


def test_public_pages_are_sound_on_a_desk(page, demo, live_server):
    page.set_viewport_size({"width": 1280, "height": 800})
    for address in public_addresses():
        check(page, live_server.url + address)


def test_no_public_page_is_wider_than_the_narrowest_screen(page, demo, live_server):
    page.set_viewport_size({"width": 320, "height": 800})
    for address in public_addresses():
        page.goto(live_server.url + address)
        check_width(page, address)
