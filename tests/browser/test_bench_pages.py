"""Every page of the bench sheet in a real browser."""
import pytest

from .soundness import check, check_shown

pytestmark = pytest.mark.browser


def bench_addresses(page, live_server):
    """The sections of a sheet that the demo contributor left as a draft."""
    page.goto(f"{live_server.url}/bench/")
    first = page.locator("main a[href*='/bench/']").filter(has_not_text="Start").first
    page.goto(live_server.url + first.get_attribute("href"))
    return [a.get_attribute("href") for a in page.locator(".rail a").all()]


def test_the_bench_sheet_is_sound_on_a_phone_in_the_dark_and_on_a_desk(signed_in, live_server):
    sections = bench_addresses(signed_in, live_server)
    assert len(sections) >= 9
    for address in ["/bench/", "/bench/new/", *sections]:
        signed_in.set_viewport_size({"width": 360, "height": 800})
        signed_in.emulate_media(color_scheme="dark")
        check(signed_in, live_server.url + address)
        signed_in.set_viewport_size({"width": 1280, "height": 800})
        signed_in.emulate_media(color_scheme="light")
        check_shown(signed_in, address)
