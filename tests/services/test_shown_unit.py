"""Which state of a unit whom a page shows."""
import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import Http404

from teardowns.models import Correction, Measurement, Review
from teardowns.services.import_unit import import_unit
from teardowns.services.shown_unit import shown_unit
from tests.published import published
from tests.views.opened import DOCUMENT, opened

pytestmark = pytest.mark.django_db
NOBODY = AnonymousUser()


@pytest.fixture
def version(alice):
    return opened(alice).publication


@pytest.fixture
def correction(version, bob):
    Measurement.objects.filter(unit=version.unit, key="mass").update(value=0.999)
    return Correction.objects.create(unit=version.unit, author=bob, base=version, reason="Mass")


def mass(shown):
    return next(row.value for row in shown.rows["measurement"] if row.key == "mass")


def test_everybody_sees_the_version_that_stands_while_a_correction_is_written(
        version, correction, alice, bob, mona):
    for person in (NOBODY, alice, bob, mona):
        shown = shown_unit(person, version.unit_id)
        assert mass(shown) == 0.0462 and shown.is_newest and shown.confirmed_only


def test_the_working_copy_is_for_those_who_have_to_do_with_it(version, correction, alice, bob,
                                                              rita, mona):
    for person in (alice, bob):
        shown = shown_unit(person, version.unit_id, "working")
        assert mass(shown) == 0.999 and not shown.confirmed_only
    for person in (NOBODY, rita, mona):                     # it is still a draft
        with pytest.raises(Http404):
            shown_unit(person, version.unit_id, "working")


def test_once_it_is_submitted_a_moderator_and_who_holds_a_review_see_it(version, correction, rita,
                                                                        rolf, mona):
    Correction.objects.update(status="in_review")
    Review.objects.create(unit=version.unit, reviewer=rita, correction=correction)
    for person in (rita, mona):
        assert mass(shown_unit(person, version.unit_id, "working")) == 0.999
    with pytest.raises(Http404):
        shown_unit(rolf, version.unit_id, "working")


def test_an_older_version_stays_as_it_was_with_the_numbers_of_its_day(version):
    Measurement.objects.filter(unit=version.unit, key="mass").update(value=0.05)
    newer = published(version.unit)
    first = shown_unit(NOBODY, version.unit_id, "1")
    assert mass(first) == 0.0462 and first.assessment == version.assessment
    assert not first.is_newest and first.unit.version_shown == "1"
    assert mass(shown_unit(NOBODY, version.unit_id)) == 0.05 and newer.number == 2


@pytest.mark.parametrize("number", ["0", "3", "-1", "one", "9" * 30, "²"])
def test_there_is_no_other_version(version, number):
    with pytest.raises(Http404):
        shown_unit(NOBODY, version.unit_id, number)


def test_what_is_quarantined_is_for_its_contributor_and_moderators(version, alice, bob, mona):
    version.unit.quarantined_at = version.published_at
    version.unit.save()
    for person in (alice, mona):
        assert shown_unit(person, version.unit_id).publication == version
    for person in (NOBODY, bob):
        with pytest.raises(Http404):
            shown_unit(person, version.unit_id)


def test_a_published_status_alone_makes_nothing_public(unit, bob):
    type(unit).objects.update(status="published")
    for person in (NOBODY, bob):
        with pytest.raises(Http404):
            shown_unit(person, unit.pk)


def test_unconfirmed_evidence_counts_for_no_public_number(alice, unit):
    raw = import_unit(DOCUMENT, alice, "in_review")
    published(raw)
    shown = shown_unit(NOBODY, raw.pk)
    assert shown.assessment.confirmed_only and not shown.with_rest.confirmed_only
    assert shown.assessment.payload["claims"] == []        # nobody confirmed a claim
    assert shown.with_rest.payload["claims"]
