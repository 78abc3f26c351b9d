"""Public units for a comparison."""
import pytest

from teardowns.models import Photo, PhotoDerivative, Unit
from teardowns.services.compared_units import compared_units
from teardowns.services.hide_now import hide_now
from teardowns.services.import_unit import import_unit
from teardowns.services.withdraw_unit import withdraw_unit
from tests.published import published
from tests.views.opened import DOCUMENT, opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def pair(alice):
    return opened(alice), opened(alice)


def keys(units):
    return [(unit.pk, "") for unit in units]


def test_units_come_in_the_order_asked_for(pair):
    found = compared_units(keys(reversed(pair)))
    assert [one.unit.pk for one in found.units] == [pair[1].pk, pair[0].pk]
    assert found.keys == keys(reversed(pair))


def test_a_unit_shows_the_version_that_stands_and_not_its_rows(pair):
    pair[0].measurements.update(value=9.9)
    one = compared_units(keys(pair)).units[0]
    assert max(row.value for row in one.rows["measurement"] if row.quantity == "mass_total") < 0.05
    assert one.report == one.publication.standing.payload and one.version == ""


def test_an_older_version_is_shown_as_it_was_published(pair):
    first = pair[0].publications.get()
    Unit.objects.filter(pk=pair[0].pk).update(title="Veltrice, corrected")
    pair[0].refresh_from_db()
    published(pair[0])
    old, new = compared_units([(pair[0].pk, "1"), (pair[0].pk, "")]).units
    assert (old.version, new.version) == ("1", "")
    assert old.report == first.assessment.payload and old.title != new.title


def test_the_newest_version_by_its_number_is_the_one_that_stands(pair):
    found = compared_units([(pair[0].pk, "1"), (pair[0].pk, "")])
    assert [one.version for one in found.units] == [""]
    assert (found.keys, found.again) == ([(pair[0].pk, "1")], [(pair[0].pk, "")])


@pytest.mark.parametrize("status", ["draft", "submitted", "in_review", "discarded"])
def test_what_is_not_public_is_missing_like_what_is_not_there(alice, pair, status):
    draft = import_unit(DOCUMENT, alice, status)
    found = compared_units([(draft.pk, ""), (10**8, ""), *keys(pair)])
    assert found.missing == [(draft.pk, ""), (10**8, "")] and len(found.units) == 2


def test_a_quarantined_unit_is_missing(pair):
    Unit.objects.filter(pk=pair[0].pk).update(quarantined_at="2026-01-01T00:00:00Z")
    assert compared_units(keys(pair)).missing == [(pair[0].pk, "")]


def test_a_version_that_there_is_not_is_missing_and_its_unit_is_not(pair):
    found = compared_units([(pair[0].pk, "7"), (pair[0].pk, "")])
    assert found.missing == [(pair[0].pk, "7")] and found.keys == [(pair[0].pk, "")]


def test_a_withdrawn_unit_is_named_as_such(mona, pair):
    withdraw_unit(by=mona, unit_pk=pair[0].pk, code="not_this_unit", facts="Another specimen.")
    found = compared_units(keys(pair))
    assert found.withdrawn == [pair[0].pk] and found.missing == []
    assert found.keys == [(pair[1].pk, "")]


def test_only_confirmed_rows_count(pair):
    one = compared_units(keys(pair)).units[0]
    assert {row.review_state for row in one.counted("component")} == {"confirmed"}


def test_a_scaled_photo_that_is_hidden_or_taken_down_has_no_picture(alice, mona, pair):
    unit = pair[0]
    for key in ("shown", "hidden", "down"):
        scaled_photo(alice, unit, key)
    published(unit)
    hidden = Photo.objects.get(unit=unit, key="hidden")
    hide_now(by=mona, about=f"photo/{hidden.pk}", reason="A face can be seen.")
    Photo.objects.filter(unit=unit, key="down").update(taken_down_at="2026-01-01T00:00:00Z")
    one = compared_units(keys(pair)).units[0]
    assert [photo.key for photo in one.rows["photo"] if photo.pk in one.pictures] == ["shown"]


def scaled_photo(author, unit, key):
    photo = Photo.objects.create(unit=unit, key=key, author=author, width=400, height=300,
                                 sha256=f"{len(key):064}", perceptual_hash=1)
    PhotoDerivative.objects.create(photo=photo, width=400, height=300, path=f"{unit.pk}{key}",
                                   media_type="image/webp")
    photo.scales.create(author=author, points=[[0, 0], [100, 0]], lengths=[0.01])
    return photo


def test_more_units_cost_as_many_queries_as_two(alice, pair, django_assert_num_queries):
    more = [opened(alice)]
    with django_assert_num_queries(2):          # units and their versions
        compared_units(keys(pair))
    with django_assert_num_queries(2):
        compared_units(keys([*pair, *more]))


def test_nothing_asked_for_is_nothing_found(db):
    found = compared_units([])
    assert (found.units, found.withdrawn, found.missing) == ([], [], [])
