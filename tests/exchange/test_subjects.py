"""Documents as subjects of rules about safety."""
import numpy as np
import pytest

from teardowns.exchange.document import read_document
from teardowns.exchange.subjects import subject_tables
from tests.exchange.whole_document import WHOLE

PATH = {"key": "gap", "path": "clearance", "place": "a to b", "value": 2e-3}


def tables(**more):
    refs = {}
    return subject_tables([read_document(WHOLE | more)], refs), refs


def path(**more):
    found, _ = tables(insulation=[PATH | more])
    return {name: part[0] for name, part in found["path"].columns.items()}


# As stated: k = 1 twice, an interval and a tolerance as they are. Else 0.10 mm by a caliper,
# 0.30 mm or 10 % from a photo with a scale, 0.50 mm or 20 % from a known part (assumptions).
@pytest.mark.parametrize("more, expected", [
    ({}, 1e-4), ({"method": "photo_scale"}, 3e-4), ({"method": "photo_part"}, 5e-4),
    ({"method": "photo_scale", "value": 8e-3}, 8e-4),
    ({"uncertainty": 5e-5, "uncertainty_kind": "standard"}, 1e-4),
    ({"uncertainty": 5e-5, "uncertainty_kind": "interval"}, 5e-5),
    ({"uncertainty": 5e-5, "uncertainty_kind": "tolerance"}, 5e-5)])
def test_the_expanded_uncertainty_of_a_distance(more, expected):
    assert path(**more)["distance_u"] == pytest.approx(expected)


def test_what_was_not_recorded_stays_unknown():
    found = path()
    assert np.isnan(found["coated"]) and np.isnan(found["width"]) and found["site"] == ""
    assert path(coated=False)["coated"] == 0.0
    unread = {key: value for key, value in PATH.items() if key != "value"}
    missing, _ = tables(insulation=[unread | {"state": "not_readable"}])
    assert np.isnan(missing["path"].columns["distance"][0])


def test_a_disputed_row_is_no_subject():
    found, _ = tables(insulation=[PATH | {"review_state": "disputed"}])
    assert len(found["path"].row) == 0


def test_what_only_the_seller_says_is_no_subject():
    found, _ = tables(insulation=[PATH | {"how": "claimed_by_seller"}])
    assert len(found["path"].row) == 0


@pytest.mark.parametrize("rows, expected", [
    ([{"safety_class": "Y2"}, {"marking": "X1 Y2 222M"}], 2.0), ([{"safety_class": "Y1"}], None),
    # A pair in one entry is whole: a third one beside it is half of nothing.
    ([{"safety_class": "Y2", "count": 2}], None),
    ([{"safety_class": "Y2", "count": 2, "in_series": True}, {"safety_class": "Y2"}], 1.0),
    ([{"safety_class": "Y2", "bridges": "PRI_PE"}], None)])
def test_how_many_y2_capacitors_bridge_the_barrier(rows, expected):
    found, _ = tables(parts=[], measurements=[], components=[
        {"key": f"y{n}", "role": "barrier_capacitor", "state": "recorded"} | row
        for n, row in enumerate(rows)])
    pieces = found["unit"].columns["barrier_y2_pieces"][0]
    assert np.isnan(pieces) if expected is None else pieces == expected


def test_each_subject_names_its_row_as_the_evidence_does():
    found, refs = tables(insulation=[PATH])
    names = {number: name for name, number in refs.items()}
    assert names[int(found["path"].evidence_id[0])] == "0:insulationobservation/gap"


@pytest.mark.parametrize("states, expected", [
    (["recorded"], 1.0), (["not_found"], 0.0), (["not_found", "recorded"], 1.0),
    (["not_looked"], None), ([], None), (["not_found", "not_readable"], None)])
def test_whether_a_part_is_there(states, expected):
    fuses = [{"key": f"f{n}", "role": "fuse", "state": state}
             for n, state in enumerate(states)]
    found, _ = tables(components=fuses, parts=[], measurements=[])
    known = found["unit"].columns["found_fuse"][0]
    assert np.isnan(known) if expected is None else known == expected


def test_marks_are_known_only_where_some_were_read():
    lps = {"key": "lps", "kind": "mark", "text": "LPS", "mark": "lps"}
    assert tables(claims=[lps])[0]["unit"].columns["claims_limited_source"][0] == 1.0
    bare = tables(claims=[])[0]["unit"].columns
    assert np.isnan(bare["claims_limited_source"][0]) and bare["marks"][0] == ""


@pytest.mark.parametrize("rows, expected", [
    ([{"count": 2}], 2.0), ([{}, {"count": 2}], 3.0), ([{"state": "not_found"}], None), ([], None)])
def test_how_many_bulk_capacitors_were_found(rows, expected):
    found, _ = tables(parts=[], measurements=[], components=[
        {"key": f"b{n}", "role": "bulk_capacitor", "state": "recorded"} | row
        for n, row in enumerate(rows)])
    pieces = found["unit"].columns["bulk_pieces"][0]
    assert np.isnan(pieces) if expected is None else pieces == expected


# 20 V · 2.25 A = 45 W; the printed 60 W counts where it is printed.
@pytest.mark.parametrize("rows, expected", [
    ([{"voltage_high": 20.0, "current": 2.25}, {"voltage_high": 5.0, "current": 3.0}], 45.0),
    ([{"voltage_high": 20.0, "current": 2.25}, {"power": 60.0}], 60.0),
    ([{"voltage_high": 20.0}], None)])
def test_the_largest_printed_output(rows, expected):
    claims = [{"key": f"c{n}", "kind": "output", "state": "recorded"} | row
              for n, row in enumerate(rows)]
    found, _ = tables(claims=claims)
    known = found["unit"].columns["largest_printed_output"][0]
    assert known == expected if expected else np.isnan(known)


@pytest.mark.parametrize("other", [{"how": "claimed_by_seller"}, {"review_state": "disputed"}])
def test_a_capacitor_that_nobody_saw_leaves_the_sum_across_the_barrier_unknown(other):
    def most(*rows):
        found, _ = tables(parts=[], measurements=[], components=[
            {"key": f"y{n}", "role": "barrier_capacitor", "nominal": 1e-9, "tolerance": 0.2} | row
            for n, row in enumerate(rows)])
        return found["unit"].columns["barrier_capacitance_most"][0]

    assert most({}, {}) == pytest.approx(2.4e-9)             # 2 · 1 nF + 20 %
    assert np.isnan(most({}, other)) and most({}, other | {"state": "not_found"}) > 0
