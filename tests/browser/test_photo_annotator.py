"""The annotator in a real browser: whom a Tab, a tap and a label mean where they are close."""
import pytest
from playwright.sync_api import expect

from teardowns.models import Unit
from teardowns.services.annotate_photo import put_mark
from teardowns.services.receive_photo import receive_photo
from tests.photographs import photograph

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
CHOOSER = "The picture draws for"


@pytest.fixture
def board(page, alices_sheet, tmp_path):
    """A photo of 1600 by 1200 pixels with three marks: two close together, one apart."""
    unit = Unit.objects.get()
    photo = receive_photo(contributor=unit.contributor, unit_pk=unit.pk, name="board.jpg",
                          path=photograph(tmp_path, size=(1600, 1200)), stage="opened").photo
    for x, label in ((200, "fuse F1"), (240, "bulk C1"), (600, "core T1")):
        put_mark(author=unit.contributor, photo=photo, shape="box", label=label, shows="",
                 points=((x, 300), (x + 30, 330)))
    page.goto(f"{alices_sheet}/photos/{photo.key}/")
    page.get_by_label(CHOOSER).wait_for()
    return photo


def at(page, x, y):
    """Where a pixel of the board lies on the screen."""
    box = page.locator(".photo-surface").bounding_box()
    return box["x"] + x / 1600 * box["width"], box["y"] + y / 1200 * box["height"]


def labels(page):
    return page.locator(".photo-marks text").all_text_contents()


def test_a_passing_tab_leaves_the_drawing_where_it_is(page, board):
    page.get_by_label(CHOOSER).select_option(label="Cover something private")
    page.locator("#cover-points").focus()
    page.locator("#mark-label").focus()
    drawn = page.locator(f"label:has-text('{CHOOSER}') option:checked")
    assert drawn.text_content() == "Cover something private"
    page.keyboard.type("C1")
    assert drawn.text_content() == "Mark what is shown"
    assert page.complaints == []


def test_a_tap_beside_a_point_is_another_one_and_a_tap_on_it_takes_it(page, board):
    page.locator("#mark-shape").select_option("path")
    x, y = at(page, 800, 700)
    for beside in (0, 14, 2):           # grips reach to 16, points to 12 pixels of the screen
        page.mouse.click(x + beside, y)
    assert len(page.input_value("#mark-points").split()) == 2
    expect(page.locator(".handle").first).to_be_focused()
    page.keyboard.press("Delete")
    assert len(page.input_value("#mark-points").split()) == 1


def test_of_near_labels_one_stands_and_the_other_when_it_is_meant(page, board):
    assert labels(page) == ["fuse F1", "", "core T1"]
    page.locator(".marks-list a[data-key]").nth(1).focus()
    assert labels(page) == ["1", "bulk C1", "core T1"]
    for _ in range(5):
        page.get_by_role("button", name="Zoom in").click()
    assert labels(page) == ["fuse F1", "bulk C1", "core T1"]
