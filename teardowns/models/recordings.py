"""Instrument logs: originals kept byte for byte, how they are read, and what was read out."""
import uuid

from django.conf import settings
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from .choices import at_least, one_of
from .units import Unit


class RecordingKind(models.TextChoices):
    LOAD_SWEEP = "load_sweep", "load sweep"
    ENDURANCE = "endurance", "endurance run"
    WAVEFORM = "waveform", "scope capture"
    THERMAL = "thermal", "temperatures"
    PROTOCOL = "protocol", "protocol capture"


class RecordingQuerySet(models.QuerySet):
    def kept(self):
        """Those whose file is here and that were not taken down, as they came in.

        A recording that came in with a document alone is a digest: its file lies elsewhere.
        """
        return self.filter(received=True, taken_down_at=None).order_by("pk")

    def shown(self):
        """Those that have a public page: their channels were read."""
        return self.kept().exclude(channels="")


class Recording(models.Model):
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="recordings")
    key = models.CharField(max_length=64)                 # stable name inside the unit
    kind = models.CharField(max_length=12, choices=RecordingKind)
    port = models.ForeignKey("teardowns.Port", null=True, blank=True, on_delete=models.SET_NULL,
                             related_name="+")            # None: not at one port
    sha256 = models.CharField(max_length=64)              # of the original, which is private
    original_name = models.CharField(max_length=255, blank=True)
    byte_size = models.PositiveBigIntegerField(default=0)
    received = models.BooleanField(default=False)         # whether its file is here
    instrument = models.CharField(max_length=120, blank=True)
    caption = models.CharField(max_length=300, blank=True)
    generated = models.BooleanField(default=False)        # no instrument wrote it: of the demo
    published_at = models.DateTimeField(null=True, blank=True)    # with the first such version
    set_aside = models.BooleanField(default=False)     # its correction came to nothing
    taken_down_at = models.DateTimeField(null=True, blank=True)
    take_down_reason = models.CharField(max_length=300, blank=True)
    version = models.PositiveIntegerField(default=1)

    # What the contributor confirmed: see logs/layout.py, logs/conditions.py.
    layout = models.JSONField(default=dict, blank=True)           # empty: not confirmed yet
    conditions = models.JSONField(default=dict, blank=True)
    spans = models.JSONField(default=dict, blank=True)            # code → [start, end], s: moved
    columns = models.JSONField(default=dict, blank=True)          # meaning → heading in the file

    # How far the file was read with that layout. `reading` names it, and its work folder.
    reading = models.UUIDField(default=uuid.uuid4)
    progress = models.JSONField(default=dict, blank=True)         # see logs/reading.py
    refusal = models.TextField(blank=True)                        # why it was not read
    refusal_line = models.PositiveBigIntegerField(null=True, blank=True)      # 1 is the first
    refusal_column = models.PositiveIntegerField(null=True, blank=True)       # 1 is the first
    channels = models.CharField(max_length=80, blank=True)        # folder of their files, or ""
    rows = models.PositiveBigIntegerField(null=True, blank=True)
    read_at = models.DateTimeField(null=True, blank=True)

    # What was read out of the channels, and what that depends on.
    results = models.JSONField(default=list, blank=True)          # see logs/extracted.py
    results_from = models.CharField(max_length=64, blank=True)    # digest of reader and inputs
    extracted = models.JSONField(default=dict, blank=True)        # code → value, SI

    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    # What can be worked out again from the file has no history.
    history = HistoricalRecords(excluded_fields=[
        "reading", "progress", "refusal", "refusal_line", "refusal_column", "channels", "rows",
        "read_at", "results", "results_from"])

    objects = RecordingQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["unit", "key"], name="recording_key_once"),
            models.UniqueConstraint(fields=["unit", "sha256"], name="recording_once_a_unit"),
            one_of("kind", RecordingKind, "recording_kind_known"),
        ]

    def __str__(self):
        return self.caption or self.key

    def get_absolute_url(self):
        return reverse("unit_recording", args=[self.unit_id, self.key])

    @property
    def is_laid_out(self):
        return bool(self.layout)

    @property
    def is_read(self):
        return bool(self.channels)

    @property
    def is_shown(self):
        """Whether it has a public page."""
        return self.received and self.is_read and self.taken_down_at is None


class RecordingReading(models.Model):
    """A number read out of a log and taken as evidence, as it was when it was taken."""

    recording = models.ForeignKey(Recording, on_delete=models.CASCADE, related_name="readings")
    code = models.CharField(max_length=40)                 # of engine/quantities.py
    name = models.CharField(max_length=48)                 # "code#2", where the log shows several
    start = models.FloatField()                            # s: the span that it was read from
    end = models.FloatField()                              # s
    value = models.FloatField()                            # SI
    uncertainty = models.FloatField()                      # SI, k = 1
    budget = models.JSONField(default=list, blank=True)    # [[source of error, SI], …]
    working = models.JSONField(default=list, blank=True)   # a sentence each, in order
    shows = models.CharField(max_length=80)                # "measurement/held-at-5-v"
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            at_least("value", -1e30, "recording_reading_value_finite"),
            at_least("uncertainty", 0, "recording_reading_uncertainty_finite"),
        ]


class RecordingUpload(models.Model):
    """A log that arrives in blocks; it goes on where the connection broke."""

    uid = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="recording_uploads")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE)
    name = models.CharField(max_length=255)
    kind = models.CharField(max_length=12, choices=RecordingKind)
    port = models.CharField(max_length=64, blank=True)     # key of a port of the unit
    instrument = models.CharField(max_length=120, blank=True)
    byte_size = models.PositiveBigIntegerField()
    sha256 = models.CharField(max_length=64, blank=True, db_default="")     # as its sender said
    received = models.PositiveBigIntegerField(default=0)
    recording = models.ForeignKey(Recording, null=True, blank=True, on_delete=models.CASCADE)
    refusal = models.TextField(blank=True)
    created_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)


class InstrumentLayout(models.Model):
    """How a contributor reads the files that one instrument writes under one heading."""

    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE)
    instrument = models.CharField(max_length=120)
    signature = models.CharField(max_length=64)            # digest of separator and headings
    layout = models.JSONField()
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = [models.UniqueConstraint(
            fields=["author", "instrument", "signature"], name="instrument_layout_once")]
