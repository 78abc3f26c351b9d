"""What is on the board and in the transformer."""
from django.db import models
from django.db.models import Q

from .choices import at_least, one_of
from .evidence import Evidence
from .parts import Part
from .ports import Port


class Role(models.TextChoices):
    FUSE = "fuse", "fuse"
    FUSIBLE_RESISTOR = "fusible_resistor", "fusible resistor"
    X_CAPACITOR = "x_capacitor", "capacitor across the mains"
    DISCHARGE_RESISTOR = "discharge_resistor", "discharge resistor"
    VARISTOR = "varistor", "varistor"
    FILTER_CHOKE = "filter_choke", "interference choke"
    RECTIFIER = "rectifier", "mains rectifier"
    BULK_CAPACITOR = "bulk_capacitor", "bulk capacitor"
    PRIMARY_CONTROLLER = "primary_controller", "primary controller"
    PRIMARY_SWITCH = "primary_switch", "primary switch"
    SENSE_RESISTOR = "sense_resistor", "current-sense resistor"
    TRANSFORMER = "transformer", "transformer"
    CORE = "core", "transformer core"
    OPTOCOUPLER = "optocoupler", "optocoupler"
    BARRIER_CAPACITOR = "barrier_capacitor", "capacitor across the barrier"
    OUTPUT_RECTIFIER = "output_rectifier", "output rectifier"
    OUTPUT_CAPACITOR = "output_capacitor", "output capacitor"
    PROTOCOL_CONTROLLER = "protocol_controller", "protocol controller"
    PORT_CONVERTER = "port_converter", "port converter"
    PASS_SWITCH = "pass_switch", "pass switch"
    BALLAST = "ballast", "part with no function"
    OTHER = "other", "other"


class Bridged(models.TextChoices):
    BY_ROLE = "", "as its role says"
    PRI_SEC = "PRI_SEC", "mains side to output"
    PRI_PE = "PRI_PE", "mains side to protective earth"
    L_N = "L_N", "line to neutral"


class Component(Evidence):
    role = models.CharField(max_length=20, choices=Role)
    designator = models.CharField(max_length=20, blank=True)          # as printed on the board
    place = models.CharField(max_length=120, blank=True)
    count = models.PositiveSmallIntegerField(default=1)
    marking = models.CharField(max_length=200, blank=True)            # verbatim
    part = models.ForeignKey(
        Part, null=True, blank=True, on_delete=models.SET_NULL, related_name="components"
    )
    nominal = models.FloatField(null=True, blank=True)        # F, Ω or H by role, of one piece
    tolerance = models.FloatField(null=True, blank=True)      # fraction, ±
    rated_voltage = models.FloatField(null=True, blank=True)          # V
    rated_current = models.FloatField(null=True, blank=True)          # A
    rated_power = models.FloatField(null=True, blank=True)            # W
    ripple_current = models.FloatField(null=True, blank=True)  # A rms at 100 kHz, of one piece
    on_resistance = models.FloatField(null=True, blank=True)   # Ω at 25 °C, of one piece
    diameter = models.FloatField(null=True, blank=True)       # m, of a can without its sleeve
    length = models.FloatField(null=True, blank=True)         # m, of a can
    safety_class = models.CharField(max_length=20, blank=True)        # "X2", "X1Y1"
    in_series = models.BooleanField(default=False)     # the pieces of this row, with each other
    bridges = models.CharField(                        # empty: as its role says
        max_length=8, choices=Bridged, blank=True
    )
    port = models.ForeignKey(            # that this part alone serves; none: all, or not known
        Port, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )

    class Meta(Evidence.Meta):
        indexes = [models.Index(fields=["role", "marking"])]
        constraints = [
            *Evidence.Meta.constraints,
            one_of("role", Role, "component_role_known"),
            one_of("bridges", Bridged, "component_bridges_known"),
            at_least("nominal", 0, "component_nominal"),
            at_least("tolerance", 0, "component_tolerance"),
            at_least("rated_voltage", 0, "component_rated_voltage"),
            at_least("rated_current", 0, "component_rated_current"),
            at_least("rated_power", 0, "component_rated_power"),
            at_least("ripple_current", 0, "component_ripple_current"),
            at_least("on_resistance", 0, "component_on_resistance"),
            at_least("diameter", 0, "component_diameter"),
            at_least("length", 0, "component_length"),
        ]

    def __str__(self):
        return f"{self.get_role_display()} {self.designator}".strip()


class LayerKind(models.TextChoices):
    WINDING = "winding", "winding"
    INSULATION = "insulation", "insulation"


class WindingRole(models.TextChoices):
    NONE = "", "none"
    PRIMARY = "primary", "primary"
    SECONDARY = "secondary", "secondary"
    AUXILIARY = "auxiliary", "auxiliary"
    SHIELD = "shield", "shield"


class WireInsulation(models.TextChoices):
    UNKNOWN = "", "not known"
    ENAMEL = "enamel", "enamel"
    TRIPLE = "triple", "three layers, consistent with triple-insulated wire"
    SINGLE = "single", "one layer of insulation"
    FULLY = "fully", "thick enamel, consistent with fully insulated wire"
    INSULATED = "insulated", "other insulation"
    BARE = "bare", "bare"


class Material(models.TextChoices):
    UNKNOWN = "", "not stated"
    TAPE = "tape", "tape or foil"
    BOBBIN = "bobbin", "bobbin wall"
    SHEET = "sheet", "sheet or plate"
    SLEEVE = "sleeve", "sleeve"


class Damage(models.TextChoices):
    UNKNOWN = "", "not stated"
    INTACT = "intact", "intact"
    DAMAGED = "damaged", "damaged: torn, brittle, short of the edge"
    MELTED = "melted", "melted or burnt through"


class StackLayer(Evidence):
    """One layer of the transformer, counted from the core outward."""

    position = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=10, choices=LayerKind)
    winding = models.CharField(max_length=10, choices=WindingRole, blank=True)
    turns = models.FloatField(null=True, blank=True)
    in_parallel = models.BooleanField(default=False)    # with the layer of its winding before it
    strands = models.PositiveSmallIntegerField(null=True, blank=True)
    bare_diameter = models.FloatField(null=True, blank=True)           # m
    wire_insulation = models.CharField(max_length=10, choices=WireInsulation, blank=True)
    tape_layers = models.PositiveSmallIntegerField(null=True, blank=True)
    thickness = models.FloatField(null=True, blank=True)               # m, of one layer
    margin_left = models.FloatField(null=True, blank=True)             # m
    margin_right = models.FloatField(null=True, blank=True)            # m
    condition = models.CharField(max_length=200, blank=True)
    material = models.CharField(max_length=10, choices=Material, blank=True)   # of insulation
    damage = models.CharField(max_length=10, choices=Damage, blank=True)
    documented = models.BooleanField(default=False)    # a certificate of the type was seen
    sleeved = models.BooleanField(null=True, blank=True)   # where its leads leave or cross
    withstood = models.FloatField(null=True, blank=True)   # V d.c. or peak, one layer alone

    class Meta(Evidence.Meta):
        ordering = ["position", "pk"]
        constraints = [
            *Evidence.Meta.constraints,
            one_of("kind", LayerKind, "stacklayer_kind_known"),
            one_of("winding", WindingRole, "stacklayer_winding_known"),
            one_of("wire_insulation", WireInsulation, "stacklayer_wire_known"),
            one_of("material", Material, "stacklayer_material_known"),
            one_of("damage", Damage, "stacklayer_damage_known"),
            at_least("withstood", 0, "stacklayer_withstood"),
            models.CheckConstraint(
                condition=(Q(kind=LayerKind.WINDING) & ~Q(winding=""))
                | Q(kind=LayerKind.INSULATION, winding=""),
                name="stacklayer_winding_has_role",
            ),
            models.CheckConstraint(
                condition=Q(in_parallel=False) | Q(kind=LayerKind.WINDING),
                name="stacklayer_parallel_is_winding",
            ),
            at_least("turns", 0, "stacklayer_turns"),
            at_least("bare_diameter", 0, "stacklayer_diameter"),
            at_least("thickness", 0, "stacklayer_thickness"),
            at_least("margin_left", 0, "stacklayer_margin_left"),
            at_least("margin_right", 0, "stacklayer_margin_right"),
        ]

    def __str__(self):
        return f"layer {self.position}"
