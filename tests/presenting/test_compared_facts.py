"""The numbers of a unit that a comparison explains itself by."""
from math import pi

import pytest

from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.presenting.compared_facts import facts_of

from .compared import columns, compared, component

CONFIRMED = {"review_state": "confirmed"}


def measured(quantity, value, key=None):
    return {"key": key or quantity.replace("_", "-"), "quantity": quantity,
            "value": value} | CONFIRMED


def facts(components=(), measurements=(), stack=(), rows=()):
    document = full({"form": "underplate-unit/1", "unit": {"title": "Veltrice"},
                     "components": list(components), "measurements": list(measurements),
                     "stack": list(stack)}, unit_schema())
    column, = columns(compared(document=document, component=list(rows)))
    return facts_of(column)


def test_powers_are_those_of_the_headline_and_the_lower_mains_end():
    found = facts()
    # REPORT: 45 W claimed; the middle at the lower end is ln(2.2e6) = 14.604
    assert (found.claimed, round(found.capability, 2)) == (45.0, 14.6)
    assert found.low < found.capability < found.high


def test_what_weighs_most_against_the_claim_is_named():
    assert facts().against == ("Left regulation", -342.0)


def test_readings_of_one_quantity_are_averaged_and_counted():
    found = facts(measurements=[measured("mass_total", 0.040), measured("mass_total", 0.044, "m2")])
    assert found.mass.value == pytest.approx(0.042)
    assert found.mass.remark == "mean of 2 readings" and found.mass.ref == "measurement/mass-total"


def test_evidence_that_nobody_confirmed_is_not_used():
    row = measured("mass_total", 0.04) | {"review_state": "open"}
    found = facts(measurements=[row])
    assert (found.mass.value, found.mass.why) == (None, "not recorded")


def test_weighed_ballast_is_taken_out():
    found = facts(measurements=[measured("mass_total", 0.10), measured("mass_ballast", 0.03)])
    assert found.working_mass.value == pytest.approx(0.07)
    assert found.working_mass.remark == "ballast taken out"


def test_ballast_that_nobody_weighed_leaves_the_mass_unknown():
    found = facts(measurements=[measured("mass_total", 0.10)],
                  rows=[component("ballast", "steel plate")])
    assert found.working_mass.value is None and "not weighed" in found.working_mass.why


@pytest.mark.parametrize(("states", "remark"), [
    ((), "nobody noted a look for ballast"), (["not_looked"], "nobody noted a look for ballast"),
    (["not_found"], "no ballast found"), (["not_readable"], "its ballast was not readable")])
def test_no_look_for_ballast_none_found_and_not_readable_are_different_facts(states, remark):
    found = facts(measurements=[measured("mass_total", 0.10)],
                  rows=[component("ballast", state=state) for state in states])
    assert found.working_mass.remark == remark


def test_the_marked_capacitance_stands_in_and_says_so():
    found = facts(components=[{"key": "c1", "role": "bulk_capacitor", "nominal": 1.5e-5,
                               "tolerance": 0.2} | CONFIRMED])
    assert found.bulk_capacitance.value == pytest.approx(1.5e-5)
    assert found.bulk_capacitance.remark == "as marked"


def test_a_volume_takes_all_three_sides():
    sides = [measured("case_height", 0.05), measured("case_width", 0.04)]
    assert facts(measurements=sides).volume.value is None
    found = facts(measurements=[*sides, measured("case_depth", 0.02)])
    assert found.volume.value == pytest.approx(4e-5)          # 0.05 · 0.04 · 0.02


def test_copper_is_the_cross_section_of_all_strands():
    found = facts(stack=[{"key": "s", "position": 1, "kind": "winding", "winding": "secondary",
                          "turns": 7.0, "strands": 3, "bare_diameter": 5e-4} | CONFIRMED])
    assert found.copper.value == pytest.approx(3 * pi / 4 * 25e-8)
    assert found.copper.remark == "3 strands"


def test_copper_of_several_windings_is_not_averaged():
    found = facts(measurements=[measured("secondary_wire_diameter", 5e-4, "w1"),
                                measured("secondary_wire_diameter", 3e-4, "w2"),
                                measured("secondary_strands", 2.0)])
    assert (found.copper.value, found.copper.why) == (None, "several windings that differ")


def test_a_quantity_that_was_looked_for_says_how():
    part = component("bulk_capacitor", state="not_readable")
    assert facts(rows=[part]).bulk_capacitance.why == "not readable"
