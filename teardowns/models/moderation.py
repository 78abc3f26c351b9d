"""What moderators work with: reports, what is hidden for now, saved replies, two-person actions."""
import uuid
from datetime import timedelta

from django.conf import settings
from django.db import models
from django.utils import timezone

from .choices import one_of
from .units import Unit

HIDDEN_FOR = timedelta(hours=24)
PERSON = settings.AUTH_USER_MODEL


class ReportState(models.TextChoices):
    OPEN = "open", "open"
    UPHELD = "upheld", "upheld"
    DISMISSED = "dismissed", "nothing breaks a rule"


class Report(models.Model):
    """Somebody's notice that content may break a rule. Its reporter is shown to nobody unasked."""

    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)    # of the receipt
    about = models.CharField(max_length=120)               # "unit/12", "comment/7", "photo/3"
    unit = models.ForeignKey(Unit, null=True, blank=True, on_delete=models.PROTECT,
                             related_name="reports")
    code = models.CharField(max_length=20)                 # of teardowns.reasons
    text = models.TextField()
    harm = models.PositiveSmallIntegerField()
    reporter = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                 related_name="reports_made")
    received_at = models.DateTimeField(auto_now_add=True)
    due_at = models.DateTimeField()
    state = models.CharField(max_length=12, choices=ReportState, default=ReportState.OPEN)
    resolved_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-harm", "due_at", "pk"]
        indexes = [models.Index(fields=["state", "-harm", "due_at"]),
                   models.Index(fields=["about", "code"])]
        constraints = [
            one_of("state", ReportState, "report_state_known"),
            models.CheckConstraint(
                condition=models.Q(state="open", resolved_at__isnull=True)
                | (~models.Q(state="open") & models.Q(resolved_at__isnull=False)),
                name="report_resolved_once"),
        ]


class Charge(models.Model):
    """Which moderator has taken on a case: a record that waits, a report, an appeal."""

    subject = models.CharField(max_length=120, unique=True)        # "unit/12", "report/4"
    owner = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="charges")
    at = models.DateTimeField(auto_now=True)


class HiddenKind(models.TextChoices):
    UNIT = "unit", "record"
    PHOTO = "photo", "photo"
    COMMENT = "comment", "comment"


class HiddenNowQuerySet(models.QuerySet):
    def in_force(self):
        """What is hidden at this moment: confirmed by a moderator, or not a day old."""
        lasting = models.Q(confirmed_at__isnull=False) | models.Q(until__gt=timezone.now())
        return self.filter(lasting, ended_at=None)

    def waiting(self):
        """In force, and no moderator has confirmed it."""
        return self.filter(until__gt=timezone.now(), ended_at=None, confirmed_at=None)

    def of(self, kind, pk):
        return self.filter(kind=kind, object_id=pk)


class HiddenNow(models.Model):
    """Something taken out of sight at once for personal data; it comes back after 24 h by itself.

    It is no verdict: a moderator confirms it or shows the thing again.
    """

    kind = models.CharField(max_length=8, choices=HiddenKind)
    object_id = models.BigIntegerField()
    unit = models.ForeignKey(Unit, null=True, blank=True, on_delete=models.PROTECT,
                             related_name="hidden_now")
    by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                           related_name="+")               # None: the rule of two reports
    reason = models.TextField()
    at = models.DateTimeField(auto_now_add=True)
    until = models.DateTimeField()
    confirmed_by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                     related_name="+")
    confirmed_at = models.DateTimeField(null=True, blank=True)
    ended_by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                 related_name="+")
    ended_at = models.DateTimeField(null=True, blank=True)

    objects = HiddenNowQuerySet.as_manager()

    class Meta:
        ordering = ["until", "pk"]
        indexes = [models.Index(fields=["kind", "object_id"])]
        constraints = [one_of("kind", HiddenKind, "hidden_kind_known")]


def hidden_now(kind, pk="pk"):
    """For a query of the things themselves: whether the row is hidden at this moment."""
    return models.Exists(HiddenNow.objects.in_force().of(kind, models.OuterRef(pk)))


class SavedReply(models.Model):
    """Words that moderators often need; chosen, they fill the text field and can be changed."""

    title = models.CharField(max_length=80)
    text = models.TextField()
    code = models.CharField(max_length=20, blank=True)     # the reason that it goes with
    author = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    retired_at = models.DateTimeField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["title", "pk"]
        verbose_name_plural = "saved replies"
        constraints = [models.UniqueConstraint(
            fields=["title"], condition=models.Q(retired_at__isnull=True),
            name="saved_reply_title_once")]


class ApprovalAction(models.TextChoices):
    MERGE = "merge", "merge two records of one specimen"
    ROLE = "role", "change a person’s role"


class ApprovalState(models.TextChoices):
    WAITING = "waiting", "waiting for a second person"
    APPROVED = "approved", "approved"
    REFUSED = "refused", "refused"
    TAKEN_BACK = "taken_back", "taken back by who asked"


class Approval(models.Model):
    """An action that takes two people: one asks for it with a reason, another decides."""

    action = models.CharField(max_length=8, choices=ApprovalAction)
    subject = models.CharField(max_length=40)              # "unit/12", "user/7"
    detail = models.JSONField(default=dict)                # what is to become of it
    asked_by = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="approvals_asked")
    asked_at = models.DateTimeField(auto_now_add=True)
    code = models.CharField(max_length=20)
    reason = models.TextField()
    state = models.CharField(max_length=12, choices=ApprovalState, default=ApprovalState.WAITING)
    decided_by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                   related_name="approvals_decided")
    decided_at = models.DateTimeField(null=True, blank=True)
    answer = models.TextField(blank=True)

    class Meta:
        ordering = ["asked_at", "pk"]
        constraints = [
            one_of("action", ApprovalAction, "approval_action_known"),
            one_of("state", ApprovalState, "approval_state_known"),
            models.UniqueConstraint(fields=["action", "subject"],
                                    condition=models.Q(state="waiting"),
                                    name="approval_waits_once"),
            models.CheckConstraint(
                condition=~models.Q(state__in=["approved", "refused"])
                | (models.Q(decided_by__isnull=False)
                   & ~models.Q(decided_by=models.F("asked_by"))),
                name="approval_by_another"),
        ]
