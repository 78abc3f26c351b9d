"""What the site itself remembers: answers that were given once, and how much was asked for."""
from django.conf import settings
from django.db import models


class Answer(models.Model):
    """What a form that was sent under a key was answered with, for whoever sends it again."""

    person = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.CASCADE,
                               related_name="+")
    key = models.UUIDField()
    digest = models.CharField(max_length=64)            # of what was sent, and where
    status = models.PositiveSmallIntegerField(default=0)
    location = models.CharField(max_length=2000, blank=True)
    content = models.TextField(blank=True)              # JSON, of an answer to a program
    messages = models.JSONField(default=list)           # [level, text, tags]
    at = models.DateTimeField(auto_now_add=True, db_index=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["person", "key"], name="answer_once"),
            models.UniqueConstraint(fields=["key"], condition=models.Q(person=None),
                                    name="answer_once_to_strangers"),
        ]


class Bucket(models.Model):
    """How much of one limit is left to one person, network or site; fills up as time passes."""

    name = models.CharField(max_length=40)
    owner = models.CharField(max_length=64)             # a hash: no address of a reader is kept
    left = models.FloatField()
    at = models.FloatField(db_index=True)               # s since 1970, when `left` was right

    class Meta:
        constraints = [models.UniqueConstraint(fields=["name", "owner"], name="bucket_once")]


class Letter(models.Model):
    """A message that could not be sent yet; gone once it was."""

    sealed = models.TextField()                         # by core.mail: it may hold a secret link
    made_at = models.DateTimeField(auto_now_add=True)
    attempts = models.PositiveIntegerField(default=0)
    taken_until = models.DateTimeField(null=True, blank=True)   # by the run that sends it
