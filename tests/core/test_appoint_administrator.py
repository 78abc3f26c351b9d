"""The first administrator, by command."""
import re

import pytest
from django.core.management import CommandError, call_command

from core.accounts.models import Role, User
from core.audit.models import Entry
from tests.cast import person
from tests.test_sources import ROOT

pytestmark = pytest.mark.django_db


def appoint(name, **options):
    call_command("appoint_administrator", name, **options)


def test_there_are_no_accounts_to_begin_with():
    """Neither in the tables nor by any migration, which tests do not run."""
    assert not User.objects.exists()
    migrations = [path for room in ("core", "teardowns")
                  for path in (ROOT / room).rglob("migrations/*.py")]
    makes = re.compile(r"create_(super)?user|make_password|User\.objects\.(bulk_|get_or_)?create")
    assert len(migrations) > 15
    assert [path.name for path in migrations if makes.search(path.read_text())] == []


def test_it_appoints_the_first(alice):
    appoint("alice")
    alice.refresh_from_db()
    assert alice.role == Role.ADMINISTRATOR
    assert Entry.objects.get(action="administrator_appointed").subject == f"user/{alice.pk}"


def test_it_appoints_another_only_when_told_to(alice, ada):
    with pytest.raises(CommandError, match="already: ada"):
        appoint("alice")
    appoint("alice", another=True)
    alice.refresh_from_db()
    assert alice.role == Role.ADMINISTRATOR


def test_it_makes_no_account():
    with pytest.raises(CommandError, match="Sign up on the site first"):
        appoint("nobody")
    assert not User.objects.exists()


def test_the_address_must_be_confirmed():
    person("carol", verified=False)
    with pytest.raises(CommandError, match="not confirmed"):
        appoint("carol")


def test_an_administrator_is_not_appointed_twice(ada):
    with pytest.raises(CommandError, match="already"):
        appoint("ada", another=True)
