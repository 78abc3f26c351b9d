"""A difference between two documents, as it is read: was, is now."""
from copy import deepcopy

import pytest

from teardowns.exchange.document import read_document
from teardowns.exchange.schema import row_schema
from teardowns.exchange.verdict_changes import verdict_changes
from teardowns.presenting.difference_names import LISTS, field_label
from teardowns.presenting.difference_sheet import NOTHING, difference_sheet
from tests.exchange.test_changes import ROW_FIELDS, another
from tests.exchange.whole_document import whole_document


def whole():
    return read_document(whole_document())


def sheet(edit, **pages):
    was, now = whole(), whole()
    edit(now)
    return difference_sheet(was, now, **pages)


def only_line(edit):
    one, = sheet(edit)["lists"]
    row, = one.rows
    line, = row.lines
    return line


def test_two_documents_that_are_the_same_say_so():
    found = sheet(lambda document: None)
    assert found["is_same"] and found["summary"] == NOTHING and found["lists"] == []


def test_a_value_is_printed_with_unit_and_uncertainty_as_on_the_unit_page():
    def edit(document):
        document["insulation"][0]["value"] = 4.9e-3

    line = only_line(edit)
    assert (line.label, line.was, line.now) == (
        "Value", "5.10\u202f±\u202f0.10\u202fmm, k = 1", "4.90\u202f±\u202f0.10\u202fmm, k = 1")


def test_a_value_that_is_gone_says_how_it_was_looked_for():
    def edit(document):
        row = document["measurements"][0]
        row |= {"state": "not_readable", "uncertainty_kind": ""}
        del row["value"], row["uncertainty"]

    line = only_line(edit)
    assert line.was.startswith("12.30") and line.now == "not readable"


def test_a_difference_that_rounding_hides_is_printed_in_full():
    def edit(document):
        document["measurements"][0]["value"] = 12.3000001

    line = only_line(edit)
    assert "12.3\u202fW" in line.was and "12.3000001\u202fW" in line.now


def test_a_number_of_a_part_has_the_unit_of_its_role():
    def edit(document):
        document["components"][0]["nominal"] = 4.7e-6

    line = only_line(edit)
    assert (line.was, line.now) == ("6.8\u202fµF", "4.7\u202fµF")


def test_a_choice_is_told_in_words_and_a_fact_that_is_unknown_is_not_no():
    def edit(document):
        document["ports"][0]["wiring"] = "shorted"
        del document["ports"][0]["high_current_contacts"]

    lines = {line.label: (line.was, line.now) for line in sheet(edit)["lists"][0].rows[0].lines}
    assert lines == {"Data lines": ("to a chip", "D+ joined to D−"),
                     "High current contacts": ("yes", "not stated")}


def test_changed_words_of_a_text_are_marked_and_escaped():
    def edit(document):
        document["claims"][0]["text"] = "100-240V~ <50Hz> 0.5A"

    line = only_line(edit)
    assert line.was == "100-240V~ <del>50/60Hz</del> 0.5A"
    assert line.now == "100-240V~ <ins>&lt;50Hz&gt;</ins> 0.5A"


def test_an_added_row_states_all_that_it_states():
    def edit(document):
        document["measurements"].append(document["measurements"][0] | {
            "key": "held-2", "note": "with a second load", "value": 13.0})

    one, = sheet(edit)["lists"]
    row, = one.rows
    lines = {line.label: line.now for line in row.lines}
    assert (one.caption, row.kind) == ("1 added", "added")
    assert lines["Note"] == "with a second load" and lines["Value"].startswith("13.00")
    assert lines["Instrument"] == "electronic load" and lines["Log"] == "0 to 3 A"
    assert all(line.was == "" for line in row.lines)


def test_rows_that_only_a_review_moved_are_told_together():
    def edit(document):
        document["claims"][0]["review_state"] = document["claims"][1]["review_state"] = "disputed"

    one, = sheet(edit)["lists"]
    group, = one.reviewed
    assert one.rows == [] and one.caption == "2 reviewed"
    assert (group.was, group.now, group.count) == ("confirmed", "disputed", "2 rows")


def test_an_exchanged_picture_is_one_removed_and_one_added_and_its_rows_say_so():
    def edit(document):
        document["photos"][0]["sha256"] = "ef" * 32

    lists = {one.title: one for one in sheet(edit)["lists"]}
    assert lists["Photos"].caption == "1 added, 1 removed"
    line, = lists["Ports"].rows[0].lines
    assert (line.label, line.now) == ("Photo", "another file of the same name")


def test_a_row_leads_to_where_it_stands_and_a_removed_one_to_where_it_stood():
    def edit(document):
        del document["claims"][2]
        document["measurements"][0]["value"] = 11.0

    found = sheet(edit, was_page="/units/7/versions/1/", now_page="/units/7/versions/2/")
    hrefs = [row.href for one in found["lists"] for row in one.rows]
    assert hrefs == ["/units/7/versions/1/#claim-class-2", "/units/7/versions/2/#measurement-held"]


def test_the_unit_itself_comes_first():
    def edit(document):
        document["unit"]["price"] = 8.5
        document["unit"]["channel"] = "shop"
        document["claims"][0]["note"] = "third look"

    found = sheet(edit)
    lines = {line.label: (line.was, line.now) for line in found["lists"][0].rows[0].lines}
    assert [one.title for one in found["lists"]] == ["The unit", "Printed claims"]
    assert lines == {"Where from": ("street or market stall", "shop counter"),
                     "Price": ("7.90\u202fEUR", "8.50\u202fEUR")}


@pytest.mark.parametrize("name, field", [
    pair for pair in ROW_FIELDS
    if pair not in (("insulation", "state"), ("measurements", "state"),       # said by the value
                    ("measurements", "bound"), ("measurements", "bound_kind"))])    # by each other
def test_an_edit_of_any_field_reads_differently_before_and_after(name, field):
    def edit(document):
        document[name][0][field] = otherwise(name, field, document[name][0].get(field))

    lists = sheet(edit)["lists"]
    lines = [line for one in lists for row in one.rows for line in row.lines]
    reviews = [group for one in lists for group in one.reviewed]
    assert (lines or reviews) and all(line.was != line.now for line in lines)
    assert all(group.was != group.now for group in reviews)


def test_a_limit_that_moved_is_printed_with_its_side_and_a_value_in_its_place():
    def nearer(document):
        document["measurements"][1] |= {"bound": 0.06, "bound_kind": "above"}

    def weighed(document):
        row = document["measurements"][1]
        row |= {"state": "recorded", "value": 0.061, "bound_kind": ""}
        del row["bound"]

    def value(edit):
        line, = sheet(edit)["lists"][0].rows[0].lines
        return line.label, line.was, line.now

    assert value(nearer) == ("Value", "≥\u202f50\u202fg", ">\u202f60\u202fg")
    assert value(weighed) == ("Value", "≥\u202f50\u202fg", "61\u202fg, uncertainty not stated")


OTHERWISE = {"sha256": "ef" * 32, "advertised": ["0001912C"], "slot": {"width": 2e-3},
             "columns": {"current": "I"}, "extracted": {"sustained_power": 9.0},
             "limits": [{"quantity": "controller_power_wide", "value": 18.0, "citation": "p. 2"}]}


def otherwise(name, field, value):
    """Another value that the form allows."""
    schema = row_schema(name)["properties"][field]
    if "enum" in schema:
        return next(one for one in schema["enum"] if one not in ("", value))
    kinds = {"number": 0.5, "integer": 7, "string": "x", "boolean": True}
    return OTHERWISE.get(field, another(value if value is not None else kinds[schema["type"]]))


def test_every_field_of_the_form_has_a_name_of_its_own_in_its_list():
    for rows in LISTS:
        labels = [field_label(field) for name, field in ROW_FIELDS if name == rows]
        assert len(set(labels)) == len(labels)


def test_two_readings_of_one_quantity_are_told_apart():
    held = {"quantity": "sustained_power", "state": "recorded", "how": "measured", "value": 20.0,
            "output_voltage": 5.0, "mains_voltage": 230.0}

    def edit(document):
        document["measurements"] += [held | {"key": "one", "port": document["ports"][0]["key"]},
                                     held | {"key": "all", "all_ports": True}]

    one, = [shown for shown in sheet(edit)["lists"] if shown.anchor == "changed-measurements"]
    names = [str(row.name) for row in one.rows]
    assert "5\u202fV at the port, 230\u202fV mains" in names[0]
    assert "all ports together" in names[1] and names[0] != names[1]


def test_the_verdicts_stand_beside_the_evidence_when_reports_are_given():
    same = whole()
    found = difference_sheet(same, deepcopy(same), verdict_changes(None, None))
    assert found["verdicts"].nothing and found["verdicts"].tables == []
