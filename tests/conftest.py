"""What every test runs with."""
import os

import pytest
from django.conf import settings

from tests.cast import alice, bob, mona, rita, unit  # noqa: F401  (fixtures)
from tests.photos import photo  # noqa: F401  (fixture)
from tests.recordings import laid_out, recording  # noqa: F401  (fixtures)

os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")    # the browser driver runs a loop


@pytest.fixture(autouse=True)
def plain_settings(settings, tmp_path):
    """No hashed file names to collect, private folders for files, a fast password hasher."""
    durable = "core.durable_storage.DurableStorage"
    settings.STORAGES = settings.STORAGES | {
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
        **{name: {"BACKEND": durable, "OPTIONS": {"location": tmp_path / name, "base_url": None}}
           for name in ("originals", "pictures", "channels")},
    }
    settings.INCOMING = tmp_path / "incoming"
    settings.COPIES = tmp_path / "copies"
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


def pytest_configure(config):
    # Jobs run by hand in tests; nothing may reach a queue that a worker reads.
    settings.Q_CLUSTER["sync"] = True
