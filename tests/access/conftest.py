import pytest
from django.contrib.auth.models import AnonymousUser


@pytest.fixture
def people(alice, bob, rita, mona):
    """Alice contributed the unit; nobody is not signed in."""
    return {"alice": alice, "bob": bob, "rita": rita, "mona": mona, "nobody": AnonymousUser()}
