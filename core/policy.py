"""Who may call what: one table of every URL and method, refused unless stated.

The rule of a row is enforced here for every request; what it cannot know (whose unit it is)
is decided by `teardowns.access`, which the views call.
"""
from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpResponseNotAllowed

from core.accounts.models import Role

ANYONE = "anyone"
SIGNED_IN = "signed in"

POLICY: dict[str, dict[str, str]] = {
    "front_page": {"GET": ANYONE},
    "unit_list": {"GET": ANYONE},
    "unit_detail": {"GET": ANYONE},
    "unit_working": {"GET": ANYONE},
    "unit_claim_working": {"GET": ANYONE},
    "unit_document": {"GET": ANYONE},
    "method": {"GET": ANYONE},
    "scenario_list": {"GET": ANYONE, "POST": Role.MODERATOR},
    "scenario_edit": {"GET": Role.MODERATOR, "POST": Role.MODERATOR},
    "hazard_list": {"GET": Role.REVIEWER},
    "styleguide": {"GET": ANYONE},
    "bench_list": {"GET": SIGNED_IN},
    "bench_new": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_section": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_plate_reading": {"POST": Role.CONTRIBUTOR},
    "bench_photos": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_photo": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_upload_start": {"POST": Role.CONTRIBUTOR},
    "bench_upload": {"GET": Role.CONTRIBUTOR, "PUT": Role.CONTRIBUTOR},
    "bench_recordings": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_recording": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_recording_layout": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_capabilities": {"GET": Role.CONTRIBUTOR, "POST": Role.CONTRIBUTOR},
    "bench_recording_upload_start": {"POST": Role.CONTRIBUTOR},
    "bench_recording_upload": {"GET": Role.CONTRIBUTOR, "PUT": Role.CONTRIBUTOR},
    "unit_recordings": {"GET": ANYONE},
    "unit_recording": {"GET": ANYONE},
    "recording_window": {"GET": ANYONE},
    "recording_chart": {"GET": ANYONE},
    "recording_values": {"GET": ANYONE},
    "recording_original": {"GET": Role.CONTRIBUTOR},
    "unit_photo": {"GET": ANYONE},
    "photo_picture": {"GET": ANYONE},
    "photo_cover": {"GET": Role.MODERATOR, "POST": Role.MODERATOR},
    "photo_from_above": {"GET": SIGNED_IN},
    "photo_original": {"GET": Role.CONTRIBUTOR},
    "photo_read_again": {"GET": Role.REVIEWER, "POST": Role.REVIEWER},
    "sign_in": {"GET": ANYONE, "POST": ANYONE},
    "sign_out": {"POST": SIGNED_IN},
}


class RefuseUnstated:
    """Middleware: a route or a method without a policy is refused; so is a person without it."""

    def __init__(self, get_response):
        self.get_response = get_response

    def __call__(self, request):
        return self.get_response(request)

    def process_view(self, request, view, args, kwargs):
        return check_policy(request)


def check_policy(request):
    """The answer that refuses the request, or None when its policy lets it through."""
    stated = POLICY.get(request.resolver_match.view_name)
    if stated is None:
        raise PermissionDenied("This address has no stated policy.")
    method = "GET" if request.method == "HEAD" else request.method
    if method not in stated:
        return HttpResponseNotAllowed(sorted(stated))
    if is_allowed(request.user, stated[method]):
        return None
    if not request.user.is_authenticated:
        return redirect_to_login(request.get_full_path())
    raise PermissionDenied("Your role does not allow this.")


def is_allowed(user, rule):
    """Whether a person satisfies the rule of a policy row."""
    if rule == ANYONE:
        return True
    return user.is_authenticated and (rule == SIGNED_IN or user.has_role(rule))
