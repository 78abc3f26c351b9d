"""What a search looks into: one row for each unit, part and family that everybody may find."""
from django.db import models


class Findable(models.IntegerChoices):
    UNIT = 0, "unit"
    PART = 1, "part"
    FAMILY = 2, "family"


KINDS = 4                   # of which one is to spare


class SearchTextQuerySet(models.QuerySet):
    def of(self, kind, pks):
        return self.filter(pk__in=[text_key(kind, pk) for pk in pks])


class SearchText(models.Model):
    """Derived from what is public, and nothing else: `manage.py index_words` makes it anew.

    Each database keeps an index of its own over `tokens` and `run_together`, which no model can
    say: see `search_engines`.
    """

    id = models.BigIntegerField(primary_key=True)       # text_key(): the newest unit is the largest
    title = models.CharField(max_length=450)            # as printed
    body = models.TextField(blank=True)                 # the rest as printed, a line a fact
    tokens = models.TextField(blank=True)               # of `searching.tokens`, one space between
    run_together = models.TextField(blank=True)         # folded markings without what parts them

    objects = SearchTextQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]

    def __str__(self):
        return self.title


class SearchTerm(models.Model):
    """A word or name that stands in some text, for completing and for what may have been meant.

    Words stay when their last text goes, until the next sweep; whoever shows one asks before
    whether something public still has it.
    """

    key = models.CharField(max_length=60, unique=True)                  # folded to plain letters
    backwards = models.CharField(max_length=60, db_index=True)          # the key from its end
    shown = models.CharField(max_length=200)                            # as printed
    is_name = models.BooleanField(default=False)        # of a maker, model, part or family

    def __str__(self):
        return self.shown


def text_key(kind, pk):
    return pk * KINDS + kind


def of_text_key(key):
    """(kind, pk) of a row of SearchText."""
    return Findable(key % KINDS), key // KINDS
