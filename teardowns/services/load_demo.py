"""The demo: invented accounts and units, imported once, assessed again when something moved."""
from __future__ import annotations

import json
import secrets
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction
from django.db.models import QuerySet

from core.accounts.models import Role, User
from teardowns.models import (
    EVIDENCE,
    Assessment,
    Review,
    ReviewDecision,
    ReviewState,
    Status,
    Unit,
)

from .assess_units import assess_units
from .import_unit import import_unit

FIXTURES = Path(settings.BASE_DIR) / "fixtures" / "units"
ACCOUNTS = {
    "alma": Role.CONTRIBUTOR, "rikke": Role.REVIEWER, "moss": Role.MODERATOR,
    "ada": Role.ADMINISTRATOR,
}
MAIL_DOMAIN = "demo.invalid"       # RFC 2606: never a real address, so it marks our accounts
FIRST_PUBLISHED = datetime(2026, 1, 9, 10, tzinfo=UTC)
BETWEEN = timedelta(days=3)


class DemoError(Exception):
    """The demo cannot be loaded here; the message says what stands in the way."""


@dataclass(frozen=True, slots=True)
class DemoReport:
    passwords: dict[str, str]      # account → password, good until the next run
    published: int                 # demo units that everybody sees
    drafts: int                    # demo units still on alma's bench
    imported: int                  # units that this run brought in
    assessed: int                  # units whose numbers this run computed


def load_demo() -> DemoReport:
    """Bring the demo up to date; safe to run again, and quick then."""
    accounts, passwords = _accounts()
    documents = [json.loads(path.read_text("utf-8")) for path in sorted(FIXTURES.glob("*.json"))]
    units = Unit.objects.filter(uid__in=[document["unit"]["uid"] for document in documents])
    imported = _import_missing(documents, units, accounts["alma"])
    known = Assessment.objects.count()
    assess_units(units)
    assessed = Assessment.objects.count() - known
    _confirm_one(units, accounts)
    drafts = units.filter(status=Status.DRAFT).count()
    return DemoReport(passwords, units.published().count(), drafts, imported, assessed)


def _confirm_one(units: QuerySet[Unit], accounts: dict[str, User]) -> None:
    """Two reviewers confirm, each alone, what the gravest finding of one unit rests on."""
    gravest = Assessment.objects.filter(
        unit__in=units, unit__status=Status.PUBLISHED, confirmed_only=False, risk__gt=0
    ).order_by("-risk", "unit_id").first()
    if gravest is None:
        return
    refs = gravest.payload["safety"]["findings"][0]["evidence"]
    versions = dict(_versions(gravest.unit))
    for name in ("rikke", "moss"):
        review, is_new = Review.objects.get_or_create(
            unit=gravest.unit, reviewer=accounts[name], remark="Looked at for the demo.")
        if is_new:
            ReviewDecision.objects.bulk_create(
                ReviewDecision(review=review, ref=ref, evidence_version=versions[ref],
                               decision=ReviewState.CONFIRMED) for ref in refs)


def _versions(unit: Unit) -> Iterator[tuple[str, int]]:
    for model in EVIDENCE:
        yield from ((row.ref, row.version) for row in model.objects.filter(unit=unit))


def _accounts() -> tuple[dict[str, User], dict[str, str]]:
    accounts, passwords = {}, {}
    with transaction.atomic():
        for name, role in ACCOUNTS.items():
            accounts[name] = user = _account(name)
            passwords[name] = secrets.token_urlsafe(9)
            user.role, user.is_active = role, True
            user.set_password(passwords[name])
            user.save()
    return accounts, passwords


def _account(name: str) -> User:
    """The demo's own account. A person of that name keeps theirs, password and all."""
    mail = f"{name}@{MAIL_DOMAIN}"
    user, _ = User.objects.get_or_create(username=name, defaults={"email": mail})
    if user.email != mail:
        raise DemoError(
            f"The account “{name}” belongs to somebody. The demo needs a database of its own: "
            "set DATABASE_URL or UNDERPLATE_DATA_DIR and run it again."
        )
    return user


def _import_missing(
    documents: Iterable[Mapping[str, Any]], units: QuerySet[Unit], contributor: User
) -> int:
    present = {str(uid) for uid in units.values_list("uid", flat=True)}
    count = 0
    for place, document in enumerate(documents):
        if document["unit"]["uid"] not in present:
            _import(document, contributor, FIRST_PUBLISHED + place * BETWEEN)
            count += 1
    return count


@transaction.atomic
def _import(document: Mapping[str, Any], contributor: User, published_at: datetime) -> None:
    unit = import_unit(document, contributor, document["unit"].get("status", Status.DRAFT))
    if unit.status == Status.PUBLISHED:
        Unit.objects.filter(pk=unit.pk).update(published_at=published_at)
