from datetime import timedelta

import pytest
from django.db import transaction
from django.utils import timezone

from core.audit.record import record
from core.doctor import clock
from tests.core.doctor.found import bad

pytestmark = pytest.mark.django_db


def test_clocks_that_agree_are_fine():
    assert bad("clock") == ""


def test_clocks_apart_are_said(monkeypatch):
    monkeypatch.setattr(clock.timezone, "now", lambda: later)
    later = clock._clock_of_database() + timedelta(seconds=40)
    assert "s apart" in bad("clock")


def test_an_entry_yet_to_come_is_a_fault(monkeypatch):
    now = timezone.now()
    with transaction.atomic(), monkeypatch.context() as patched:
        patched.setattr(timezone, "now", lambda: now + timedelta(hours=2))
        record(None, "scenarios_kept")
    assert "yet to come" in bad("clock")
