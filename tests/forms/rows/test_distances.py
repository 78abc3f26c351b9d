from types import SimpleNamespace

import pytest

from teardowns.forms.rows.distances import DistanceForm
from tests.forms.sent import checked, messages

pytestmark = pytest.mark.django_db
# IEC 62368-1 5.4.3: a recorded creepage below the recorded clearance of one path is a slip.


def pair(unit, clearance, creepage, places=("slot", "Slot")):
    return checked(unit, "barrier", {
        "distances-0-path": "clearance", "distances-0-place": places[0],
        "distances-0-value": clearance,
        "distances-1-path": "creepage", "distances-1-place": places[1],
        "distances-1-value": creepage,
    })


def test_a_creepage_below_the_clearance_of_one_place_is_refused(unit):
    assert "creepage of 6 mm is shorter than the clearance of 6.5 mm" in messages(
        pair(unit, "6.5", "6.0")
    )


def test_creepage_and_clearance_may_be_equal(unit):
    assert messages(pair(unit, "6.5", "6.5")) == ""


def test_paths_at_two_places_have_nothing_to_do_with_each_other(unit):
    assert messages(pair(unit, "6.5", "6.0", ("slot", "seam"))) == ""


def test_a_bare_number_is_in_millimetres_and_no_uncertainty_is_invented(unit):
    first, _ = pair(unit, "6,5", "7").row_changes()
    assert first.values["value"] == pytest.approx(0.0065)
    assert first.values["uncertainty"] is None


@pytest.mark.parametrize("typed, remedy", [
    ({"value": "6"}, "Name the two ends"), ({"place": "seam"}, "needs a distance"),
    ({"value": "7 m", "place": "seam"}, "between 0 and 200 mm"),
    ({"value": "6", "place": "seam", "state": "not_readable"}, "but a distance is written"),
])
def test_what_is_missing_or_impossible_is_named(unit, typed, remedy):
    form = checked(unit, "barrier", {f"distances-0-{name}": text for name, text in typed.items()})
    assert remedy in messages(form)


SLOT = {"place": "between the circuits", "path": "creepage", "shape": "slot", "width": "1.2 mm",
        "from_x": "-3", "from_y": "5", "to_x": "3 mm", "to_y": "5", "start": "0", "end": "10"}


def one(unit, **typed):
    return checked(unit, "barrier", {f"distances-0-{name}": text for name, text in typed.items()})


def test_a_slot_is_kept_as_lengths_and_its_straight_distance_is_worked_out(unit):
    change, = one(unit, **SLOT).row_changes()
    # From (−3, 5) to (3, 5): 6 mm.
    assert change.values["value"] == pytest.approx(0.006)
    assert change.values["slot"] == pytest.approx({
        "width": 0.0012, "from_x": -0.003, "from_y": 0.005, "to_x": 0.003, "to_y": 0.005,
        "start": 0.0, "end": 0.01})


def test_gaps_beside_floating_metal_make_the_distance(unit):
    change, = one(unit, place="weight", shape="floating", gap_1="1.8", gap_2="1.6").row_changes()
    assert change.values["value"] == pytest.approx(0.0034)


@pytest.mark.parametrize("typed, remedy", [
    ({"width": "1.2"}, "choose in “What it crosses” what it is"),
    ({"shape": "groove", "gap_1": "1.2"}, "crosses nothing that has this length"),
    ({"shape": "groove", "width": "1", "straight": "7"}, "check which is which"),
    ({"particle_loose": "yes"}, "Write how large the particle is"),
])
def test_lengths_that_do_not_belong_to_the_shape_are_named(unit, typed, remedy):
    assert remedy in messages(one(unit, place="gap", value="6", **typed))


def test_what_was_looked_for_is_yes_no_or_not_looked(unit):
    change, = one(unit, place="gap", value="6", coated="no", particle="0.4",
                  particle_loose="no").row_changes()
    assert change.values["coated"] is False and change.values["contaminated"] is None
    assert change.values["slot"] == pytest.approx({"particle": 0.0004, "particle_loose": 0.0})


@pytest.mark.parametrize("metres, words", [
    (0.052, "52 mm is unusually long"), (0.025, ""), (0.0064, ""), (None, "")])
def test_a_way_that_looks_like_a_slip_of_the_unit_is_asked_about(metres, words):
    stored = SimpleNamespace(row=SimpleNamespace(value=metres))
    assert DistanceForm.remark.fget(stored).partition(" for such")[0] == words
