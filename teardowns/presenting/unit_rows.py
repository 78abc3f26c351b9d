"""One unit as one row of a list: one query for all, every number formatted here, once."""
from dataclasses import dataclass

from django.db.models import F, OuterRef, Q, Subquery
from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.strip import strip
from teardowns.models import Assessment, Kind, Publication
from teardowns.reading.quantity import print_interval

from .numbers import claimed_watts
from .verdict_words import CHIPS

ASSESSED = ("verdict", "claimed_power", "capability", "capability_low", "capability_high")
UNASSESSED = mark_safe('<span class="quiet">not assessed yet</span>')
UNCLAIMED = mark_safe('<span class="quiet">no claim to judge</span>')
COLUMNS = ("unit", "title", "maker", "model", "kind", "published_at", *ASSESSED)


@dataclass(frozen=True, slots=True)
class UnitRow:
    address: str
    title: str
    origin: str              # maker, model and kind, as far as known
    published: str           # ISO date, or ""
    claimed: str             # "claimed 45 W"
    capability: str          # "13.1 to 16.7 W", the 90 % interval
    verdict: SafeString      # chip
    strip: SafeString        # SVG


def published_rows():
    """The versions that stand, with the list columns of their assessment."""
    return Publication.objects.current().annotate(
        **{column: F(f"standing__{column}") for column in ASSESSED})


def with_newest_assessment(units):
    """The units with the list columns of their newest assessment; unassessed ones stay, empty."""
    newest = Assessment.objects.filter(unit=OuterRef("pk"), confirmed_only=False).values("pk")[:1]
    joined = units.filter(Q(assessments__isnull=True) | Q(assessments__pk=Subquery(newest)))
    return joined.annotate(**{column: F(f"assessments__{column}") for column in ASSESSED})


def unit_rows(publications):
    """Rows of a queryset from `published_rows`, in its order."""
    return [_row(**columns) for columns in publications.values(*COLUMNS)]


def _row(*, unit, title, maker, model, kind, published_at, verdict, claimed_power, capability,
         capability_low, capability_high):
    ends = (capability_low, capability_high)
    return UnitRow(
        address=reverse("unit_detail", args=[unit]),
        title=title,
        origin=" · ".join(filter(None, (maker, model, Kind(kind).label))),
        published=published_at.date().isoformat() if published_at else "",
        claimed=_claimed(claimed_power),
        capability="unknown" if None in ends else print_interval(*ends, "W"),
        verdict=CHIPS.get(verdict, UNASSESSED if verdict is None else UNCLAIMED),
        strip=mark_safe(strip(claimed_power, capability_low, capability, capability_high)),
    )


def _claimed(power):
    return "no power claim" if power is None else f"claimed {claimed_watts(power)}"
