"""The unit: one specimen that somebody opened."""
import uuid
from dataclasses import dataclass
from typing import Any

from django.apps import apps
from django.conf import settings
from django.db import models
from django.db.models import Subquery
from django.db.models.functions import Coalesce
from django.urls import reverse
from simple_history.models import HistoricalRecords

from .choices import at_least, one_of


class Kind(models.TextChoices):
    PLUG_IN = "plug_in", "plug-in charger"
    DESKTOP = "desktop", "desktop adapter"
    OUTLET = "outlet", "mains outlet with ports"
    OTHER = "other", "other"


class Status(models.TextChoices):
    DRAFT = "draft", "draft"
    SUBMITTED = "submitted", "submitted"
    IN_REVIEW = "in_review", "in review"
    SENT_BACK = "sent_back", "sent back"
    PUBLISHED = "published", "published"
    WITHDRAWN = "withdrawn", "withdrawn"
    DECLINED = "declined", "declined"
    DISCARDED = "discarded", "discarded"


class Channel(models.TextChoices):
    UNKNOWN = "unknown", "not known"
    MARKETPLACE = "marketplace", "online marketplace"
    WEB_SHOP = "web_shop", "web shop"
    SHOP = "shop", "shop counter"
    STREET = "street", "street or market stall"
    BUNDLED = "bundled", "came with a device"
    SECOND_HAND = "second_hand", "second hand"


@dataclass(frozen=True, slots=True)
class Work:
    """What is being worked on: the open correction of a unit, else the unit itself."""

    status: str
    author_id: int
    correction: Any | None = None

    @property
    def is_open(self) -> bool:
        """Whether its bench sheet can be written on."""
        return self.status in (Status.DRAFT, Status.SENT_BACK)


class UnitQuerySet(models.QuerySet):
    def published(self):
        """What everybody sees."""
        return self.filter(status=Status.PUBLISHED, quarantined_at=None,
                           publication__isnull=False)

    def with_work(self):
        """Annotated with stage and author of what is being worked on: `work_status`,
        `work_author` and `work_correction` (None for the unit's first version)."""
        open_one = apps.get_model("teardowns", "Correction").objects.filter(
            unit=models.OuterRef("pk"), closed_at=None)
        return self.annotate(
            work_correction=Subquery(open_one.values("pk")[:1]),
            work_status=Coalesce(Subquery(open_one.values("status")[:1]), "status"),
            work_author=Coalesce(Subquery(open_one.values("author")[:1]), "contributor",
                                 output_field=models.BigIntegerField()))

    def with_stored(self, *columns):
        """Annotated with columns of the stored assessment, as `stored_…`; None without one."""
        assessments = apps.get_model("teardowns", "Assessment").objects
        newest = Subquery(
            assessments.filter(unit=models.OuterRef("pk"), confirmed_only=False).values("pk")[:1]
        )
        stored = models.FilteredRelation("assessments", condition=models.Q(assessments__pk=newest))
        return self.annotate(stored=stored).annotate(
            **{f"stored_{column}": models.F(f"stored__{column}") for column in columns})

    def with_logs(self):
        """Annotated with how many logs of instruments it shows, as `logs`."""
        shown = apps.get_model("teardowns", "Recording").objects.shown().order_by().filter(
            unit=models.OuterRef("pk")).values("unit").annotate(n=models.Count("pk")).values("n")
        return self.annotate(logs=Coalesce(Subquery(shown), 0))

    def with_licence(self):
        """Annotated with the terms of what was handed in last, as `licence_…`; None without."""
        licences = apps.get_model("teardowns", "ContributionLicence").objects
        last = licences.filter(unit=models.OuterRef("pk")).order_by("-pk").values("pk")[:1]
        licence = models.FilteredRelation(
            "licences", condition=models.Q(licences__pk=Subquery(last)))
        columns = {"measurements": "measurements", "works": "works", "note": "third_party_note"}
        return self.annotate(licence=licence).annotate(
            **{f"licence_{name}": models.F(f"licence__{column}")
               for name, column in columns.items()})

    def with_active_set(self):
        """Annotated with the sets in force, of habits and of scenarios: a page that recomputes
        asks once for all."""
        active = apps.get_model("teardowns", "ReferenceSet").objects.filter(is_active=True)
        risk = apps.get_model("teardowns", "ScenarioSet").objects.filter(is_active=True)
        return self.annotate(
            **{f"active_{name}": Subquery(active.values(name)[:1])
               for name in ("number", "digest", "habits")},
            **{f"risk_{name}": Subquery(risk.values(name)[:1])
               for name in ("number", "digest", "scenarios")})


class Unit(models.Model):
    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    contributor = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="units"
    )
    status = models.CharField(max_length=12, choices=Status, default=Status.DRAFT)
    kind = models.CharField(max_length=12, choices=Kind, default=Kind.PLUG_IN)
    maker = models.CharField(max_length=120, blank=True)        # as marked or listed; not verified
    model = models.CharField(max_length=120, blank=True)
    title = models.CharField(max_length=200)
    obtained_on = models.DateField(null=True, blank=True)
    channel = models.CharField(max_length=12, choices=Channel, default=Channel.UNKNOWN)
    price = models.DecimalField(max_digits=9, decimal_places=2, null=True, blank=True)
    currency = models.CharField(max_length=3, blank=True)
    listing_reach = models.PositiveIntegerField(null=True, blank=True)  # sales that it shows
    plug = models.CharField(max_length=24, blank=True)
    photographed_sides = models.PositiveSmallIntegerField(default=0)   # of the board: 0, 1 or 2
    notes = models.TextField(blank=True)
    created_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    published_at = models.DateTimeField(null=True, blank=True)      # first of all
    submitted_at = models.DateTimeField(null=True, blank=True)      # last
    quarantined_at = models.DateTimeField(null=True, blank=True)    # hidden until looked into
    publication = models.OneToOneField(      # the version that stands
        "teardowns.Publication", null=True, blank=True, on_delete=models.PROTECT,
        related_name="current_for", editable=False)
    successor = models.ForeignKey(            # the other record of the same specimen
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="merged",
        editable=False)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()
    version_shown = ""       # which version a page shows, where it is not the one that stands

    objects = UnitQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
        indexes = [models.Index(fields=["status", "-published_at"])]
        constraints = [
            one_of("status", Status, "unit_status_known"),
            one_of("kind", Kind, "unit_kind_known"),
            one_of("channel", Channel, "unit_channel_known"),
            at_least("price", 0, "unit_price_not_negative"),
            models.CheckConstraint(
                condition=models.Q(photographed_sides__lte=2), name="unit_board_has_two_sides"
            ),
        ]

    def __str__(self):
        return self.title

    def get_absolute_url(self):
        return reverse("unit_detail", args=[self.pk])

    @property
    def is_public(self):
        return (self.status == Status.PUBLISHED and self.quarantined_at is None
                and self.publication_id is not None)

    @property
    def work(self) -> Work:
        """Asks the database each time: who decides by it holds the unit's lock.

        Only what was published once can have a correction.
        """
        may_have_one = self.publication_id is not None
        correction = self.corrections.filter(closed_at=None).first() if may_have_one else None
        if correction is None:
            return Work(self.status, self.contributor_id)
        return Work(correction.status, correction.author_id, correction)
