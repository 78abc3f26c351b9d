"""What a rulebook that came into force said otherwise about a public version."""
from django.db import models

from .assessments import Assessment
from .publications import Publication


class StandingChange(models.Model):
    """A version whose verdict words or level moved although its evidence did not. Written once."""

    publication = models.ForeignKey(Publication, on_delete=models.CASCADE,
                                    related_name="standing_changes")
    was = models.ForeignKey(Assessment, on_delete=models.PROTECT, related_name="+")
    now = models.ForeignKey(Assessment, on_delete=models.PROTECT, related_name="+")
    rulebook = models.CharField(max_length=80)             # of `now`
    # Claims whose word moved: [as printed, word then, word now]; and the gravest levels, if they
    # differ: [level then, level now].
    words = models.JSONField(default=list)
    levels = models.JSONField(default=list)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-pk"]
        indexes = [models.Index(fields=["rulebook", "-id"])]
