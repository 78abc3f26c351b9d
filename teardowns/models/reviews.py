"""Checking, publishing, answering, and the log of who did what."""
from django.conf import settings
from django.db import models

from .choices import ReviewState, one_of
from .units import Unit


class Review(models.Model):
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="reviews")
    reviewer = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    opened_at = models.DateTimeField(auto_now_add=True)
    closed_at = models.DateTimeField(null=True, blank=True)
    remark = models.TextField(blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["unit", "reviewer"],
                condition=models.Q(closed_at__isnull=True),
                name="review_open_once",
            )
        ]


class ReviewDecision(models.Model):
    """What one reviewer said of one piece of evidence."""

    review = models.ForeignKey(Review, on_delete=models.CASCADE, related_name="decisions")
    ref = models.CharField(max_length=100)                  # "measurement/mass"
    evidence_version = models.PositiveIntegerField()
    decision = models.CharField(max_length=12, choices=ReviewState)
    reason = models.TextField(blank=True)
    second_value = models.FloatField(null=True, blank=True)            # SI, of a re-measurement
    second_uncertainty = models.FloatField(null=True, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["review", "ref", "evidence_version"], name="decision_once"
            ),
            one_of("decision", ReviewState, "decision_known"),
            models.CheckConstraint(
                condition=~models.Q(decision="disputed") | ~models.Q(reason=""),
                name="dispute_has_reason",
            ),
        ]


class Publication(models.Model):
    """A public version of a unit: its evidence as it stood, and the assessment beside it."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="publications")
    number = models.PositiveIntegerField()
    document = models.JSONField()                           # the exchange form
    assessment = models.ForeignKey("teardowns.Assessment", on_delete=models.PROTECT)
    moderator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    published_at = models.DateTimeField(auto_now_add=True)
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawal_reason = models.TextField(blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["unit", "number"], name="publication_number_once"),
            models.CheckConstraint(
                condition=models.Q(withdrawn_at__isnull=True) | ~models.Q(withdrawal_reason=""),
                name="withdrawal_has_reason",
            ),
        ]


class Reply(models.Model):
    """A maker's or seller's answer, dated, beside what it answers."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="replies")
    about = models.CharField(max_length=100, blank=True)
    author_name = models.CharField(max_length=200)
    text = models.TextField()
    received_on = models.DateField()
    entered_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)


class AuditEntry(models.Model):
    """Who did what to which unit. Written, never changed."""

    actor = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    action = models.CharField(max_length=40)
    unit = models.ForeignKey(Unit, null=True, on_delete=models.PROTECT, related_name="+")
    detail = models.JSONField(default=dict)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-pk"]
        verbose_name_plural = "audit entries"
        indexes = [models.Index(fields=["unit", "-id"])]
