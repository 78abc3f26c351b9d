"""A reader takes a record along: as a PDF, as a citation, as a badge on a page elsewhere."""
import re

import pytest
from playwright.sync_api import expect

from teardowns import jobs
from teardowns.models import Printout
from teardowns.services import ask_printout
from tests.views.printed import public_unit

from .entering import visit
from .soundness import check_shown, check_width

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def unit(transactional_db, settings, live_server):
    settings.SITE_URL = live_server.url
    return public_unit("01-brethuld-b5.json")


@pytest.fixture
def queued(monkeypatch):
    calls = []
    monkeypatch.setattr(ask_printout, "async_task", lambda *call: calls.append(call))
    return calls


def sound_at(page, width):
    page.set_viewport_size({"width": width, "height": 900})
    check_shown(page, page.url)


def test_a_reader_takes_a_record_along(page, live_server, unit, queued):
    visit(page, live_server, f"/units/{unit.pk}/")
    page.get_by_role("link", name="As a PDF").click()
    sound_at(page, 1280)
    page.get_by_role("button", name="Make the PDF").click()
    expect(page.get_by_text("Waiting for the worker")).to_be_visible()
    sound_at(page, 360)
    Printout.objects.update(step=1)
    steps = page.locator("printout-progress li")
    expect(steps.first).to_have_text("Waiting for the worker: done", timeout=15_000)
    expect(page.locator("printout-progress [aria-current]")).to_contain_text(": now")
    jobs.make_printout(Printout.objects.get().pk)
    made = page.get_by_role("link", name=re.compile("Download the PDF"))     # the script noticed
    expect(made).to_be_visible(timeout=15_000)
    check_width(page, page.url)
    with page.expect_download() as download:
        made.click()
    assert download.value.suggested_filename == f"underplate-unit-{unit.pk}-version-1.pdf"
    with open(download.value.path(), "rb") as file:
        assert file.read(8) == b"%PDF-1.7"

    visit(page, live_server, f"/units/{unit.pk}/")
    page.emulate_media(media="print")
    expect(page.get_by_text("As a PDF")).to_be_hidden()
    # A foot that is repeated on each sheet loses its drawing.
    foot = page.locator("tfoot").first
    assert foot.evaluate("foot => getComputedStyle(foot).display") == "table-row-group"
    page.emulate_media(media="screen")
    page.get_by_role("link", name="Cite or embed").click()
    sound_at(page, 1280)
    sound_at(page, 360)
    drawn = page.locator("img.badge").evaluate("image => image.naturalWidth")
    assert drawn > 100
    assert f"{live_server.url}/units/{unit.pk}/versions/1/" in page.get_by_role(
        "region", name="In words").inner_text()


def test_a_citation_is_copied_by_the_keyboard_and_said_to_be(page, live_server, unit):
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    visit(page, live_server, f"/units/{unit.pk}/cite/")
    part = page.locator("copy-text").first
    part.get_by_role("button").press("Enter")
    expect(part.get_by_role("status")).to_have_text("Copied.")
    copied = page.evaluate("navigator.clipboard.readText()")
    assert f"{live_server.url}/units/{unit.pk}/versions/1/" in copied
