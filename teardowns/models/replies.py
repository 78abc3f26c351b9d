"""The right of reply: what a maker or seller states, beside what it answers."""
from django.conf import settings
from django.core.validators import RegexValidator
from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils import timezone

from .choices import one_of
from .units import Unit

PERSON = settings.AUTH_USER_MODEL
# The commonest form of a language tag of BCP 47: language, perhaps script, perhaps region.
LANGUAGE = RegexValidator(r"\A[a-z]{2,3}(-[A-Z][a-z]{3})?(-([A-Z]{2}|[0-9]{3}))?\Z",
                          "Write a language tag such as en, de or zh-Hans.")


class ReplyState(models.TextChoices):
    WAITING = "waiting", "waits for a moderator"
    VERIFIED = "verified", "verified"
    DECLINED = "declined", "not shown"


class MakerAccount(models.Model):
    """That a moderator verified for whom a person speaks: of one unit, or of a maker's units."""

    person = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="speaks_for")
    maker = models.CharField(max_length=120, blank=True)     # as units name it, any case
    unit = models.ForeignKey(Unit, null=True, blank=True, on_delete=models.CASCADE,
                             related_name="+")
    name = models.CharField(max_length=200)                  # of whom the person speaks for
    checked_how = models.TextField()                         # for moderators alone
    verified_by = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="+")
    verified_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(maker="", unit__isnull=False)
                | (~Q(maker="") & Q(unit__isnull=True)), name="maker_account_of_one"),
            models.CheckConstraint(condition=~Q(checked_how=""), name="maker_account_checked"),
            models.CheckConstraint(condition=~Q(person=models.F("verified_by")),
                                   name="maker_account_by_another"),
            models.UniqueConstraint(fields=["person", "unit"], name="maker_account_unit_once",
                                    condition=Q(unit__isnull=False, revoked_at__isnull=True)),
            models.UniqueConstraint(fields=["person", "maker"], name="maker_account_maker_once",
                                    condition=~Q(maker="") & Q(revoked_at__isnull=True)),
        ]


class ReplyQuerySet(models.QuerySet):
    def shown(self):
        """Verified ones with their newest verified version, the first received first."""
        newest = ReplyVersion.objects.filter(
            reply=models.OuterRef("pk"), state=ReplyState.VERIFIED).order_by("-number")
        now = models.FilteredRelation("versions", condition=models.Q(
            versions__pk=models.Subquery(newest.values("pk")[:1])))
        columns = ("number", "text", "language", "disputes", "received_at", "decided_at", "answer",
                   "answered_at")
        return self.filter(state=ReplyState.VERIFIED).annotate(now=now).annotate(
            **{f"now_{name}": models.F(f"now__{name}") for name in columns}
        ).order_by("received_at", "pk")


class Reply(models.Model):
    """A maker's or seller's statement about one unit; its words stand in its versions."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="replies")
    about = models.CharField(max_length=100, blank=True)     # a ref or a scenario; "": the record
    author_name = models.CharField(max_length=200)           # for whom the person speaks
    check_hint = models.TextField(blank=True)                # how that can be checked; moderators
    entered_by = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="replies")
    state = models.CharField(max_length=10, choices=ReplyState, default=ReplyState.WAITING)
    received_at = models.DateTimeField(default=timezone.now)
    version = models.PositiveIntegerField(default=1)         # of the row, for locking

    objects = ReplyQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        verbose_name_plural = "replies"
        constraints = [one_of("state", ReplyState, "reply_state_known")]

    def __str__(self):
        return f"reply {self.pk}"

    @property
    def subject(self):
        return f"reply/{self.pk}"

    def get_absolute_url(self):
        return f"{reverse('unit_replies', args=[self.unit_id])}#reply-{self.pk}"


class ReplyVersion(models.Model):
    """The words of a reply; never altered, each looked at by a moderator before it is shown."""

    reply = models.ForeignKey(Reply, on_delete=models.CASCADE, related_name="versions")
    number = models.PositiveIntegerField()
    text = models.TextField()
    language = models.CharField(max_length=12, validators=[LANGUAGE], default="en")
    disputes = models.BooleanField(default=False)            # asks for another review
    received_at = models.DateTimeField()
    state = models.CharField(max_length=10, choices=ReplyState, default=ReplyState.WAITING)
    decided_by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                   related_name="+")
    decided_at = models.DateTimeField(null=True, blank=True)
    decision_reason = models.TextField(blank=True)
    answer = models.TextField(blank=True)                    # what came of the dispute
    answered_at = models.DateTimeField(null=True, blank=True)
    answered_by = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                    related_name="+")

    class Meta:
        ordering = ["reply", "number"]
        constraints = [
            one_of("state", ReplyState, "reply_version_state_known"),
            models.UniqueConstraint(fields=["reply", "number"], name="reply_version_once"),
            models.UniqueConstraint(fields=["reply"], condition=Q(state="waiting"),
                                    name="reply_version_waits_once"),
            models.CheckConstraint(condition=~Q(text=""), name="reply_version_has_words"),
            models.CheckConstraint(condition=~Q(state="declined") | ~Q(decision_reason=""),
                                   name="reply_declined_with_reason"),
            models.CheckConstraint(
                condition=Q(state="waiting", decided_by__isnull=True)
                | (~Q(state="waiting") & Q(decided_by__isnull=False)),
                name="reply_version_decided_by_somebody"),
        ]
