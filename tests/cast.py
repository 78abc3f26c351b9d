"""The cast of every web test.

Alice owns the unit, Bob does not; Rita and Rolf review, Mona and Milo moderate, Ada administers.
"""
import pytest
from allauth.account.models import EmailAddress
from django.utils import timezone

from core.accounts.models import Role, User
from teardowns.models import Unit


def person(name, role=Role.CONTRIBUTOR, *, verified=True, **fields):
    """An account whose address is confirmed, unless `verified=False`."""
    mail = f"{name}@cast.example"
    user = User.objects.create_user(
        name, mail, f"{name}-of-the-cast", role=role,
        email_verified_at=timezone.now() if verified else None, **fields)
    EmailAddress.objects.bulk_create(
        [EmailAddress(user=user, email=mail, verified=verified, primary=True)])
    return user


@pytest.fixture
def alice(db):
    return person("alice")


@pytest.fixture
def bob(db):
    return person("bob")


@pytest.fixture
def rita(db):
    return person("rita", Role.REVIEWER)


@pytest.fixture
def rolf(db):
    return person("rolf", Role.REVIEWER)


@pytest.fixture
def mona(db):
    return person("mona", Role.MODERATOR)


@pytest.fixture
def milo(db):
    return person("milo", Role.MODERATOR)


@pytest.fixture
def ada(db):
    return person("ada", Role.ADMINISTRATOR)


@pytest.fixture
def unit(alice):
    """Alice's open bench sheet."""
    return Unit.objects.create(contributor=alice, title="Veltrice VQ-45")
