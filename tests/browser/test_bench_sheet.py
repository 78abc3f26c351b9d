"""What the bench sheet does in a real browser beyond sending its form."""
import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from teardowns.models import UnsavedSection
from tests.browser.conftest import watched

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
MASS = "[name=mass-total-0-value]"
KEPT = "Object.keys(localStorage).filter((name) => name.startsWith('bench-sheet:'))"


def save(page):
    page.get_by_role("button", name="Save and stay").click()


def keeps_nothing(page):
    """Soon: the module runs once the page is there."""
    for _ in range(100):
        if page.evaluate(KEPT) == []:
            return
        page.wait_for_timeout(50)
    raise AssertionError(page.evaluate(KEPT))


def test_what_was_typed_survives_leaving_the_page(page, alices_sheet):
    page.goto(f"{alices_sheet}/outside/")
    page.fill(MASS, "72.3 g")
    page.goto(f"{alices_sheet}/ports/")
    page.goto(f"{alices_sheet}/outside/")
    page.get_by_role("button", name="Put it back").click()
    assert page.input_value(MASS) == "72.3 g"
    save(page)
    expect(page.get_by_text("1 entry changed")).to_be_visible()
    expect(page.get_by_role("button", name="Put it back")).to_have_count(0)
    keeps_nothing(page)
    assert page.complaints == []


def test_signing_out_leaves_nothing_on_the_device_and_loses_nothing(page, alices_sheet):
    """The other tab of the same sheet writes nothing any more, nor does going back to it."""
    page.goto(f"{alices_sheet}/outside/")
    other = watched(page.context.new_page())
    other.goto(f"{alices_sheet}/ports/")
    page.fill(MASS, "72.3 g")
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("link", name="Sign in")).to_be_visible()
    keeps_nothing(page)
    other.locator("input[type=text]").first.fill("C1")
    other.evaluate("window.dispatchEvent(new Event('pagehide'))")
    assert page.evaluate(KEPT) == [] and page.complaints == []
    kept = UnsavedSection.objects.get()
    assert kept.section == "outside" and kept.fields["mass-total-0-value"] == "72.3 g"
    assert "keep" not in kept.fields


def test_when_a_session_ends_by_itself_the_server_has_what_was_typed_and_the_device_has_nothing(
        page, alices_sheet):
    page.clock.install()
    page.goto(f"{alices_sheet}/outside/")
    page.fill(MASS, "72.3 g")
    with page.expect_response(lambda answer: answer.status == 204):
        page.clock.fast_forward(20_000)
    page.fill(MASS, "72.4 g")
    page.goto(f"{alices_sheet}/outside/")
    assert page.input_value(MASS) == "72.3 g"           # the server's; what came after is offered
    page.get_by_role("button", name="Put it back").click()
    assert page.input_value(MASS) == "72.4 g"
    page.context.clear_cookies()
    page.goto(f"{alices_sheet}/outside/")
    expect(page.get_by_label("Username")).to_be_visible()
    keeps_nothing(page)


def test_saving_by_the_enter_key_loses_no_place(page, alices_sheet):
    page.goto(f"{alices_sheet}/mains-side/")
    page.fill("[name=bus-voltage-0-value]", "325 V")
    page.keyboard.press("Enter")
    expect(page.locator("[name=bus-voltage-0-value]")).to_be_focused()
    expect(page.locator("#sheet").get_by_text("1 entry changed")).to_be_in_viewport()
    save(page)
    expect(page.get_by_role("button", name="Save and stay")).to_be_focused()
    assert page.evaluate("sessionStorage.length") == 0 and page.complaints == []


def test_what_is_typed_beside_a_kept_mistake_is_offered_again_until_it_is_thrown_away(
        page, alices_sheet):
    page.goto(f"{alices_sheet}/outside/")
    page.fill(MASS, "heavy")
    save(page)
    page.fill("[name=case-height-0-value]", "31")
    page.goto(f"{alices_sheet}/ports/")
    page.goto(f"{alices_sheet}/outside/")
    page.get_by_role("button", name="Put it back").click()
    assert page.input_value("[name=case-height-0-value]") == "31"
    page.get_by_role("button", name="Throw away what is not saved here").click()
    expect(page.locator(MASS)).to_have_value("")
    expect(page.get_by_role("button", name="Put it back")).to_have_count(0)
    keeps_nothing(page)


def test_what_cannot_be_sent_is_said_before_it_is_given_up(page, alices_sheet):
    page.goto(f"{alices_sheet}/outside/")
    page.fill(MASS, "72.3 g")
    page.route("**/bench/**", lambda route: route.abort())
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("alert")).to_contain_text("could not be sent")
    assert page.input_value(MASS) == "72.3 g" and len(page.evaluate(KEPT)) == 1
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("link", name="Sign in")).to_be_visible()
    keeps_nothing(page)


def test_typing_a_value_chooses_recorded(page, alices_sheet):
    page.goto(f"{alices_sheet}/outside/")
    page.fill(MASS, "72")
    expect(page.locator("[name=mass-total-0-state][value=recorded]")).to_be_checked()


def test_an_error_takes_the_focus_and_links_to_its_field(page, alices_sheet):
    page.goto(f"{alices_sheet}/outside/")
    page.fill(MASS, "heavy")
    save(page)
    expect(page.locator("#errors")).to_be_focused()
    page.locator("#errors a").click()
    expect(page.locator(MASS)).to_be_focused()
    assert Axe().run(page).violations_count == 0


def test_the_reading_follows_the_text(page, alices_sheet):
    page.goto(f"{alices_sheet}/printed/")
    page.fill("[name=texts-0-text]", "OUTPUT: 5V 2.4A")
    expect(page.locator(".reading").first).to_contain_text(re.compile(r"output, 5.V, 2\.4.A"))
    page.get_by_role("button", name="Read the text into claims").first.click()
    assert page.input_value("[name=claims-0-current]") == "2.4 A"
    assert page.complaints == []


@pytest.mark.parametrize("section", ["printed", "mains-side", "barrier"])
def test_a_section_fits_320_pixels_and_has_no_violation(page, alices_sheet, section):
    page.set_viewport_size({"width": 320, "height": 700})
    page.goto(f"{alices_sheet}/{section}/")
    assert page.evaluate("document.documentElement.scrollWidth") == 320
    assert Axe().run(page).violations_count == 0
    assert page.complaints == []


def test_a_choice_longer_than_its_box_goes_on_in_a_second_line(page, alices_sheet):
    page.set_viewport_size({"width": 360, "height": 800})
    page.goto(f"{alices_sheet}/barrier/")
    choice = page.locator("[name=distances-0-material_group]")
    before = choice.bounding_box()["height"]
    choice.select_option("IIIa")
    assert choice.bounding_box()["height"] > before
