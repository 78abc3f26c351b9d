"""Which public units look as if they shared a board: what is compared, and what was found alike."""
from django.conf import settings
from django.db import models
from django.db.models import F, Q

from .choices import at_least, one_of
from .families import BoardFamily
from .publications import Publication
from .units import Unit


class Likeness(models.Model):
    """What a public unit is compared by, and the few units that are most like it."""

    unit = models.OneToOneField(Unit, primary_key=True, on_delete=models.CASCADE,
                                related_name="likeness")
    publication = models.OneToOneField(Publication, on_delete=models.CASCADE,
                                       related_name="likeness")
    features = models.JSONField(default=list)        # of likeness.features, as `plain` gives them
    alike = models.JSONField(default=list)           # [[unit, score, "why"], …], best first
    is_new = models.BooleanField(default=True)       # nobody looked for its like since it changed

    class Meta:
        indexes = [models.Index(fields=["unit"], name="likeness_new", condition=Q(is_new=True))]


class LikenessWord(models.Model):
    """The inverted index: a word stands for one thing that two boards can have in common."""

    word = models.BigIntegerField()                  # see likeness.words
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["word", "unit"], name="likeness_word_once"),
        ]


class LikenessCount(models.Model):
    """How many public units have a word, as of the last count; word 0 is every unit."""

    EVERY_UNIT = 0
    word = models.BigIntegerField(primary_key=True)
    units = models.PositiveIntegerField()


class CandidateState(models.TextChoices):
    OPEN = "open", "not looked at"
    APART = "apart", "two boards"


class Lookalike(models.Model):
    """Two public units whose boards look alike: candidates for one family, which people decide."""

    first = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="+")
    second = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="+")
    score = models.FloatField()                      # see likeness.compare
    speaks_for = models.JSONField(default=list)      # reasons, as likeness.sentences keeps them
    speaks_against = models.JSONField(default=list)
    state = models.CharField(max_length=8, choices=CandidateState, default=CandidateState.OPEN)
    family = models.ForeignKey(                      # that a moderator opened because of it
        BoardFamily, null=True, blank=True, on_delete=models.SET_NULL, related_name="+")
    decided_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    decided_at = models.DateTimeField(null=True, blank=True)
    reason = models.TextField(blank=True)

    class Meta:
        indexes = [models.Index(fields=["state", "-score"], name="lookalike_best")]
        constraints = [
            models.UniqueConstraint(fields=["first", "second"], name="lookalike_once"),
            models.CheckConstraint(condition=Q(first__lt=F("second")), name="lookalike_in_order"),
            at_least("score", 0, "lookalike_score"),
            one_of("state", CandidateState, "lookalike_state_known"),
            models.CheckConstraint(
                condition=~Q(state=CandidateState.APART)
                | (Q(decided_by__isnull=False, decided_at__isnull=False) & ~Q(reason="")),
                name="lookalike_decided_with_reason"),
        ]

    def __str__(self):
        return f"unit {self.first_id} and unit {self.second_id}"
