"""The overview of one's own account."""
from dataclasses import dataclass

from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from allauth.usersessions.models import UserSession
from django.shortcuts import render

from core.accounts.models import TRUSTED


@dataclass(frozen=True)
class Factors:
    app: bool           # an authenticator app is set up
    keys: int           # keys and passkeys
    codes: int          # recovery codes not used yet

    @property
    def any(self):
        return self.app or self.keys > 0


def account(request):
    user = request.user
    return render(request, "core/account.html", {
        "pending": EmailAddress.objects.filter(user=user, verified=False).first(),
        "factors": _factors(user),
        "must_have_factor": user.role in TRUSTED,
        "sessions": UserSession.objects.filter(user=user).count(),
        "tokens": user.api_tokens.usable().count(),
    })


def _factors(user):
    rows: dict[str, list[Authenticator]] = {kind: [] for kind in Authenticator.Type.values}
    for row in Authenticator.objects.filter(user=user):
        rows[row.type].append(row)
    codes = rows[Authenticator.Type.RECOVERY_CODES]
    return Factors(
        app=bool(rows[Authenticator.Type.TOTP]), keys=len(rows[Authenticator.Type.WEBAUTHN]),
        codes=len(codes[0].wrap().get_unused_codes()) if codes else 0)
