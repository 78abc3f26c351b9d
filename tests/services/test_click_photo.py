"""One point clicked again and again says how far one click of this person may be off."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import PhotoClicks
from teardowns.services.click_photo import click_photo, clicks_of

pytestmark = pytest.mark.django_db
CLICKS = ((10.0, 5.0), (12.0, 5.0), (14.0, 8.0))


def test_their_spread_is_kept_with_them(alice, photo):
    row = click_photo(author=alice, photo=photo, points=CLICKS)
    # Variances 4 in x and 3 in y, mean 3.5; ν = 4: times ν / (ν − 2) = 2 makes 7 px².
    assert row.uncertainty == pytest.approx(7 ** 0.5)
    assert row.points == [list(point) for point in CLICKS]
    assert Entry.objects.filter(action="photo_clicked", actor=alice).count() == 1


def test_the_newest_of_a_person_count_for_this_person(alice, rita, photo):
    assert clicks_of(alice, photo) is None
    click_photo(author=alice, photo=photo, points=CLICKS)
    newest = click_photo(author=alice, photo=photo, points=CLICKS)
    assert clicks_of(alice, photo) == newest and clicks_of(rita, photo) is None


@pytest.mark.parametrize("points, told", [
    (((10.0, 5.0),) * 4, "exactly the same spot"), (CLICKS[:2], "at least three times"),
    (((10.0, 5.0), (12.0, 5.0), (300.0, 8.0)), "Click the same point each time"),
])
def test_clicks_that_say_nothing_are_refused_with_what_to_do(alice, photo, points, told):
    with pytest.raises(ValueError, match=told):
        click_photo(author=alice, photo=photo, points=points)
    assert not PhotoClicks.objects.exists()


def test_nobody_else_clicks_on_it(bob, photo):
    with pytest.raises(Http404):
        click_photo(author=bob, photo=photo, points=CLICKS)
