"""The addresses of the domain's pages; a name is also its view's module and its template."""
from django.urls import path

from teardowns.views.bench_capabilities import bench_capabilities
from teardowns.views.bench_list import bench_list
from teardowns.views.bench_new import bench_new
from teardowns.views.bench_photo import bench_photo
from teardowns.views.bench_photos import bench_photos
from teardowns.views.bench_plate_reading import bench_plate_reading
from teardowns.views.bench_recording import bench_recording
from teardowns.views.bench_recording_layout import bench_recording_layout
from teardowns.views.bench_recording_upload import (
    bench_recording_upload,
    bench_recording_upload_start,
)
from teardowns.views.bench_recordings import bench_recordings
from teardowns.views.bench_section import bench_section
from teardowns.views.bench_upload import bench_upload, bench_upload_start
from teardowns.views.front_page import front_page
from teardowns.views.hazard_list import hazard_list
from teardowns.views.method import method
from teardowns.views.photo_cover import photo_cover
from teardowns.views.photo_picture import photo_from_above, photo_original, photo_picture
from teardowns.views.photo_read_again import photo_read_again
from teardowns.views.recording_numbers import (
    recording_chart,
    recording_original,
    recording_values,
    recording_window,
)
from teardowns.views.scenario_edit import scenario_edit
from teardowns.views.scenario_list import scenario_list
from teardowns.views.styleguide import styleguide
from teardowns.views.unit_claim_working import unit_claim_working
from teardowns.views.unit_detail import unit_detail
from teardowns.views.unit_document import unit_document
from teardowns.views.unit_list import unit_list
from teardowns.views.unit_photo import unit_photo
from teardowns.views.unit_recording import unit_recording
from teardowns.views.unit_recordings import unit_recordings
from teardowns.views.unit_working import unit_working

site_urls = [
    path("", front_page, name="front_page"),
    path("units/", unit_list, name="unit_list"),
    path("method/", method, name="method"),
    path("method/scenarios/", scenario_list, name="scenario_list"),
    path("method/scenarios/<slug:scenario>/", scenario_edit, name="scenario_edit"),
    path("hazards/", hazard_list, name="hazard_list"),
    path("styleguide/", styleguide, name="styleguide"),
]
unit_urls = [
    path("units/<int:pk>/", unit_detail, name="unit_detail"),
    path("units/<int:pk>/working/<path:line_id>/<slug:end>/", unit_working, name="unit_working"),
    path("units/<int:pk>/claims/<slug:key>/", unit_claim_working, name="unit_claim_working"),
    path("units/<int:pk>/document.json", unit_document, name="unit_document"),
]
photo_urls = [
    path("units/<int:pk>/photos/<slug:key>/", unit_photo, name="unit_photo"),
    path("units/<int:pk>/photos/<slug:key>/<int:width>.webp", photo_picture, name="photo_picture"),
    path("units/<int:pk>/photos/<slug:key>/from-above.webp", photo_from_above,
         name="photo_from_above"),
    path("units/<int:pk>/photos/<slug:key>/original/", photo_original, name="photo_original"),
    path("units/<int:pk>/photos/<slug:key>/cover/", photo_cover, name="photo_cover"),
    path("units/<int:pk>/photos/<slug:key>/read-again/<int:reading>/", photo_read_again,
         name="photo_read_again"),
    path("bench/<int:pk>/photos/", bench_photos, name="bench_photos"),
    path("bench/<int:pk>/photos/uploads/", bench_upload_start, name="bench_upload_start"),
    path("bench/<int:pk>/photos/uploads/<uuid:uid>/", bench_upload, name="bench_upload"),
    path("bench/<int:pk>/photos/<slug:key>/", bench_photo, name="bench_photo"),
]
recording_urls = [
    path("units/<int:pk>/recordings/", unit_recordings, name="unit_recordings"),
    path("units/<int:pk>/recordings/<slug:key>/", unit_recording, name="unit_recording"),
    path("units/<int:pk>/recordings/<slug:key>/window.json", recording_window,
         name="recording_window"),
    path("units/<int:pk>/recordings/<slug:key>/chart.svg", recording_chart, name="recording_chart"),
    path("units/<int:pk>/recordings/<slug:key>/values.csv", recording_values,
         name="recording_values"),
    path("units/<int:pk>/recordings/<slug:key>/original/", recording_original,
         name="recording_original"),
    path("bench/<int:pk>/recordings/", bench_recordings, name="bench_recordings"),
    path("bench/<int:pk>/recordings/capabilities/", bench_capabilities, name="bench_capabilities"),
    path("bench/<int:pk>/recordings/uploads/", bench_recording_upload_start,
         name="bench_recording_upload_start"),
    path("bench/<int:pk>/recordings/uploads/<uuid:uid>/", bench_recording_upload,
         name="bench_recording_upload"),
    path("bench/<int:pk>/recordings/<slug:key>/", bench_recording, name="bench_recording"),
    path("bench/<int:pk>/recordings/<slug:key>/layout/", bench_recording_layout,
         name="bench_recording_layout"),
]
bench_urls = [
    path("bench/", bench_list, name="bench_list"),
    path("bench/new/", bench_new, name="bench_new"),
    path("bench/<int:pk>/plate-reading/", bench_plate_reading, name="bench_plate_reading"),
    path("bench/<int:pk>/<slug:section>/", bench_section, name="bench_section"),
]
urlpatterns = [*site_urls, *unit_urls, *photo_urls, *recording_urls, *bench_urls]
