from teardowns.logs.extracted import Extracted, Told, Unread
from teardowns.presenting.recording_results import shown_results, span_text

HELD = Extracted("sustained_power", "Power held in regulation", 11.83, 0.05, "W", 600.0, 1200.0,
                 (("meter", 0.04), ("scatter", 0.03), ("digit", 1e-5)), ("P = U·I.",),
                 {"output_voltage": 5.0, "duration": 600.0})


def shown(*results, taken=None):
    return shown_results([result.to_json() | {"name": result.code} for result in results],
                         taken or {})


def test_a_number_has_twice_its_standard_uncertainty():
    result, = shown(HELD)["read"]
    assert result["value"] == "11.83\u202f±\u202f0.10\u202fW"
    assert result["conditions"] == "at 5.00\u202fV, held for 10.0\u202fmin"


def test_its_budget_begins_with_the_largest_share_and_leaves_out_what_counts_for_nothing():
    # 0.04² of 0.04² + 0.03² is 64 %.
    result, = shown(HELD)["read"]
    assert [(part["name"], part["part"]) for part in result["budget"]] == [
        ("meter", "64 %"), ("scatter", "36 %")]


def test_a_temperature_is_off_by_kelvins():
    warm = Extracted("case_temperature", "Case", 71.0, 1.0, "°C", 0.0, 9.0, (("sensor", 0.9),))
    assert shown(warm)["read"][0]["budget"][0]["share"] == "0.90\u202fK"


def test_words_and_what_was_not_read_stand_apart():
    told = Told("after_limit", "Beyond the limit", "hiccup", "It tried again.", 5.0, 6.0)
    found = shown(told, Unread("ripple_voltage", "Ripple", "No column shows it."))
    assert found["read"][0]["value"] == "It tried again."
    assert found["unread"] == [
        {"name": "ripple_voltage", "anchor": "ripple_voltage", "label": "Ripple",
         "why": "No column shows it.", "taken": None}]


def test_the_row_that_a_number_went_into_stands_beside_it():
    row = {"address": "/units/1/#measurement-held"}
    assert shown(HELD, taken={"sustained_power": row})["read"][0]["taken"] == row


def test_evidence_outlives_the_span_that_it_was_read_from():
    row = {"address": "/units/1/#measurement-ripple"}
    found = shown(Unread("ripple_voltage", "Ripple", "Not in this span."),
                  taken={"ripple_voltage": row})
    assert found["unread"][0]["taken"] == row


def test_a_span_is_in_the_units_of_its_size():
    assert span_text(600.0, 1200.0) == "from 10.00\u202fmin to 20.00\u202fmin"
    assert span_text(1e-6, 2e-6) == "from 1.000\u202fµs to 2.000\u202fµs"
    assert span_text(3.0, 3.0) == "at 3.000\u202fs"
