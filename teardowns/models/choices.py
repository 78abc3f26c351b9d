"""Words that several nouns share, and the constraint that keeps a column to them."""
from django.db import models


class State(models.TextChoices):
    """Whether and how a thing was looked for: four different facts."""

    RECORDED = "recorded", "Recorded"
    NOT_LOOKED = "not_looked", "Not looked"
    NOT_FOUND = "not_found", "Looked, not found"
    NOT_READABLE = "not_readable", "Not readable"


class How(models.TextChoices):
    """How a piece of evidence was obtained."""

    MEASURED = "measured", "measured"
    READ_OFF = "read_off", "read off"
    DECODED = "decoded", "decoded"
    DATA_SHEET = "data_sheet", "from data sheet"
    ESTIMATED = "estimated", "estimated"
    SELLER = "claimed_by_seller", "claimed by seller"


class UncertaintyKind(models.TextChoices):
    """What the number behind ± means."""

    NONE = "", "not stated"
    STANDARD = "standard", "standard uncertainty (k = 1)"
    INTERVAL = "interval", "± U, 95 % interval"
    TOLERANCE = "tolerance", "± tolerance, all values equally likely"


class BoundKind(models.TextChoices):
    """On which side of a limit a value lies that an instrument did not show."""

    NONE = "", "no limit"
    ABOVE = "above", "more than"
    AT_LEAST = "at_least", "at least"
    BELOW = "below", "less than"
    AT_MOST = "at_most", "at most"


class ReviewState(models.TextChoices):
    OPEN = "open", "not reviewed"
    CONFIRMED = "confirmed", "confirmed"
    DISPUTED = "disputed", "disputed"
    REMEASURED = "remeasured", "re-measured"


def one_of(field, choices, name):
    """A check constraint: the column holds one of the choices."""
    return models.CheckConstraint(condition=models.Q(**{f"{field}__in": choices.values}), name=name)


def at_least(field, low, name):
    """A check constraint: the column is unknown or a finite number not below `low`.

    PostgreSQL sorts NaN and infinity above every number, so the upper end refuses both.
    """
    inside = models.Q(**{f"{field}__gte": low, f"{field}__lt": 1e30})
    return models.CheckConstraint(
        condition=models.Q(**{f"{field}__isnull": True}) | inside, name=name
    )
