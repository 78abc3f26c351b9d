"""The log of who did what: written, never changed, each entry tied to the one before it."""
from django.conf import settings
from django.db import models

from core.audit.actions import PUBLIC


class EntryQuerySet(models.QuerySet):
    def of_unit(self, unit):
        """Entries about one unit, a row or its number."""
        return self.filter(unit=getattr(unit, "pk", unit))

    def public(self):
        return self.filter(action__in=PUBLIC)


class Entry(models.Model):
    """One change of state. Made by `core.audit.record` and by nothing else."""

    sequence = models.BigIntegerField(unique=True)          # 1, 2, 3 …: the order, not the clock's
    at = models.DateTimeField()
    # No constraint in the database: its check would lock the person's row under the head.
    actor = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT,
                              db_constraint=False, related_name="+")
    role = models.CharField(max_length=16, blank=True)      # the actor's at that time
    in_role = models.BooleanField(default=False)            # with the second factor passed
    action = models.CharField(max_length=40)
    unit = models.BigIntegerField(null=True)                # its number: the log outlives the unit
    subject = models.CharField(max_length=100, blank=True)  # "comment/12"
    reason = models.TextField(blank=True)
    detail = models.JSONField(default=dict)                 # no personal data: it stays for good
    request_id = models.CharField(max_length=32, blank=True)
    previous = models.CharField(max_length=64)
    hash = models.CharField(max_length=64)

    objects = EntryQuerySet.as_manager()

    class Meta:
        ordering = ["-sequence"]
        verbose_name_plural = "entries"
        indexes = [
            models.Index(fields=["unit", "-sequence"], name="entry_of_unit"),
            models.Index(fields=["action", "-sequence"], name="entry_of_action"),
        ]

    def __str__(self):
        return f"{self.sequence} {self.action}"


class Head(models.Model):
    """The one row that says where the chain ends: whoever adds to it holds this row's lock."""

    sequence = models.BigIntegerField(default=0)
    hash = models.CharField(max_length=64)
