"""Every page of the bench sheet in a real browser."""
import pytest

from .soundness import check

pytestmark = pytest.mark.browser


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
