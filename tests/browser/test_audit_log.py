"""The log of changes, and a form that is sent twice with different words, in a real browser."""
import pytest
from django.db import transaction

from core.audit.record import record
from tests.published import published

from .entering import enter
from .soundness import check, check_width, violations

pytestmark = pytest.mark.browser


@pytest.fixture
def log(transactional_db, alice, mona, unit):
    """Entries of each kind, one with a long word, and enough of them for a second page."""
    published(unit)
    with transaction.atomic():
        for _ in range(60):
            record(alice, "section_saved", unit=unit, section="ports", changed=["port/a"])
        record(mona, "work_withdraw", unit=unit, reason="Measured with a faulty meter. " * 9)
        record(mona, "comment_removed", unit=unit, subject="comment/12", reason="x" * 90)
    return unit


@pytest.mark.parametrize("width", [1280, 320])
def test_the_log_is_sound_for_everybody_and_for_a_moderator(page, live_server, log, width):
    page.set_viewport_size({"width": width, "height": 800})
    check(page, f"{live_server.url}/log/")
    check(page, f"{live_server.url}/log/?unit=seven&before=x")
    enter(page, live_server, "mona", by_cookie=True)
    check(page, f"{live_server.url}/log/")
    page.get_by_role("link", name="Earlier entries").click()
    page.get_by_role("link", name="Newest entries").wait_for()
    assert violations(page) == []


def test_the_log_is_narrowed_by_keys(page, live_server, log):
    page.goto(f"{live_server.url}/log/")
    page.get_by_label("What was done").select_option(label="Record withdrawn")
    page.get_by_role("button", name="Show").focus()
    page.keyboard.press("Enter")
    page.get_by_text("Measured with a faulty meter").wait_for()
    assert page.locator("tbody tr").count() == 1


def test_a_form_sent_twice_with_other_words_keeps_both(page, live_server, log):
    page.set_viewport_size({"width": 320, "height": 800})
    enter(page, live_server, "alice", by_cookie=True)
    page.goto(f"{live_server.url}/report/?about=unit/{log.pk}")
    page.get_by_label("A reading is wrong").check()
    page.get_by_label("Where, and what you see").fill("The mass.")
    key = page.locator("[name=once]").input_value()
    page.get_by_role("button", name="Send the report").click()
    page.get_by_role("heading", name="Your report").wait_for()
    page.go_back()                      # a browser that had kept the page would send its key again
    page.locator("[name=once]").evaluate("(field, key) => { field.value = key; }", key)
    page.get_by_label("Where, and what you see").fill("The mass, and a price.")
    page.get_by_role("button", name="Send the report").click()
    page.get_by_role("heading", name="This form was sent already with other words").wait_for()
    assert violations(page) == [] and "The mass, and a price." in page.content()
    page.complaints.clear()             # a browser complains of every 422
    check_width(page, page.url)
    page.get_by_role("button", name="Send it as something new").click()
    page.get_by_role("heading", name="This form was sent already").wait_for(state="detached")
