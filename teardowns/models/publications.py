"""Public versions of a unit, and the corrections that lead from one to the next."""
from django.conf import settings
from django.db import models
from django.urls import reverse

from .choices import one_of
from .units import Channel, Kind, Unit


class CorrectionStatus(models.TextChoices):
    DRAFT = "draft", "being written"
    SUBMITTED = "submitted", "submitted"
    IN_REVIEW = "in_review", "in review"
    SENT_BACK = "sent_back", "sent back"
    PUBLISHED = "published", "published"
    DECLINED = "declined", "declined"
    DISCARDED = "discarded", "dropped"


class Correction(models.Model):
    """A proposed new version: its author writes on the unit's rows while the public one stands."""

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="corrections")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT,
                               related_name="corrections")
    base = models.ForeignKey("teardowns.Publication", on_delete=models.PROTECT, related_name="+")
    reason = models.TextField()
    status = models.CharField(max_length=12, choices=CorrectionStatus,
                              default=CorrectionStatus.DRAFT)
    opened_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    submitted_at = models.DateTimeField(null=True, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)
    outcome = models.TextField(blank=True)              # why it was declined, or what came of it
    # Where it ended unpublished: {"frozen": rows, see services/thaw, "document": exchange form}.
    proposal = models.JSONField(null=True, blank=True)

    class Meta:
        ordering = ["-pk"]
        constraints = [
            one_of("status", CorrectionStatus, "correction_status_known"),
            models.UniqueConstraint(fields=["unit"], condition=models.Q(closed_at__isnull=True),
                                    name="correction_open_once"),
            models.CheckConstraint(condition=~models.Q(reason=""), name="correction_has_reason"),
        ]

    @property
    def is_open(self):
        return self.closed_at is None


class PublicationQuerySet(models.QuerySet):
    def current(self):
        """The newest version of each unit that everybody sees."""
        return self.filter(current_for__status="published", current_for__quarantined_at=None)


class Publication(models.Model):
    """A public version: the evidence as it stood, and what the engine made of it.

    Nothing of it is altered afterwards except `standing`, the same evidence under the rulebook in
    force, and what a withdrawal says.
    """

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="publications")
    number = models.PositiveIntegerField()
    document = models.JSONField()                           # the exchange form
    frozen = models.JSONField()                             # rows as they stood, see services/thaw
    assessment = models.ForeignKey("teardowns.Assessment", on_delete=models.PROTECT,
                                   related_name="+")        # of confirmed evidence, as published
    assessment_all = models.ForeignKey("teardowns.Assessment", on_delete=models.PROTECT,
                                       related_name="+")    # of all that was not disputed
    standing = models.ForeignKey("teardowns.Assessment", on_delete=models.PROTECT,
                                 related_name="standing_for")
    standing_all = models.ForeignKey("teardowns.Assessment", on_delete=models.PROTECT,
                                     related_name="+")
    correction = models.OneToOneField(Correction, null=True, blank=True, on_delete=models.PROTECT,
                                      related_name="publication")
    note = models.TextField(blank=True)
    moderator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT,
                                  related_name="+")
    published_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawal_code = models.CharField(max_length=40, blank=True)
    withdrawal_reason = models.TextField(blank=True)

    # What lists print and search, as it stood.
    title = models.CharField(max_length=200)
    maker = models.CharField(max_length=120, blank=True)
    model = models.CharField(max_length=120, blank=True)
    kind = models.CharField(max_length=12, choices=Kind)
    channel = models.CharField(max_length=12, choices=Channel)
    words = models.TextField(blank=True)                    # printed texts and markings

    objects = PublicationQuerySet.as_manager()

    class Meta:
        ordering = ["-published_at", "-pk"]
        constraints = [
            models.UniqueConstraint(fields=["unit", "number"], name="publication_number_once"),
            models.CheckConstraint(
                condition=models.Q(withdrawn_at__isnull=True) | ~models.Q(withdrawal_reason=""),
                name="withdrawal_has_reason",
            ),
        ]

    def __str__(self):
        return f"version {self.number}"

    def get_absolute_url(self):
        return reverse("unit_version", args=[self.unit_id, self.number])
