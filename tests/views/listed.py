"""Public units with the columns that lists read and the words that searches find."""
from datetime import UTC, datetime, timedelta

from core.accounts.models import User
from teardowns.models import Assessment, ListedUnit, Publication, Unit
from teardowns.services.index_words import index_words
from teardowns.services.listing_clock import hold_clock, raise_clock
from teardowns.services.publish_unit import LISTED

FIRST_DAY = datetime(2026, 3, 1, 12, tzinfo=UTC)
ASSESSED = ("verdict", "claimed_power", "plausibility", "capability", "capability_low",
            "capability_high", "risk", "flags")


def contributor():
    return User.objects.get_or_create(username="alice")[0]


def listed(title, *, day=0, marking="", printed="", status="published", claimed_power=None,
           capability=None, verdict="possible", risk=0, facts=None, **unit):
    """A unit of Alice's and its assessment; where it is published its version and its listing.

    facts : further columns of the listing
    """
    at = FIRST_DAY + timedelta(days=day)
    made = Unit.objects.create(contributor=contributor(), title=title, status=status,
                               published_at=at, **unit)
    assess(made, claimed_power=claimed_power, capability=capability, verdict=verdict, risk=risk)
    if status == "published":
        publish(made, at, printed, marking)
        enlist(made, **(facts or {}))
    return made


def publish(unit, at, printed="", marking=""):
    """Its version, of which lists and searches read these columns alone."""
    standing = unit.assessments.first()
    number = unit.publications.count() + 1
    components = [{"role": "other", "marking": marking}] if marking else []
    unit.publication = Publication.objects.create(
        unit=unit, number=number, published_at=at, moderator=contributor(), frozen={},
        document={"printed_texts": [{"text": printed}], "components": components},
        assessment=standing, assessment_all=standing, standing=standing, standing_all=standing,
        **{name: getattr(unit, name) for name in LISTED})
    unit.save()


def enlist(unit, is_listed=True, **facts):
    """Its row of the listing, changed now, and what a search finds of it."""
    standing = unit.publication.standing
    columns = {name: getattr(unit, name) for name in LISTED} | {
        name: getattr(standing, name) for name in ASSESSED}
    if standing.claimed_power and standing.capability:
        columns["gap"] = standing.claimed_power / standing.capability
    ListedUnit.objects.update_or_create(unit=unit, defaults={
        "publication": unit.publication, "is_listed": is_listed,
        "published_at": unit.published_at, "changed": raise_clock(hold_clock()),
        **columns, **facts})
    index_words([unit.pk])


def assess(unit, *, rulebook="1+first", capability=None, **columns):
    ends = {}
    if capability is not None:
        ends = {"capability_low": 0.8 * capability, "capability_high": 1.25 * capability}
    return Assessment.objects.create(
        unit=unit, rulebook=rulebook, evidence_digest="0" * 64, payload={},
        capability=capability, **ends, **columns,
    )
