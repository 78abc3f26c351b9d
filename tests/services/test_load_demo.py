"""Loading the demo: everything once, nothing twice, and nobody else's account."""
from datetime import date

import pytest
from django.db import transaction
from django.test import override_settings

from core.accounts.models import Role, User
from teardowns.exchange.document import read_document, write_document
from teardowns.models import (
    Assessment,
    ListedUnit,
    Measurement,
    Publication,
    Status,
    Unit,
)
from teardowns.services.load_demo import ACCOUNTS, FIXTURES, DemoError, load_demo

pytestmark = pytest.mark.django_db
FILES = sorted(FIXTURES.glob("*.json"))


@pytest.fixture(scope="module")
def first_run(django_db_setup, django_db_blocker):
    """One load for the whole file, in a transaction that is thrown away."""
    fast = override_settings(PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"])
    with fast, django_db_blocker.unblock(), transaction.atomic():
        yield load_demo()
        transaction.set_rollback(True)


def test_it_brings_in_every_fixture_and_leaves_two_as_drafts(first_run):
    assert first_run.imported == len(FILES) >= 28
    assert first_run.drafts == 2
    assert first_run.published == first_run.imported - 2


def test_drafts_are_on_the_contributors_bench(first_run):
    drafts = Unit.objects.filter(status=Status.DRAFT)
    assert {unit.contributor.username for unit in drafts} == {"alma"}


def test_published_units_are_dated_one_after_the_other_in_2026(first_run):
    dates = list(Unit.objects.published().order_by("pk").values_list("published_at", flat=True))
    assert dates == sorted(set(dates))
    assert {day.year for day in dates} == {2026}


def test_no_unit_is_published_before_it_was_obtained(first_run):
    for unit in Unit.objects.published():
        assert unit.published_at.date() > (unit.obtained_on or date(2025, 1, 1))


def test_every_unit_is_assessed(first_run):
    assert first_run.assessed == first_run.imported
    assert Assessment.objects.values("unit").distinct().count() == first_run.imported


def test_the_passwords_it_reports_open_the_accounts(first_run):
    assert set(first_run.passwords) == set(ACCOUNTS)
    for name, password in first_run.passwords.items():
        user = User.objects.get(username=name)
        assert user.check_password(password)
        assert user.role == ACCOUNTS[name]


def test_a_second_run_changes_nothing_but_the_passwords(first_run):
    assessments = set(Assessment.objects.values_list("pk", flat=True))
    again = load_demo()
    assert (again.imported, again.assessed) == (0, 0)
    assert again.published == first_run.published
    assert set(Assessment.objects.values_list("pk", flat=True)) == assessments
    assert not set(again.passwords.values()) & set(first_run.passwords.values())


def test_a_demo_that_a_former_version_filled_comes_in_step(first_run):
    standing = Publication.objects.current().values("unit", "standing__rulebook")
    before = [*standing.order_by("unit")]
    Assessment.objects.update(rulebook="4+former")
    ListedUnit.objects.update(picture="of-a-former-version")
    load_demo()
    assert [*standing.order_by("unit")] == before
    assert not ListedUnit.objects.exclude(picture="").exists()


def test_changed_evidence_is_assessed_again(first_run):
    mass = Measurement.objects.filter(quantity="mass_total", value__isnull=False).first()
    Measurement.objects.filter(pk=mass.pk).update(value=mass.value * 1.1)
    assert load_demo().assessed == 1


def test_a_person_of_the_same_name_keeps_the_account(first_run):
    User.objects.filter(username="ada").update(email="ada@example.org", role=Role.CONTRIBUTOR)
    with pytest.raises(DemoError, match="“ada” belongs to somebody"):
        load_demo()
    ada = User.objects.get(username="ada")
    assert ada.check_password(first_run.passwords["ada"])
    assert ada.role == Role.CONTRIBUTOR


def test_a_refused_run_changes_no_other_account(first_run):
    User.objects.filter(username="ada").update(email="ada@example.org")
    with pytest.raises(DemoError):
        load_demo()
    assert User.objects.get(username="alma").check_password(first_run.passwords["alma"])


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_fixture_is_written_as_an_export_would_write_it(path):
    text = path.read_text("utf-8")
    assert write_document(read_document(text)) == text


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_words_of_a_claim_stand_where_it_says(path):
    document = read_document(path.read_text("utf-8"))
    texts = {row["key"]: row["text"] for row in document["printed_texts"]}
    for claim in document["claims"]:
        if "start" in claim:
            text = texts[claim["printed_text"]]
            assert text[claim["start"]:claim["end"]] == claim["text"]
