"""What a contributor typed that could not be saved yet."""
from django.conf import settings
from django.db import models

from .units import Unit


class UnsavedSection(models.Model):
    """One section of the bench sheet as typed, kept until it can be saved."""

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="unsaved_sections")
    section = models.CharField(max_length=30)
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE)
    fields = models.JSONField(default=dict)              # as the form sent them
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["unit", "section", "author"], name="unsaved_section_once"
            )
        ]
