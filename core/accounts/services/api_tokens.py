"""Issue, find and revoke the secrets by which programs act for people."""
import hashlib
import re
import secrets
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from core.accounts.models import ApiToken, Scope, User
from core.audit.record import record

MARK = "upl"            # so that a secret in the wrong place is known for what it is
SHAPE = re.compile(rf"{MARK}_([0-9a-f]{{8}})_([A-Za-z0-9_-]{{43}})")
MOST = 10               # usable tokens a person
NOTED_EVERY = timedelta(minutes=1)      # how exactly the last use is noted


class NotIssued(Exception):
    """There is no room for this token; the message says why and what to do."""


@transaction.atomic
def issue_token(*, owner, name, scopes, days):
    """A new token and its secret, which is shown once and kept nowhere."""
    User.objects.select_for_update().get(pk=owner.pk)
    _require_room(owner.api_tokens.usable(), name)
    prefix, secret = secrets.token_hex(4), secrets.token_urlsafe(32)
    token = ApiToken.objects.create(
        owner=owner, name=name, prefix=prefix, digest=_digest(secret),
        scopes=[scope for scope in Scope.values if scope in scopes],
        expires_at=timezone.now() + timedelta(days=days))
    record(owner, "token_issued", subject=f"token/{token.pk}", scopes=token.scopes, days=days)
    return token, f"{MARK}_{prefix}_{secret}"


def _require_room(tokens, name):
    if tokens.filter(name=name).exists():       # also when a form is sent twice
        raise NotIssued(f"You have a token named “{name}” in use. If you did not copy its secret, "
                        "revoke it and make another.")
    if tokens.count() >= MOST:
        raise NotIssued(f"You have {MOST} tokens in use. Revoke one that you need no more first.")


@transaction.atomic
def revoke_token(*, owner, token_pk):
    """Revoke a token of the owner's; whether one was."""
    token = ApiToken.objects.select_for_update().filter(
        owner=owner, pk=token_pk, revoked_at=None).first()
    if token is None:
        return False
    token.revoked_at = timezone.now()
    token.save(update_fields=["revoked_at"])
    record(owner, "token_revoked", subject=f"token/{token.pk}")
    return True


def find_token(text):
    """The usable token of that secret with its owner, or None; its use is noted."""
    shaped = SHAPE.fullmatch(text)
    if shaped is None:
        return None
    prefix, secret = shaped.groups()
    token = ApiToken.objects.usable().select_related("owner").filter(prefix=prefix).first()
    if token is None or not secrets.compare_digest(token.digest, _digest(secret)):
        return None
    if not token.owner.is_active:
        return None
    _note_use(token)
    return token


def _note_use(token):
    now = timezone.now()
    if token.last_used_at is None or now - token.last_used_at > NOTED_EVERY:
        ApiToken.objects.filter(pk=token.pk).update(last_used_at=now)


def _digest(secret):
    return hashlib.sha256(secret.encode()).hexdigest()
