"""What every piece of evidence knows of itself, and the measurement, its plainest form."""
from django.conf import settings
from django.db import models
from django.db.models import Q
from simple_history.models import HistoricalRecords

from .choices import BoundKind, How, ReviewState, State, UncertaintyKind, at_least, one_of
from .photos import Photo
from .recordings import Recording
from .units import Unit


class Evidence(models.Model):
    """Who entered it, how it was obtained, what shows it, and what a review said."""

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="%(class)ss")
    key = models.CharField(max_length=64)          # stable name inside the unit
    state = models.CharField(max_length=12, choices=State, default=State.RECORDED)
    how = models.CharField(max_length=20, choices=How, default=How.MEASURED)
    photo = models.ForeignKey(
        Photo, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    recording = models.ForeignKey(
        Recording, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    note = models.TextField(blank=True)
    review_state = models.CharField(
        max_length=12, choices=ReviewState, default=ReviewState.OPEN
    )
    author = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    recorded_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords(inherit=True)

    class Meta:
        abstract = True
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["unit", "key"], name="%(class)s_key_once"),
            one_of("state", State, "%(class)s_state_known"),
            one_of("how", How, "%(class)s_how_known"),
            one_of("review_state", ReviewState, "%(class)s_review_known"),
        ]

    @property
    def ref(self):
        """The name by which an assessment cites this row."""
        return f"{self._meta.model_name}/{self.key}"


class Valued(models.Model):
    """A value in SI with its uncertainty."""

    value = models.FloatField(null=True, blank=True)
    uncertainty = models.FloatField(null=True, blank=True)       # absolute, SI
    uncertainty_kind = models.CharField(
        max_length=10, choices=UncertaintyKind, blank=True, default=UncertaintyKind.NONE
    )

    class Meta:
        abstract = True
        constraints = [
            at_least("value", -1e30, "%(class)s_value_finite"),
            at_least("uncertainty", 0, "%(class)s_uncertainty_finite"),
            one_of("uncertainty_kind", UncertaintyKind, "%(class)s_uncertainty_kind_known"),
            models.CheckConstraint(
                condition=Q(uncertainty__isnull=True, uncertainty_kind="")
                | (Q(uncertainty__isnull=False) & ~Q(uncertainty_kind="")),
                name="%(class)s_uncertainty_has_its_kind",
            ),
            models.CheckConstraint(
                condition=Q(state=State.RECORDED, value__isnull=False)
                | (~Q(state=State.RECORDED) & Q(value__isnull=True)),
                name="%(class)s_value_when_recorded",
            ),
        ]


class Measurement(Evidence, Valued):
    """A quantity by its code, with the conditions it was taken under.

    “> 500 MΩ” is no value: such a row is not readable, and its limit stands beside that.
    """

    quantity = models.CharField(max_length=40)
    port = models.ForeignKey(
        "teardowns.Port", null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    # all ports of the unit loaded together
    all_ports = models.BooleanField(default=False, db_default=False)
    bound = models.FloatField(null=True, blank=True)    # SI, where there is no value but a limit
    bound_kind = models.CharField(
        max_length=8, choices=BoundKind, blank=True, default=BoundKind.NONE, db_default=""
    )
    component = models.ForeignKey(
        "teardowns.Component", null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    mains_voltage = models.FloatField(null=True, blank=True)      # V rms while it was taken
    mains_frequency = models.FloatField(null=True, blank=True)    # Hz
    output_voltage = models.FloatField(null=True, blank=True)     # V that the port was set to
    output_current = models.FloatField(null=True, blank=True)     # A that the load drew
    duration = models.FloatField(null=True, blank=True)           # s
    ambient = models.FloatField(null=True, blank=True)            # °C
    instrument = models.CharField(max_length=120, blank=True)

    class Meta(Evidence.Meta):
        indexes = [models.Index(fields=["unit", "quantity"])]
        constraints = [
            *Evidence.Meta.constraints,
            *Valued.Meta.constraints,
            models.CheckConstraint(condition=~Q(quantity=""), name="measurement_has_quantity"),
            at_least("mains_voltage", 0, "measurement_mains_voltage"),
            at_least("mains_frequency", 0, "measurement_mains_frequency"),
            at_least("output_voltage", 0, "measurement_output_voltage"),
            at_least("output_current", 0, "measurement_output_current"),
            at_least("duration", 0, "measurement_duration"),
            at_least("ambient", -273.15, "measurement_ambient"),
            at_least("bound", -1e30, "measurement_bound_finite"),
            one_of("bound_kind", BoundKind, "measurement_bound_kind_known"),
            models.CheckConstraint(
                condition=Q(bound__isnull=True, bound_kind="")
                | (Q(bound__isnull=False, state=State.NOT_READABLE) & ~Q(bound_kind="")),
                name="measurement_bound_in_place_of_a_value",
            ),
            models.CheckConstraint(condition=Q(all_ports=False) | Q(port__isnull=True),
                                   name="measurement_one_port_or_all"),
        ]

    def __str__(self):
        return self.quantity
