import string

import pytest
from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator

from core.secret import fingerprint
from tests.core.doctor.found import bad, found

pytestmark = pytest.mark.django_db
STRONG = string.ascii_letters + string.digits


@pytest.mark.parametrize("key", ["short", "a" * 80, "django-insecure-" + STRONG])
def test_a_weak_key_is_a_fault(settings, key):
    settings.SECRET_KEY = key
    assert "SECRET_KEY is weak" in bad("secrets") and key not in bad("secrets")


def test_a_strong_key_is_known_by_its_fingerprint_alone(settings):
    settings.SECRET_KEY = STRONG
    (level, said), = found("secrets")
    assert level == "good" and fingerprint(STRONG) in said and STRONG not in said


def test_a_key_among_its_own_former_ones_is_said(settings):
    settings.SECRET_KEY = STRONG
    settings.SECRET_KEY_FALLBACKS = [STRONG]
    assert "its own SECRET_KEY_FALLBACKS" in bad("secrets")
    settings.SECRET_KEY_FALLBACKS = ["former"]
    assert found("secrets")[1] == ("note", "1 former keys are still believed.")


def test_a_key_made_on_one_machine_does_for_one_machine(settings, tmp_path):
    settings.SECRET_KEY, settings.DATA_DIR, settings.S3_BUCKET = STRONG, tmp_path, "bucket"
    assert "made on this machine" not in bad("secrets")
    (tmp_path / "secret-key").write_text(STRONG)
    assert "made on this machine" in bad("secrets")


@pytest.mark.parametrize(("kind", "field"), [("totp", "secret"), ("recovery_codes", "seed")])
def test_second_factors_that_the_key_does_not_open_are_a_fault(settings, alice, kind, field):
    settings.SECRET_KEY = STRONG
    Authenticator.objects.create(user=alice, type=kind, data={
        field: get_adapter().encrypt("ABC")})
    assert bad("secrets") == ""
    settings.SECRET_KEY = STRONG[::-1]
    assert "locked with another SECRET_KEY" in bad("secrets")
    settings.SECRET_KEY_FALLBACKS = [STRONG]
    assert bad("secrets") == ""
