"""What was reviewed becomes a version that nothing alters; nothing else becomes public."""
import pytest
from django.http import Http404

from core.accounts.models import Role
from core.audit.models import Entry
from teardowns.models import Correction, Measurement, Notice, Photo, Publication, Unit
from teardowns.services.publish_unit import publish_unit
from teardowns.services.thaw import thaw
from teardowns.workflow import NotNow
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def reviewed(unit, rita):
    handed_in(unit)
    take_on(rita, unit)
    decide(rita, unit)
    return unit


def test_a_reviewed_unit_becomes_its_first_version(reviewed, mona):
    version = publish_unit(moderator=mona, unit_pk=reviewed.pk, note="Sound.")
    reviewed.refresh_from_db()
    assert (version.number, version.note, version.moderator) == (1, "Sound.", mona)
    assert reviewed.is_public and reviewed.publication == version
    assert version.document["unit"]["status"] == "published"
    assert version.assessment.confirmed_only and not version.assessment_all.confirmed_only


def test_it_is_logged_once_with_its_number(reviewed, mona):
    publish_unit(moderator=mona, unit_pk=reviewed.pk)
    entry = Entry.objects.get(action="work_publish")
    assert entry.actor == mona and entry.detail["version"] == 1 and entry.unit == reviewed.pk


def test_it_is_published_once(reviewed, mona, milo):
    publish_unit(moderator=mona, unit_pk=reviewed.pk)
    with pytest.raises(NotNow):
        publish_unit(moderator=milo, unit_pk=reviewed.pk)
    assert Publication.objects.count() == 1


def test_without_a_review_it_stays_where_it_is_and_says_what_lacks(unit, mona):
    handed_in(unit, status="in_review")
    with pytest.raises(NotNow) as refusal:
        publish_unit(moderator=mona, unit_pk=unit.pk)
    assert len(str(refusal.value)) > 20 and not Publication.objects.exists()


@pytest.mark.parametrize("person", ["alice", "bob", "rita", "ada"])
def test_only_a_moderator_publishes(reviewed, person, request):
    with pytest.raises(Http404):
        publish_unit(moderator=request.getfixturevalue(person), unit_pk=reviewed.pk)


def test_a_moderator_does_not_publish_an_own_unit(reviewed, alice):
    alice.role = Role.MODERATOR
    alice.save()
    with pytest.raises(Http404):
        publish_unit(moderator=alice, unit_pk=reviewed.pk)


def test_a_moderator_without_a_second_factor_publishes_nothing(reviewed, mona):
    mona.acts_in_role = False
    with pytest.raises(Http404):
        publish_unit(moderator=mona, unit_pk=reviewed.pk)


def test_the_photos_that_came_with_it_are_out_from_then_on(photo, reviewed, mona):
    assert photo.published_at is None
    publish_unit(moderator=mona, unit_pk=reviewed.pk)
    assert Photo.objects.get().published_at is not None


def test_the_contributor_hears_of_it_and_the_moderator_does_not(reviewed, alice, mona):
    publish_unit(moderator=mona, unit_pk=reviewed.pk)
    notice, = Notice.objects.all()
    assert notice.person == alice and notice.kind == "published"


def test_a_correction_becomes_the_next_version_and_the_first_stays(reviewed, bob, rita, mona):
    first = publish_unit(moderator=mona, unit_pk=reviewed.pk)
    Correction.objects.create(unit=reviewed, author=bob, base=first, reason="Weighed again",
                              status="submitted")
    Measurement.objects.update(value=0.07, version=2, review_state="open", author=bob)
    reviewed.refresh_from_db()
    take_on(rita, reviewed)
    decide(rita, reviewed, version=2)
    second = publish_unit(moderator=mona, unit_pk=reviewed.pk)
    assert second.number == 2 and not second.correction.is_open
    assert thaw(first).rows["measurement"][0].value == 0.05
    assert thaw(second).rows["measurement"][0].value == 0.07
    assert Unit.objects.get().publication == second


def test_what_is_out_of_sight_is_not_published(reviewed, mona):
    Unit.objects.update(quarantined_at=reviewed.created_at)
    with pytest.raises(NotNow, match="out of sight"):
        publish_unit(moderator=mona, unit_pk=reviewed.pk)
