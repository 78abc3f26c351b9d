"""The part library and a board family, walked through as contributor and moderator in Chromium."""
import pytest
from django.conf import settings

from teardowns.models import Part, PartProposal, Unit
from tests.library import SHEET, contain, listed
from tests.published import confirm_all, published

from .soundness import check, violations

pytestmark = pytest.mark.browser
WIDTHS = (1280, 360)


@pytest.fixture
def sign_in(page, live_server, client):
    """Become somebody, with a second factor where the role needs one."""
    def become(user):
        client.force_login(user)
        page.context.add_cookies([{
            "name": settings.SESSION_COOKIE_NAME, "url": live_server.url,
            "value": client.cookies[settings.SESSION_COOKIE_NAME].value}])
        return page
    return become


@pytest.fixture
def part(transactional_db, mona, unit, photo):
    """In the library, on the board of Alice's published unit."""
    made = listed(mona)
    contain(unit, made, designator="U1")
    Unit.objects.filter(pk=unit.pk).update(maker="Veltrice", model="VQ-45")
    unit.refresh_from_db()
    confirm_all(unit)
    published(unit)
    return made


def press(page, name):
    page.locator("main").get_by_role("button", name=name, exact=True).click()


def look(page, address):
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        check(page, address)
    page.set_viewport_size({"width": 1280, "height": 800})


def shown(page):
    """What is on the screen now is accessible at both widths and nothing lies sideways."""
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        assert violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    page.set_viewport_size({"width": 1280, "height": 800})


def test_a_limit_is_proposed_and_accepted_and_the_page_says_when(
        page, live_server, sign_in, part, bob, mona):
    look(page, f"{live_server.url}/parts/?q=pz-63")
    look(page, f"{live_server.url}/parts/{part.pk}/")
    sign_in(bob)
    page.goto(f"{live_server.url}/parts/{part.pk}/")
    page.get_by_role("link", name="another value").click()
    page.get_by_label("Value").fill("thirteen")
    page.get_by_label("Document").fill("PZ6318 data sheet")
    page.get_by_label("Why").fill("Revision 3 gives another figure.")
    press(page, "Propose")
    assert page.get_by_label("Why").input_value() == "Revision 3 gives another figure."
    shown(page)
    page.get_by_label("Value").fill("13 W")
    page.get_by_label("Revision or date").fill("rev. 3")
    page.get_by_label("Page", exact=True).fill("4")
    press(page, "Propose")
    page.get_by_text("waits for a moderator").wait_for()
    shown(page)
    proposal = PartProposal.objects.get()
    sign_in(mona)
    look(page, f"{live_server.url}/moderation/library/")
    look(page, f"{live_server.url}{proposal.get_absolute_url()}")
    page.get_by_label("Why").fill("Looked it up: page 4.")
    press(page, "Accept")
    page.get_by_text("the library says so now").wait_for()
    look(page, f"{live_server.url}/parts/{part.pk}/")
    told = page.locator("#changes").inner_text()
    assert "12\u202fW, now 13\u202fW" in told and "Looked it up: page 4." in told
    assert SHEET in told and Part.objects.get().limits.get().value == 13.0


def test_a_marking_of_the_bench_leads_to_a_new_entry(page, live_server, sign_in, part, bob):
    sign_in(bob)
    look(page, f"{live_server.url}/parts/propose/?marking=KR905")
    page.get_by_label("Why").fill("On three boards.")
    press(page, "Propose")
    page.get_by_text("waits for a moderator").wait_for()
    press(page, "Take it back")
    page.get_by_text("no moderator is asked").wait_for()
    assert page.complaints == []


def test_a_family_is_opened_filled_and_read(page, live_server, sign_in, part, unit, bob, mona):
    sign_in(mona)
    look(page, f"{live_server.url}/families/open/")
    page.get_by_label("Name").fill("Board HB-12")
    page.get_by_label("What speaks for one board").fill(
        f"Controller {unit.pk}/component/ctrl is the same.")
    press(page, "Keep")
    page.get_by_role("heading", name="Board HB-12").wait_for()
    sign_in(bob)
    look(page, f"{live_server.url}/families/board-hb-12/propose/?unit={unit.pk}")
    page.get_by_label("What speaks for it, and what against").fill("The same board number.")
    press(page, "Propose")
    page.get_by_text("waits for a moderator").wait_for()
    shown(page)
    member = page.url
    sign_in(mona)
    look(page, member)
    page.get_by_label("Why").fill("Both boards compared.")
    press(page, "Accept")
    page.get_by_text("belongs to the family now").wait_for()
    for address in ("/families/", "/families/board-hb-12/", "/families/board-hb-12/edit/"):
        look(page, live_server.url + address)
    page.goto(f"{live_server.url}/families/board-hb-12/")
    assert page.locator(".side img").evaluate("image => image.complete && image.naturalWidth > 0")
    page.get_by_role("link", name=f"{unit.pk}/component/ctrl").click()
    assert page.url.endswith(f"/units/{unit.pk}/#component-ctrl")
