import pytest

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
