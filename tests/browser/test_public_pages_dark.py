"""Every public page in a real browser, on a phone in the dark."""
import pytest

from .soundness import check, public_addresses

pytestmark = pytest.mark.browser


def test_public_pages_are_sound_on_a_phone_in_the_dark(page, demo, live_server):
    page.set_viewport_size({"width": 360, "height": 800})
    page.emulate_media(color_scheme="dark")
    for address in public_addresses():
        check(page, live_server.url + address)
