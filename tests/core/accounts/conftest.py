"""The clock of authenticator apps stands still, so that no test straddles two codes."""
import pytest
from allauth.mfa.totp.internal import auth

from .pages import COUNT


@pytest.fixture(autouse=True)
def standing_clock(monkeypatch):
    monkeypatch.setattr(auth, "yield_hotp_counters_from_time", lambda: iter([COUNT]))
