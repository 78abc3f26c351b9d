"""What the boards of one family showed together; it stands beside each unit's own verdict.

`wanted` names what such a page has to rest on now and moves in the transaction of whatever changes
it; `digest` names what it was worked out from. Nothing is shown while the two differ.
"""
from django.db import models
from django.db.models import F

from .families import BoardFamily
from .publications import Publication


class WorkedOutQuerySet(models.QuerySet):
    def stale(self):
        return self.exclude(digest=F("wanted"))


class WorkedOut(models.Model):
    wanted = models.CharField(max_length=64)
    digest = models.CharField(max_length=64, blank=True)
    made_at = models.DateTimeField(null=True, blank=True)

    objects = WorkedOutQuerySet.as_manager()

    class Meta:
        abstract = True

    @property
    def holds(self):
        return self.digest == self.wanted


class SisterReport(WorkedOut):
    """What would be said of a version with what sister boards showed: never its own verdict."""

    publication = models.OneToOneField(Publication, on_delete=models.CASCADE,
                                       related_name="sister_report")
    families = models.JSONField(default=list)        # slugs
    # As exchange/inherited.py gives them: rows with their origin; sisters that contradict this
    # unit, and in what; hazards that were found on sister boards, as open questions.
    inherited = models.JSONField(default=list)
    set_aside = models.JSONField(default=list)
    between = models.JSONField(default=list)         # the same of sisters among each other
    open_points = models.JSONField(default=list)
    # What would be said otherwise: [[about, own, with sisters], …], of exchange/verdict_changes.
    claims = models.JSONField(default=list)
    capability = models.JSONField(default=list)


class FamilyPool(WorkedOut):
    """What was found on the boards of a family, each with its origin, and where they differ."""

    family = models.OneToOneField(BoardFamily, on_delete=models.CASCADE, related_name="pool")
    pooled = models.JSONField(default=list)
    disagreements = models.JSONField(default=list)
