"""The bytes of a picture. Originals are asked for elsewhere, by those who may have them."""
from io import BytesIO

from django.core.files.storage import storages
from django.http import FileResponse, Http404, HttpResponse
from django.utils.cache import get_conditional_response, patch_cache_control
from PIL import Image

from teardowns import access
from teardowns.imaging.scales import stored_scale
from teardowns.imaging.view_from_above import drawn, view_from_above
from teardowns.models import PhotoDerivative
from teardowns.services.page_state import page_state
from teardowns.services.photo_files import original_name
from teardowns.services.shown_photo import shown_photo
from teardowns.views.kept_pages import Kept, keep, key_of, still_right

WIDEST, LONGEST = 2560, 1600         # px: of what is turned, and of the view
SUFFIX = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "image/avif": "avif",
          "image/heic": "heic"}


def photo_picture(request, pk, key, width):
    """One width of a photo: never the original, never with anything in it but pixels."""
    state = None if request.user.is_authenticated else page_state([pk])
    found = still_right(key_of(request), state) if state else None
    if found is None:
        found = _found(request, pk, key, width, state)
    told = get_conditional_response(request, found.etag)
    has_it = told is not None and told.status_code == 304
    answer = told if has_it else FileResponse(_opened("pictures", found.body.decode()))
    for name, value in found.headers.items():
        answer[name] = value
    return answer


def _found(request, pk, key, width, state):
    """Where the picture lies and what is said beside it, kept where everybody may see it."""
    photo = access.photo_to_see(request.user, pk, key)
    picture = PhotoDerivative.objects.filter(photo=photo, width=width).first()
    if picture is None:
        raise Http404("No picture of this width.")
    # A picture that was covered or taken down has to go from every cache soon: within the hour.
    public = photo.unit.is_public and photo.published_at
    etag = f'"{picture.path.replace("/", "-")}"'
    found = Kept(picture.path.encode(), {
        "Content-Type": picture.media_type, "ETag": etag,
        "Cache-Control": "public, max-age=3600" if public else "private, max-age=60"},
        etag, state)
    if state:
        keep(key_of(request), found)
    return found


def photo_from_above(request, pk, key):
    """The picture as it would look straight from above its newest scale of four corners."""
    shown = shown_photo(request.user, pk, key)
    photo, corners = shown.photo, [row for row in shown.scales if len(row.points) == 4]
    scale = corners[-1] if corners else None
    pictures = PhotoDerivative.objects.filter(photo=photo, width__lte=WIDEST)
    picture = pictures.order_by("width").last()
    if scale is None or picture is None:
        raise Http404("No scale of four corners.")
    view = view_from_above(stored_scale(scale.points, scale.lengths, scale.length_uncertainty),
                           (photo.width, photo.height), longest=LONGEST)
    written = BytesIO()
    with Image.open(_opened("pictures", picture.path), formats=["WEBP"]) as image:
        drawn(image.convert("RGB"), view).save(written, "WEBP", quality=82, method=1)
    answer = HttpResponse(written.getvalue(), content_type="image/webp")
    patch_cache_control(answer, private=True, max_age=60)
    return answer


def photo_original(request, pk, key):
    """The file as it came in, for who sent it; never shown in the page."""
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
