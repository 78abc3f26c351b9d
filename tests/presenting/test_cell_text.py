"""A part of a cell: said where a room worded it, never where a person wrote it."""
import pytest
from django.utils.safestring import mark_safe
from django.utils.translation import override

from core.words.as_written import AsWritten
from core.words.said import Catalogue
from teardowns.presenting.cell_text import cell_text


@pytest.fixture(autouse=True)
def german(monkeypatch):
    monkeypatch.setattr("core.words.said.catalogue",
                        lambda code: Catalogue(code, {"not measured": "nicht gemessen"}))


def test_what_a_room_worded_is_said_and_escaped():
    with override("de"):
        assert cell_text("not measured") == "nicht gemessen"
        assert cell_text("2.5 W <") == "2,5 W &lt;"


def test_what_a_person_wrote_and_finished_markup_stay():
    with override("de"):
        assert cell_text(AsWritten("not measured, 2.5 W <")) == "not measured, 2.5 W &lt;"
        assert cell_text(mark_safe("<b>not measured</b>")) == "<b>not measured</b>"
