"""Photos: originals kept byte for byte, what was derived from them, and what is marked on them."""
import uuid

from django.conf import settings
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from .choices import at_least, one_of
from .moderation import HiddenKind, hidden_now
from .units import Unit


class Stage(models.TextChoices):
    """When in the examination a picture was taken, in the order of the gallery."""

    AS_RECEIVED = "as_received", "As received"
    PLATE = "plate", "Rating plate"
    PORTS = "ports", "Ports"
    OPENED = "opened", "Opened"
    COMPONENT_SIDE = "component_side", "Component side"
    SOLDER_SIDE = "solder_side", "Solder side"
    TRANSFORMER = "transformer", "Transformer"
    THERMAL = "thermal", "Thermal"
    WAVEFORMS = "waveforms", "Waveforms"
    OTHER = "other", "Other"


def by_stage(field):
    """An order: the stages as they follow each other."""
    return models.Case(*(models.When(**{field: stage}, then=place)
                         for place, stage in enumerate(Stage.values)))


class PhotoQuerySet(models.QuerySet):
    def shown(self):
        """What has pictures here and has not been taken down, stage by stage.

        A photo that came in with a document alone is a digest: its file lies elsewhere.
        """
        pictures = PhotoDerivative.objects.filter(photo=models.OuterRef("pk"))
        return self.filter(models.Exists(pictures), taken_down_at=None).order_by(
            by_stage("stage"), "pk")

    def with_hidden(self):
        """Annotated with whether it is out of sight for now, as `is_hidden`."""
        return self.annotate(is_hidden=hidden_now(HiddenKind.PHOTO))


class Photo(models.Model):
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="photos")
    key = models.CharField(max_length=64)                 # stable name inside the unit
    sha256 = models.CharField(max_length=64)              # of the original, which is private
    original_name = models.CharField(max_length=255, blank=True)
    media_type = models.CharField(max_length=40, blank=True)
    byte_size = models.PositiveBigIntegerField(default=0)
    width = models.PositiveIntegerField(null=True, blank=True)    # pixels, as shown
    height = models.PositiveIntegerField(null=True, blank=True)
    stage = models.CharField(max_length=16, choices=Stage, default=Stage.OTHER)
    caption = models.CharField(max_length=300, blank=True)
    alt = models.CharField(max_length=300, blank=True)    # what is seen, for who cannot see it
    drawn = models.BooleanField(default=False)            # a drawing, said so wherever it is shown
    published_at = models.DateTimeField(null=True, blank=True)     # with the first such version
    set_aside = models.BooleanField(default=False)     # its correction came to nothing
    taken_down_at = models.DateTimeField(null=True, blank=True)
    take_down_reason = models.CharField(max_length=300, blank=True)
    version = models.PositiveIntegerField(default=1)
    perceptual_hash = models.BigIntegerField(null=True, blank=True)
    stripped = models.JSONField(default=list, blank=True)         # metadata that was taken out
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    history = HistoricalRecords()

    objects = PhotoQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["unit", "key"], name="photo_key_once"),
            models.UniqueConstraint(fields=["unit", "sha256"], name="photo_once_a_unit"),
            one_of("stage", Stage, "photo_stage_known"),
        ]

    def __str__(self):
        return f"photo {self.key}"

    def get_absolute_url(self):
        return reverse("unit_photo", args=[self.unit_id, self.key])

    @property
    def is_shown(self):
        """Whether it has a page: its file is here (it was hashed then) and not taken down."""
        return self.perceptual_hash is not None and self.taken_down_at is None


class PhotoDerivativeQuerySet(models.QuerySet):
    def shown_of(self, unit, in_sight=False):
        """Those of every photo that is shown, with the photo, stage by stage: one query for all.

        in_sight : without the photos that are hidden for now
        """
        shown = self.filter(photo__unit=unit, photo__taken_down_at=None).select_related("photo")
        if in_sight:
            shown = shown.exclude(hidden_now(HiddenKind.PHOTO, "photo_id"))
        return shown.order_by(by_stage("photo__stage"), "photo_id", "width")


class PhotoDerivative(models.Model):
    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="derivatives")
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    media_type = models.CharField(max_length=40)
    path = models.CharField(max_length=200, unique=True)

    objects = PhotoDerivativeQuerySet.as_manager()

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
    known = models.CharField(max_length=40, blank=True)     # code of the known length, if it is one
    length_uncertainty = models.FloatField(null=True, blank=True)      # m, k = 1
    plane = models.CharField(max_length=120, blank=True)
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)
    history = HistoricalRecords()

    class Meta:
        constraints = [at_least("length_uncertainty", 0, "scale_uncertainty_not_negative")]


class PhotoClicks(models.Model):
    """One point, clicked again and again: how far one click of this person may be off."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="clicks")
    points = models.JSONField()                       # [[x, y], …], pixels
    uncertainty = models.FloatField()                 # pixels, k = 1, along each axis
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        constraints = [at_least("uncertainty", 0, "clicks_uncertainty_finite")]


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


class PhotoReading(models.Model):
    """A length read off a photo: by the contributor, or by somebody who did not see that one."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="readings")
    scale = models.ForeignKey(PhotoScale, on_delete=models.PROTECT, related_name="readings")
    shows = models.CharField(max_length=80)                # "insulationobservation/slot"
    shape = models.CharField(max_length=8)                 # "line" or "path"
    points = models.JSONField()                            # [[x, y], …], pixels
    narrowest_groove = models.FloatField(null=True, blank=True)    # m; narrower ones are bridged
    pollution_degree = models.PositiveSmallIntegerField(null=True, blank=True)     # 1 to 3
    clearance = models.FloatField(null=True, blank=True)   # m: the required one, behind the X above
    slot = models.JSONField(default=dict, blank=True)      # the slot that it goes round
    click_uncertainty = models.FloatField(null=True, blank=True)   # pixels, k = 1; None: not kept
    clicks = models.ForeignKey(PhotoClicks, null=True, blank=True, on_delete=models.PROTECT,
                               related_name="readings")    # None: what one click is off is assumed
    value = models.FloatField()                            # m
    uncertainty = models.FloatField()                      # m, k = 1
    budget = models.JSONField()                            # [[source of error, m], …]
    blind = models.BooleanField(default=False)             # without having seen the first reading
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            at_least("value", 0, "reading_value_finite"),
            at_least("uncertainty", 0, "reading_uncertainty_finite"),
            models.CheckConstraint(
                condition=models.Q(pollution_degree__isnull=True)
                | models.Q(pollution_degree__range=(1, 3)), name="reading_pollution_known"),
        ]


class PhotoTemperature(models.Model):
    """A temperature read off a thermal picture, as the camera showed it and as it was set right."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="temperatures")
    shows = models.CharField(max_length=80)                # "measurement/case-temperature"
    shape = models.CharField(max_length=8)                 # "point" or "box"
    points = models.JSONField()                            # [[x, y], …], pixels
    reading = models.FloatField()                          # °C, as shown
    set_emissivity = models.FloatField()
    emissivity = models.FloatField()
    background = models.FloatField()                       # °C
    legend_low = models.FloatField(null=True, blank=True)  # °C: the ends of the colour scale that
    legend_high = models.FloatField(null=True, blank=True)         # is printed in the picture
    value = models.FloatField()                            # °C, set right
    uncertainty = models.FloatField()                      # K, k = 1
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(legend_low__isnull=True, legend_high__isnull=True)
                | models.Q(legend_low__lt=models.F("legend_high")), name="legend_ends_in_order"),
        ]


class PhotoCover(models.Model):
    """A region that was burnt out of every picture that is served; the original is locked away."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="covers")
    box = models.JSONField()                               # [x, y, width, height], pixels
    reason = models.CharField(max_length=200)
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)
    created_at = models.DateTimeField(auto_now_add=True)


class PhotoUpload(models.Model):
    """A file that arrives in blocks; it goes on where the connection broke."""

    uid = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="uploads")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE)
    name = models.CharField(max_length=255)
    stage = models.CharField(max_length=16, choices=Stage, default=Stage.OTHER)
    byte_size = models.PositiveBigIntegerField()
    sha256 = models.CharField(max_length=64, blank=True, db_default="")     # as its sender said
    received = models.PositiveBigIntegerField(default=0)
    photo = models.ForeignKey(Photo, null=True, blank=True, on_delete=models.CASCADE)
    refusal = models.TextField(blank=True)
    created_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
