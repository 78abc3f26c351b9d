"""A length read off a photo is evidence with its uncertainty, and can be read once more."""
import pytest
from django.http import Http404

from teardowns.engine.requirements.surface_path import slot_creepage
from teardowns.imaging.slot_reading import Slot
from teardowns.imaging.web_annotation import read
from teardowns.models import InsulationObservation, Measurement, PhotoClicks
from teardowns.services.measure_photo import Drawn, Grooves, measure_again, measure_photo
from teardowns.services.save_section import StaleRows
from teardowns.services.scale_photo import scale_photo
from tests.published import published

pytestmark = pytest.mark.django_db
CORNERS = ((100.0, 100.0), (300.0, 100.0), (300.0, 200.0), (100.0, 200.0))
VALUES = {"state": "recorded", "how": "measured", "barrier": "PRI_SEC", "path": "clearance",
          "place": "slot", "method": "photo_scale"}


@pytest.fixture
def scale(alice, photo):
    """200 by 100 pixels are 20 by 10 mm: ten pixels a millimetre, seen square."""
    return scale_photo(author=alice, photo=photo, points=CORNERS, lengths=[0.020, 0.010],
                       length_u=0.00002)


def drawn(scale, points=((120.0, 150.0), (182.0, 150.0)), **more):
    return Drawn("line", points, scale, **more)


def measured(alice, photo, scale, version=0, **more):
    return measure_photo(author=alice, photo=photo, drawn=drawn(scale), key="slot", label="slot",
                         model=InsulationObservation, version=version, values=VALUES | more)


def test_62_pixels_at_ten_a_millimetre_are_6_2_mm(alice, photo, scale):
    reading, saved = measured(alice, photo, scale)
    row = InsulationObservation.objects.get()
    assert row.value == reading.value == pytest.approx(0.0062, rel=1e-6)
    assert 0 < row.uncertainty < 0.0005 and row.uncertainty_kind == "standard"
    assert (row.photo, row.author, saved.assessed) == (photo, alice, True)


def test_the_verdict_is_worked_out_with_it(alice, photo, scale):
    measured(alice, photo, scale)
    results = photo.unit.assessments.first().payload["safety"]["results"]
    clearance = next(one for one in results if one["rule"] == "safety/clearance")
    assert clearance["value"] == pytest.approx(0.0062, rel=1e-6)


def test_the_reading_keeps_its_points_its_budget_and_a_mark(alice, photo, scale):
    reading, _ = measured(alice, photo, scale)
    assert reading.points == [[120.0, 150.0], [182.0, 150.0]]
    total = sum(share ** 2 for _, share in reading.budget) ** 0.5
    assert total == pytest.approx(reading.uncertainty)
    assert photo.annotations.get().shows == reading.shows == "insulationobservation/slot"


def test_a_row_that_was_changed_meanwhile_is_left_alone_and_nothing_is_half_done(
        alice, photo, scale):
    measured(alice, photo, scale)
    with pytest.raises(StaleRows):
        measured(alice, photo, scale, version=7, place="elsewhere")
    assert photo.readings.count() == photo.annotations.count() == 1


def test_a_size_becomes_a_measurement(alice, photo, scale):
    measure_photo(author=alice, photo=photo, drawn=drawn(scale), key="pin-diameter", version=0,
                  model=Measurement, label="pin", values={
                      "state": "recorded", "how": "measured", "quantity": "pin_diameter"})
    assert Measurement.objects.get(quantity="pin_diameter").value == pytest.approx(0.0062)


def test_following_a_surface_bridges_what_is_narrower_than_x(alice, photo, scale):
    # Down 20 px into a groove 6 px (0.6 mm) wide and up again: its two walls do not count.
    contour = ((120.0, 150.0), (150.0, 150.0), (150.0, 170.0), (156.0, 170.0), (156.0, 150.0),
               (180.0, 150.0))
    plain = measure_again(reviewer=alice, photo=photo, shows="x", drawn=drawn(scale, contour))
    counted = measure_again(reviewer=alice, photo=photo, shows="x",
                            drawn=drawn(scale, contour, grooves=Grooves(2)))
    assert plain.value == pytest.approx(0.0100, rel=1e-6)       # 3 + 2 + 0.6 + 2 + 2.4 mm
    assert counted.value == pytest.approx(0.0060, rel=1e-6)     # straight across


def test_a_second_reading_leaves_the_evidence_as_it_is(alice, rita, photo, scale):
    measured(alice, photo, scale)
    published(photo.unit)
    second = measure_again(reviewer=rita, photo=photo, shows="insulationobservation/slot",
                           drawn=drawn(scale, ((120.0, 150.0), (183.0, 150.0))))
    assert second.blind and second.value == pytest.approx(0.0063, rel=1e-6)
    assert InsulationObservation.objects.get().value == pytest.approx(0.0062, rel=1e-6)


def test_nobody_else_measures_on_it(alice, bob, photo, scale):
    with pytest.raises(Http404):
        measured(bob, photo, scale)


# Round a slot: copper 2.5 mm left and 2.3 mm right of a slot 1.2 mm by 10 mm, 3 mm below its upper
# end: √(2.5² + 3²) + 1.2 + √(2.3² + 3²) = 8.885 mm.
SLOT = Slot(((195.0, 100.0), (207.0, 100.0), (207.0, 200.0), (195.0, 200.0)))
COPPER = ((170.0, 130.0), (230.0, 130.0))


@pytest.fixture
def sharp(alice, photo):
    """Clicks within a third of a pixel, so that 1.2 mm is told apart from X."""
    return PhotoClicks.objects.create(photo=photo, author=alice, uncertainty=0.3, points=[])


def round_slot(alice, photo, scale, clicks, degree=2, slot=SLOT, **more):
    return measure_photo(
        author=alice, photo=photo, key="slot", label="slot", model=InsulationObservation,
        drawn=drawn(scale, COPPER, clicks=clicks, grooves=Grooves(degree), slot=slot),
        version=InsulationObservation.objects.count(), values=VALUES | {"path": "creepage"} | more)


def test_the_way_round_a_slot_is_evidence_that_the_engine_can_work_out_anew(
        alice, photo, scale, sharp):
    round_slot(alice, photo, scale, sharp)
    row = InsulationObservation.objects.get()
    assert row.value == pytest.approx(0.008885, abs=1e-6) and row.shape == "slot"
    nan = {"start": float("nan"), "end": float("nan")}
    assert float(slot_creepage(**nan | row.slot, narrowest=0.001)) == pytest.approx(row.value)
    # At pollution degree 3 the slot is narrower than X = 1.5 mm.
    assert float(slot_creepage(**nan | row.slot, narrowest=0.0015)) == pytest.approx(0.006)


def test_the_reading_keeps_the_slot_its_way_and_the_degree(alice, photo, scale, sharp):
    reading, _ = round_slot(alice, photo, scale, sharp)
    assert (reading.pollution_degree, reading.narrowest_groove) == (2, pytest.approx(0.001))
    assert reading.slot["corners"] == [list(corner) for corner in SLOT.corners]
    assert reading.slot["way"][1:3] == [[195.0, 100.0], [207.0, 100.0]]
    assert reading.points == [list(point) for point in COPPER]
    mark = read(photo.annotations.get().body)
    assert mark.shape == "path" and len(mark.points) == 4


def test_a_slot_narrower_than_x_leaves_the_straight_way(alice, photo, scale, sharp):
    reading, _ = round_slot(alice, photo, scale, sharp, degree=3)
    assert reading.value == pytest.approx(0.006) and reading.slot["counts"] is False


def test_a_bent_slot_is_recorded_as_the_plain_length_of_the_way(alice, photo, scale, sharp):
    bent = Slot(((195.0, 100.0), (260.0, 100.0), (260.0, 112.0), (207.0, 112.0), (207.0, 200.0),
                 (195.0, 200.0)))
    reading, _ = round_slot(alice, photo, scale, sharp, slot=bent)
    row = InsulationObservation.objects.get()
    assert (row.shape, row.slot) == ("", {}) and row.value == reading.value


def test_what_was_said_of_a_loose_particle_stays(alice, photo, scale, sharp):
    InsulationObservation.objects.create(
        unit=photo.unit, key="slot", path="creepage", place="slot", state="not_looked",
        author=alice, slot={"particle": 0.0005, "gap_1": 0.001})
    round_slot(alice, photo, scale, sharp)
    stored = InsulationObservation.objects.get().slot
    assert stored["particle"] == 0.0005 and "gap_1" not in stored


def test_clicks_of_the_same_person_decide_how_sure_a_reading_is(alice, photo, scale, sharp):
    plain = measure_again(reviewer=alice, photo=photo, shows="x", drawn=drawn(scale))
    sharper = measure_again(reviewer=alice, photo=photo, shows="x",
                            drawn=drawn(scale, clicks=sharp))
    assert (plain.click_uncertainty, plain.clicks) == (3.0, None)
    assert (sharper.click_uncertainty, sharper.clicks) == (0.3, sharp)
    shares = [dict(row.budget)["Clicks on what is measured"] for row in (plain, sharper)]
    # First order: the share is as large as the clicks are unsure, 3.0 to 0.3.
    assert shares[0] / shares[1] == pytest.approx(10, rel=1e-3)


@pytest.mark.parametrize("degree, clearance, x", [
    # IEC 60664-1:2020, 6.8: 0.25, 1.0 and 1.5 mm; below 3 mm a third of the clearance if less.
    (1, None, 0.25), (2, None, 1.0), (3, None, 1.5), (2, 0.0015, 0.5), (2, 0.0030, 1.0)])
def test_x_is_that_of_the_standard(degree, clearance, x):
    assert Grooves(degree, clearance).narrowest == pytest.approx(x / 1e3)
