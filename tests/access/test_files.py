"""Who may see or change a photo or a log, and its original; everybody else gets a 404."""
import pytest
from django.http import Http404
from django.utils import timezone

from core.accounts.models import Role
from teardowns import access
from teardowns.models import Photo, PhotoCover, Recording, Status, Unit
from teardowns.services.hide_now import hide_now
from tests.access.stages import at, who
from tests.handing_in import correction_of
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def shot(alice, unit):
    """A photo of Alice's unit, without files."""
    photo = Photo.objects.create(unit=unit, key="plate-1", sha256="0" * 64, author=alice,
                                 width=400, height=300)
    photo.derivatives.create(width=400, height=300, media_type="image/webp", path="plate/400")
    return photo


def let_in(decide, people, photo):
    """Names of those whom one of the functions lets in."""
    found = set()
    for name, person in people.items():
        try:
            assert decide(person, photo.unit_id, photo.key) == photo
            found.add(name)
        except Http404:
            pass
    return found


def cover(photo):
    PhotoCover.objects.create(photo=photo, box=[0, 0, 10, 10], reason="a face", author=photo.author)


@pytest.mark.parametrize("status, seen", [
    (Status.DRAFT, {"alice"}),
    (Status.SUBMITTED, {"alice", "mona"}),
    (Status.PUBLISHED, {"alice", "bob", "rita", "mona", "nobody"}),
    (Status.WITHDRAWN, {"alice", "mona"}),
])
def test_a_photo_is_seen_by_those_who_see_its_unit(people, shot, unit, status, seen):
    at(unit, status)
    assert let_in(access.photo_to_see, people, shot) == seen


@pytest.mark.parametrize("status, changed_by", [
    (Status.DRAFT, {"alice"}), (Status.SENT_BACK, {"alice"}), (Status.SUBMITTED, set()),
    (Status.PUBLISHED, set())])
def test_only_the_contributor_changes_a_photo_while_the_sheet_is_open(people, shot, unit, status,
                                                                      changed_by):
    at(unit, status)
    assert let_in(access.photo_to_change, people, shot) == changed_by


@pytest.mark.parametrize("status, covered_by", [
    (Status.DRAFT, {"alice"}), (Status.SUBMITTED, {"mona"}),
    (Status.PUBLISHED, {"mona"})])
def test_a_moderator_may_cover_at_any_time(people, shot, unit, status, covered_by):
    at(unit, status)
    assert let_in(access.photo_to_cover, people, shot) == covered_by


def test_a_correction_covers_no_published_photo_of_somebody_else(people, shot, unit, bob):
    correction_of(unit, bob)                  # publishes the unit with its photo
    assert let_in(access.photo_to_cover, people, shot) == {"mona"}
    Photo.objects.update(author=bob)          # as if he had sent it himself
    assert let_in(access.photo_to_cover, people, shot) == {"bob", "mona"}


def test_a_correction_covers_what_no_version_shows_yet(people, shot, unit, bob):
    correction_of(unit, bob)
    Photo.objects.update(published_at=None)
    assert let_in(access.photo_to_cover, people, shot) == {"bob"}      # drafts are no moderator's


def test_a_hidden_photo_is_seen_by_who_sent_it_and_by_moderators(people, shot, unit, mona):
    published(unit)
    hide_now(by=mona, about=f"photo/{shot.pk}", reason="A face.")
    assert let_in(access.photo_to_see, people, shot) == {"alice", "mona"}


def test_what_no_version_shows_yet_is_seen_by_those_who_work_on_it(people, shot, log, unit, bob):
    correction_of(unit, bob)
    for files in (Photo, Recording):
        files.objects.update(published_at=None)
    assert let_in(access.photo_to_see, people, shot) == {"alice", "bob"}
    assert let_in(access.recording_to_see, people, log) == {"alice", "bob"}


def test_a_moderator_sees_the_files_of_a_quarantined_record_whoever_corrects_it(people, shot, log,
                                                                               unit, bob):
    correction_of(unit, bob)
    Unit.objects.update(quarantined_at=timezone.now())
    assert let_in(access.photo_to_see, people, shot) == {"alice", "mona"}
    assert let_in(access.recording_to_see, people, log) == {"alice", "mona"}


def test_what_was_published_is_taken_down_by_who_sent_it_alone(shot, unit, alice, bob):
    assert access.may_take_down(bob, shot)
    published(unit)
    shot.refresh_from_db()
    assert access.may_take_down(alice, shot) and not access.may_take_down(bob, shot)


@pytest.mark.parametrize("status", [Status.SUBMITTED, Status.PUBLISHED])
def test_an_original_is_for_who_sent_it(people, shot, unit, status):
    at(unit, status)
    assert let_in(access.photo_with_original, people, shot) == {"alice"}


def test_an_original_under_a_cover_is_for_nobody(people, shot, unit):
    cover(shot)
    at(unit, Status.PUBLISHED)
    assert let_in(access.photo_with_original, people, shot) == set()


def test_reviewers_read_once_more_and_plain_readers_do_not(people, shot, unit):
    at(unit, Status.PUBLISHED)
    assert let_in(access.photo_to_read_again, people, shot) == {"rita"}


def test_nobody_reads_an_own_unit_once_more(people, shot, alice):
    alice.role = Role.REVIEWER
    assert "alice" not in let_in(access.photo_to_read_again, people, shot)
    assert not access.may_read_again(alice, shot.unit)


def test_only_the_contributor_may_change_an_open_sheet(people, unit):
    assert [name for name, one in people.items() if access.may_change(one, unit)] == ["alice"]
    at(unit, Status.PUBLISHED)
    assert not any(access.may_change(one, unit) for one in people.values())


def test_a_suspended_reviewer_reads_nothing_once_more(people, shot, rita):
    rita.is_active = False
    assert "rita" not in let_in(access.photo_to_read_again, people, shot)


@pytest.mark.parametrize("decide", [
    access.photo_to_see, access.photo_to_change, access.photo_to_cover, access.photo_with_original,
    access.photo_to_read_again])
def test_what_is_not_there_is_found_by_nobody(people, shot, alice, decide):
    other = Unit.objects.create(contributor=alice, title="Another")
    for unit_pk, key in ((other.pk, shot.key), (shot.unit_id, "none"), (0, shot.key)):
        for person in people.values():
            with pytest.raises(Http404):
                decide(person, unit_pk, key)


@pytest.mark.parametrize("decide", [
    access.photo_to_see, access.photo_to_change, access.photo_to_cover, access.photo_with_original,
    access.photo_to_read_again])
@pytest.mark.parametrize("status", [Status.DRAFT, Status.PUBLISHED])
def test_a_photo_that_was_taken_down_is_found_by_nobody(people, shot, unit, decide, status):
    at(unit, status)
    Photo.objects.update(taken_down_at=timezone.now())
    assert let_in(decide, people, shot) == set()


def test_a_log_of_another_unit_is_found_by_nobody(people, log, alice):
    other = Unit.objects.create(contributor=alice, title="Another")
    for decide in (access.recording_to_see, access.recording_to_change,
                   access.recording_with_original):
        assert who(people, lambda one, decide=decide: decide(one, other.pk, log.key)) == set()


@pytest.fixture
def log(alice, unit):
    """A recording of Alice's unit that was read, without files."""
    return Recording.objects.create(unit=unit, key="thermal-1", kind="thermal", sha256="1" * 64,
                                    author=alice, received=True, channels="ab/abc")


@pytest.mark.parametrize("status, seen", [
    (Status.DRAFT, {"alice"}),
    (Status.PUBLISHED, {"alice", "bob", "rita", "mona", "nobody"}),
])
def test_a_recording_is_seen_by_those_who_see_its_unit(people, log, unit, status, seen):
    at(unit, status)
    assert let_in(access.recording_to_see, people, log) == seen


@pytest.mark.parametrize("status, changed", [
    (Status.DRAFT, {"alice"}), (Status.SENT_BACK, {"alice"}), (Status.PUBLISHED, set())])
def test_a_recording_is_changed_by_its_contributor_while_the_sheet_is_open(
        people, log, unit, status, changed):
    at(unit, status)
    assert let_in(access.recording_to_change, people, log) == changed


@pytest.mark.parametrize("status", [Status.SUBMITTED, Status.PUBLISHED])
def test_the_text_of_a_log_is_for_who_sent_it(people, log, unit, status):
    at(unit, status)
    assert let_in(access.recording_with_original, people, log) == {"alice"}


def test_a_log_that_is_not_read_yet_is_its_contributors_alone(people, log):
    Recording.objects.update(channels="")
    assert let_in(access.recording_to_see, people, log) == set()
    assert let_in(access.recording_to_change, people, log) == {"alice"}


@pytest.mark.parametrize("change", [{"taken_down_at": timezone.now()}, {"received": False}])
def test_a_log_that_is_down_or_only_named_by_a_document_has_no_page(people, log, change):
    Recording.objects.update(**change)
    for decide in (access.recording_to_see, access.recording_to_change,
                   access.recording_with_original):
        assert let_in(decide, people, log) == set()
