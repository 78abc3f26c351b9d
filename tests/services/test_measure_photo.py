"""A length read off a photo is evidence with its uncertainty, and can be read once more."""
import pytest
from django.http import Http404

from teardowns.models import InsulationObservation, Measurement, Status
from teardowns.services.measure_photo import Drawn, measure_again, measure_photo
from teardowns.services.save_section import StaleRows
from teardowns.services.scale_photo import scale_photo

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
                            drawn=drawn(scale, contour, groove=0.001))
    assert plain.value == pytest.approx(0.0100, rel=1e-6)       # 3 + 2 + 0.6 + 2 + 2.4 mm
    assert counted.value == pytest.approx(0.0060, rel=1e-6)     # straight across


def test_a_second_reading_leaves_the_evidence_as_it_is(alice, rita, photo, scale):
    measured(alice, photo, scale)
    type(photo.unit).objects.update(status=Status.PUBLISHED)
    second = measure_again(reviewer=rita, photo=photo, shows="insulationobservation/slot",
                           drawn=drawn(scale, ((120.0, 150.0), (183.0, 150.0))))
    assert second.blind and second.value == pytest.approx(0.0063, rel=1e-6)
    assert InsulationObservation.objects.get().value == pytest.approx(0.0062, rel=1e-6)


def test_nobody_else_measures_on_it(alice, bob, photo, scale):
    with pytest.raises(Http404):
        measured(bob, photo, scale)
