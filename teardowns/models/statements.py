"""Statements of reasons, one a decision and never altered; and the appeals against them."""
import uuid
from datetime import timedelta
from hashlib import sha256

from django.conf import settings
from django.db import models

from .choices import one_of
from .units import Unit

APPEAL_WITHIN = timedelta(days=14)       # in which an appeal is decided
PERSON = settings.AUTH_USER_MODEL


class Decision(models.TextChoices):
    """What was decided: each of these has exactly one statement."""

    SEND_BACK = "send_back", "sent back to its contributor"
    DECLINE = "decline", "proposed correction declined"
    WITHDRAW = "withdraw", "withdrawn from the public, with a tombstone"
    REINSTATE = "reinstate", "public again after it was withdrawn"
    QUARANTINE = "quarantine", "put in quarantine"
    RELEASE = "release", "released from quarantine"
    HIDE = "hide", "hidden at once for personal data"
    KEEP_HIDDEN = "keep_hidden", "hiding confirmed"
    SHOW_AGAIN = "show_again", "shown again"
    REPORT_UPHELD = "report_upheld", "report upheld"
    REPORT_DISMISSED = "report_dismissed", "report looked at: nothing breaks a rule"
    SUSPEND = "suspend", "account suspended"
    LIFT = "lift", "suspension lifted"
    ROLE = "role", "role changed"
    MERGE = "merge", "merged into another record of the same specimen"
    APPEAL_UPHELD = "appeal_upheld", "appeal: the decision stands"
    APPEAL_REVERSED = "appeal_reversed", "appeal: the decision is reversed"
    COMMENT_REMOVED = "comment_removed", "comment removed"
    REPLY_DECLINED = "reply_declined", "reply not shown"


class Unalterable(Exception):
    """A statement of reasons stays as it was given."""


class StatementQuerySet(models.QuerySet):
    def update(self, **values):
        raise Unalterable("A statement of reasons is never altered.")

    def delete(self):
        raise Unalterable("A statement of reasons is never deleted.")


class Statement(models.Model):
    """Why something was decided, as its addressee reads it. Kept unchanged when it is reversed."""

    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    decision = models.CharField(max_length=20, choices=Decision)
    subject = models.CharField(max_length=120)             # "unit/12", "comment/7", "user/3"
    unit = models.ForeignKey(Unit, null=True, blank=True, on_delete=models.PROTECT,
                             related_name="statements")
    addressee = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                  related_name="statements")       # None: who did not sign in
    by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                           related_name="decisions_taken")         # None: by the stated rule
    code = models.CharField(max_length=20)
    rule = models.TextField()                              # in the words of the day
    facts = models.TextField()
    automated = models.BooleanField(default=False)
    remedy = models.TextField()                            # how to appeal, how to undo
    report = models.ForeignKey("teardowns.Report", null=True, blank=True,
                               on_delete=models.PROTECT, related_name="statements")
    answers = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT,
                                related_name="answered_by")        # the decision that it reverses
    at = models.DateTimeField(auto_now_add=True)

    objects = StatementQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
        indexes = [models.Index(fields=["subject", "-id"]), models.Index(fields=["unit", "-id"])]
        constraints = [
            one_of("decision", Decision, "statement_decision_known"),
            models.CheckConstraint(condition=~models.Q(facts=""), name="statement_has_facts"),
            models.CheckConstraint(condition=~models.Q(rule=""), name="statement_has_rule"),
        ]

    def save(self, *args, **kwargs):
        if not self._state.adding:
            raise Unalterable("A statement of reasons is never altered.")
        super().save(*args, **kwargs)

    def delete(self, *args, **kwargs):
        raise Unalterable("A statement of reasons is never deleted.")

    @property
    def digest(self):
        """What the audit log keeps of it, so that an alteration would show."""
        said = (self.uid, self.decision, self.subject, self.code, self.rule, self.facts,
                self.automated, self.remedy)
        return sha256("\x1f".join(str(part) for part in said).encode()).hexdigest()


class AppealState(models.TextChoices):
    OPEN = "open", "open"
    UPHELD = "upheld", "the decision stands"
    REVERSED = "reversed", "the decision is reversed"


class Appeal(models.Model):
    """Against one decision, once; decided by somebody who did not take it."""

    statement = models.OneToOneField(Statement, on_delete=models.PROTECT, related_name="appeal")
    author = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="appeals")
    text = models.TextField()
    opened_at = models.DateTimeField(auto_now_add=True)
    due_at = models.DateTimeField()
    state = models.CharField(max_length=12, choices=AppealState, default=AppealState.OPEN)
    decided_by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                   related_name="appeals_decided")
    decided_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["due_at", "pk"]
        constraints = [
            one_of("state", AppealState, "appeal_state_known"),
            models.CheckConstraint(
                condition=models.Q(state="open", decided_by__isnull=True)
                | (~models.Q(state="open") & models.Q(decided_by__isnull=False)),
                name="appeal_decided_by_somebody"),
        ]
