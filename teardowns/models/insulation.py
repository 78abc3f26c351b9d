"""One path across one barrier."""
from django.db import models

from .choices import one_of
from .evidence import Evidence, Valued


class Barrier(models.TextChoices):
    PRI_SEC = "PRI_SEC", "mains side to output"
    PRI_ENC = "PRI_ENC", "mains side to the outside of the case"
    L_N = "L_N", "line to neutral, ahead of the fuse"
    PRI_PE = "PRI_PE", "mains side to protective earth"
    FUNC = "FUNC", "inside one circuit"


class Path(models.TextChoices):
    CLEARANCE = "clearance", "clearance"
    CREEPAGE = "creepage", "creepage"
    SOLID = "insulation_thickness", "through solid insulation"


class Method(models.TextChoices):
    CALIPER = "caliper", "caliper or gauge on the part"
    PHOTO_SCALE = "photo_scale", "photo with a scale in the plane"
    PHOTO_PART = "photo_part", "photo scaled from a known part"
    OTHER = "other", "other"


class Site(models.TextChoices):
    UNKNOWN = "", "not stated"
    BOARD = "board", "board, between tracks or pads"
    PART = "part", "under or beside a part"
    OPTOCOUPLER = "optocoupler", "optocoupler"
    TRANSFORMER = "transformer", "transformer"
    CASE = "case", "case, seams and walls"
    PINS = "pins", "mains pins and fuse"


class Situation(models.TextChoices):
    AS_FOUND = "as_found", "as found"
    JOINT_OPEN = "joint_open", "if one solder joint opened"
    METAL_MOVED = "metal_moved", "with loose metal in its worst place"


class Shape(models.TextChoices):
    PLAIN = "", "plain"
    GROOVE = "groove", "groove, sides parallel or widening"
    V_GROOVE = "v_groove", "V-shaped groove"
    SLOT = "slot", "slot through the board"
    RIB = "rib", "rib"
    JOINT = "joint", "joint that is not cemented"
    FLOATING = "floating", "floating metal between"


class InsulationObservation(Evidence, Valued):
    barrier = models.CharField(max_length=8, choices=Barrier, default=Barrier.PRI_SEC)
    path = models.CharField(max_length=20, choices=Path)
    place = models.CharField(max_length=120)
    method = models.CharField(max_length=12, choices=Method, default=Method.CALIPER)
    material_group = models.CharField(max_length=8, blank=True)      # "I", "II", "IIIa", "IIIb"
    pollution_degree = models.PositiveSmallIntegerField(null=True, blank=True)
    site = models.CharField(max_length=12, choices=Site, blank=True)
    situation = models.CharField(max_length=12, choices=Situation, default=Situation.AS_FOUND)
    shape = models.CharField(max_length=12, choices=Shape, blank=True)
    slot = models.JSONField(default=dict, blank=True)      # what the shape needs: lengths, m
    coated = models.BooleanField(null=True, blank=True)    # potted, coated or cemented over
    contaminated = models.BooleanField(null=True, blank=True)      # conductive dirt across it
    bridged_by = models.CharField(max_length=120, blank=True)

    class Meta(Evidence.Meta):
        constraints = [
            *Evidence.Meta.constraints,
            *Valued.Meta.constraints,
            one_of("barrier", Barrier, "insulation_barrier_known"),
            one_of("path", Path, "insulation_path_known"),
            one_of("method", Method, "insulation_method_known"),
            one_of("site", Site, "insulation_site_known"),
            one_of("situation", Situation, "insulation_situation_known"),
            one_of("shape", Shape, "insulation_shape_known"),
            models.CheckConstraint(
                condition=models.Q(material_group__in=["", "I", "II", "IIIa", "IIIb"]),
                name="insulation_material_known",
            ),
            models.CheckConstraint(
                condition=models.Q(pollution_degree__isnull=True)
                | models.Q(pollution_degree__range=(1, 3)),
                name="insulation_pollution_known",
            ),
        ]

    def __str__(self):
        return self.place
