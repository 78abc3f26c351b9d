"""The demo: invented accounts and units, imported once, assessed again when something moved."""
from __future__ import annotations

import json
import secrets
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction
from django.db.models import QuerySet

from core.accounts.models import TRUSTED, Role, User
from core.accounts.services.prepare_account import DEMO_DOMAIN, confirm_address, give_new_app
from teardowns.models import (
    EVIDENCE,
    Assessment,
    Publication,
    Review,
    ReviewDecision,
    ReviewEnding,
    ReviewState,
    Status,
    Unit,
)

from .assess_units import assess_units
from .import_unit import import_unit
from .list_units import list_units
from .move_work import move
from .publish_unit import keep_version
from .reassess_publications import reassess_publications

FIXTURES = Path(settings.BASE_DIR) / "fixtures" / "units"
ACCOUNTS = {
    "alma": Role.CONTRIBUTOR, "rikke": Role.REVIEWER, "tove": Role.REVIEWER,
    "moss": Role.MODERATOR, "ada": Role.ADMINISTRATOR,
}
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
    assessments = Assessment.objects.filter(confirmed_only=False)
    known = assessments.count()
    imported = _import_missing(documents, units, accounts)
    assess_units(units)
    # Of a demo that a former version filled: under the rules of today, and in today's list.
    reassess_publications(units.values_list("publication", flat=True))
    list_units(units.values_list("pk", flat=True))
    assessed = assessments.count() - known
    _confirm_one(units, accounts)
    drafts = units.filter(status=Status.DRAFT).count()
    return DemoReport(passwords, units.published().count(), drafts, imported, assessed)


def _confirm_one(units: QuerySet[Unit], accounts: dict[str, User]) -> None:
    """A second reviewer confirms what the gravest finding of one unit rests on."""
    gravest = Publication.objects.current().filter(
        unit__in=units, standing__risk__gt=0).order_by("-standing__risk", "unit_id").first()
    if gravest is None:
        return
    refs = gravest.standing.payload["safety"]["findings"][0]["evidence"]
    versions = {row.ref: row.version for row in _evidence(gravest.unit)}
    review, is_new = Review.objects.get_or_create(
        unit=gravest.unit, reviewer=accounts["tove"], defaults=_closed(gravest.published_at))
    if is_new:
        ReviewDecision.objects.bulk_create(
            ReviewDecision(review=review, ref=ref, evidence_version=versions[ref],
                           decision=ReviewState.CONFIRMED) for ref in refs)


def _closed(at: datetime) -> dict[str, Any]:
    return {"remark": "Looked at for the demo.", "no_conflict": True, "closed_at": at,
            "ending": ReviewEnding.DONE}


def _evidence(unit: Unit) -> Iterator[Any]:
    for model in EVIDENCE:
        yield from model.objects.filter(unit=unit)


def _accounts() -> tuple[dict[str, User], dict[str, str]]:
    accounts, passwords = {}, {}
    with transaction.atomic():
        for name, role in ACCOUNTS.items():
            accounts[name] = user = _account(name)
            passwords[name] = secrets.token_urlsafe(9)
            user.role, user.is_active = role, True
            user.set_password(passwords[name])
            confirm_address(user)
            user.save()
            if role in TRUSTED:
                give_new_app(user)
    return accounts, passwords


def _account(name: str) -> User:
    """The demo's own account. A person of that name keeps theirs, password and all."""
    mail = f"{name}@{DEMO_DOMAIN}"
    user, _ = User.objects.get_or_create(username=name, defaults={"email": mail})
    if user.email != mail:
        raise DemoError(
            f"The account “{name}” belongs to somebody. The demo needs a database of its own: "
            "set DATABASE_URL or UNDERPLATE_DATA_DIR and run it again."
        )
    return user


def _import_missing(documents: Sequence[Mapping[str, Any]], units: QuerySet[Unit],
                    accounts: dict[str, User]) -> int:
    """Units as far as their documents say they came: on the bench, or reviewed and published."""
    known = {str(uid) for uid in units.values_list("uid", flat=True)}
    missing = [document for document in documents if document["unit"]["uid"] not in known]
    for document in missing:
        stage = Status.IN_REVIEW if _is_public(document) else Status.DRAFT
        import_unit(document, accounts["alma"], stage)
    # All at once: publishing would assess them one by one, which takes many times as long.
    assess_units(units.filter(publication=None))
    assess_units(units.filter(publication=None, status=Status.IN_REVIEW), confirmed_only=True)
    present = {str(unit.uid): unit for unit in units}
    for place, document in enumerate(documents):
        unit = present[document["unit"]["uid"]]
        if _is_public(document) and unit.status == Status.IN_REVIEW:
            _publish(unit, accounts, FIRST_PUBLISHED + place * BETWEEN)
    return len(missing)


def _is_public(document):
    return document["unit"].get("status") == Status.PUBLISHED


@transaction.atomic
def _publish(unit: Unit, accounts: dict[str, User], at: datetime) -> None:
    _review(unit, accounts["rikke"], at)
    move(unit, "publish", accounts["moss"])
    keep_version(unit, accounts["moss"], published_at=at)


def _review(unit: Unit, reviewer: User, at: datetime) -> None:
    """What the document says of each row, as the reviewer's word."""
    review = Review.objects.create(unit=unit, reviewer=reviewer, **_closed(at))
    ReviewDecision.objects.bulk_create(
        ReviewDecision(review=review, ref=row.ref, evidence_version=row.version,
                       decision=row.review_state, reason=row.note or "See the note of the row.")
        for row in _evidence(unit) if row.review_state != ReviewState.OPEN)


@transaction.atomic
def keep_demo_version(unit: Unit, note: str) -> None:
    """A further version of a public demo unit, once something was drawn for it."""
    unit.refresh_from_db()
    moderator = User.objects.filter(username="moss").first()
    if unit.publication_id and moderator:
        keep_version(unit, moderator, note)
