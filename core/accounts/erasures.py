"""What a restore must not bring back of accounts: people who left, and tokens that were revoked."""
from django.db import transaction

from core.accounts.models import ApiToken, User
from core.accounts.services.api_tokens import revoke_token
from core.accounts.services.delete_account import delete_account
from core.backup.erasures import register


def people_who_left():
    left = User.objects.exclude(deleted_at=None).order_by("pk")
    return [{"user": pk} for pk in left.values_list("pk", flat=True)]


def leave_again(erased) -> bool:
    user = User.objects.filter(pk=erased["user"], deleted_at=None).first()
    if user is not None:
        delete_account(person=user)
    return user is not None


def revoked_tokens():
    revoked = ApiToken.objects.exclude(revoked_at=None).order_by("pk")
    return [{"token": prefix} for prefix in revoked.values_list("prefix", flat=True)]


@transaction.atomic
def revoke_again(erased) -> bool:
    token = ApiToken.objects.filter(prefix=erased["token"], revoked_at=None).first()
    return token is not None and revoke_token(owner=token.owner, token_pk=token.pk)


def register_erasures() -> None:
    register("account", people_who_left, leave_again)
    register("token", revoked_tokens, revoke_again)
