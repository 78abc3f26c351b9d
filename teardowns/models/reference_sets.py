"""What the practice lines learned from measured units: versioned, one active at a time."""
from django.conf import settings
from django.db import models


class ReferenceSet(models.Model):
    """Habits fitted to published units whose capability was measured. Written, never changed,
    but for which one is active."""

    number = models.PositiveIntegerField(unique=True)
    digest = models.CharField(max_length=64, unique=True)      # of the habits and the units used
    rulebook = models.CharField(max_length=40)                 # whose rules gave the sizes
    habits = models.JSONField()          # by rule id: the fields of engine.habits.LearnedHabit
    units = models.JSONField()           # by uid: power [W] and mains [V] of the load test
    excluded = models.JSONField()        # by uid: why the unit is not used
    author = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT,
        related_name="+",
    )
    created_at = models.DateTimeField(auto_now_add=True)
    is_active = models.BooleanField(default=False)

    class Meta:
        ordering = ["-number"]
        constraints = [
            models.UniqueConstraint(
                fields=["is_active"], condition=models.Q(is_active=True),
                name="referenceset_one_active",
            )
        ]

    def __str__(self):
        return self.version

    @property
    def version(self) -> str:
        """As it stands in the rulebook's version: "set3-0a1b2c3d"."""
        return version_of(self.number, self.digest)


def version_of(number: int, digest: str) -> str:
    return f"set{number}-{digest[:8]}"
