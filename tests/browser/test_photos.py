"""Photos in a real browser: sent in blocks, drawn on with mouse, finger and keys alone."""
import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from teardowns.models import InsulationObservation, Photo
from teardowns.services.scale_photo import scale_photo
from tests.photographs import damaged, photograph

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def board(page, alices_sheet, tmp_path):
    """The page of a photo of 1600 by 1200 pixels, ten of them a millimetre."""
    page.goto(f"{alices_sheet}/photos/")
    page.set_input_files("#photo-files", photograph(tmp_path, size=(1600, 1200)))
    expect(page.get_by_role("link", name="Show the picture")).to_be_visible()
    photo = Photo.objects.get()
    scale_photo(author=photo.author, photo=photo, lengths=[0.08, 0.04], length_u=1e-5,
                points=((400.0, 400.0), (1200.0, 400.0), (1200.0, 800.0), (400.0, 800.0)))
    page.goto(f"{alices_sheet}/photos/{photo.key}/")
    wait_for_pen(page)
    return photo


def wait_for_pen(page):
    """The script comes after the page and moves what it stands above: a click then may miss."""
    expect(page.locator("photo-annotator[data-ready]")).to_be_visible()


def at(page, x, y):
    """Where a pixel of the board lies on the screen."""
    box = page.locator(".photo-surface").bounding_box()
    return box["x"] + x / 1600 * box["width"], box["y"] + y / 1200 * box["height"]


def points(page, form):
    return [tuple(float(part) for part in point.split(","))
            for point in page.input_value(f"#{form}-points").split()]


def test_many_files_are_sent_and_the_bad_one_is_named(page, alices_sheet, tmp_path):
    page.goto(f"{alices_sheet}/photos/")
    files = [photograph(tmp_path, f"{colour}.jpg", colour=colour) for colour in ("blue", "green")]
    page.set_input_files("#photo-files", [*files, damaged(tmp_path)])
    expect(page.get_by_text("2 pictures saved, 1 not")).to_be_visible(timeout=20_000)
    expect(page.locator(".photo-queue .err")).to_contain_text("Not saved.")
    page.get_by_role("link", name="Show the 2 pictures").click()
    expect(page.locator(".gallery img")).to_have_count(2)
    assert Axe().run(page).violations_count == 0
    assert page.complaints == []        # a refusal is no fault of the page


def test_two_clicks_measure_a_distance(page, board):
    page.get_by_text("Measure a length").last.click()
    page.mouse.click(*at(page, 500, 600))
    page.mouse.click(*at(page, 564, 600))
    expect(page.locator(".photo-said")).to_contain_text("mm")
    (x0, y0), (x1, y1) = points(page, "measure")
    page.select_option("#measure-what", "new:PRI_SEC:clearance")
    page.fill("#measure-place", "slot")
    page.get_by_role("button", name="Measure, and record it").click()
    expect(page.get_by_text("It is part of the evidence now")).to_be_visible()
    drawn = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5        # ten pixels are 1 mm
    assert InsulationObservation.objects.get().value == pytest.approx(drawn * 1e-4, rel=1e-3)
    assert page.complaints == []


def test_keys_alone_mark_a_part(page, board):
    page.locator(".photo-surface").focus()
    page.keyboard.press("Enter")
    for _ in range(3):
        page.keyboard.press("Shift+ArrowRight")
        page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("Enter")
    (x0, y0), (x1, y1) = points(page, "mark")
    assert (x1 - x0, y1 - y0) == pytest.approx((x1 - x0, x1 - x0)) and x1 > x0
    page.fill("#mark-label", "C1")
    page.keyboard.press("Enter")
    expect(page.locator(".marks-list")).to_contain_text("C1")
    assert board.annotations.get().author.username == "alice"


def test_a_place_that_is_missing_keeps_the_drawing(page, board):
    page.get_by_text("Measure a length").last.click()
    page.fill("#measure-points", "500,600 564,600")
    page.select_option("#measure-what", "new:PRI_SEC:clearance")
    page.get_by_role("button", name="Measure, and record it").click()
    expect(page.get_by_text("Say where the distance lies").last).to_be_visible()
    assert page.input_value("#measure-points") == "500,600 564,600"
    assert Axe().run(page).violations_count == 0 and page.complaints == []


def test_a_finger_draws_on_a_small_screen(chromium, page, board, live_server):
    context = chromium.new_context(viewport={"width": 360, "height": 800}, has_touch=True,
                                   storage_state=page.context.storage_state())
    phone = context.new_page()
    phone.goto(page.url)
    wait_for_pen(phone)
    phone.locator(".photo-surface").scroll_into_view_if_needed()
    phone.touchscreen.tap(*at(phone, 300, 300))
    phone.touchscreen.tap(*at(phone, 900, 900))
    assert len(points(phone, "mark")) == 2
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360
    context.close()


def test_without_a_script_numbers_in_a_form_do(chromium, page, board):
    context = chromium.new_context(java_script_enabled=False,
                                   storage_state=page.context.storage_state())
    plain = context.new_page()
    plain.goto(page.url)
    plain.fill("#mark-points", "100,100 300,250")
    plain.fill("#mark-label", "U1")
    plain.get_by_role("button", name="Save the mark").click()
    expect(plain.locator(".photo-marks text")).to_have_text("U1")
    context.close()


@pytest.mark.parametrize("width", [1280, 360])
def test_the_public_pages_of_a_photo_are_clean(page, board, width):
    page.set_viewport_size({"width": width, "height": 800})
    for address in (board.get_absolute_url(), board.unit.get_absolute_url()):
        page.goto(page.url.partition("/bench/")[0].partition("/units/")[0] + address)
        expect(page.locator("img").first).to_be_visible()
        assert Axe().run(page).violations_count == 0
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.complaints == []


def test_a_slot_is_drawn_beside_the_line_that_goes_round_it(page, board):
    page.get_by_label("The picture draws for").select_option(label="Measure a length: The slot")
    for corner in ((600, 500), (630, 500), (630, 700), (600, 700)):
        page.mouse.click(*at(page, *corner))
    page.get_by_label("The picture draws for").select_option(label="Measure a length")
    page.mouse.click(*at(page, 560, 560))
    page.mouse.click(*at(page, 670, 560))
    assert len(points(page, "measure")) == 2
    expect(page.locator(".photo-surface .beside")).to_have_attribute("d", re.compile("^M.*Z$"))
    assert len(page.input_value("#measure-slot").split()) == 4
    page.select_option("#measure-what", "new:PRI_SEC:creepage")
    page.fill("#measure-place", "round the slot")
    page.get_by_role("button", name="Measure, and record it").click()
    expect(page.get_by_text("It goes round the slot by corners 1 and 2").first).to_be_visible()
    # √(4² + 6²) + 3 + √(4² + 6²) = 17.42 mm; a click lands within a pixel of the screen.
    assert InsulationObservation.objects.get().value == pytest.approx(0.01742, abs=5e-4)
    assert page.complaints == []


def test_clicks_on_one_point_stay_out_of_sight_and_all_count(page, board):
    page.get_by_text("How far one click may be off").last.click()
    for x, y in ((500, 600), (502, 600), (500, 602), (502, 602)):
        page.mouse.click(*at(page, x, y))
    assert len(points(page, "clicks")) == 4
    expect(page.locator(".photo-said")).to_contain_text("Click 4 at")
    expect(page.locator(".handles.clicks .handle").first).to_have_css("opacity", "0")
    page.get_by_role("button", name="Keep these clicks").click()
    expect(page.get_by_text("from 4 clicks")).to_be_visible()
    assert page.complaints == []
