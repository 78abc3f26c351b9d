"""Every public page in a real browser, on a desk and on the narrowest screen."""
import pytest

from .soundness import check, check_width, public_addresses

pytestmark = pytest.mark.browser


def test_public_pages_are_sound_on_a_desk_and_no_wider_than_the_narrowest_screen(
        page, demo, live_server):
    for address in public_addresses():
        page.set_viewport_size({"width": 1280, "height": 800})
        check(page, live_server.url + address)
        page.set_viewport_size({"width": 320, "height": 800})
        check_width(page, address)
