"""The curated library: component types with cited limits, and families of boards."""
from django.conf import settings
from django.db import models
from simple_history.models import HistoricalRecords

from .choices import at_least
from .units import Unit


class Part(models.Model):
    marking = models.CharField(max_length=80, unique=True)
    function = models.CharField(max_length=120, blank=True)
    package = models.CharField(max_length=40, blank=True)
    note = models.TextField(blank=True)
    superseded_by = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.SET_NULL, related_name="supersedes"
    )
    curator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    changed_at = models.DateTimeField(auto_now=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    def __str__(self):
        return self.marking


class PartLimit(models.Model):
    """One limit of a part, with the document that states it."""

    part = models.ForeignKey(Part, on_delete=models.CASCADE, related_name="limits")
    quantity = models.CharField(max_length=40)
    value = models.FloatField()                          # SI
    citation = models.CharField(max_length=300)          # document, revision, table, page
    history = HistoricalRecords()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["part", "quantity", "citation"], name="partlimit_cited_once"
            ),
            at_least("value", -1e30, "partlimit_value_finite"),
            models.CheckConstraint(
                condition=~models.Q(citation=""), name="partlimit_has_citation"
            ),
        ]


class BoardFamily(models.Model):
    """Units that share one board."""

    name = models.CharField(max_length=120, unique=True)
    reason = models.TextField(blank=True)
    units = models.ManyToManyField(Unit, through="BoardFamilyMember", related_name="families")
    curator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    history = HistoricalRecords()

    class Meta:
        verbose_name_plural = "board families"

    def __str__(self):
        return self.name


class BoardFamilyMember(models.Model):
    family = models.ForeignKey(BoardFamily, on_delete=models.CASCADE)
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE)
    similarity = models.FloatField(null=True, blank=True)
    curator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    added_at = models.DateTimeField(auto_now_add=True)
    history = HistoricalRecords()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["family", "unit"], name="family_member_once"),
            at_least("similarity", 0, "family_similarity"),
        ]
