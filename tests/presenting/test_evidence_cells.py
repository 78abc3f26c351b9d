"""Rows of evidence in words: what bears on insulation is printed, and only what was recorded."""
from teardowns.models import Component, InsulationObservation, Measurement, StackLayer
from teardowns.presenting.evidence_cells import (
    condition,
    conditions,
    looked,
    path_ground,
    quantity_value,
)
from teardowns.presenting.evidence_tables import states_in_words


def test_a_slot_is_printed_with_the_sizes_that_were_measured():
    row = InsulationObservation(path="creepage", shape="slot",
                                slot={"width": 0.0012, "from_x": -0.002, "end": 0.012})
    assert path_ground(row) == ["slot through the board: width 1.2\u202fmm, first conductor, x "
                                "−2\u202fmm, slot ends 12\u202fmm"]


def test_a_particle_says_whether_it_is_loose():
    row = InsulationObservation(path="clearance", slot={"particle": 0.0006, "particle_loose": 1})
    assert path_ground(row) == ["particle 0.6\u202fmm, loose particle"]


def test_what_nobody_said_of_the_surface_is_not_printed():
    assert path_ground(InsulationObservation(path="creepage")) == []
    assert path_ground(InsulationObservation(path="creepage", coated=False, contaminated=True)) == [
        "not coated", "conductive dirt across it"]


def test_a_situation_that_was_thought_through_is_named():
    row = InsulationObservation(path="creepage", situation="metal_moved", material_group="IIIa",
                                pollution_degree=2)
    assert path_ground(row) == ["with loose metal in its worst place", "material group IIIa",
                                "pollution degree 2"]


def test_a_layer_says_its_material_damage_and_what_was_shown_of_it():
    row = StackLayer(position=2, kind="insulation", material="tape", damage="melted",
                     documented=True, withstood=4000.0, condition="brown at the edge")
    assert condition(row) == [
        "tape or foil", "melted or burnt through", "certificate or data sheet of the type seen",
        "one layer withstood 4\u202fkV d.c. or peak", "brown at the edge"]


def test_leads_with_and_without_a_sleeve_are_told_apart_from_what_nobody_saw():
    said = {sleeved: condition(StackLayer(position=1, kind="winding", sleeved=sleeved))
            for sleeved in (True, False, None)}
    assert said == {True: ["leads sleeved"], False: ["leads without a sleeve"], None: []}


def test_pieces_in_series_and_what_a_part_bridges_are_printed():
    from teardowns.presenting.evidence_tables import KINDS

    fill = next(kind.fill for kind in KINDS if kind.name == "component")
    name, *_ = fill(Component(role="barrier_capacitor", count=2, in_series=True,
                              bridges="PRI_PE"))
    assert "2 pieces, in series" in name and "bridges mains side to protective earth" in name


def test_a_limit_is_printed_as_a_limit_and_counted_apart():
    row = Measurement(quantity="insulation_resistance", state="not_readable", bound=5e8,
                      bound_kind="above")
    assert quantity_value(row) == [">\u202f500\u202fMΩ", "a limit, not a value"]
    assert looked(row) is None
    assert states_in_words([row, Measurement(quantity="mass_total", value=0.1)]) == (
        "1 recorded, 1 known as a limit")


def test_a_load_of_all_ports_says_so_and_what_it_drew():
    row = Measurement(quantity="failed_power", value=33.0, all_ports=True, output_voltage=5.0,
                      output_current=6.6)
    assert conditions(row) == ["5\u202fV at the port", "6.6\u202fA drawn", "all ports together"]
