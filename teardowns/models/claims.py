"""What is printed: the verbatim text, and each statement read from it."""
from django.db import models
from django.db.models import F, Q

from .choices import at_least, one_of
from .evidence import Evidence


class Source(models.TextChoices):
    PLATE = "plate", "rating plate"
    PACKAGING = "packaging", "packaging"
    LISTING = "listing", "listing"
    MANUAL = "manual", "manual"


class ClaimKind(models.TextChoices):
    INPUT = "input", "input rating"
    OUTPUT = "output", "output"
    TOTAL = "total", "total output"
    MODEL = "model", "model"
    MARK = "mark", "mark"
    PROTOCOL = "protocol", "protocol"
    FEATURE = "feature", "safety feature"
    LISTING = "listing", "listing phrase"


class PrintedText(Evidence):
    """The whole text of a plate, a box or a listing, letter by letter."""

    source = models.CharField(max_length=10, choices=Source)
    text = models.TextField(blank=True)

    class Meta(Evidence.Meta):
        constraints = [
            *Evidence.Meta.constraints,
            one_of("source", Source, "printedtext_source_known"),
        ]

    def __str__(self):
        return self.get_source_display()


class Claim(Evidence):
    """One statement, with the span of text that makes it."""

    kind = models.CharField(max_length=10, choices=ClaimKind)
    printed_text = models.ForeignKey(
        PrintedText, null=True, blank=True, on_delete=models.SET_NULL, related_name="claims"
    )
    text = models.CharField(max_length=300, blank=True)              # verbatim
    start = models.PositiveIntegerField(null=True, blank=True)       # of the span, characters
    end = models.PositiveIntegerField(null=True, blank=True)
    voltage_low = models.FloatField(null=True, blank=True)           # V; one voltage: both ends
    voltage_high = models.FloatField(null=True, blank=True)
    frequency_low = models.FloatField(null=True, blank=True)         # Hz
    frequency_high = models.FloatField(null=True, blank=True)
    current = models.FloatField(null=True, blank=True)               # A
    power = models.FloatField(null=True, blank=True)                 # W, as printed
    port = models.CharField(max_length=40, blank=True)               # as printed
    shared = models.BooleanField(null=True, blank=True)              # of several ports together
    mark = models.CharField(max_length=60, blank=True)               # code of a mark, a protocol…

    class Meta(Evidence.Meta):
        constraints = [
            *Evidence.Meta.constraints,
            one_of("kind", ClaimKind, "claim_kind_known"),
            at_least("voltage_low", 0, "claim_voltage_low"),
            at_least("voltage_high", 0, "claim_voltage_high"),
            at_least("frequency_low", 0, "claim_frequency_low"),
            at_least("frequency_high", 0, "claim_frequency_high"),
            at_least("current", 0, "claim_current"),
            at_least("power", 0, "claim_power"),
            models.CheckConstraint(
                condition=Q(voltage_low__isnull=True)
                | Q(voltage_high__isnull=True)
                | Q(voltage_low__lte=F("voltage_high")),
                name="claim_voltages_in_order",
            ),
            models.CheckConstraint(
                condition=Q(start__isnull=True, end__isnull=True) | Q(start__lte=F("end")),
                name="claim_span_in_order",
            ),
        ]

    def __str__(self):
        return self.text or self.get_kind_display()
