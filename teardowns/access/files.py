"""Photos and logs of a unit: who sees, changes and takes them down."""
from django.http import Http404

from teardowns.models import Photo, Recording

from .units import may_moderate, may_read_again, sees_working_copy, unit_to_change, unit_to_see


def photo_to_see(user, unit_pk, key):
    """The photo of a unit that this person may see, or 404."""
    return _photo(user, unit_to_see(user, unit_pk), key)


def photo_to_change(user, unit_pk, key):
    """The photo on the contributor's own open bench sheet, or 404."""
    return _photo(user, unit_to_change(user, unit_pk), key)


def photo_to_cover(user, unit_pk, key):
    """The photo that this person may burn a region out of, or 404: a moderator may at any time.

    What is burnt out is gone from public versions as well, so no correction burns into the
    published photo of somebody else.
    """
    if may_moderate(user):
        return photo_to_see(user, unit_pk, key)
    photo = photo_to_change(user, unit_pk, key)
    if photo.published_at is not None and photo.author_id != user.pk:
        raise Http404("No such photo of yours.")
    return photo


def may_take_down(user, file):
    """Whether this person may take a photo or log off the pages: what was published would be gone
    from public versions at once, so there only who sent it may."""
    return file.published_at is None or file.author_id == user.pk


def photo_with_original(user, unit_pk, key):
    """The photo whose original this person may have, or 404.

    Who sent it has it until something was covered. Moderators have a page of their own, which asks
    why.
    """
    photo = photo_to_see(user, unit_pk, key)
    if user.pk != photo.author_id or photo.covers.exists():
        raise Http404("No such photo.")
    return photo


def photo_to_read_again(user, unit_pk, key):
    """The photo of somebody else's unit that this reviewer may measure once more, or 404."""
    photo = photo_to_see(user, unit_pk, key)
    if not may_read_again(user, photo.unit):
        raise Http404("No such photo.")
    return photo


def _photo(user, unit, key):
    photo = Photo.objects.shown().with_hidden().filter(unit=unit, key=key).first()
    if photo is None or not (_is_out(user, unit, photo) and _is_in_sight(user, photo)):
        raise Http404("No such photo.")
    photo.unit = unit
    return photo


def _is_in_sight(user, photo):
    """Whether it is not hidden for now; who sent it and moderators see it all the same."""
    return not photo.is_hidden or may_moderate(user) or photo.author_id == user.pk


def _is_out(user, unit, file):
    """Whether a photo or log of a unit that this person sees came with a published version, or they
    see what did not. A moderator looks at the former also while the record is in quarantine."""
    return file.published_at is not None or sees_working_copy(user, unit)


def recording_to_see(user, unit_pk, key):
    """The recording, read and shown, of a unit that this person may see, or 404."""
    return _recording(user, unit_to_see(user, unit_pk), key, Recording.objects.shown())


def recording_to_change(user, unit_pk, key):
    """The recording on the contributor's own open bench sheet, read or not, or 404."""
    return _recording(user, unit_to_change(user, unit_pk), key, Recording.objects.kept())


def recording_with_original(user, unit_pk, key):
    """The recording whose original this person may have, for it is who sent it; or 404.

    Beside its numbers a log may hold what nobody else is to see: names, places, serial numbers.
    """
    unit = unit_to_see(user, unit_pk)
    recording = _recording(user, unit, key, Recording.objects.kept())
    if not user.is_authenticated or user.pk != recording.author_id:
        raise Http404("No such recording.")
    return recording


def _recording(user, unit, key, recordings):
    recording = recordings.filter(unit=unit, key=key).select_related("port").first()
    if recording is None or not _is_out(user, unit, recording):
        raise Http404("No such recording.")
    recording.unit = unit
    return recording
