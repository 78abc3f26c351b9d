"""Two units that look alike, from the queue into a family, and what that shows on their pages."""
import pytest

from teardowns.models import BoardFamilyMember, Lookalike
from teardowns.services.compare_sisters import compare_sisters
from teardowns.services.edit_family import decide_member
from teardowns.services.find_likenesses import find_likenesses
from tests.likenesses import board, component, strangers, winding
from tests.published import published

from .entering import enter
from .soundness import check, check_shown

pytestmark = pytest.mark.browser
WIDTHS = (1280, 360)


@pytest.fixture
def pair(transactional_db, alice):
    """One torn down, one hardly opened, among strangers."""
    torn, closed = board(alice, "Torn down"), board(alice, "Hardly opened", turns=None)
    winding(torn, "secondary", 3, 9.0)
    component(torn, "fuse", "T1A", rated_current=1.0)
    published(torn)
    strangers(alice)
    find_likenesses()
    return torn, closed


def look(page, address):
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        check(page, address)
    page.set_viewport_size({"width": 1280, "height": 800})


def press(page, name):
    page.locator("main").get_by_role("button", name=name, exact=True).click()


def propose(page, unit, address):
    """From the pair's page, with the reason that stands there already."""
    page.goto(address)
    page.get_by_role("link", name=f"Propose unit {unit.pk} for Board HB-12").click()
    why = page.get_by_label("What speaks for it").input_value()
    assert "Primary controller marked UWK-12" in why
    press(page, "Propose")
    page.get_by_text("when it was proposed").wait_for()


def test_from_a_likeness_to_a_family_and_beside_the_verdict(
        page, live_server, pair, mona, milo):
    torn, closed = pair
    enter(page, live_server, "mona", by_cookie=True)
    look(page, f"{live_server.url}/moderation/library/")
    page.get_by_role("link", name=f"Unit {torn.pk} and unit {closed.pk}").click()
    address = page.url
    look(page, address)
    press(page, "They are two boards")
    page.get_by_role("link", name="Why these are two boards").wait_for()
    check_shown(page, address)
    page.get_by_role("link", name="Open a family for them").click()
    page.get_by_label("Name", exact=True).fill("Board HB-12")
    press(page, "Keep")
    page.get_by_role("heading", name="Board HB-12", level=1).wait_for()
    for unit in pair:
        propose(page, unit, address)
    for member in BoardFamilyMember.objects.order_by("pk"):
        decide_member(moderator=milo, member_pk=member.pk, version=1, accepted=True,
                      reason="Looked at both boards.")
    compare_sisters()
    look(page, f"{live_server.url}/families/board-hb-12/")
    look(page, f"{live_server.url}/units/{closed.pk}/")
    page.get_by_text("What was taken over").click()
    check_shown(page, "the rows that were taken over")
    page.get_by_role("link", name=f"unit {torn.pk}, version 2").first.click()
    assert page.url.startswith(f"{live_server.url}/units/{torn.pk}/versions/2/#")
    assert Lookalike.objects.get().family is not None
