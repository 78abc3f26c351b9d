"""What every test runs with."""
import os
import shutil
import tempfile
import time
from pathlib import Path

import pytest
from allauth.account.authentication import AUTHENTICATION_METHODS_SESSION_KEY
from django.conf import settings
from django.core.cache import cache
from django.test import Client
from django.utils import timezone, translation

from core import clock
from core.tallies import tallies
from tests.cast import ada, alice, bob, milo, mona, rita, rolf, unit  # noqa: F401  (fixtures)
from tests.folders import storages_below
from tests.photos import photo  # noqa: F401  (fixture)
from tests.recordings import laid_out, recording  # noqa: F401  (fixtures)

os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")    # the browser driver runs a loop

MEMORY, ROOM = Path("/dev/shm"), 2 << 30


@pytest.fixture(autouse=True)
def plain_settings(settings, tmp_path):
    """No hashed file names to collect, private folders for files, a fast password hasher."""
    settings.STORAGES = settings.STORAGES | storages_below(tmp_path)
    settings.INCOMING = tmp_path / "incoming"
    settings.COPIES = tmp_path / "copies"
    settings.SEARCHES = 10**7           # all tests of a process come from one address
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(autouse=True)
def counts_of_attempts_begin_anew(request):
    """The cache's table is no model's: emptying the tables of a test leaves it."""
    if {"transactional_db", "live_server"} & set(request.fixturenames):
        request.getfixturevalue("transactional_db")
        cache.clear()


@pytest.fixture(autouse=True)
def nothing_is_owed_to_limits():
    """By what another test let through: its buckets are gone."""
    tallies.clear()


@pytest.fixture(autouse=True)
def clock_of_this_test(monkeypatch):
    """What one test took for the time is not the least that the next one may."""
    monkeypatch.setattr(clock, "_known", (timezone.now(), time.monotonic()))


@pytest.fixture(autouse=True)
def english_again():
    """A request leaves its reader's language behind in the process."""
    yield
    translation.deactivate()


plain_force_login = Client.force_login


def force_login(client, user, backend=None, *, second_factor=True):
    """Sign in as the test client does, with the second factor passed unless told otherwise."""
    plain_force_login(client, user, backend)
    if second_factor:
        session = client.session
        session[AUTHENTICATION_METHODS_SESSION_KEY] = [{"method": "mfa", "at": time.time()}]
        session["account_authentication_methods_user"] = str(user.pk)
        session.save()


Client.force_login = force_login


# Files that take longest are handed out first: one that begins last keeps the others waiting.
LONG = ("tests/core/test_policy_matrix", "tests/browser/", "tests/core/test_demo",
        "tests/test_demo", "tests/services/test_finish_demo", "tests/commands/test_rebuild",
        "tests/imaging/test_hostile")


def pytest_collection_modifyitems(items):
    items.sort(key=lambda item: not item.nodeid.startswith(LONG))      # all else in its order


def pytest_configure(config):
    # Jobs run by hand in tests; nothing may reach a queue that a worker reads.
    settings.Q_CLUSTER["sync"] = True
    database = settings.DATABASES["default"]
    if database["ENGINE"].endswith("sqlite3"):
        # A file, in memory where there is room: each thread of a live server has a connection of
        # its own then, as when serving. One that all share breaks now and then, and stays broken.
        config.database_folder = tempfile.mkdtemp(prefix="underplate-tests-", dir=_roomy())
        database["TEST"]["NAME"] = f"{config.database_folder}/test.sqlite3"


def pytest_unconfigure(config):
    if folder := getattr(config, "database_folder", ""):
        shutil.rmtree(folder, ignore_errors=True)


def _roomy():
    has_room = MEMORY.is_dir() and shutil.disk_usage(MEMORY).free > ROOM
    return MEMORY if has_room else None
