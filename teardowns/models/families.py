"""Board families: units that share one board, each admitted by name and with its reason."""
from typing import Any, ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.urls import reverse
from simple_history.models import HistoricalRecords

from .choices import at_least
from .proposals import Proposal, ProposalQuerySet, ProposalState
from .units import Unit


class BoardFamily(models.Model):
    """Units that share one board. What they show together stands beside verdicts, never in them."""

    name = models.CharField(max_length=120, unique=True)
    slug = models.SlugField(max_length=120, unique=True)       # stays when the name changes
    description = models.TextField(blank=True)
    evidence_for = models.TextField(blank=True)        # that it is one board; names rows of units
    evidence_against = models.TextField(blank=True)
    curator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    class Meta:
        ordering = ["name"]
        verbose_name_plural = "board families"

    def __str__(self):
        return self.name

    def get_absolute_url(self):
        return reverse("family_detail", args=[self.slug])

    def published_units(self):
        """Published units that belong to it, the newest first."""
        return Unit.objects.published().filter(
            pk__in=self.memberships.current().values("unit")).order_by("-published_at", "-pk")


class MembershipQuerySet(ProposalQuerySet):
    def current(self):
        return self.filter(state=ProposalState.ACCEPTED)

    def live(self):
        """Those that count, and those that wait for a moderator."""
        return self.filter(state__in=(ProposalState.PROPOSED, ProposalState.ACCEPTED))


class BoardFamilyMember(Proposal):
    """That a unit belongs to a family: proposed, accepted or declined, and perhaps removed."""

    family = models.ForeignKey(BoardFamily, on_delete=models.CASCADE, related_name="memberships")
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="family_memberships")
    similarity = models.FloatField(null=True, blank=True)
    removed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    removed_at = models.DateTimeField(null=True, blank=True)
    removal_reason = models.TextField(blank=True)
    history = HistoricalRecords()

    objects: ClassVar[Any] = MembershipQuerySet.as_manager()

    class Meta(Proposal.Meta):
        constraints = [
            *Proposal.Meta.constraints,
            models.UniqueConstraint(
                fields=["family", "unit"], name="family_member_once",
                condition=Q(state__in=[ProposalState.PROPOSED, ProposalState.ACCEPTED]),
            ),
            at_least("similarity", 0, "family_similarity"),
            models.CheckConstraint(
                condition=~Q(state=ProposalState.REMOVED)
                | (Q(removed_by__isnull=False, removed_at__isnull=False)
                   & ~Q(removal_reason="")),
                name="family_removed_with_reason",
            ),
        ]

    def __str__(self):
        return f"{self.unit} in {self.family}"

    def get_absolute_url(self):
        return reverse("family_member", args=[self.pk])
