"""The rows that a result can go into, in words that tell them apart."""
import pytest

from teardowns.models import Measurement, Port, RecordingReading
from teardowns.presenting.recording_targets import shown_targets, taken_rows
from teardowns.services.take_result import Target

PORT = Port(label="C1")


@pytest.mark.parametrize("row, words", [
    (None, "a row of its own"),
    (Measurement(quantity="sustained_power", state="not_found"), "the row that says “"),
    (Measurement(quantity="sustained_power", value=12.0), "in place of 12.0\u202fW"),
    (Measurement(quantity="sustained_power", value=12.0, port=PORT, output_voltage=5.0,
                 mains_voltage=230.0), "port C1, 5.00\u202fV, 230\u202fV mains")])
def test_a_row_is_told_by_what_it_holds(row, words):
    shown = shown_targets({"sustained_power": [Target("held", 3, row)]})["sustained_power"]
    assert shown[0]["value"] == "held@3" and words in shown[0]["label"]


@pytest.mark.django_db
def test_a_row_that_was_taken_leads_to_its_place_on_the_page_of_the_unit(alice, recording):
    reading = RecordingReading.objects.create(
        recording=recording, code="case_temperature", name="case_temperature", start=0, end=1,
        value=60.0, uncertainty=1.0, shows="measurement/case", author=alice)
    row = {"key": "case", "version": 1, "value": 61.0, "reading": reading, "is_current": False}
    found = taken_rows(recording, {"case_temperature": row})["case_temperature"]
    assert found["address"] == f"/units/{recording.unit_id}/#measurement-case"
    assert (found["value"], found["is_current"]) == ("61.00\u202f°C", False)
    assert found["day"] == f"{reading.created_at:%Y-%m-%d}"
