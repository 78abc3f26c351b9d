"""How likely each step from a shortfall to an injury is taken to be: versioned, one in force."""
from django.conf import settings
from django.db import models


class ScenarioSet(models.Model):
    """Step probabilities of the risk scenarios, each with who set it and why. Written, never
    changed, but for which one is in force."""

    number = models.PositiveIntegerField(unique=True)
    digest = models.CharField(max_length=64)           # of the scenarios
    scenarios = models.JSONField()                     # as engine.scenarios.read_scenarios reads
    author = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    reason = models.TextField()
    created_at = models.DateTimeField(auto_now_add=True)
    is_active = models.BooleanField(default=False)

    class Meta:
        ordering = ["-number"]
        constraints = [
            models.UniqueConstraint(
                fields=["is_active"], condition=models.Q(is_active=True),
                name="scenarioset_one_active",
            ),
            models.CheckConstraint(condition=~models.Q(reason=""), name="scenarioset_has_reason"),
        ]

    def __str__(self):
        return self.version

    @property
    def version(self) -> str:
        """As it stands in the rulebook's version: "risk2-0a1b2c3d"."""
        return f"risk{self.number}-{self.digest[:8]}"
