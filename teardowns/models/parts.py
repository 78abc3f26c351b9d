"""The part library: component types, their cited limits, and what people propose to change."""
from django.conf import settings
from django.db import models
from django.db.models import Q
from django.urls import reverse
from simple_history.models import HistoricalRecords

from .choices import at_least, one_of
from .proposals import Proposal


class PartQuerySet(models.QuerySet):
    def listed(self):
        """Public entries: a moderator accepted them, by themselves or with a published unit.

        What a bench sheet brought in stays with its contributor until then.
        """
        return self.filter(accepted_at__isnull=False)

    def visible_to(self, user):
        """Those that are listed, what a person brought in, and for a moderator all."""
        if not user.is_authenticated:
            return self.listed()
        if user.has_role("moderator"):
            return self
        return self.filter(Q(accepted_at__isnull=False) | Q(curator=user))


class Part(models.Model):
    marking = models.CharField(max_length=80, unique=True)
    function = models.CharField(max_length=120, blank=True)
    package = models.CharField(max_length=40, blank=True)
    note = models.TextField(blank=True)
    superseded_by = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.SET_NULL, related_name="supersedes"
    )
    curator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    accepted_at = models.DateTimeField(null=True, blank=True)     # when a moderator looked at it
    changed_at = models.DateTimeField(auto_now=True)
    version = models.PositiveIntegerField(default=1)     # raised by a change of a limit as well
    history = HistoricalRecords()

    objects = PartQuerySet.as_manager()

    def __str__(self):
        return self.marking

    def get_absolute_url(self):
        return reverse("part_detail", args=[self.pk])


class PartLimit(models.Model):
    """One limit of a part, with the document that states it."""

    part = models.ForeignKey(Part, on_delete=models.CASCADE, related_name="limits")
    quantity = models.CharField(max_length=40)
    value = models.FloatField()                          # SI
    citation = models.CharField(max_length=300)          # document, revision, table, page
    history = HistoricalRecords()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["part", "quantity", "citation"], name="partlimit_cited_once"
            ),
            at_least("value", -1e30, "partlimit_value_finite"),
            models.CheckConstraint(
                condition=~models.Q(citation=""), name="partlimit_has_citation"
            ),
        ]


class Change(models.TextChoices):
    """What a proposal would change in the library."""

    PART = "part", "a new part"
    DESCRIPTION = "description", "another description"
    LIMIT = "limit", "a new limit"
    LIMIT_CHANGED = "limit_changed", "another value or source of a limit"
    LIMIT_REMOVED = "limit_removed", "a limit taken out"
    SUPERSEDED = "superseded", "superseded by another part"


class PartProposal(Proposal):
    """A change of the library that somebody proposes; only the fields of its kind are filled."""

    change = models.CharField(max_length=14, choices=Change)
    part = models.ForeignKey(         # none: of a new part, until it is accepted
        Part, null=True, blank=True, on_delete=models.CASCADE, related_name="proposals"
    )
    marking = models.CharField(max_length=80, blank=True)
    function = models.CharField(max_length=120, blank=True)
    package = models.CharField(max_length=40, blank=True)
    note = models.TextField(blank=True)
    limit = models.ForeignKey(
        PartLimit, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    quantity = models.CharField(max_length=40, blank=True)
    value = models.FloatField(null=True, blank=True)               # SI
    document = models.CharField(max_length=140, blank=True)        # who published what
    revision = models.CharField(max_length=60, blank=True)
    place = models.CharField(max_length=60, blank=True)            # table or figure
    page = models.CharField(max_length=20, blank=True)
    successor = models.ForeignKey(
        Part, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    before_value = models.FloatField(null=True, blank=True)        # of the limit when proposed
    before_citation = models.CharField(max_length=300, blank=True)
    history = HistoricalRecords()

    class Meta(Proposal.Meta):
        constraints = [
            *Proposal.Meta.constraints,
            one_of("change", Change, "partproposal_change_known"),
            at_least("value", -1e30, "partproposal_value_finite"),
            models.CheckConstraint(
                condition=~Q(change__in=[Change.LIMIT, Change.LIMIT_CHANGED])
                | (Q(value__isnull=False) & ~Q(quantity="") & ~Q(document="")),
                name="partproposal_limit_is_cited",
            ),
            models.CheckConstraint(
                condition=Q(change=Change.PART) | Q(part__isnull=False),
                name="partproposal_has_part",
            ),
        ]

    def __str__(self):
        return f"{self.get_change_display()}: {self.named}"

    @property
    def named(self):
        """The marking of the part that it is about."""
        return self.part.marking if self.part else self.marking

    @property
    def citation(self):
        """`document, revision, table, page` as far as they are given."""
        page = f"page {self.page}" if self.page else ""
        return ", ".join(filter(None, (self.document, self.revision, self.place, page)))

    def get_absolute_url(self):
        return reverse("part_proposal", args=[self.pk])
