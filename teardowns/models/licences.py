"""Each time that something was handed in, and the terms under which it was."""
from django.conf import settings
from django.db import models

from .choices import one_of
from .photos import Photo
from .units import Unit


class Submission(models.Model):
    """One handing in of a unit, or of a correction of it."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="submissions")
    correction = models.ForeignKey("teardowns.Correction", null=True, blank=True,
                                   on_delete=models.PROTECT, related_name="submissions")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT,
                               related_name="submissions")
    message = models.TextField(blank=True)                 # to those who review it
    why_no_photo = models.TextField(blank=True)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["author", "at"])]


class ThirdParty(models.TextChoices):
    """Whether something in it was made by somebody else."""

    NONE = "none", "No: all of it is my own"
    PERMITTED = "permitted", "Yes, and I may hand it in under these terms"


class ContributionLicence(models.Model):
    """What the author of a submission agreed to and stated; written once, never changed."""

    submission = models.OneToOneField(Submission, on_delete=models.PROTECT, related_name="licence")
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="licences")
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT,
                               related_name="+")
    measurements = models.CharField(max_length=40)         # "CC0-1.0"
    works = models.CharField(max_length=40)                # of text and photos: "CC-BY-4.0"
    edition = models.PositiveSmallIntegerField()           # of the text, see teardowns.licence
    text_sha256 = models.CharField(max_length=64)
    own_rights = models.BooleanField()                     # stated
    third_party = models.CharField(max_length=12, choices=ThirdParty)
    third_party_note = models.TextField(blank=True)        # whose it is, and who permitted it
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            one_of("third_party", ThirdParty, "licence_third_party_known"),
            models.CheckConstraint(condition=models.Q(own_rights=True),
                                   name="licence_states_own_rights"),
            models.CheckConstraint(
                condition=~models.Q(third_party="permitted") | ~models.Q(third_party_note=""),
                name="licence_third_party_is_named"),
        ]

    @property
    def others(self):
        """What in it was made by somebody else, as its author says."""
        return self.third_party_note if self.third_party == ThirdParty.PERMITTED else ""


class PhotoPrivacyCheck(models.Model):
    """Somebody looked at this version of a photo for what is private, and saw nothing of it."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="privacy_checks")
    photo_version = models.PositiveIntegerField()
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT,
                               related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["photo", "photo_version", "author"],
                                    name="privacy_checked_once"),
        ]
