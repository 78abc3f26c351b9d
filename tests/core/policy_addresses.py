"""For each address: what it names in the world, and what a form there sends."""
from uuid import uuid4

from django.urls import reverse

from core.accounts.models import Role
from tests.handing_in import sent

NOTHING = str(uuid4())
DECIDED = {"code": "not_this_unit", "facts": "Photo 2 shows another board.", "step": "decide"}


def _unit(world):
    return [world.unit.pk]


def _photo(world):
    return [world.unit.pk, "board"]


def _log(world):
    return [world.unit.pk, world.things["log"].key]


def _of(name):
    return lambda world: [getattr(world.things[name], "pk", 0)]


# What the address names, by the name of the address; those not here name nothing.
ARGS = {
    "unit_detail": _unit, "unit_document": _unit, "unit_bag": _unit,
    "unit_versions": _unit, "unit_correct": _unit,
    "unit_withdraw": _unit, "unit_reinstate": _unit, "unit_working_copy": _unit,
    "unit_working": lambda world: [world.unit.pk, "power/bulk_capacitor", "low"],
    "unit_claim_working": lambda world: [world.unit.pk, "out"],
    "unit_version": lambda world: [world.unit.pk, 1], "unit_report": _unit, "unit_cite": _unit,
    "unit_report_file": _unit, "unit_card": _unit, "unit_badge": _unit,
    "unit_version_badge": lambda world: [world.unit.pk, 1],
    "unit_by_title": lambda world: [world.unit.pk, "some-title"],
    "unit_difference": lambda world: [world.unit.pk, 1, 2],
    "unit_correction": lambda world: [
        world.unit.pk, getattr(world.things.get("correction"), "pk", 0)],
    "unit_photo": _photo, "photo_original": _photo, "photo_cover": _photo,
    "photo_from_above": _photo,
    "photo_picture": lambda world: [*_photo(world), 400],
    "photo_read_again": lambda world: [*_photo(world), world.things["reading"].pk],
    "bench_photos": _unit, "bench_photo": _photo, "bench_upload_start": _unit,
    "bench_upload": lambda world: [world.unit.pk, world.things["upload"].pk],
    "unit_recordings": _unit, "unit_recording": _log, "recording_window": _log,
    "recording_chart": _log, "recording_values": _log, "recording_original": _log,
    "bench_recordings": _unit, "bench_capabilities": _unit, "bench_recording": _log,
    "bench_recording_upload_start": _unit, "bench_recording_layout": _log,
    "bench_recording_upload": lambda world: [world.unit.pk, world.things["log_upload"].pk],
    "bench_plate_reading": _unit, "bench_submit": _unit, "bench_take_back": _unit,
    "bench_discard": _unit, "bench_section": lambda world: [world.unit.pk, "outside"],
    "unit_discussion": _unit, "unit_replies": _unit, "reply_new": _unit,
    "reply_edit": lambda world: [world.unit.pk, world.things["reply"].pk],
    "data_package": lambda world: ["underplate-2026-01-09-1"],
    "moderation_unit": _unit, "moderation_files": _unit, "unit_merge": _unit,
    "moderation_decide": lambda world: [world.unit.pk, "quarantine"],
    "review_sheet": _unit, "review_claim": _unit, "review_release": _unit, "review_decide": _unit,
    "review_close": _unit,
    "review_measure": lambda world: [world.unit.pk, "measurement", "mass"],
    "scenario_edit": lambda world: ["loose_metal"],
    "part_detail": _of("part"), "part_discussion": _of("part"), "part_proposal": _of("proposal"),
    "part_decide": _of("proposal"), "part_take_back": _of("proposal"),
    "family_detail": lambda world: [world.things["family"].slug],
    "family_discussion": lambda world: [world.things["family"].slug],
    "family_propose": lambda world: [world.things["family"].slug],
    "feed_family": lambda world: [world.things["family"].slug],
    "family_member": _of("member"), "family_decide": _of("member"),
    "family_take_back": _of("member"), "lookalike": _of("lookalike"),
    "comment_edit": _of("comment"), "comment_retract": _of("comment"),
    "comment_moderate": _of("comment"),
    "reply_moderate": lambda world: [world.things["reply"].versions.get().pk],
    "report_case": _of("report"), "appeal_case": _of("appeal"), "hidden_case": _of("hidden"),
    "report_receipt": lambda world: [world.things["report"].uid],
    "statement": lambda world: [world.things["statement"].uid],
    "person": lambda world: [world.people["other"].pk],
    "digest_stop": lambda world: ["none"],
    "account_confirm_email": lambda world: ["none"],
    "account_reset_password_from_key": lambda world: ["none", "none"],
    "mfa_edit_webauthn": lambda world: [0], "mfa_remove_webauthn": lambda world: [0],
}
ARGS |= dict.fromkeys((
    "api_unit", "api_unit_document", "api_unit_versions", "api_unit_assessments",
    "api_unit_replies", "api_unit_comments", "api_unit_photos", "api_unit_recordings",
    "api_unit_correct", "api_bench", "api_bench_fields", "api_bench_photos",
    "api_bench_recordings", "api_bench_submit", "api_bench_take_back", "api_bench_discard"), _unit)
ARGS |= {
    "api_rule": lambda world: ["power", "bridge"],
    "api_unit_version": ARGS["unit_version"], "api_unit_difference": ARGS["unit_difference"],
    "api_unit_assessment": lambda world: [
        world.unit.pk, getattr(world.unit.publication, "standing_id", 1)],
    "api_unit_working": lambda world: [world.unit.pk, "safety", "accessible_output", "low"],
    "api_unit_claim_working": ARGS["unit_claim_working"],
    "api_unit_photo": _photo, "api_unit_annotations": _photo,
    "api_unit_recording": _log, "api_unit_recording_values": _log,
    "api_part": _of("part"), "api_part_comments": _of("part"),
    "api_family": ARGS["family_detail"], "api_family_comments": ARGS["family_detail"],
    "api_family_propose": ARGS["family_detail"],
    "api_bench_rows": lambda world: [world.unit.pk, "measurements"],
    "api_bench_row": lambda world: [world.unit.pk, "measurements", "mass"],
    "api_bench_section": lambda world: [world.unit.pk, "outside"],
}
# What a reader adds to the address.
QUERY = {
    "report": lambda world: f"?about=unit/{world.unit.pk}",
    "hide": lambda world: f"?about=unit/{world.unit.pk}",
    "api_search": lambda world: "?q=Veltrice",
    "api_bench_recordings POST": lambda world: "?kind=thermal",
}
# What is sent, where an empty form would not be told from a refusal; by the address.
BODIES = {
    "bench_submit": lambda world: sent(),
    "watch": lambda world: {"kind": "unit", "key": world.unit.pk, "to": "on"},
    "review_claim": lambda world: {"no_conflict": "on"},
    "review_decide": lambda world: {"ref": "measurement/mass", "version": 1,
                                    "decision": "confirmed"},
    "moderation_decide": lambda world: DECIDED,
    "person": lambda world: {"act": "role", "role": Role.REVIEWER, "reason": "Sound work."},
    "report": lambda world: {"code": "other", "text": "Another board."},
    "hide": lambda world: {"reason": "A name can be read."},
    "unit_withdraw": lambda world: DECIDED,
    "unit_reinstate": lambda world: DECIDED,
    "unit_correct": lambda world: {"reason": "The plate prints 1 A, see the photo."},
    "unit_discussion": lambda world: {"text": "Which side is this?"},
    "family_decide": lambda world: {"decision": "decline", "seen": 1, "reason": "Another print."},
    "part_decide": lambda world: {"decision": "decline", "seen": 1, "reason": "No such page."},
    "notices": lambda world: {"up_to": 0},
    "moderation_files": lambda world: {"file": "photo/board", "reason": "A face in the window."},
    "unit_merge": lambda world: {"into": 0, "reason": "One specimen."},
    "api_unit_comments": lambda world: {"text": "Which side is this?"},
    "api_unit_correct": lambda world: {"reason": "The plate prints 1 A, see the photo."},
    "api_bench_submit": lambda world: {"own_rights": True, "edition": 1, "third_party": "none"},
    "api_bench_fields": lambda world: {"fields": {}},
}


def address(name, world, method="GET"):
    args = ARGS[name](world) if name in ARGS else []
    query = QUERY.get(f"{name} {method}", QUERY.get(name, lambda world: ""))
    return reverse(name, args=args) + query(world)


def is_api(name):
    """Whether the address speaks JSON, and reads tokens instead of sessions."""
    return name.startswith("api_") and name != "api_documentation"


def body(name, world):
    return BODIES[name](world) if name in BODIES else {}
