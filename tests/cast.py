"""The cast of every web test: Alice owns the unit, Bob does not, Rita reviews, Mona moderates."""
import pytest

from core.accounts.models import Role, User
from teardowns.models import Unit


def person(name, role=Role.CONTRIBUTOR):
    return User.objects.create_user(name, password=f"{name}-of-the-cast", role=role)


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
def mona(db):
    return person("mona", Role.MODERATOR)


@pytest.fixture
def unit(alice):
    """Alice's open bench sheet."""
    return Unit.objects.create(contributor=alice, title="Veltrice VQ-45")
