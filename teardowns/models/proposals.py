"""What every proposal to the library knows: who, why, and what a moderator said of it."""
from django.conf import settings
from django.db import models
from django.db.models import F, Q

from .choices import one_of


class ProposalState(models.TextChoices):
    PROPOSED = "proposed", "waits for a moderator"
    ACCEPTED = "accepted", "accepted"
    DECLINED = "declined", "declined"
    TAKEN_BACK = "taken_back", "taken back"
    REMOVED = "removed", "removed"             # accepted once, and no longer so


class ProposalQuerySet(models.QuerySet):
    def open(self):
        return self.filter(state=ProposalState.PROPOSED)

    def visible_to(self, user):
        """A person's own; for a moderator all: nothing is public before a person looked."""
        if not user.is_authenticated:
            return self.none()
        return self if user.has_role("moderator") else self.filter(proposer=user)


class Proposal(models.Model):
    state = models.CharField(
        max_length=10, choices=ProposalState, default=ProposalState.PROPOSED
    )
    why = models.TextField()
    proposer = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    proposed_at = models.DateTimeField(auto_now_add=True)
    decided_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    decided_at = models.DateTimeField(null=True, blank=True)
    reason = models.TextField(blank=True)                # of the decision
    version = models.PositiveIntegerField(default=1)

    objects = ProposalQuerySet.as_manager()

    class Meta:
        abstract = True
        ordering = ["pk"]
        indexes = [models.Index(fields=["state", "proposed_at"])]
        constraints = [
            one_of("state", ProposalState, "%(class)s_state_known"),
            models.CheckConstraint(condition=~Q(why=""), name="%(class)s_has_why"),
            models.CheckConstraint(     # nobody decides on their own proposal
                condition=Q(decided_by__isnull=True) | ~Q(decided_by=F("proposer")),
                name="%(class)s_not_decided_by_its_proposer",
            ),
            models.CheckConstraint(
                condition=Q(state__in=[ProposalState.PROPOSED, ProposalState.TAKEN_BACK])
                | (Q(decided_by__isnull=False, decided_at__isnull=False) & ~Q(reason="")),
                name="%(class)s_decided_with_reason",
            ),
        ]

    @property
    def is_open(self):
        return self.state == ProposalState.PROPOSED
