"""The key that signs sessions and locks second factors."""
from pathlib import Path

from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from cryptography.fernet import InvalidToken
from django.conf import settings

from core.doctor.findings import examines, fault, good, note, warning
from core.secret import fingerprint

SHORTEST, FEWEST = 50, 5        # as Django's own deployment check asks
LOCKED = {Authenticator.Type.TOTP: "secret", Authenticator.Type.RECOVERY_CODES: "seed"}
MAKE = 'python -c "import secrets; print(secrets.token_urlsafe(64))"'


@examines("secrets")
def key_is_strong():
    key = str(settings.SECRET_KEY)
    if len(key) < SHORTEST or len(set(key)) < FEWEST or key.startswith("django-insecure-"):
        yield fault(f"SECRET_KEY is weak: {SHORTEST} characters or more, made at random, are "
                    "needed.", f"Make one with {MAKE} and see “Keys” in DEVELOPERS.md before it "
                               "is changed.")
    else:
        yield good(f"SECRET_KEY has {len(key)} characters. Keep a copy away from the backups: "
                   f"second factors cannot be read without it (fingerprint {fingerprint(key)}).")


@examines("secrets")
def former_keys_are_few():
    former = [str(key) for key in settings.SECRET_KEY_FALLBACKS]
    if str(settings.SECRET_KEY) in former:
        yield warning("SECRET_KEY stands among its own SECRET_KEY_FALLBACKS.", "Take it out there.")
    elif former:
        yield note(f"{len(former)} former keys are still believed.",
                   "Run manage.py rotate_key; 30 days after the change empty "
                   "SECRET_KEY_FALLBACKS.")


@examines("secrets")
def second_factors_can_be_read():
    """The newest of each kind: after a restore or a change the key may be another."""
    for kind, name in LOCKED.items():
        newest = Authenticator.objects.filter(type=kind).order_by("pk").last()
        if newest and name in newest.data and not _opens(newest.data[name]):
            yield fault("Second factors are locked with another SECRET_KEY than this one: nobody "
                        "with a trusted role can sign in.",
                        "Put the key that was in force, of which a copy is kept apart from the "
                        "backups, into SECRET_KEY_FALLBACKS; then run manage.py rotate_key.")
            return


def _opens(locked):
    try:
        get_adapter().decrypt(locked)
    except InvalidToken:
        return False
    return True


@examines("secrets")
def every_host_has_the_key():
    """A key that was made here is not the other hosts' key."""
    made_here = Path(settings.DATA_DIR, "secret-key")
    shared = settings.S3_BUCKET or "postgresql" in settings.DATABASES["default"]["ENGINE"]
    if shared and made_here.exists() and made_here.read_text() == str(settings.SECRET_KEY):
        yield warning("SECRET_KEY was made on this machine, while the database is not of this "
                      "machine alone.", "Set SECRET_KEY in the environment, the same on every "
                                        "host that runs web or workers.")
