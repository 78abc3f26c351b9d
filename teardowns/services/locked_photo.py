"""The photo that a service is about to change, one change at a time."""
from teardowns import access
from teardowns.models import Photo


def locked_photo(author, photo: Photo) -> Photo:
    """As it stands now, locked until the transaction ends. Raises Http404."""
    Photo.objects.select_for_update().get(pk=photo.pk)
    return access.photo_to_change(author, photo.unit_id, photo.key)
