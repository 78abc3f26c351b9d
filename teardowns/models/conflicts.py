"""What a reviewer declares once and for all: whose work they have an interest in."""
from django.conf import settings
from django.db import models


class Affiliation(models.Model):
    """A tie of one person to an organisation, or to somebody who has an account here."""

    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE,
                               related_name="affiliations")
    organisation = models.CharField(max_length=120, blank=True)    # a maker, a seller, a laboratory
    other = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True,
                              on_delete=models.CASCADE, related_name="+")
    relation = models.CharField(max_length=200)                    # "I work there"
    declared_at = models.DateTimeField(auto_now_add=True)
    ended_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=(~models.Q(organisation="") & models.Q(other__isnull=True))
                | models.Q(organisation="", other__isnull=False),
                name="affiliation_names_one"),
            models.CheckConstraint(condition=~models.Q(relation=""),
                                   name="affiliation_has_relation"),
        ]
