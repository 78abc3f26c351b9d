"""Bulk data: everything public as one file, made anew when something changed."""
from django.db import models


class DataExport(models.Model):
    """One file of bulk data, or one that is still being written."""

    number = models.BigIntegerField()                   # of the listing clock when it was begun
    stamp = models.CharField(max_length=8, blank=True)
    rulebook = models.CharField(max_length=80)
    units = models.PositiveIntegerField(default=0)      # written so far
    parts = models.JSONField(default=list, blank=True)  # of each slice: the unit before, its count
    began_at = models.DateTimeField()
    made_at = models.DateTimeField(null=True, blank=True)
    byte_size = models.PositiveBigIntegerField(default=0)
    sha256 = models.CharField(max_length=64, blank=True)

    class Meta:
        ordering = ["-pk"]

    def __str__(self):
        return self.name

    @property
    def name(self):
        return f"underplate-{self.began_at:%Y-%m-%d}-{self.pk}"

    @property
    def path(self):
        return f"{self.name}.zip"
