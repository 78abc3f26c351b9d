"""Every field has its class of data, every class its protections, and what they say holds."""
import csv
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from allauth.account.models import EmailAddress
from django.apps import apps
from django.utils import timezone

from core.accounts.models import User
from core.accounts.services.delete_account import delete_account
from teardowns.bulk.tables import TABLES
from teardowns.services.account_room import TIMES
from tests.test_asvs import NODE, ROOT, named_in

# Of these each field has a line of its own: a new one is thought about.
OF_A_PERSON = {
    "accounts.User", "account.EmailAddress", "account.EmailConfirmation", "mfa.Authenticator",
    "usersessions.UserSession", "sessions.Session", "accounts.ApiToken", "core.Answer",
    "core.Bucket", "core.Letter", "teardowns.Notice", "teardowns.DigestSetting", "teardowns.Digest",
    "teardowns.Watch", "teardowns.SavedSearch", "teardowns.Affiliation", "teardowns.Report",
    "teardowns.UnsavedSection"}


@cache
def rows(name):
    lines = (Path(ROOT) / "fixtures" / name).read_text("utf-8").splitlines()
    return tuple(csv.DictReader(line for line in lines if not line.startswith("#")))


def fields():
    return {(model._meta.label, field.name) for model in apps.get_models(include_auto_created=True)
            for field in model._meta.concrete_fields}


def of_class(model, *classes):
    return [row["field"] for row in rows("data-classes.csv")
            if row["model"] == model and row["class"] in classes]


def test_every_field_of_every_model_has_one_class():
    whole = {model: {name for label, name in fields() if label == model}
             for model in {label for label, _ in fields()}}
    classed = Counter()
    for row in rows("data-classes.csv"):
        named = whole[row["model"]] if row["field"] == "*" else {row["field"]}
        classed.update((row["model"], name) for name in named)
    assert fields() - classed.keys() == set(), "not classed"
    assert classed.keys() - fields() == set(), "no such field"
    assert {place for place, count in classed.items() if count > 1} == set()


def test_what_tells_of_a_person_is_classed_field_by_field():
    whole = {row["model"] for row in rows("data-classes.csv") if row["field"] == "*"}
    assert not whole & OF_A_PERSON
    assert {label for label, _ in fields()} >= OF_A_PERSON


def test_every_class_has_its_protections_and_each_names_tests_that_exist():
    protections = {row["class"]: row for row in rows("data-protections.csv")}
    assert {row["class"] for row in rows("data-classes.csv")} == protections.keys()
    for row in protections.values():
        named = NODE.findall(row["protected by"])
        assert named and all(row.values()), row
        assert [f"{path}::{name}" for path, name in named if name not in named_in(path)] == []


@pytest.mark.django_db
def test_nothing_private_is_left_of_an_account_that_was_deleted(alice):
    """What is not empty is what an account has that was never filled in; its number stays."""
    now = timezone.now()
    User.objects.filter(pk=alice.pk).update(
        first_name="Alice", last_name="A.", last_login=now, suspended_reason="why", language="de",
        unread_notices=3, room=TIMES[-1])
    delete_account(person=alice)
    alice.refresh_from_db()
    blank = User(is_active=False)
    left = {name for name in of_class("accounts.User", "private")
            if getattr(alice, name) != getattr(blank, name)}
    assert left == set() and not alice.has_usable_password()
    assert not EmailAddress.objects.filter(user=alice).exists()


@pytest.mark.django_db
def test_nothing_private_or_secret_leaves_by_bulk_data_or_the_interface_for_programs(client):
    """By name of the field: an address, a reason of suspension, a digest of a password."""
    hidden = set(of_class("accounts.User", "private", "secret")) - {"is_active"}
    sent = {column.name for table in TABLES for column in table.columns}
    described = client.get("/api/v1/openapi.json").json()["components"]["schemas"]
    sent |= {name for schema in described.values() for name in schema.get("properties", {})}
    assert hidden & sent - {"language", "room"} == set() and "email" in hidden
