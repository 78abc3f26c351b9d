"""What was erased after a backup is erased again, and what cannot be is named."""
import json

import pytest
from django.utils import timezone

from core.accounts.services.api_tokens import issue_token, revoke_token
from core.backup import erasures
from core.backup.erasures import KINDS, LIST, keep_erasures, read_erasures, repeat_erasures

pytestmark = pytest.mark.django_db


def test_the_list_holds_numbers_and_only_grows(alice, tmp_path):
    alice.deleted_at = timezone.now()
    alice.save()
    keep_erasures(tmp_path)
    alice.deleted_at = None
    alice.save()
    keep_erasures(tmp_path)
    assert read_erasures(tmp_path / LIST)["account"] == [{"user": alice.pk}]


def test_people_who_left_and_revoked_tokens_are_gone_again(alice, bob, tmp_path):
    token, _ = issue_token(owner=bob, name="t", scopes=("read",), days=1)
    (tmp_path / LIST).write_text(json.dumps({
        "account": [{"user": alice.pk}, {"user": 10 ** 6}],
        "token": [{"token": token.prefix}, {"token": "none"}]}))
    assert repeat_erasures(tmp_path / LIST) == (2, [])
    alice.refresh_from_db()
    token.refresh_from_db()
    assert alice.deleted_at and "alice" not in alice.username and token.revoked_at
    assert repeat_erasures(tmp_path / LIST) == (0, [])


def test_what_was_revoked_is_listed(bob, tmp_path):
    token, _ = issue_token(owner=bob, name="t", scopes=("read",), days=1)
    revoke_token(owner=bob, token_pk=token.pk)
    keep_erasures(tmp_path)
    assert read_erasures(tmp_path / LIST)["token"] == [{"token": token.prefix}]


def test_one_that_fails_keeps_none_of_the_others(monkeypatch, tmp_path):
    def fails(erased):
        if erased["n"] == 1:
            raise LookupError
        return True

    monkeypatch.setitem(KINDS, "thing", erasures.Kind(lambda: [], fails))
    (tmp_path / LIST).write_text(json.dumps({"thing": [{"n": 1}, {"n": 2}], "of a later release": [
        {}]}))
    assert repeat_erasures(tmp_path / LIST) == (
        1, ['thing {"n": 1}: LookupError', "of a later release {}: KeyError"])


def test_without_a_list_nothing_is_erased(tmp_path):
    assert repeat_erasures(tmp_path / LIST) == (0, [])
