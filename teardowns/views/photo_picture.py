"""The bytes of a picture. Originals are asked for elsewhere, by those who may have them."""
from django.core.files.storage import storages
from django.http import FileResponse, Http404
from django.utils.cache import patch_cache_control

from teardowns import access
from teardowns.models import PhotoDerivative, Status
from teardowns.services.photo_files import original_name

SUFFIX = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "image/avif": "avif"}


def photo_picture(request, pk, key, width):
    """One width of a photo: never the original, never with anything in it but pixels."""
    photo = access.photo_to_see(request.user, pk, key)
    picture = PhotoDerivative.objects.filter(photo=photo, width=width).first()
    if picture is None:
        raise Http404("No picture of this width.")
    answer = FileResponse(_opened("pictures", picture.path), content_type=picture.media_type)
    answer["ETag"] = f'"{picture.path.replace("/", "-")}"'
    # A picture that was covered or taken down has to go from every cache soon: within the hour.
    public = photo.unit.status == Status.PUBLISHED
    patch_cache_control(answer, **({"public": True, "max_age": 3600} if public
                                   else {"private": True, "max_age": 60}))
    return answer


def photo_original(request, pk, key):
    """The file as it came in, for its contributor and for moderators; never shown in the page."""
    photo = access.photo_with_original(request.user, pk, key)
    name = f"{photo.key}.{SUFFIX.get(photo.media_type, 'bin')}"
    answer = FileResponse(_opened("originals", original_name(photo.sha256)), as_attachment=True,
                          filename=name, content_type="application/octet-stream")
    patch_cache_control(answer, private=True, no_store=True)
    return answer


def _opened(alias, name):
    try:
        return storages[alias].open(name)
    except FileNotFoundError as error:
        raise Http404("The file is missing; a moderator has to look into it.") from error
