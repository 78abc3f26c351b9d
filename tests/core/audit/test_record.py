"""One entry a change, in the change's transaction, tied to the entry before."""
import pytest
from django.contrib.auth.models import AnonymousUser
from django.db import IntegrityError, transaction

from core.audit.actions import ACTIONS
from core.audit.chain import BEGINNING
from core.audit.check import check_log
from core.audit.models import Entry, Head
from core.audit.record import UnknownAction, record


def recorded(actor, action="unit_started", **about):
    with transaction.atomic():
        return record(actor, action, **about)


def test_an_entry_says_who_did_what_in_which_role_and_why(mona):
    recorded(mona, "photo_covered", unit=7, subject="photo/3", reason="A label", photo="case")
    entry = Entry.objects.get()
    assert (entry.actor, entry.role, entry.in_role) == (mona, "moderator", True)
    assert (entry.unit, entry.subject, entry.reason) == (7, "photo/3", "A label")
    assert entry.detail == {"photo": "case"}


def test_somebody_without_a_second_factor_is_told_apart(mona):
    mona.acts_in_role = False
    assert recorded(mona).in_role is False


def test_nobody_s_doing_is_recorded_too(db):
    entry = recorded(None, "reference_set_activated")
    assert (entry.actor, entry.role, entry.in_role) == (None, "", False)


def test_who_is_not_signed_in_is_nobody(db):
    assert recorded(AnonymousUser()).actor is None


def test_entries_are_numbered_from_one_and_each_names_the_one_before(alice):
    first, second = recorded(alice), recorded(alice)
    assert (first.sequence, first.previous) == (1, BEGINNING)
    assert (second.sequence, second.previous) == (2, first.hash)
    assert Head.objects.values_list("sequence", "hash").get() == (2, second.hash)


def test_an_action_that_is_not_listed_is_refused(alice):
    with pytest.raises(UnknownAction):
        recorded(alice, "unit_painted")


def test_it_is_refused_outside_of_a_transaction(alice):
    with pytest.raises(transaction.TransactionManagementError):
        record(alice, "unit_started")


@pytest.mark.django_db(transaction=True)
def test_it_is_refused_outside_of_a_transaction_of_the_site(alice):
    with pytest.raises(transaction.TransactionManagementError):
        record(alice, "unit_started")
    assert not Entry.objects.exists()


def test_a_change_that_is_given_up_leaves_no_entry_and_no_gap(alice):
    with pytest.raises(IntegrityError), transaction.atomic():
        record(alice, "unit_started")
        raise IntegrityError
    assert recorded(alice).sequence == 1


def test_what_cannot_be_kept_the_same_everywhere_is_refused(alice):
    with pytest.raises(ValueError):
        recorded(alice, length=float("nan"))
    with pytest.raises(UnicodeEncodeError):
        recorded(alice, reason="\ud800")


def test_entries_of_a_unit_are_found_by_row_and_by_number(alice, unit):
    entry = recorded(alice, unit=unit)
    recorded(alice, unit=unit.pk + 1)
    assert [*Entry.objects.of_unit(unit)] == [*Entry.objects.of_unit(unit.pk)] == [entry]


def test_the_public_part_holds_public_actions(alice):
    recorded(alice, "section_saved")
    shown = recorded(alice, "reference_set_activated")
    assert [*Entry.objects.public()] == [shown]


def test_every_action_has_words_and_a_short_code():
    field = Entry._meta.get_field("action")
    for code, (words, is_public) in ACTIONS.items():
        assert len(code) <= field.max_length and words and isinstance(is_public, bool)


def test_deleting_an_account_in_place_leaves_the_chain_whole(alice):
    recorded(alice)
    type(alice).objects.filter(pk=alice.pk).update(username="gone", email="")
    assert check_log()[0] is None
