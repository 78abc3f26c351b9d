"""Output connectors, and what each advertises."""
from django.db import models

from .choices import at_least, one_of
from .evidence import Evidence


class Connector(models.TextChoices):
    USB_A = "usb_a", "USB Type-A"
    USB_C = "usb_c", "USB Type-C"
    MICRO_B = "micro_b", "USB Micro-B"
    BARREL = "barrel", "coaxial d.c. plug"
    CAPTIVE = "captive", "captive cable"
    TERMINAL = "terminal", "terminals"
    OTHER = "other", "other"


class DataWiring(models.TextChoices):
    UNKNOWN = "", "not looked"
    OPEN = "open", "D+ and D− open"
    SHORTED = "shorted", "D+ joined to D−"
    DIVIDER = "divider", "resistors only"
    CHIP = "chip", "to a chip"


class Port(Evidence):
    label = models.CharField(max_length=40)                   # as printed, or our own
    connector = models.CharField(max_length=10, choices=Connector, default=Connector.OTHER)
    wiring = models.CharField(max_length=10, choices=DataWiring, blank=True)
    high_current_contacts = models.BooleanField(null=True, blank=True)
    advertised = models.JSONField(default=list, blank=True)   # 32-bit words, hexadecimal
    cc_current = models.FloatField(null=True, blank=True)     # A that the CC pull-up advertises

    class Meta(Evidence.Meta):
        constraints = [
            *Evidence.Meta.constraints,
            one_of("connector", Connector, "port_connector_known"),
            one_of("wiring", DataWiring, "port_wiring_known"),
            at_least("cc_current", 0, "port_cc_current"),
            models.UniqueConstraint(fields=["unit", "label"], name="port_label_once"),
        ]

    def __str__(self):
        return self.label
