"""What lies between neighbours in the transformer, from the layers as recorded."""
import numpy as np
import pytest

from teardowns.engine.subjects import COLUMNS, Subjects, SubjectTable
from teardowns.engine.winding_stack import adjacencies, between

NAN = float("nan")


def wound(role, wire="enamel", **more):
    return {"kind": "winding", "winding": role, "wire_insulation": wire, "state": "recorded",
            "photographed": 0.0} | more


def tape(count, **more):
    return {"kind": "insulation", "tape_layers": float(count), "state": "recorded"} | more


def table(*units):
    """Layers of each unit, whose places are counted from 1 unless one says its own."""
    rows = [(unit, {"position": float(place)} | layer) for unit, layers in enumerate(units)
            for place, layer in enumerate(layers, start=1)]
    return SubjectTable.of("layer", rows, evidence_ids=list(range(100, 100 + len(rows))))


def near(*layers, at=0):
    """One neighbourhood of one unit, by column."""
    found = adjacencies(table(layers))
    return {name: part[at].item() for name, part in found.columns.items()}


def counted(*layers, at=0):
    one = near(*layers, at=at)
    return one["layers_low"], one["layers_high"]


def sides(*layers):
    found = adjacencies(table(layers)).columns
    return list(zip(found["inner"].tolist(), found["outer"].tolist(), strict=True))


def test_only_windings_of_different_sides_are_neighbours():
    stack = wound("primary"), wound("auxiliary"), wound("secondary"), wound("primary")
    assert sides(*stack) == [("auxiliary", "secondary"), ("secondary", "primary")]


def test_an_output_winding_first_or_last_has_the_core_beside_it():
    assert sides(wound("secondary"), wound("primary")) == [
        ("core", "secondary"), ("secondary", "primary")]
    assert sides(wound("primary"), wound("secondary"))[-1] == ("secondary", "core")


def test_layers_are_taken_by_their_place_whatever_the_order_of_the_rows():
    stack = (wound("secondary", position=3.0), tape(3, position=2.0),
             wound("primary", position=1.0))
    assert near(*stack)["inner"] == "primary" and counted(*stack) == (3.0, 3.0)


@pytest.mark.parametrize("layers, expected", [
    ((), (0, 0)), ((tape(2),), (2, 2)), ((tape(1), tape(2)), (3, 3)),
    ((tape(2, damage="damaged"),), (2, 0)), ((tape(2, damage="melted"),), (0, 0)),
    ((tape(2, damage="intact"), tape(1, damage="damaged")), (3, 2)),
    ((tape(NAN, material="sheet"),), (1, 1)),
    ((tape(NAN),), (NAN, 0)), ((tape(3), tape(NAN)), (NAN, 3)),
    ((tape(NAN, state="not_readable"),), (NAN, 0)),
    ((tape(NAN, state="not_found"),), (0, 0)),
    ((tape(NAN, state="not_found"), tape(1)), (1, 1)),
])
def test_what_is_damaged_counts_at_the_lenient_end_alone_what_melted_at_neither(layers, expected):
    found = counted(wound("primary"), *layers, wound("secondary"))
    np.testing.assert_array_equal(found, expected)


def test_a_sleeve_lies_on_leads_and_is_no_layer_that_certainly_counts():
    np.testing.assert_array_equal(
        counted(wound("primary"), tape(1, material="sleeve", thickness=1e-4), wound("secondary")),
        (1, 0))


def test_a_place_that_nobody_described_may_hold_anything():
    one = near(wound("primary"), wound("secondary", position=3.0))
    assert np.isnan(one["layers_low"]) and one["traced"] == 0.0


def test_two_windings_at_one_place_are_not_traced():
    assert near(wound("primary"), wound("secondary", position=1.0))["traced"] == 0.0


def test_whole_records_are_traced():
    assert near(wound("primary"), tape(1), wound("secondary"))["traced"] == 1.0
    assert near(wound("primary", ""), tape(1), wound("secondary"))["traced"] == 0.0


@pytest.mark.parametrize("layers, expected", [
    ((), 0.0), ((tape(1),), 0.0), ((tape(1, thickness=6e-5),), 6e-5),
    ((tape(NAN, material="sheet", thickness=5e-4), tape(2, thickness=6e-5)), 5e-4),
    ((tape(NAN, material="sheet"),), NAN),
    ((tape(NAN, material="sheet"), tape(1, material="sheet", thickness=6e-4)), 6e-4),
    ((tape(1, material="sheet", thickness=6e-4, damage="melted"),), 0.0),
])
def test_the_thickest_layer_is_that_of_what_certainly_counts(layers, expected):
    found = near(wound("primary"), *layers, wound("secondary"))["solid_thickness"]
    np.testing.assert_array_equal(found, expected)


def test_a_damaged_wall_may_still_be_thick_enough():
    found = near(wound("primary"), tape(1, material="sheet", thickness=6e-4, damage="damaged"),
                 wound("secondary"))
    assert np.isnan(found["layers_low"]) and found["solid_thickness"] == 0.0


def test_each_layer_alone_withstood_only_if_all_that_count_were_tested():
    pair = tape(1, withstood=4000.0), tape(1, withstood=5000.0)
    assert near(wound("primary"), *pair, wound("secondary"))["layer_withstood"] == 4000.0
    assert np.isnan(near(wound("primary"), pair[0], tape(1), wound("secondary")
                         )["layer_withstood"])


@pytest.mark.parametrize("primary, secondary, expected", [
    (wound("primary"), wound("secondary"), "none"),
    (wound("primary"), wound("secondary", "single", documented=1.0), "none"),
    (wound("primary"), wound("secondary", "triple"), "apparent"),
    (wound("primary"), wound("secondary", "fully"), "apparent"),
    (wound("primary"), wound("secondary", "triple", documented=1.0), "documented"),
    (wound("primary", "triple", documented=1.0), wound("secondary", ""), "documented"),
    (wound("primary"), wound("secondary", ""), ""),
    (wound("primary"), wound("secondary", "triple", state="not_readable"), ""),
    (wound("primary"), wound("secondary", "triple", documented=1.0, damage="damaged"), "doubtful"),
    (wound("primary"), wound("secondary", "insulated", documented=1.0), "doubtful"),
    (wound("primary"), wound("secondary", "triple", documented=1.0, damage="melted"), "none"),
])
def test_the_better_wire_of_the_two_counts(primary, secondary, expected):
    assert near(primary, secondary)["insulated_wire"] == expected


def test_inside_the_core_counts_what_lies_on_a_recorded_bobbin():
    assert np.isnan(counted(wound("secondary"), wound("primary"))[0])
    wall = tape(NAN, material="bobbin", thickness=7e-4)
    one = near(wall, wound("secondary"), wound("primary"))
    assert (one["inner"], one["layers_low"], one["solid_thickness"]) == ("core", 1.0, 7e-4)


def test_outside_lies_air_that_no_layer_tells_of():
    found = counted(wound("primary"), tape(3), wound("secondary"), tape(1), at=1)
    np.testing.assert_array_equal(found, (NAN, 1))


def test_a_shield_counts_as_mains_side_and_at_the_lenient_end_as_output():
    """Tied to the output, two layers and one part the sides; tied to the mains, one does."""
    stack = wound("primary"), tape(2), wound("shield", "bare"), tape(1), wound("secondary")
    assert sides(*stack)[0] == ("shield", "secondary") and counted(*stack) == (3.0, 1.0)


def test_a_shield_outside_of_the_output_may_need_nothing():
    stack = wound("primary"), tape(3), wound("secondary"), tape(1), wound("shield", "bare")
    assert sides(*stack)[1] == ("secondary", "shield")
    np.testing.assert_array_equal(counted(*stack, at=1), (NAN, 1))


def test_margins_add_and_one_unknown_leaves_the_sum_unknown():
    left = near(wound("primary", margin_left=2e-3, margin_right=1e-3),
                wound("secondary", margin_left=1e-3))
    assert left["margin_left_sum"] == 3e-3 and np.isnan(left["margin_right_sum"])


def test_edges_were_photographed_where_a_photo_shows_both():
    shown = {"photographed": 1.0}
    assert near(wound("primary", **shown), wound("secondary", **shown))["edges_photographed"] == 1
    assert near(wound("primary", **shown), wound("secondary"))["edges_photographed"] == 0


def test_that_nobody_noted_the_condition_is_said():
    said = near(wound("primary"), tape(3, damage="intact"), wound("secondary"))
    assert said["condition_noted"] == 1.0
    assert np.isnan(near(wound("primary"), tape(3), wound("secondary"))["condition_noted"])


def test_a_neighbourhood_cites_both_sides_and_all_layers_between():
    layers = table((wound("primary"), tape(1), tape(2), wound("secondary"), tape(1)))
    subjects = Subjects({"layer": layers, "adjacency": adjacencies(layers)})
    assert [between(subjects, at) for at in (0, 1)] == [[100, 101, 102, 103], [103, 104]]
    assert subjects["adjacency"].label.tolist() == [
        "primary to secondary, layers 1 and 4", "secondary to core, layer 4"]


def test_no_layers_no_neighbours():
    found = adjacencies(SubjectTable.none("layer"))
    assert len(found.row) == 0 and found.columns.keys() == COLUMNS["adjacency"].keys()


def random_unit(rng):
    kinds = [wound(role, wire) for role in ("primary", "secondary", "shield")
             for wire in ("enamel", "triple", "")] + [tape(n, damage=damage) for n in (1, 2, NAN)
                                                      for damage in ("", "damaged")]
    return [kinds[i] for i in rng.integers(0, len(kinds), rng.integers(0, 7))]


def test_one_unit_gives_the_bits_that_it_gives_among_many():
    units = [random_unit(np.random.default_rng(seed)) for seed in range(200)]
    many = adjacencies(table(*units))
    for unit, layers in enumerate(units):
        alone, mine = adjacencies(table(layers)), many.of_units(unit, unit + 1)
        for name in alone.columns.keys() - {"inner_id", "outer_id"}:
            np.testing.assert_array_equal(alone.columns[name], mine.columns[name])
