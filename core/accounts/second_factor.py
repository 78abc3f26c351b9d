"""Whether a session has passed a second factor, which a trusted role needs."""
from allauth.account.authentication import (
    AUTHENTICATION_METHODS_SESSION_KEY,
    get_authentication_records,
)
from allauth.account.internal.flows.login import record_authentication
from allauth.mfa.models import Authenticator

FACTORS = (Authenticator.Type.TOTP, Authenticator.Type.WEBAUTHN)
NEXT = "second_factor_next"     # session key: where the person wanted to go


def has_passed(request):
    """A code, a recovery code or a key was shown in this session, or a passkey opened it."""
    records = get_authentication_records(request, request.user)
    return any(record["method"] == "mfa" for record in records)


def has_one(user):
    return Authenticator.objects.filter(user=user, type__in=FACTORS).exists()


def note_passed(request, authenticator):
    """Setting one up takes a code or a key of it, so the session has passed it by that."""
    record_authentication(request, request.user, method="mfa",
                          id=authenticator.pk, type=authenticator.type)


def forget(request):
    """Nothing counts any more once the last second factor is gone."""
    records = get_authentication_records(request, request.user)
    request.session[AUTHENTICATION_METHODS_SESSION_KEY] = [
        record for record in records if record["method"] != "mfa"]
