"""Who may see or change what; the only place that decides."""
from django.http import Http404

from core.accounts.models import Role
from teardowns.models import Photo, Recording, Status, Unit

CHANGEABLE = (Status.DRAFT, Status.SENT_BACK)


def unit_to_see(user, pk, units=Unit.objects):
    """The unit, of those asked for, or 404: an unpublished one is nobody else's business."""
    unit = units.visible_to(user).select_related("contributor").filter(pk=pk).first()
    if unit is None:
        raise Http404("No such unit.")
    return unit


def unit_to_change(user, pk):
    """The contributor's own unit while its bench sheet is open, or 404."""
    unit = Unit.objects.filter(pk=pk, contributor=user.pk, status__in=CHANGEABLE).first()
    if unit is None:
        raise Http404("No such bench sheet.")
    return unit


def may_change(user, unit):
    """Whether the unit is this person's own and its bench sheet open."""
    return user.is_authenticated and unit.contributor_id == user.pk and unit.status in CHANGEABLE


def may_read_again(user, unit):
    """Whether this person may take a second reading: a reviewer, of somebody else's unit."""
    return user.is_authenticated and user.is_reviewer and unit.contributor_id != user.pk


def may_moderate(user):
    return user.is_authenticated and user.has_role(Role.MODERATOR)


def photo_to_see(user, unit_pk, key):
    """The photo of a unit that this person may see, or 404."""
    return _photo(unit_to_see(user, unit_pk), key)


def photo_to_change(user, unit_pk, key):
    """The photo on the contributor's own open bench sheet, or 404."""
    return _photo(unit_to_change(user, unit_pk), key)


def photo_to_cover(user, unit_pk, key):
    """The photo that this person may burn a region out of, or 404: a moderator may at any time."""
    if may_moderate(user):
        return photo_to_see(user, unit_pk, key)
    return photo_to_change(user, unit_pk, key)


def photo_with_original(user, unit_pk, key):
    """The photo whose original this person may have, or 404.

    The contributor has it until something was covered; a moderator always has.
    """
    photo = photo_to_see(user, unit_pk, key)
    is_own = user.pk == photo.unit.contributor_id and not photo.covers.exists()
    if not (is_own or may_moderate(user)):
        raise Http404("No such photo.")
    return photo


def photo_to_read_again(user, unit_pk, key):
    """The photo of somebody else's unit that this reviewer may measure once more, or 404."""
    photo = photo_to_see(user, unit_pk, key)
    if not may_read_again(user, photo.unit):
        raise Http404("No such photo.")
    return photo


def _photo(unit, key):
    photo = Photo.objects.shown().filter(unit=unit, key=key).first()
    if photo is None:
        raise Http404("No such photo.")
    photo.unit = unit
    return photo


def recording_to_see(user, unit_pk, key):
    """The recording, read and shown, of a unit that this person may see, or 404."""
    return _recording(unit_to_see(user, unit_pk), key, Recording.objects.shown())


def recording_to_change(user, unit_pk, key):
    """The recording on the contributor's own open bench sheet, read or not, or 404."""
    return _recording(unit_to_change(user, unit_pk), key, Recording.objects.kept())


def recording_with_original(user, unit_pk, key):
    """The recording whose original this person may have, its contributor or a moderator; or 404.

    Beside its numbers a log may hold what nobody else is to see: names, places, serial numbers.
    """
    unit = unit_to_see(user, unit_pk)
    if not (user.is_authenticated and user.pk == unit.contributor_id or may_moderate(user)):
        raise Http404("No such recording.")
    return _recording(unit, key, Recording.objects.kept())


def _recording(unit, key, recordings):
    recording = recordings.filter(unit=unit, key=key).select_related("port").first()
    if recording is None:
        raise Http404("No such recording.")
    recording.unit = unit
    return recording
