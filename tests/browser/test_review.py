"""A review by keyboard, at the width of a phone, without a line and without a script."""
import pytest
from django.conf import settings
from django.test import Client
from playwright.sync_api import expect

from teardowns.imaging.web_annotation import written
from teardowns.models import Annotation, Measurement, ReviewDecision
from tests.reviews import handed_in, take_on

from .conftest import watched
from .soundness import check_width, violations

pytestmark = [pytest.mark.browser, pytest.mark.database, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def held(photo, unit, rita):
    """Six rows, one marked on a photo and one looked for in vain; Rita holds the review."""
    handed_in(unit, {"photo": photo}, *[{"quantity": "case_height", "value": 0.03}] * 4,
              {"quantity": "loose_metal", "state": "not_found", "value": None,
               "uncertainty": None, "uncertainty_kind": ""})
    body = written("box", ((40.0, 40.0), (90.0, 80.0)), "scale", "measurement/m0", "photo")
    Annotation.objects.create(photo=photo, key="m", body=body, shows="measurement/m0",
                              author=unit.contributor)
    take_on(rita, unit)
    return unit


def sign_in(context, live_server, person):
    client = Client()
    client.force_login(person)
    name = settings.SESSION_COOKIE_NAME
    context.add_cookies([{"name": name, "value": client.cookies[name].value,
                          "url": live_server.url}])


@pytest.fixture
def sheet(page, live_server, held, rita):
    sign_in(page.context, live_server, rita)
    page.goto(f"{live_server.url}/reviews/{held.pk}/")
    page.locator(".keys").wait_for()
    return page


def said():
    return list(ReviewDecision.objects.values_list("ref", "decision", "reason"))


def focused(page):
    return page.evaluate("document.activeElement.dataset.ref ?? document.activeElement.name")


def test_a_review_is_done_by_keys_alone(sheet, held, rita):
    told = sheet.locator("[data-aloud]")
    sheet.locator(".item").first.focus()
    sheet.keyboard.press("c")
    expect(told).to_have_text("Saved. 1 of 6 decided.")
    sheet.keyboard.press("n")
    assert focused(sheet) == "measurement/m1"
    sheet.keyboard.press("d")
    assert focused(sheet) == "measurement/m1-reason"
    sheet.keyboard.type("A caliper shows 35 mm, count n c d")
    sheet.keyboard.press("Control+Enter")
    expect(told).to_have_text("Saved. 2 of 6 decided.")
    sheet.keyboard.press("Escape")
    for number in range(3, 7):
        sheet.keyboard.press("n")
        sheet.keyboard.press("c")
        expect(told).to_have_text(f"Saved. {number} of 6 decided.")
    sheet.keyboard.press("n")
    assert focused(sheet) == "remark"
    assert said()[1] == ("measurement/m1", "disputed", "A caliper shows 35 mm, count n c d")
    sheet.keyboard.type("Well seen")
    sheet.keyboard.press("Tab")
    sheet.keyboard.press("Enter")
    sheet.get_by_text("Your review is closed.").wait_for()
    assert held.reviews.get().remark == "Well seen" and sheet.complaints == []


def test_what_is_saved_shows_at_once(sheet):
    item = sheet.locator(".item").first
    item.get_by_label("Confirm").check()
    expect(item.locator("[data-said]")).to_contain_text("You confirmed it.")
    expect(sheet.locator("[data-progress] strong")).to_have_text("1 of 6 decided")
    expect(sheet.locator("[data-sides]")).to_contain_text("From confirmed evidence")


def test_single_keys_can_be_switched_off_and_stay_off(sheet):
    sheet.get_by_label("Single keys").uncheck()
    sheet.reload()
    sheet.locator(".item").first.focus()
    sheet.keyboard.press("c")
    sheet.keyboard.press("ArrowDown")
    assert focused(sheet) == "measurement/m1" and said() == []


def test_without_a_line_a_decision_is_kept_said_and_sent_later(sheet):
    sheet.context.set_offline(True)
    sheet.locator(".item").first.get_by_label("Confirm").check()
    told = sheet.locator("[data-aloud]")
    expect(told).to_contain_text("kept on this device")
    expect(sheet.locator(".item[data-kept]")).to_have_count(1)
    sheet.context.set_offline(False)
    expect(told).to_have_text("Saved. 1 of 6 decided.")
    expect(sheet.locator(".item[data-kept]")).to_have_count(0)


def test_a_row_that_changed_meanwhile_is_told_beside_it_and_nothing_typed_is_lost(sheet):
    Measurement.objects.filter(key="m1").update(version=2)
    item = sheet.locator("[data-ref='measurement/m1']")
    item.get_by_label("Dispute", exact=True).check()
    item.get_by_label("Reason").fill("It is 35 mm")
    item.get_by_role("button", name="Save").click()
    expect(item.locator("[data-refused]")).to_contain_text("changed since you saw it")
    assert item.get_by_label("Reason").input_value() == "It is 35 mm" and said() == []


def test_it_is_sound_wide_and_at_360_pixels(sheet):
    for width in (1280, 360):
        sheet.set_viewport_size({"width": width, "height": 800})
        assert violations(sheet) == []
        check_width(sheet, f"the review at {width} px")


def test_it_works_without_a_script(chromium, live_server, held, rita):
    context = chromium.new_context(java_script_enabled=False)
    sign_in(context, live_server, rita)
    page = watched(context.new_page())
    page.goto(f"{live_server.url}/reviews/{held.pk}/")
    page.locator("[data-ref='measurement/m0']").get_by_label("Confirm").check()
    page.locator("[data-ref='measurement/m1']").get_by_label("Dispute", exact=True).check()
    page.get_by_role("button", name="Save all decisions that are chosen").click()
    page.get_by_text("1 decision saved.").wait_for()
    page.locator("[data-ref='measurement/m1']").get_by_label("Reason").fill("35 mm")
    page.locator("[data-ref='measurement/m1']").get_by_role("button", name="Save").click()
    page.locator(".came strong", has_text="2 of 6 decided").wait_for()
    context.close()
    assert [decision for _, decision, _ in said()] == ["confirmed", "disputed"]
