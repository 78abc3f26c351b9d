import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Photo, Status, Unit
from teardowns.services.moderated_files import (
    accounts_with_same_files,
    files_of,
    pictures_alike,
    same_elsewhere,
    see_original,
)
from teardowns.services.state_reasons import NoReason

pytestmark = pytest.mark.django_db
DIGEST = "ab" * 32


def sent(person, key="lid", digest=DIGEST, status=Status.SUBMITTED):
    unit = Unit.objects.create(contributor=person, title="Veltrice VQ-20", status=status)
    Photo.objects.create(unit=unit, key=key, sha256=digest, author=person)
    return unit


def test_the_same_bytes_in_another_record_are_named_with_who_sent_them(alice, bob):
    here, there = sent(alice), sent(bob)
    found = same_elsewhere(here.pk, files_of(here.pk))
    assert [(one.unit, one.name) for one in found[DIGEST]] == [(there.pk, "bob")]


def test_other_bytes_and_files_without_a_digest_are_nowhere_else(alice, bob):
    here = sent(alice, digest="")
    sent(bob, digest="")
    sent(bob, digest="cd" * 32)
    assert same_elsewhere(here.pk, files_of(here.pk)) == {}


LOOK = 0x0F1E2D3C4B5A6978


def pictured(person, look, digest="cd" * 32, **fields):
    unit = sent(person, digest=digest)
    Photo.objects.filter(unit=unit).update(perceptual_hash=look, **fields)
    return unit


def test_a_picture_that_was_scaled_or_compressed_anew_is_named_as_alike(alice, bob):
    here, there = pictured(alice, LOOK, DIGEST), pictured(bob, LOOK ^ 0b1011)      # 3 bits
    pictured(bob, LOOK ^ 0xFF)                                                     # 8 bits
    assert pictures_alike(here.pk, files_of(here.pk)) == {"lid": [(there.pk, "lid", "bob", 3)]}
    assert pictures_alike(there.pk, files_of(there.pk)) == {"lid": [(here.pk, "lid", "alice", 3)]}


def test_the_most_alike_comes_first_and_the_sign_bit_is_one_of_64(alice, bob):
    """Hashes are kept as signed 64 bit: 2⁶³ apart is one bit."""
    here = pictured(alice, LOOK, DIGEST)
    pictured(bob, LOOK ^ 0b11)
    pictured(bob, LOOK - 2**63)
    assert [one.bits for one in pictures_alike(here.pk, files_of(here.pk))["lid"]] == [1, 2]


@pytest.mark.parametrize("look, fields", [
    (LOOK, {"sha256": DIGEST}), (LOOK, {"drawn": True}), (None, {})],
    ids=["the same file", "a drawing", "not received"])
def test_what_is_the_same_file_or_no_photograph_is_not_named_as_alike(alice, bob, look, fields):
    here = pictured(alice, LOOK, DIGEST)
    pictured(bob, look, **fields)
    assert pictures_alike(here.pk, files_of(here.pk)) == {}


@pytest.mark.parametrize("look", [0, -1, 0b111])
def test_a_plain_picture_is_alike_to_none_for_many_look_so(alice, bob, look):
    here = pictured(alice, look, DIGEST)
    pictured(bob, look)
    assert pictures_alike(here.pk, files_of(here.pk)) == {}


def test_accounts_that_sent_the_same_files_are_counted_by_file(alice, bob, rita):
    for person in (alice, bob, bob, rita):
        sent(person, digest=DIGEST if person != rita else "cd" * 32)
    assert accounts_with_same_files(alice.pk) == [(bob.pk, "bob", 1)]


def test_seeing_an_original_is_logged_with_its_reason(alice, mona):
    unit = sent(alice)
    file = see_original(moderator=mona, unit_pk=unit.pk, kind="photo", key="lid",
                        reason=" Whose face is it? ")
    entry = Entry.objects.get(action="original_seen")
    assert (entry.subject, entry.reason) == (f"photo/{file.pk}", "Whose face is it?")


@pytest.mark.parametrize(("kind", "key", "refusal"), [
    ("photo", "lid", NoReason), ("photo", "none", Http404), ("unit", "lid", Http404)])
def test_without_a_reason_or_a_file_nothing_is_logged(alice, mona, kind, key, refusal):
    unit = sent(alice)
    with pytest.raises(refusal):
        see_original(moderator=mona, unit_pk=unit.pk, kind=kind, key=key,
                     reason="" if refusal is NoReason else "Why")
    assert not Entry.objects.filter(action="original_seen").exists()


def test_a_moderator_has_no_page_of_files_of_a_draft_or_of_their_own(alice, mona):
    for unit in (sent(alice, status=Status.DRAFT), sent(mona)):
        with pytest.raises(Http404):
            see_original(moderator=mona, unit_pk=unit.pk, kind="photo", key="lid", reason="Why")
