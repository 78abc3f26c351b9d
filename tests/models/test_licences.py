import pytest
from django.db import IntegrityError, transaction

from teardowns.models import ContributionLicence, PhotoPrivacyCheck, ReviewRemark, Submission

pytestmark = pytest.mark.django_db
SOUND = {"measurements": "CC0-1.0", "works": "CC-BY-4.0", "edition": 1, "text_sha256": "0" * 64,
         "own_rights": True, "third_party": "none"}


def refused(make, **fields):
    try:
        with transaction.atomic():
            make(**fields)
    except IntegrityError:
        return True
    return False


@pytest.fixture
def submission(alice, unit):
    return Submission.objects.create(unit=unit, author=alice)


@pytest.mark.parametrize("changed, is_refused", [
    ({}, False), ({"own_rights": False}, True), ({"third_party": "maybe"}, True),
    ({"third_party": "permitted"}, True),
    ({"third_party": "permitted", "third_party_note": "Photo 2 by a friend, who agreed"}, False)])
def test_a_licence_states_own_rights_and_names_others(submission, alice, changed, is_refused):
    fields = {"submission": submission, "unit": submission.unit, "author": alice, **SOUND}
    assert refused(ContributionLicence.objects.create, **fields | changed) == is_refused


def test_a_submission_has_one_licence(submission, alice):
    fields = {"submission": submission, "unit": submission.unit, "author": alice, **SOUND}
    ContributionLicence.objects.create(**fields)
    assert refused(ContributionLicence.objects.create, **fields)


def test_a_photo_is_ticked_once_a_version(photo, alice):
    fields = {"photo": photo, "photo_version": 1, "author": alice}
    PhotoPrivacyCheck.objects.create(**fields)
    assert refused(PhotoPrivacyCheck.objects.create, **fields)
    assert not refused(PhotoPrivacyCheck.objects.create, **fields | {"photo_version": 2})


@pytest.mark.parametrize("wrong", [{"text": ""}, {"answer": "Done."}])
def test_a_remark_has_words_and_an_answer_its_time(unit, mona, wrong):
    fields = {"unit": unit, "author": mona, "text": "Which port?"}
    assert not refused(ReviewRemark.objects.create, **fields)
    assert refused(ReviewRemark.objects.create, **fields | wrong)
