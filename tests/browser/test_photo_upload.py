"""The sending element with files of another kind than pictures."""
import pytest
from playwright.sync_api import expect

from teardowns.models import Recording

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
LOG = b"time (s),case (degC)\n0,21.5\n1,22.0\n2,22.4\n"
KEPT = """document.addEventListener("file-kept", (event) => {
  window.kept = event.detail.address;
})"""


def test_logs_are_sent_in_blocks_too_and_called_logs(page, alices_sheet):
    page.goto(f"{alices_sheet}/recordings/")
    expect(page.get_by_text("You can also drop logs here.")).to_be_visible()
    page.evaluate(KEPT)
    page.set_input_files("#receive-files", [
        {"name": "case.csv", "mimeType": "text/csv", "buffer": LOG},
        {"name": "sheet.csv", "mimeType": "text/csv", "buffer": b"PK\x03\x04" + bytes(60)}])
    expect(page.get_by_text("1 log saved, 1 not.")).to_be_visible(timeout=20_000)
    assert page.evaluate("window.kept").endswith(f"/recordings/{Recording.objects.get().key}/")
    expect(page.get_by_role("link", name="Show the log")).to_be_visible()
    expect(page.get_by_text("No log has been sent yet.")).to_be_hidden()
    assert page.complaints == []
