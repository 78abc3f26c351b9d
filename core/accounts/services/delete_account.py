"""Take a person out of the site and leave what was published."""
import secrets

from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.db import transaction
from django.dispatch import Signal
from django.utils import timezone

from core.accounts.models import Role, User
from core.accounts.sessions import end_sessions
from core.audit.record import record

# Sent inside the transaction, with `person`, before name and address go: apps take down what is
# the person's alone.
account_deleted = Signal()


class NotNow(Exception):
    """The account cannot go yet; the message says what has to be done before."""


@transaction.atomic
def delete_account(*, person):
    """Erase name and address, end every way in; rows that others rely on stay, without a name."""
    user = User.objects.select_for_update().get(pk=person.pk)
    if user.role == Role.ADMINISTRATOR and not _others(user).exists():
        raise NotNow("You are the only administrator. Appoint another before you go.")
    account_deleted.send(User, person=user)
    _erase(user)
    end_sessions(user)
    record(user, "account_deleted", subject=f"user/{user.pk}")


def _others(user):
    return User.objects.filter(
        role=Role.ADMINISTRATOR, is_active=True).exclude(pk=user.pk)


def _erase(user):
    EmailAddress.objects.filter(user=user).delete()
    Authenticator.objects.filter(user=user).delete()
    user.api_tokens.all().delete()
    user.username = f"former-contributor-{secrets.token_hex(4)}"
    user.email = user.first_name = user.last_name = user.suspended_reason = user.language = ""
    user.role, user.room, user.unread_notices = Role.CONTRIBUTOR, 1, 0
    user.is_active, user.is_staff, user.is_superuser = False, False, False
    user.email_verified_at = user.last_login = None
    user.deleted_at = timezone.now()
    user.set_unusable_password()
    user.save()
