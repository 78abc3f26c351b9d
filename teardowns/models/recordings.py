"""Instrument logs: the original file, and how its columns were read."""
from django.conf import settings
from django.db import models
from simple_history.models import HistoricalRecords

from .choices import one_of
from .units import Unit


class RecordingKind(models.TextChoices):
    LOAD_SWEEP = "load_sweep", "load sweep"
    ENDURANCE = "endurance", "endurance run"
    WAVEFORM = "waveform", "scope capture"
    THERMAL = "thermal", "temperatures"
    PROTOCOL = "protocol", "protocol capture"


class Recording(models.Model):
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="recordings")
    key = models.CharField(max_length=64)
    kind = models.CharField(max_length=12, choices=RecordingKind)
    sha256 = models.CharField(max_length=64)
    original_name = models.CharField(max_length=255, blank=True)
    byte_size = models.PositiveBigIntegerField(default=0)
    instrument = models.CharField(max_length=120, blank=True)
    caption = models.CharField(max_length=300, blank=True)
    columns = models.JSONField(default=dict, blank=True)      # how the file was read
    extracted = models.JSONField(default=dict, blank=True)    # what was read out of it
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    history = HistoricalRecords()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["unit", "key"], name="recording_key_once"),
            one_of("kind", RecordingKind, "recording_kind_known"),
        ]

    def __str__(self):
        return self.caption or self.key
