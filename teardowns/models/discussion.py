"""What people say about units, parts and families; what they watch; what they are told."""
from django.conf import settings
from django.db import models
from django.db.models import Q
from django.urls import reverse
from simple_history.models import HistoricalRecords

from core.words.as_written import AsWritten

from .choices import one_of
from .families import BoardFamily
from .moderation import HiddenKind, hidden_now
from .parts import Part
from .units import Unit

PERSON = settings.AUTH_USER_MODEL
KIND_OF = {Unit: "unit", Part: "part", BoardFamily: "family"}
KINDS = tuple(KIND_OF.values())


def about_one(name):
    """A check constraint: exactly one of unit, part and family is named."""
    one = Q()
    for kind in KINDS:
        one |= Q(**{f"{other}__isnull": other != kind for other in KINDS})
    return models.CheckConstraint(condition=one, name=name)


class AboutQuerySet(models.QuerySet):
    def about(self, thing):
        """Rows about this unit, part or family."""
        return self.filter(**{kind_of(thing): thing})


def kind_of(thing) -> str:
    """The name of the column that names it: unit, part or family."""
    return KIND_OF[type(thing)]


class CommentState(models.TextChoices):
    HELD = "held", "waits for a moderator"
    SHOWN = "shown", "shown"
    RETRACTED = "retracted", "taken back by its author"
    REMOVED = "removed", "removed by a moderator"


class CommentQuerySet(AboutQuerySet):
    def with_hidden(self):
        """Annotated with whether it is out of sight for now, as `is_hidden`."""
        return self.annotate(is_hidden=hidden_now(HiddenKind.COMMENT))

    def readable(self):
        """Those whose words everybody reads who sees the thing."""
        return self.with_hidden().filter(state=CommentState.SHOWN, is_hidden=False)


class Comment(models.Model):
    """A remark about one thing, or about one row of a unit's evidence."""

    unit = models.ForeignKey(Unit, null=True, blank=True, on_delete=models.CASCADE,
                             related_name="comments")
    part = models.ForeignKey(Part, null=True, blank=True, on_delete=models.CASCADE,
                             related_name="comments")
    family = models.ForeignKey(BoardFamily, null=True, blank=True, on_delete=models.CASCADE,
                               related_name="comments")
    ref = models.CharField(max_length=100, blank=True)       # "component/bulk-1"; of a unit
    author = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="comments")
    text = models.TextField()
    # Written while the unit was not public: stays with its author, reviewers and moderators.
    is_internal = models.BooleanField(default=False)
    state = models.CharField(max_length=10, choices=CommentState, default=CommentState.SHOWN)
    written_at = models.DateTimeField()
    edited_at = models.DateTimeField(null=True, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)  # taken back, or removed
    moderator = models.ForeignKey(PERSON, null=True, blank=True, on_delete=models.PROTECT,
                                  related_name="+")
    removal_reason = models.TextField(blank=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    objects = CommentQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["unit", "ref", "state"]),
                   models.Index(fields=["author", "state"]),
                   models.Index(fields=["state", "id"])]
        constraints = [
            one_of("state", CommentState, "comment_state_known"),
            about_one("comment_about_one"),
            models.CheckConstraint(condition=Q(ref="") | Q(unit__isnull=False),
                                   name="comment_ref_of_unit"),
            models.CheckConstraint(condition=~Q(text=""), name="comment_has_words"),
            models.CheckConstraint(condition=~Q(state="removed") | ~Q(removal_reason=""),
                                   name="comment_removed_with_reason"),
        ]

    def __str__(self):
        return f"comment {self.pk}"

    @property
    def subject(self):
        return f"comment/{self.pk}"

    @property
    def thing(self):
        return self.unit or self.part or self.family

    def get_absolute_url(self):
        return f"{self._page}?comment={self.pk}#comment-{self.pk}"

    @property
    def _page(self):
        if self.unit_id:
            return reverse("unit_discussion", args=[self.unit_id])
        if self.part_id:
            return reverse("part_discussion", args=[self.part_id])
        return reverse("family_discussion", args=[self.family.slug if self.family else ""])


class Watch(models.Model):
    """That somebody wants to hear of changes of a unit, a part or a family."""

    person = models.ForeignKey(PERSON, on_delete=models.CASCADE, related_name="watches")
    unit = models.ForeignKey(Unit, null=True, blank=True, on_delete=models.CASCADE,
                             related_name="watches")
    part = models.ForeignKey(Part, null=True, blank=True, on_delete=models.CASCADE,
                             related_name="watches")
    family = models.ForeignKey(BoardFamily, null=True, blank=True, on_delete=models.CASCADE,
                               related_name="watches")
    since = models.DateTimeField(auto_now_add=True)

    objects = AboutQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
        verbose_name_plural = "watches"
        constraints = [
            about_one("watch_about_one"),
            *(models.UniqueConstraint(fields=["person", kind], name=f"watch_{kind}_once",
                                      condition=Q(**{f"{kind}__isnull": False}))
              for kind in KINDS),
        ]

    @property
    def thing(self):
        return self.unit or self.part or self.family


class NoticeKind(models.TextChoices):
    """What happened. `words` of a notice say more; these words begin its line."""

    SENT_BACK = "sent_back", "Sent back with remarks"
    DECLINED = "declined", "Declined"
    PUBLISHED = "published", "Published"
    VERSION = "version", "A new version is public"
    WITHDRAWN = "withdrawn", "Withdrawn"
    REINSTATED = "reinstated", "Public again"
    CORRECTION = "correction", "Somebody proposes a correction"
    COMMENT = "comment", "A comment"
    COMMENT_SHOWN = "comment_shown", "Your comment is public now"
    COMMENT_REMOVED = "comment_removed", "Your comment was removed"
    REPLY = "reply", "A reply of a maker or seller"
    REPLY_DECIDED = "reply_decided", "Your reply was looked at"
    REPORT = "report", "A report of yours was resolved"
    DECISION = "decision", "A decision with its reasons"
    PROPOSAL = "proposal", "A proposal of yours was decided"
    FAMILY = "family", "A family changed"
    PART = "part", "A part of the library changed"
    ACCOUNT = "account", "About your account"
    SEARCH = "search", "Found by a search of yours"


# Of these the words are a title, a reason or facts: what a person wrote.
OF_A_PERSON = frozenset((NoticeKind.PUBLISHED, NoticeKind.VERSION, NoticeKind.WITHDRAWN,
                         NoticeKind.REINSTATED, NoticeKind.CORRECTION))


class Digest(models.Model):
    """One e-mail with what is new: made first, sent after, and sent again until it went out."""

    person = models.ForeignKey(PERSON, on_delete=models.CASCADE, related_name="digests")
    made_at = models.DateTimeField()
    taken_until = models.DateTimeField(null=True, blank=True)      # by who is sending it now
    attempts = models.PositiveSmallIntegerField(default=0)
    sent_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["person"], condition=Q(sent_at__isnull=True),
                                               name="digest_waits_once")]


class NoticeQuerySet(models.QuerySet):
    def unread(self):
        return self.filter(read_at=None)


class Notice(models.Model):
    """That something happened, told to one person."""

    person = models.ForeignKey(PERSON, on_delete=models.CASCADE, related_name="notices")
    kind = models.CharField(max_length=20, choices=NoticeKind)
    unit = models.ForeignKey(Unit, null=True, blank=True, on_delete=models.CASCADE,
                             related_name="+")
    subject = models.CharField(max_length=120, blank=True)         # "comment/12", "publication/3"
    words = models.CharField(max_length=500, blank=True)
    address = models.CharField(max_length=300, blank=True)         # a path of this site
    event = models.CharField(max_length=64)            # digest of what happened, see notify()
    is_once = models.BooleanField(default=False)       # never again, even after it was read
    at = models.DateTimeField(auto_now_add=True)
    read_at = models.DateTimeField(null=True, blank=True)
    digest = models.ForeignKey(Digest, null=True, blank=True, on_delete=models.SET_NULL,
                               related_name="notices")

    objects = NoticeQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
        indexes = [
            models.Index(fields=["person", "-id"]),
            models.Index(fields=["person"], condition=Q(read_at__isnull=True),
                         name="notice_unread"),
        ]
        constraints = [
            one_of("kind", NoticeKind, "notice_kind_known"),
            models.UniqueConstraint(fields=["person", "event"], name="notice_told_once",
                                    condition=Q(read_at__isnull=True) | Q(is_once=True)),
        ]

    @property
    def told(self):
        """Its words; a language is put only on those that a room wrote."""
        return AsWritten(self.words) if self.kind in OF_A_PERSON else self.words


class DigestChoice(models.TextChoices):
    DAILY = "daily", "Once a day, when there is something new"
    NEVER = "never", "Never"


class DigestSetting(models.Model):
    """How often a person wants an e-mail; without a row, daily."""

    person = models.OneToOneField(PERSON, on_delete=models.CASCADE, related_name="digest_setting")
    every = models.CharField(max_length=6, choices=DigestChoice, default=DigestChoice.DAILY)
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = [one_of("every", DigestChoice, "digest_choice_known")]
