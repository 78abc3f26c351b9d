"""What an account gets from the machine it runs on instead of from its owner."""
from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal.auth import TOTP, generate_totp_secret
from django.utils import timezone

from core.accounts.models import User
from core.accounts.sessions import end_sessions

DEMO_DOMAIN = "demo.invalid"       # RFC 2606: never a real address, so it marks demo accounts


def confirm_address(user: User) -> None:
    """Take the account's address as confirmed; the caller saves the account."""
    EmailAddress.objects.update_or_create(
        user=user, email=user.email, defaults={"verified": True, "primary": True})
    user.email_verified_at = user.email_verified_at or timezone.now()


def give_new_app(user: User) -> None:
    """A second factor made just now in place of all others; what rested on those ends."""
    Authenticator.objects.filter(user=user).delete()
    TOTP.activate(user, generate_totp_secret())
    end_sessions(user)
