"""What has expired stays so, in a process and in one that begins, where a clock is set back."""
from datetime import timedelta

import pytest
from django.db import transaction
from django.utils import timezone

from core import clock
from core.audit.models import Entry
from core.audit.record import record

pytestmark = pytest.mark.django_db
HOUR = timedelta(hours=1)


@pytest.fixture
def machine(monkeypatch):
    """Sets the machine's clock; the one that counts from the start goes its way."""
    real = timezone.now

    def set_to(apart):
        monkeypatch.setattr("core.clock.timezone.now", lambda: real() + apart)
    return set_to


def about(found, wanted):
    return abs(found - wanted) < timedelta(seconds=30)


def test_it_goes_with_the_machine(machine):
    begun = clock.now()
    machine(HOUR)
    assert about(clock.now(), begun + HOUR)


def test_a_clock_that_is_set_back_takes_nothing_back(machine):
    begun = clock.now()
    machine(-HOUR)
    assert begun <= clock.now() and about(clock.now(), begun)


def test_a_process_that_begins_then_believes_the_log(machine, monkeypatch, alice):
    begun = timezone.now()
    with transaction.atomic():
        record(alice, "account_deleted")
    machine(-HOUR)
    monkeypatch.setattr(clock, "_known", None)
    assert about(clock.now(), begun)


def test_an_entry_of_a_clock_that_was_wrong_is_not_believed(machine, monkeypatch, alice):
    begun = timezone.now()
    with transaction.atomic():
        record(alice, "account_deleted")
    assert Entry.objects.exists()
    machine(-25 * HOUR)
    monkeypatch.setattr(clock, "_known", None)
    assert about(clock.now(), begun - 25 * HOUR)


def test_a_token_that_has_expired_stays_so(machine, alice):
    from core.accounts.services.api_tokens import find_token, issue_token

    token, secret = issue_token(owner=alice, name="program", scopes=("read",), days=1)
    assert find_token(secret)
    machine(25 * HOUR)
    assert find_token(secret) is None
    machine(0 * HOUR)
    assert find_token(secret) is None and not token.is_usable
