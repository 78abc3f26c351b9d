"""Checking: who looked at what, and what they said of it."""
from django.conf import settings
from django.db import models
from django.utils import timezone

from .choices import ReviewState, at_least, one_of
from .units import Unit


class ReviewEnding(models.TextChoices):
    OPEN = "", "open"
    DONE = "done", "closed, everything decided"
    RELEASED = "released", "given back"
    LAPSED = "lapsed", "lapsed, nothing happened for a week"
    CONFLICT = "conflict", "refused: a conflict of interest"
    MOVED_ON = "moved_on", "ended: the work was decided or taken back"


class Review(models.Model):
    """One reviewer's look at one work: a unit, or a correction of it.

    Who declares a conflict of interest gets a row that is closed at once, and is kept.
    """

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="reviews")
    correction = models.ForeignKey("teardowns.Correction", null=True, blank=True,
                                   on_delete=models.CASCADE, related_name="reviews")
    reviewer = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    no_conflict = models.BooleanField(default=False)        # declared when it was taken on
    conflict = models.TextField(blank=True)                 # which, where there is one
    opened_at = models.DateTimeField(auto_now_add=True)
    active_at = models.DateTimeField(default=timezone.now)  # last decision; idle ones lapse
    closed_at = models.DateTimeField(null=True, blank=True)
    ending = models.CharField(max_length=12, choices=ReviewEnding, blank=True,
                              default=ReviewEnding.OPEN)
    remark = models.TextField(blank=True)
    # What the engine makes of confirmed and of all evidence while it is open: see review_sides.py.
    sides = models.JSONField(default=dict, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["unit", "reviewer"],
                condition=models.Q(closed_at__isnull=True),
                name="review_open_once",
            ),
            one_of("ending", ReviewEnding, "review_ending_known"),
            models.CheckConstraint(
                condition=models.Q(conflict="") | models.Q(no_conflict=False,
                                                           closed_at__isnull=False),
                name="review_conflict_is_closed"),
        ]


class ReviewDecision(models.Model):
    """What one reviewer said of one piece of evidence. A later word leaves the earlier one."""

    review = models.ForeignKey(Review, on_delete=models.CASCADE, related_name="decisions")
    ref = models.CharField(max_length=100)                  # "measurement/mass"
    evidence_version = models.PositiveIntegerField()
    decision = models.CharField(max_length=12, choices=ReviewState)
    reason = models.TextField(blank=True)                   # of a second reading: how it was taken
    second_value = models.FloatField(null=True, blank=True)            # SI, of a re-measurement
    second_uncertainty = models.FloatField(null=True, blank=True)      # SI, k = 1
    agrees = models.BooleanField(null=True, blank=True)     # with the first; None: cannot be told
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["review", "ref"])]
        constraints = [
            one_of("decision", ReviewState, "decision_known"),
            models.CheckConstraint(
                condition=~models.Q(decision="disputed") | ~models.Q(reason=""),
                name="dispute_has_reason",
            ),
            at_least("second_value", -1e30, "decision_second_value_finite"),
            at_least("second_uncertainty", 0, "decision_second_uncertainty_finite"),
        ]
