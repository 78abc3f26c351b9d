"""Questions to the list of units that somebody wants to hear about again."""
from django.conf import settings
from django.db import models


class SavedSearch(models.Model):
    """Words and choices of the list, and which units they found when they were last looked at."""

    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE,
                               related_name="saved_searches")
    name = models.CharField(max_length=120)
    text = models.CharField(max_length=100, blank=True)     # as typed
    choices = models.JSONField(default=dict)    # facet code: its chosen values, both sorted
    digest = models.CharField(max_length=64)    # of words and choices
    created_at = models.DateTimeField(auto_now_add=True)
    looked = models.BigIntegerField(default=0)  # what the listing's clock said then
    found = models.BinaryField(default=bytes)   # the units, see services.packed_units

    class Meta:
        ordering = ["-pk"]
        verbose_name_plural = "saved searches"
        indexes = [models.Index(fields=["looked"])]
        constraints = [
            models.UniqueConstraint(fields=["person", "digest"], name="saved_search_once"),
            models.CheckConstraint(condition=~models.Q(name=""), name="saved_search_has_name"),
        ]

    def __str__(self):
        return self.name
