"""A sheet handed in, sent back and handed in again, by keys, in a real browser."""
import pytest
from playwright.sync_api import expect

from teardowns.models import Submission, Unit
from teardowns.services.receive_photo import receive_photo
from tests.cast import person
from tests.handing_in import remark_on, with_plate
from tests.photographs import photograph

from .soundness import check, check_width, violations

pytestmark = [pytest.mark.browser, pytest.mark.database, pytest.mark.django_db(transaction=True)]
WIDTHS = (1280, 360)


@pytest.fixture
def sheet(page, live_server, tmp_path):
    """Alice's draft with a plate and a photo; she is signed in, and its address follows it."""
    alice = person("alice")
    unit = with_plate(Unit.objects.create(contributor=alice, title="Veltrice VQ-45"), alice)
    receive_photo(contributor=alice, unit_pk=unit.pk, name="board.png",
                  path=photograph(tmp_path, "board.png"), stage="solder_side")
    page.goto(f"{live_server.url}/sign-in/")
    page.get_by_label("Username").fill("alice")
    page.get_by_label("Password").fill("alice-of-the-cast")
    page.locator("main").get_by_role("button", name="Sign in").click()
    return f"{live_server.url}/bench/{unit.pk}"


def press_on(page, name, key="Space"):
    """By keys alone: what has the focus is reached by Tab from where the page begins."""
    for _ in range(150):
        page.keyboard.press("Tab")
        if page.evaluate("(name) => document.activeElement.name === name", name):
            page.keyboard.press(key)
            return
    pytest.fail(f"{name} cannot be reached by the Tab key")


def check_all(page, address):
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        check(page, address)


def test_it_is_handed_in_by_keys_taken_back_and_handed_in_again(page, sheet, live_server):
    check_all(page, f"{sheet}/submit/")
    press_on(page, "act", "Enter")                       # nothing is ticked yet
    expect(page.locator("#errors")).to_be_focused()
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        assert violations(page) == []
        check_width(page, page.url)
    for name in ("photo-solder-side-1", "own_rights", "third_party"):
        press_on(page, name)
    press_on(page, "message", "a")
    press_on(page, "act", "Enter")
    expect(page.get_by_role("heading", name="Where it stands")).to_be_visible()
    assert Submission.objects.get().message == "a"
    check_all(page, f"{sheet}/submit/")

    page.get_by_role("button", name="Take it back").click()
    expect(page.locator("[name=photo-solder-side-1]")).to_be_checked()
    unit = Unit.objects.get()
    unit.status = "sent_back"
    unit.save()
    remark_on(unit, person("mona"), text="Which side is this?")
    check_all(page, f"{sheet}/printed/")
    expect(page.get_by_text("Which side is this?")).to_be_visible()
    check_all(page, f"{sheet}/submit/")
    check_all(page, f"{live_server.url}/bench/")
    check_all(page, f"{live_server.url}/licence/")
    check_all(page, f"{sheet}/discard/")
