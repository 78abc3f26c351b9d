"""What a unit could take over from sister boards, and what it never does."""
from math import sqrt

import pytest

from teardowns.exchange.inherited import (
    NOT_LOOKED,
    SAME_MARKING,
    Sister,
    disagreements,
    extended,
    inherit,
    pooled,
)
from teardowns.exchange.schema import problems, unit_schema
from tests.likeness.made import component, document, measured, winding

BULK = {"nominal": 1e-5, "rated_voltage": 400.0, "tolerance": 0.2}
TORN_DOWN = {
    "components": [component("primary_controller", "UWK-12"), component("core", "EE16"),
                   component("bulk_capacitor", "10µF 400V", **BULK),
                   component("fuse", "T1A", rated_current=1.0)],
    "stack": [winding("primary", 1, 100.0), winding("secondary", 3, 9.0)],
}


def sister(unit=12, version=2, **parts):
    return Sister(unit, version, document(**parts))


def taken(mine=None, *sisters):
    made = inherit(sister(1, 1, **(mine or {})), sisters or (sister(**TORN_DOWN),))
    return {row.code: row for row in made.rows}


def test_what_nobody_looked_at_is_taken_over_with_its_origin():
    row = taken()["primary_turns"]
    assert (row.value, row.unit, row.version, row.because) == (100.0, 12, 2, NOT_LOOKED)
    assert row.refs == ("stacklayer/primary-1",)


def test_a_design_is_lent_with_five_percent_more_doubt():
    """A count of 100 is read to 2 % (k = 1): sqrt(2² + (0.05 · 100)²); JCGM 100:2008, 5.1.2."""
    assert taken()["primary_turns"].u == pytest.approx(sqrt(4 + 25))


def test_a_part_that_makers_change_is_lent_with_thirty_percent_more():
    """±20 % marked is 20 / sqrt(3) % (k = 1; JCGM 100:2008, 4.3.7), and 30 % beside it."""
    row = taken()["bulk_capacitance_marked"]
    assert row.u / row.value == pytest.approx(sqrt(0.2**2 / 3 + 0.3**2))


def test_with_the_same_marking_here_only_its_rating_is_filled_in():
    mine = {"components": [component("fuse", "T 1 A")]}
    row = taken(mine)["fuse_rating"]
    assert (row.because, row.share) == (SAME_MARKING, 0.05)


@pytest.mark.parametrize("state", ["not_found", "not_readable"])
def test_looked_and_nothing_came_of_it_stays(state):
    mine = {"components": [component("fuse", state=state)],
            "stack": [winding("primary", 1, 100.0) | {"state": state}]}
    assert {"fuse_rating", "primary_turns"}.isdisjoint(taken(mine))
    assert "secondary_turns" in taken(mine)


def test_what_was_said_not_to_be_looked_at_is_taken_over():
    mine = {"components": [component("fuse", state="not_looked")]}
    assert taken(mine)["fuse_rating"].because == NOT_LOOKED


@pytest.mark.parametrize("review", ["open", "disputed"])
def test_a_row_of_its_own_wins_even_where_nobody_confirmed_it(review):
    mine = {"components": [component("fuse", "T2A", rated_current=2.0, review_state=review)]}
    assert "fuse_rating" not in taken(mine)


def test_another_marking_here_lends_nothing():
    assert "fuse_rating" not in taken({"components": [component("fuse", "F315")]})


def test_a_measured_capacitance_is_not_told_the_marked_one():
    mine = {"measurements": [measured("bulk_capacitance", 8e-6)]}
    assert "bulk_capacitance_marked" not in taken(mine)


def test_nothing_that_was_tried_and_no_claim_and_no_distance_is_taken_over():
    other = sister(measurements=[measured("sustained_power", 20.0, duration=1800.0),
                                 measured("efficiency", 0.9), measured("case_temperature", 60.0)],
                   insulation=[{"key": "gap", "barrier": "PRI_SEC", "path": "creepage",
                                "place": "board", "value": 0.006, "review_state": "confirmed"}])
    assert taken(None, other) == {}


def test_what_nobody_confirmed_there_is_not_lent():
    row = component("fuse", "T1A", rated_current=1.0, review_state="open")
    assert taken(None, sister(components=[row])) == {}


def test_of_two_sisters_the_surer_reading_stands_and_is_not_made_surer():
    one = sister(12, measurements=[measured("primary_inductance", 7.0e-4, 1e-5)])
    two = sister(13, measurements=[measured("primary_inductance", 7.2e-4, 2e-5)])
    row = taken(None, two, one)["primary_inductance"]
    assert (row.unit, row.value) == (12, 7.0e-4)
    assert row.u == pytest.approx(sqrt(1e-5**2 + (0.1 * 7.0e-4)**2))


def test_where_sisters_differ_nobody_s_reading_is_taken():
    """100 and 120 turns, 2 % each: 20 / sqrt(2² + 2.4²) = 6.4 combined uncertainties."""
    two = sister(13, stack=[winding("primary", 1, 120.0)])
    made = inherit(sister(1, 1), [sister(**TORN_DOWN), two])
    assert made.rows == ()               # of neither, for one of the two is no sister
    assert [(one.about, one.units) for one in made.between] == [("primary_turns", (12, 13))]


def test_of_a_part_that_sisters_have_differently_nobody_s_is_taken():
    two = sister(13, **TORN_DOWN | {"components": [component("fuse", "T3A", rated_current=3.0)]})
    made = taken(None, sister(**TORN_DOWN), two)
    assert "fuse_rating" not in made and "primary_turns" in made


def test_a_sister_of_another_design_lends_nothing():
    mine = sister(1, 1, stack=[winding("primary", 1, 80.0)])
    made = inherit(mine, [sister(**TORN_DOWN)])
    assert made.rows == () and [one.about for one in made.set_aside[12]] == ["primary_turns"]


def test_who_counted_turns_here_may_still_be_told_the_inductance():
    mine = {"stack": [winding("primary", 1, 100.0)]}
    made = taken(mine, sister(measurements=[measured("primary_inductance", 7.0e-4, 1e-5)]))
    assert set(made) == {"primary_inductance"}
    looked = {"measurements": [{"key": "l", "quantity": "primary_inductance",
                                "state": "not_readable", "review_state": "confirmed"}]}
    assert taken(looked, sister(measurements=[measured("primary_inductance", 7.0e-4)])) == {}


def test_another_controller_is_another_design():
    mine = sister(1, 1, components=[component("primary_controller", "PZ6318")])
    found = inherit(mine, [sister(**TORN_DOWN)]).set_aside[12]
    assert [(one.about, one.texts) for one in found] == [("primary_controller",
                                                          ("PZ6318", "UWK-12"))]


def test_another_bulk_capacitor_is_the_same_design():
    mine = sister(1, 1, components=[component("bulk_capacitor", nominal=1.5e-5)])
    assert disagreements(mine, sister(**TORN_DOWN)) == ()


def test_the_extended_document_is_sound_and_the_published_one_untouched():
    mine = document()
    rows = inherit(Sister(1, 1, mine), [sister(**TORN_DOWN)]).rows
    made = extended(mine, rows)
    assert mine["measurements"] == [] and len(made["measurements"]) == len(rows)
    assert list(problems(made, unit_schema())) == []
    assert "unit 12, version 2" in made["measurements"][0]["note"]


def test_a_pool_shows_each_reading_as_it_was_read():
    two = sister(13, stack=[winding("primary", 1, 101.0)])
    found = [(row.unit, row.u) for row in pooled([sister(**TORN_DOWN), two])
             if row.code == "primary_turns"]
    assert found == [(12, 2.0), (13, 2.02)]
