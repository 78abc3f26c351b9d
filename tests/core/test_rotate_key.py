"""A new key: what waits is still done, and second factors still open."""
import pytest
from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from django.core.management import CommandError, call_command
from django_q import core_signing
from django_q.conf import Conf
from django_q.models import OrmQ
from django_q.signing import PickleSerializer, SignedPackage

from core.rotate_key import lock_second_factors_anew, sign_jobs_anew

pytestmark = pytest.mark.django_db
JOB = {"id": "1", "func": "teardowns.jobs.sweep_records"}


@pytest.fixture
def new_key(settings, monkeypatch):
    settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
    settings.SECRET_KEY = "the new key"
    monkeypatch.setattr(Conf, "SECRET_KEY", settings.SECRET_KEY)
    return settings


def queued(key):
    return OrmQ.objects.create(key="underplate", payload=core_signing.dumps(
        JOB, key=key, salt=Conf.PREFIX, serializer=PickleSerializer))


def test_jobs_that_wait_are_signed_with_the_new_key(new_key):
    old, new = queued(new_key.SECRET_KEY_FALLBACKS[0]), queued("the new key")
    assert sign_jobs_anew() == (1, 0)
    for row in (old, new):
        row.refresh_from_db()
        assert SignedPackage.loads(row.payload) == JOB
    assert sign_jobs_anew() == (0, 0)


def test_a_job_that_no_key_opens_is_left_and_counted(new_key):
    row = queued("a stranger's key")
    assert sign_jobs_anew() == (0, 1)
    assert OrmQ.objects.get(pk=row.pk).payload == row.payload


def test_second_factors_open_without_the_former_key(settings, monkeypatch, alice):
    factor = Authenticator.objects.create(user=alice, type="totp", data={
        "secret": get_adapter().encrypt("ABC")})
    settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
    settings.SECRET_KEY = "the new key"
    assert lock_second_factors_anew() == 1
    settings.SECRET_KEY_FALLBACKS = []
    factor.refresh_from_db()
    assert get_adapter().decrypt(factor.data["secret"]) == "ABC"


def test_a_factor_that_no_key_opens_is_said_and_nothing_changed(settings, alice):
    factor = Authenticator.objects.create(user=alice, type="totp", data={
        "secret": get_adapter().encrypt("ABC")})
    settings.SECRET_KEY = "the new key"
    with pytest.raises(CommandError, match="into SECRET_KEY_FALLBACKS"):
        call_command("rotate_key")
    assert Authenticator.objects.get().data == factor.data
