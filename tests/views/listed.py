"""Published units with the columns that lists read."""
from datetime import UTC, datetime, timedelta

from core.accounts.models import User
from teardowns.models import Assessment, Component, PrintedText, Publication, Unit
from teardowns.services.publish_unit import LISTED

FIRST_DAY = datetime(2026, 3, 1, 12, tzinfo=UTC)


def contributor():
    return User.objects.get_or_create(username="alice")[0]


def listed(title, *, day=0, assessed=True, marking="", printed="", status="published",
           claimed_power=None, capability=None, verdict="possible", **unit):
    """A unit of Alice's, its assessment, and a marking and a plate where asked for."""
    alice = contributor()
    at = FIRST_DAY + timedelta(days=day)
    made = Unit.objects.create(contributor=alice, title=title, status=status, published_at=at,
                               **unit)
    if assessed:
        assess(made, claimed_power=claimed_power, capability=capability, verdict=verdict)
    if status == "published":
        publish(made, at, f"{printed}\n{marking}")
    if marking:
        Component.objects.create(unit=made, author=alice, key="part", role="other",
                                 marking=marking)
    if printed:
        PrintedText.objects.create(unit=made, author=alice, key="plate", source="plate",
                                   text=printed)
    return made


def publish(unit, at, words):
    """Its version, of which lists read these columns alone."""
    standing = unit.assessments.first() or assess(unit, rulebook="0", verdict="")
    unit.publication = Publication.objects.create(
        unit=unit, number=1, document={}, frozen={}, published_at=at, moderator=contributor(),
        assessment=standing, assessment_all=standing, standing=standing, standing_all=standing,
        words=words, **{name: getattr(unit, name) for name in LISTED})
    unit.save()


def assess(unit, *, rulebook="1+first", capability=None, **columns):
    ends = {}
    if capability is not None:
        ends = {"capability_low": 0.8 * capability, "capability_high": 1.25 * capability}
    return Assessment.objects.create(
        unit=unit, rulebook=rulebook, evidence_digest="0" * 64, payload={},
        capability=capability, **ends, **columns,
    )
