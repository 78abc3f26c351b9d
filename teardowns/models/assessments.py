"""What the engine made of a unit's evidence: computed once, never changed."""
from django.db import models

from .choices import at_least
from .units import Unit


class Assessment(models.Model):
    """All published numbers of one rulebook version over one set of evidence."""

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="assessments")
    # Edition, digest of the engine, and the sets of habits and of scenarios in force.
    rulebook = models.CharField(max_length=80)
    evidence_digest = models.CharField(max_length=64)
    confirmed_only = models.BooleanField(default=False)    # of confirmed evidence, or of all
    # What lists print and sort by, copied from the payload.
    verdict = models.CharField(max_length=40, blank=True)
    claimed_power = models.FloatField(null=True, blank=True)          # W
    plausibility = models.FloatField(null=True, blank=True)
    capability = models.FloatField(null=True, blank=True)             # W, median
    capability_low = models.FloatField(null=True, blank=True)         # W, 5 %
    capability_high = models.FloatField(null=True, blank=True)        # W, 95 %
    risk = models.PositiveSmallIntegerField(default=0)     # 0 none, 1 low … 4 serious
    risk_certainty = models.FloatField(null=True, blank=True)     # that it falls short, 0 to 1
    # Points that can hurt and have no level: shortfalls without a scenario, flags for a reviewer.
    flags = models.PositiveSmallIntegerField(default=0)
    created_at = models.DateTimeField(auto_now_add=True)   # when it last became the current one
    # teardowns.engine.report as a dict; last, so that lists are sorted without reading past it.
    payload = models.JSONField()

    class Meta:
        ordering = ["-created_at", "-pk"]
        get_latest_by = ["created_at", "pk"]
        indexes = [models.Index(fields=["unit", "-created_at"])]
        constraints = [
            models.UniqueConstraint(
                fields=["unit", "rulebook", "evidence_digest", "confirmed_only"],
                name="assessment_once",
            ),
            at_least("capability", 0, "assessment_capability"),
            models.CheckConstraint(condition=models.Q(risk__lte=4), name="assessment_risk"),
            models.CheckConstraint(
                condition=models.Q(plausibility__isnull=True)
                | models.Q(plausibility__range=(0, 1)),
                name="assessment_plausibility",
            ),
        ]
