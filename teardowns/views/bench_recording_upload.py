"""A log in blocks."""
from django.conf import settings
from django.urls import reverse

from core.buckets import HOUR, limited
from teardowns.forms.recording_forms import ReceiveForm
from teardowns.models import Port, RecordingUpload
from teardowns.services.receive_recording import About, RecordingRefused
from teardowns.services.receive_recording_upload import (
    begin_recording_upload,
    finish_recording_upload,
)
from teardowns.views.block_upload import Arriving, arrived, begun


@limited("uploads", account=(settings.UPLOADS, HOUR), network=(2 * settings.UPLOADS, HOUR))
def bench_recording_upload_start(request, pk):
    return begun(request, pk, RECORDING)


def bench_recording_upload(request, pk, uid):
    return arrived(request, pk, uid, RECORDING)


def _begin(said, unit_pk, **about):
    """What the form would have refused is refused in the same words."""
    ports = Port.objects.filter(unit=unit_pk).values_list("key", "label")
    form = ReceiveForm({name: value for name, value in said.items() if isinstance(value, str)},
                       ports=list(ports))
    if not form.is_valid():
        first = next(iter(form.errors))
        raise ValueError(f"{form.fields[first].label}: {form.errors[first][0]}")
    told = form.cleaned_data
    return begin_recording_upload(
        unit_pk=unit_pk, about=About(told["kind"], told["port"], told["instrument"]), **about)


def _address(recording):
    return reverse("bench_recording", args=[recording.unit_id, recording.key])


RECORDING = Arriving(RecordingUpload, "recording", RecordingRefused, _begin,
                     finish_recording_upload, _address)
