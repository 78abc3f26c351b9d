"""A photo in blocks."""
from django.conf import settings
from django.urls import reverse

from core.buckets import HOUR, limited
from teardowns.models import PhotoUpload, Stage
from teardowns.services.receive_photo import PhotoRefused
from teardowns.services.receive_upload import begin_upload, finish_upload
from teardowns.views.block_upload import Arriving, arrived, begun


@limited("uploads", account=(settings.UPLOADS, HOUR), network=(2 * settings.UPLOADS, HOUR))
def bench_upload_start(request, pk):
    return begun(request, pk, PHOTO)


def bench_upload(request, pk, uid):
    return arrived(request, pk, uid, PHOTO)


def _begin(said, **about):
    stage = said.get("stage", "")
    return begin_upload(stage=stage if stage in Stage.values else Stage.OTHER, **about)


def _address(photo):
    return reverse("bench_photo", args=[photo.unit_id, photo.key])


PHOTO = Arriving(PhotoUpload, "photo", PhotoRefused, _begin, finish_upload, _address)
