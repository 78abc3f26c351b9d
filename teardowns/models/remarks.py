"""What a bench sheet was sent back for, item by item, and what its author answered."""
from django.conf import settings
from django.db import models

from .units import Unit


class ReviewRemarkQuerySet(models.QuerySet):
    def of_open_work(self, unit):
        """Those on what is being worked on: the open correction, else the unit's first version."""
        of_correction = models.Q(correction__isnull=False, correction__closed_at=None)
        of_first = models.Q(correction=None, unit__publication=None)
        return self.filter(of_correction | of_first, unit=unit)

    def unanswered(self):
        return self.filter(answered_at=None)


class ReviewRemark(models.Model):
    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="remarks")
    correction = models.ForeignKey("teardowns.Correction", null=True, blank=True,
                                   on_delete=models.CASCADE, related_name="remarks")
    ref = models.CharField(max_length=100, blank=True)     # "measurement/mass"; empty: all of it
    text = models.TextField()
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT,
                               related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    answered_at = models.DateTimeField(null=True, blank=True)
    answer = models.TextField(blank=True)

    objects = ReviewRemarkQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(condition=~models.Q(text=""), name="remark_has_text"),
            models.CheckConstraint(
                condition=models.Q(answered_at=None, answer="")
                | (models.Q(answered_at__isnull=False) & ~models.Q(answer="")),
                name="remark_answer_has_its_time",
            ),
        ]
