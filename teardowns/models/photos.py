"""Photos: originals kept byte for byte, what was derived from them, and what is marked on them."""
from django.conf import settings
from django.db import models
from simple_history.models import HistoricalRecords

from .choices import at_least
from .units import Unit


class Photo(models.Model):
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="photos")
    key = models.CharField(max_length=64)                 # stable name inside the unit
    sha256 = models.CharField(max_length=64)              # of the original, which is private
    original_name = models.CharField(max_length=255, blank=True)
    media_type = models.CharField(max_length=40, blank=True)
    byte_size = models.PositiveBigIntegerField(default=0)
    width = models.PositiveIntegerField(null=True, blank=True)    # pixels, as shown
    height = models.PositiveIntegerField(null=True, blank=True)
    caption = models.CharField(max_length=300, blank=True)
    perceptual_hash = models.BigIntegerField(null=True, blank=True)
    stripped = models.JSONField(default=list, blank=True)         # metadata that was taken out
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    history = HistoricalRecords()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["unit", "key"], name="photo_key_once"),
            models.UniqueConstraint(fields=["unit", "sha256"], name="photo_once_a_unit"),
        ]

    def __str__(self):
        return self.caption or self.key


class PhotoDerivative(models.Model):
    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="derivatives")
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    media_type = models.CharField(max_length=40)
    path = models.CharField(max_length=200, unique=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["photo", "width", "media_type"], name="derivative_size_once"
            )
        ]


class PhotoScale(models.Model):
    """What turns pixels into millimetres: two points, or four corners of a known rectangle."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="scales")
    points = models.JSONField()                       # [[x, y], …], pixels
    lengths = models.JSONField()                      # m: one length, or width and height
    length_uncertainty = models.FloatField(null=True, blank=True)      # m, k = 1
    plane = models.CharField(max_length=120, blank=True)
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    history = HistoricalRecords()

    class Meta:
        constraints = [at_least("length_uncertainty", 0, "scale_uncertainty_not_negative")]


class Annotation(models.Model):
    """A W3C Web Annotation: a region of the photo and the evidence that it shows."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="annotations")
    key = models.CharField(max_length=64)
    body = models.JSONField()
    shows = models.CharField(max_length=80, blank=True)           # "component/bulk-1"
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["photo", "key"], name="annotation_key_once")
        ]
