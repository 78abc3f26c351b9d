"""People who sign in, and what they are trusted with."""
from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils import timezone

from core import clock

FORMER = "a former contributor"     # whoever deleted their account


class Role(models.TextChoices):
    """No ladder: each role may do what its own rows of the policy say, and nothing by rank."""

    CONTRIBUTOR = "contributor"
    REVIEWER = "reviewer"
    MODERATOR = "moderator"
    ADMINISTRATOR = "administrator"


TRUSTED = frozenset({Role.REVIEWER, Role.MODERATOR, Role.ADMINISTRATOR})


class User(AbstractUser):
    """An account. Its user name is its public name; its e-mail address is shown to nobody else."""

    role = models.CharField(max_length=16, choices=Role, default=Role.CONTRIBUTOR)
    email_verified_at = models.DateTimeField(
        null=True, blank=True, help_text="Kept in step with the address that allauth confirmed.")
    suspended_at = models.DateTimeField(null=True, blank=True)
    suspended_reason = models.TextField(blank=True)
    deleted_at = models.DateTimeField(null=True, blank=True)
    # Kept beside the notices, so that no page has to count them.
    unread_notices = models.PositiveIntegerField(default=0)

    # Times of what every account may keep (settings.ACCOUNT_BYTES, ACCOUNT_SHEETS).
    room = models.PositiveSmallIntegerField(default=1, db_default=1)

    # As chosen on the page for it; mails of the worker are written in it.
    language = models.CharField(max_length=8, blank=True)

    # False on the user of a request whose session has passed no second factor (SecondFactor).
    acts_in_role = True

    class Meta(AbstractUser.Meta):
        constraints = [
            models.CheckConstraint(condition=models.Q(role__in=Role.values), name="user_role_known")
        ]

    def get_username(self):
        return FORMER if self.deleted_at else super().get_username()

    @property
    def acting_role(self):
        """The role this session has: without a second factor a trusted person contributes only.

        An administrator then has no role at all, for administrators decide on no content.
        """
        if self.acts_in_role or self.role == Role.CONTRIBUTOR:
            return self.role
        return "" if self.role == Role.ADMINISTRATOR else Role.CONTRIBUTOR

    def has_role(self, *roles):
        """Whether this person acts in one of the roles. Whether suspended is another question."""
        return self.is_active and self.acting_role in roles

    @property
    def is_reviewer(self):
        return self.has_role(Role.REVIEWER)

    @property
    def is_moderator(self):
        return self.has_role(Role.MODERATOR)

    @property
    def is_administrator(self):
        return self.has_role(Role.ADMINISTRATOR)

    @property
    def is_suspended(self):
        return self.suspended_at is not None

    @property
    def is_verified(self):
        return self.email_verified_at is not None

    @property
    def in_good_standing(self):
        """Whether this person may change anything but their own account."""
        return self.is_active and self.is_verified and not self.is_suspended


class Scope(models.TextChoices):
    """What a token may be used for. None of them carries a trusted role: a token is one factor."""

    READ = "read", "Read what you may read"
    CONTRIBUTE = "contribute", "Write on your bench"


class ApiTokenQuerySet(models.QuerySet):
    def usable(self):
        return self.filter(revoked_at=None, expires_at__gt=clock.now())


class ApiToken(models.Model):
    """A secret by which a program acts for its owner; only its digest is kept."""

    owner = models.ForeignKey(User, models.CASCADE, related_name="api_tokens")
    name = models.CharField(max_length=60)
    prefix = models.CharField(max_length=8, unique=True)
    digest = models.CharField(max_length=64)
    scopes = models.JSONField(default=list)
    created_at = models.DateTimeField(default=timezone.now)
    expires_at = models.DateTimeField()
    last_used_at = models.DateTimeField(null=True)
    revoked_at = models.DateTimeField(null=True)

    objects = ApiTokenQuerySet.as_manager()

    class Meta:
        ordering = ["-created_at"]

    def __str__(self):
        return self.name

    @property
    def is_usable(self):
        return self.revoked_at is None and self.expires_at > clock.now()
