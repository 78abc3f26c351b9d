"""Records on paper: each set of versions is made once, and kept while somebody asks for it."""
from django.db import models

from .choices import one_of


class PrintoutState(models.TextChoices):
    WAITING = "waiting", "waiting for the worker"
    MAKING = "making", "being made"
    MADE = "made", "made"
    FAILED = "failed", "could not be made"


class Printout(models.Model):
    """A PDF of one version of a record, or of some side by side; nothing of it is evidence."""

    digest = models.CharField(max_length=64, unique=True)   # of all that goes into it
    versions = models.JSONField()                           # [[unit, number], …], as asked for
    language = models.CharField(max_length=8, default="en")
    state = models.CharField(max_length=8, choices=PrintoutState, default=PrintoutState.WAITING)
    step = models.PositiveSmallIntegerField(default=0)      # of `teardowns.printouts.make.STEPS`
    tries = models.PositiveSmallIntegerField(default=0)
    byte_size = models.PositiveIntegerField(default=0)
    asked_at = models.DateTimeField()                       # last
    began_at = models.DateTimeField(null=True, blank=True)
    made_at = models.DateTimeField(null=True, blank=True)
    used_on = models.DateField()                            # day on which it was last wanted

    class Meta:
        constraints = [one_of("state", PrintoutState, "printout_state_known")]

    def __str__(self):
        return f"printout {self.digest[:8]}"

    @property
    def path(self):
        return f"{self.digest[:2]}/{self.digest}.pdf"
