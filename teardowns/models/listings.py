"""What is public, one row a unit: what lists print, narrow, sort and draw by.

`services/list_units.py` writes the one and raises the other; nothing else does.
"""
from django.db import models

from .publications import Publication
from .units import Channel, Kind, Unit


class ListedUnitQuerySet(models.QuerySet):
    def listed(self):
        """Of units that everybody sees now; the others are kept so that a change can be told."""
        return self.filter(is_listed=True)


class ListedUnit(models.Model):
    """A unit that is or was public, by the version that stands. Unknown is None or empty."""

    unit = models.OneToOneField(Unit, primary_key=True, on_delete=models.CASCADE,
                                related_name="listing")
    publication = models.ForeignKey(Publication, on_delete=models.CASCADE, related_name="+")
    is_listed = models.BooleanField()
    changed = models.BigIntegerField(db_index=True)     # number of the clock when it last changed

    title = models.CharField(max_length=200)
    maker = models.CharField(max_length=120, blank=True)
    model = models.CharField(max_length=120, blank=True)
    kind = models.CharField(max_length=12, choices=Kind)
    channel = models.CharField(max_length=12, choices=Channel)
    published_at = models.DateTimeField()
    verdict = models.CharField(max_length=40, blank=True)
    claimed_power = models.FloatField(null=True, blank=True)          # W
    plausibility = models.FloatField(null=True, blank=True)
    capability = models.FloatField(null=True, blank=True)             # W, median
    capability_low = models.FloatField(null=True, blank=True)         # W, 5 %
    capability_high = models.FloatField(null=True, blank=True)        # W, 95 %
    risk = models.PositiveSmallIntegerField(default=0)     # 0 none, 1 low … 4 serious
    flags = models.PositiveSmallIntegerField(default=0)

    measured_power = models.FloatField(null=True, blank=True)     # W, see measured_capability
    load_held = models.FloatField(null=True, blank=True)          # W, the highest, see load_bounds
    load_lost = models.FloatField(null=True, blank=True)          # W, the lowest above it
    load_mains = models.FloatField(null=True, blank=True)         # V rms of that test
    gap = models.FloatField(null=True, blank=True)                # claimed_power / capability
    year = models.PositiveSmallIntegerField(null=True, blank=True)    # it was obtained in
    reach = models.PositiveIntegerField(null=True, blank=True)    # sales that its listing shows
    completeness = models.FloatField(null=True, blank=True)       # 0 to 1, of what is asked for
    topology = models.CharField(max_length=40, blank=True)
    controller = models.CharField(max_length=200, blank=True)     # marking of the primary one
    mass = models.FloatField(null=True, blank=True)               # kg, without ballast
    volume = models.FloatField(null=True, blank=True)             # m³, of the case
    bulk_capacitance = models.FloatField(null=True, blank=True)   # F, of all in parallel
    # Distance over its lenient requirement, smallest of the measured paths across the barrier.
    insulation_margin = models.FloatField(null=True, blank=True)
    connectors = models.JSONField(default=list, blank=True)       # codes of Connector, each once
    hazards = models.JSONField(default=list, blank=True)          # shock, fire, burn, …, each once
    families = models.JSONField(default=list, blank=True)         # slugs of board families
    picture = models.CharField(max_length=64, blank=True)         # key of the photo it is shown by

    objects = ListedUnitQuerySet.as_manager()

    class Meta:
        indexes = [
            # Of the listed alone: to SQLite `WHERE is_listed` is no value of a column.
            models.Index(fields=["-published_at", "-unit"], name="listing_newest",
                         condition=models.Q(is_listed=True)),
            models.Index(fields=["risk", "-published_at", "-unit"], name="listing_gravest",
                         condition=models.Q(is_listed=True)),
        ]

    def __str__(self):
        return self.title


class ListingClock(models.Model):
    """One row: how often the listing has changed, and by which changes.

    A transaction that is rolled back may have used a number that another one uses afterwards.
    Each change therefore bears a random stamp; who knows the listing as of a number can tell by
    its stamp whether that change ever came to be.
    """

    KEPT = 512                                            # stamps
    number = models.BigIntegerField(default=0)
    stamp = models.CharField(max_length=8, blank=True)    # of the newest change
    trail = models.TextField(blank=True)                  # stamps, the newest last

    def __str__(self):
        return f"{self.number} {self.stamp}"


class ListingPack(models.Model):
    """One row: the index of the whole listing as bytes, as of a number of the clock.

    A process begins with it and reads the rows that changed since; who does not find it reads all.
    """

    form = models.CharField(max_length=64)                # the way in which it was made
    number = models.BigIntegerField()
    stamp = models.CharField(max_length=8)
    packed = models.BinaryField()

    def __str__(self):
        return f"{self.number} {self.stamp}"
