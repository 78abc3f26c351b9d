"""People who sign in, and what they are trusted with."""
from django.contrib.auth.models import AbstractUser
from django.db import models


class Role(models.TextChoices):
    CONTRIBUTOR = "contributor"
    REVIEWER = "reviewer"
    MODERATOR = "moderator"
    ADMINISTRATOR = "administrator"


RANK: dict[str, int] = {role: rank for rank, role in enumerate(Role, start=1)}


class User(AbstractUser):
    role = models.CharField(max_length=16, choices=Role, default=Role.CONTRIBUTOR)

    class Meta(AbstractUser.Meta):
        constraints = [
            models.CheckConstraint(condition=models.Q(role__in=Role.values), name="user_role_known")
        ]

    @property
    def is_reviewer(self):
        return self.has_role(Role.REVIEWER)

    def has_role(self, role):
        """Whether this person may do what the role, or a higher one, allows."""
        return self.is_active and RANK[self.role] >= RANK[role]
