"""Who may call what: one table of every URL and method, refused unless stated.

The rule of a row is enforced here for every request; what it cannot know (whose unit it is)
is decided by `teardowns.access`, which the views call.
"""
from dataclasses import dataclass
from urllib.parse import urlencode

from django.core.exceptions import PermissionDenied
from django.http import HttpResponseNotAllowed
from django.shortcuts import redirect
from django.urls import reverse

from core.accounts.models import Role
from core.sent_forms import kept_until_sign_in

CONFIRM_ADDRESS = ("Your e-mail address is not confirmed yet. Open the link in the message that we "
                   "sent you, or ask for another under Account.")
SUSPENDED = ("Your account is suspended, so it can read but not write. The reason, and how to ask "
             "another moderator to look at it, stand under Account.")
BY_TOKEN = ("A token acts as a contributor, whatever the role of its owner. Sign in with a second "
            "factor for this.")
OTHER_ROLE = "Your role does not allow this."
READS = {"GET", "HEAD", "OPTIONS"}


@dataclass(frozen=True)
class Rule:
    """Whom a row lets in. Roles are no ladder: each is named where it may."""

    roles: frozenset[str] = frozenset()     # none: anyone, signed in or not
    standing: bool = False                  # to write takes a confirmed address and no suspension

    @property
    def by_trust(self):
        """Whether only roles that need a second factor may."""
        return bool(self.roles) and Role.CONTRIBUTOR not in self.roles


CONTRIBUTOR, REVIEWER, MODERATOR, ADMINISTRATOR = Role
ANYONE = Rule()
SIGNED_IN = OWN = Rule(frozenset(Role))
BENCH = Rule(frozenset({CONTRIBUTOR, REVIEWER, MODERATOR}), standing=True)
BENCH_READ = Rule(frozenset({CONTRIBUTOR, REVIEWER, MODERATOR}))
WRITE = BENCH
REPLY = Rule(frozenset({CONTRIBUTOR, REVIEWER}), standing=True)    # a moderator decides on replies
REVIEW = Rule(frozenset({REVIEWER}), standing=True)
MODERATE = Rule(frozenset({MODERATOR}), standing=True)
REVIEW_OR_MODERATE = Rule(frozenset({REVIEWER, MODERATOR}), standing=True)
ADMINISTER = Rule(frozenset({ADMINISTRATOR}), standing=True)
MODERATE_OR_ADMINISTER = Rule(frozenset({MODERATOR, ADMINISTRATOR}), standing=True)

POLICY: dict[str, dict[str, Rule]] = {
    "front_page": {"GET": ANYONE},
    "unit_list": {"GET": ANYONE},
    "plate_search": {"GET": ANYONE},
    "search_suggestions": {"GET": ANYONE},
    "unit_list_csv": {"GET": ANYONE},
    "unit_list_columns": {"GET": ANYONE},
    "population": {"GET": ANYONE},
    "unit_detail": {"GET": ANYONE},
    "compare": {"GET": ANYONE},
    "unit_working": {"GET": ANYONE},
    "unit_claim_working": {"GET": ANYONE},
    "unit_document": {"GET": ANYONE},
    "unit_bag": {"GET": ANYONE},
    "data": {"GET": ANYONE},
    "data_package": {"GET": ANYONE},
    "unit_version": {"GET": ANYONE},
    "unit_versions": {"GET": ANYONE},
    "unit_by_title": {"GET": ANYONE},
    "unit_report": {"GET": ANYONE, "POST": ANYONE},
    "unit_report_file": {"GET": ANYONE},
    "compare_report": {"GET": ANYONE, "POST": ANYONE},
    "compare_report_file": {"GET": ANYONE},
    "unit_cite": {"GET": ANYONE},
    "unit_card": {"GET": ANYONE},
    "unit_badge": {"GET": ANYONE},
    "unit_version_badge": {"GET": ANYONE},
    "unit_difference": {"GET": ANYONE},
    "unit_correct": {"GET": BENCH, "POST": BENCH},
    "unit_correction": {"GET": ANYONE},
    "unit_withdraw": {"GET": BENCH, "POST": BENCH},
    "unit_reinstate": {"GET": MODERATE, "POST": MODERATE},
    "rulebook_changes": {"GET": ANYONE},
    "unit_working_copy": {"GET": SIGNED_IN},
    "method": {"GET": ANYONE},
    "scenario_list": {"GET": ANYONE, "POST": MODERATE},
    "scenario_edit": {"GET": MODERATE, "POST": MODERATE},
    "hazard_list": {"GET": REVIEW_OR_MODERATE},
    "styleguide": {"GET": ANYONE},
    "audit_log": {"GET": ANYONE},
    "alive": {"GET": ANYONE},
    "ready": {"GET": ANYONE},
    "metrics": {"GET": ANYONE},         # its view hides it from all but administrators
    "bench_list": {"GET": SIGNED_IN},
    "bench_new": {"GET": BENCH, "POST": BENCH},
    "bench_section": {"GET": BENCH, "POST": BENCH},
    "bench_submit": {"GET": BENCH, "POST": BENCH},
    "bench_take_back": {"POST": BENCH},
    "bench_discard": {"GET": BENCH, "POST": BENCH},
    "language": {"GET": ANYONE, "POST": ANYONE},
    "csp_reports": {"POST": ANYONE},
    "licence": {"GET": ANYONE},
    "for_makers": {"GET": ANYONE},
    "bench_plate_reading": {"POST": BENCH},
    "bench_photos": {"GET": BENCH, "POST": BENCH},
    "bench_photo": {"GET": BENCH, "POST": BENCH},
    "bench_upload_start": {"POST": BENCH},
    "bench_upload": {"GET": BENCH, "PUT": BENCH},
    "bench_recordings": {"GET": BENCH, "POST": BENCH},
    "bench_recording": {"GET": BENCH, "POST": BENCH},
    "bench_recording_layout": {"GET": BENCH, "POST": BENCH},
    "bench_capabilities": {"GET": BENCH, "POST": BENCH},
    "bench_recording_upload_start": {"POST": BENCH},
    "bench_recording_upload": {"GET": BENCH, "PUT": BENCH},
    "unit_recordings": {"GET": ANYONE},
    "unit_recording": {"GET": ANYONE},
    "recording_window": {"GET": ANYONE},
    "recording_chart": {"GET": ANYONE},
    "recording_values": {"GET": ANYONE},
    "recording_original": {"GET": BENCH_READ},
    "unit_photo": {"GET": ANYONE},
    "photo_picture": {"GET": ANYONE},
    "photo_cover": {"GET": BENCH, "POST": BENCH},
    "photo_from_above": {"GET": SIGNED_IN},
    "photo_original": {"GET": BENCH_READ},
    "review_queue": {"GET": REVIEW},
    "review_ties": {"GET": REVIEW, "POST": REVIEW},
    "review_sheet": {"GET": REVIEW},
    "review_claim": {"GET": REVIEW, "POST": REVIEW},
    "review_release": {"POST": REVIEW},
    "review_decide": {"POST": REVIEW},
    "review_measure": {"GET": REVIEW, "POST": REVIEW},
    "review_close": {"POST": REVIEW},
    "photo_read_again": {"GET": REVIEW, "POST": REVIEW},
    "part_list": {"GET": ANYONE},
    "part_detail": {"GET": ANYONE},
    "part_propose": {"GET": WRITE, "POST": WRITE},
    "part_proposal": {"GET": SIGNED_IN},
    "part_decide": {"POST": MODERATE},
    "part_take_back": {"POST": WRITE},
    "family_list": {"GET": ANYONE},
    "family_detail": {"GET": ANYONE},
    "family_edit": {"GET": MODERATE, "POST": MODERATE},
    "family_propose": {"GET": WRITE, "POST": WRITE},
    "family_member": {"GET": SIGNED_IN},
    "family_decide": {"POST": MODERATE},
    "family_take_back": {"POST": WRITE},
    "library_queue": {"GET": MODERATE},
    "lookalike": {"GET": MODERATE, "POST": MODERATE},
    "unit_discussion": {"GET": ANYONE, "POST": WRITE},
    "part_discussion": {"GET": ANYONE, "POST": WRITE},
    "family_discussion": {"GET": ANYONE, "POST": WRITE},
    "comment_edit": {"GET": WRITE, "POST": WRITE},
    "comment_retract": {"POST": WRITE},
    "moderation_comments": {"GET": MODERATE},
    "comment_moderate": {"GET": MODERATE, "POST": MODERATE},
    "saved_searches": {"GET": OWN, "POST": OWN},
    "search_save": {"POST": OWN},
    "search_drop": {"POST": OWN},
    "watch_list": {"GET": OWN},
    "watch": {"POST": WRITE},
    "notices": {"GET": OWN, "POST": OWN},
    "digest_setting": {"POST": OWN},
    "digest_stop": {"GET": ANYONE, "POST": ANYONE},
    "unit_replies": {"GET": ANYONE},
    "reply_new": {"GET": REPLY, "POST": REPLY},
    "reply_edit": {"GET": REPLY, "POST": REPLY},
    "moderation_replies": {"GET": MODERATE},
    "reply_moderate": {"GET": MODERATE, "POST": MODERATE},
    "feed_newest": {"GET": ANYONE},
    "feed_serious": {"GET": ANYONE},
    "feed_family": {"GET": ANYONE},
    "moderation": {"GET": MODERATE},
    "moderation_files": {"GET": MODERATE, "POST": MODERATE},
    "moderation_unit": {"GET": MODERATE, "POST": MODERATE},
    "moderation_decide": {"GET": MODERATE, "POST": MODERATE},
    "unit_merge": {"GET": MODERATE, "POST": MODERATE},
    "moderation_numbers": {"GET": ANYONE},
    "reports": {"GET": MODERATE},
    "report_case": {"GET": MODERATE, "POST": MODERATE},
    "appeals": {"GET": MODERATE},
    "appeal_case": {"GET": MODERATE, "POST": MODERATE},
    "hidden_case": {"GET": MODERATE, "POST": MODERATE},
    "saved_replies": {"GET": MODERATE, "POST": MODERATE},
    "people": {"GET": MODERATE_OR_ADMINISTER},
    "person": {"GET": MODERATE_OR_ADMINISTER, "POST": MODERATE_OR_ADMINISTER},
    "approvals": {"GET": MODERATE_OR_ADMINISTER, "POST": MODERATE_OR_ADMINISTER},
    "report": {"GET": ANYONE, "POST": ANYONE},
    "report_receipt": {"GET": ANYONE},
    "hide": {"GET": BENCH_READ, "POST": BENCH},
    "statements": {"GET": OWN},
    "statement": {"GET": OWN, "POST": OWN},
    "sign_in": {"GET": ANYONE, "POST": ANYONE},
    "account_login": {"GET": ANYONE, "POST": ANYONE},
    "mfa_authenticate": {"GET": ANYONE, "POST": ANYONE},
    "mfa_login_webauthn": {"GET": ANYONE, "POST": ANYONE},
    "account_signup": {"GET": ANYONE, "POST": ANYONE},
    "sign_out": {"POST": ANYONE},        # also of a sign-in half done
    "account_logout": {"POST": ANYONE},
    "account_email_verification_sent": {"GET": ANYONE},
    "account_confirm_email": {"GET": ANYONE, "POST": ANYONE},
    "account_reset_password": {"GET": ANYONE, "POST": ANYONE},
    "account_reset_password_from_key": {"GET": ANYONE, "POST": ANYONE},
    "account_reset_password_done": {"GET": ANYONE},
    "account_reset_password_from_key_done": {"GET": ANYONE},
    "account_inactive": {"GET": ANYONE},
    "account": {"GET": OWN},
    "second_factor": {"GET": OWN},
    "mfa_index": {"GET": OWN},
    "mfa_view_recovery_codes": {"GET": OWN},
    "mfa_download_recovery_codes": {"GET": OWN},
    "mfa_list_webauthn": {"GET": OWN},
    "account_email": {"GET": OWN, "POST": OWN},
    "account_change_password": {"GET": OWN, "POST": OWN},
    "usersessions_list": {"GET": OWN, "POST": OWN},
    "account_reauthenticate": {"GET": OWN, "POST": OWN},
    "account_tokens": {"GET": OWN, "POST": OWN},
    "account_export": {"GET": OWN, "POST": OWN},
    "account_delete": {"GET": OWN, "POST": OWN},
    "mfa_reauthenticate": {"GET": OWN, "POST": OWN},
    "mfa_activate_totp": {"GET": OWN, "POST": OWN},
    "mfa_deactivate_totp": {"GET": OWN, "POST": OWN},
    "mfa_generate_recovery_codes": {"GET": OWN, "POST": OWN},
    "mfa_add_webauthn": {"GET": OWN, "POST": OWN},
    "mfa_reauthenticate_webauthn": {"GET": OWN, "POST": OWN},
    "mfa_edit_webauthn": {"GET": OWN, "POST": OWN},
    "mfa_remove_webauthn": {"GET": OWN, "POST": OWN},
    # The API; OPTIONS is answered by its middleware, from these rows.
    "api_index": {"GET": ANYONE},
    "api_openapi": {"GET": ANYONE},
    "api_documentation": {"GET": ANYONE},
    "api_method": {"GET": ANYONE},
    "api_rule": {"GET": ANYONE},
    "api_quantities": {"GET": ANYONE},
    "api_licence": {"GET": ANYONE},
    "api_log": {"GET": ANYONE},
    "api_unit": {"GET": ANYONE},
    "api_unit_document": {"GET": ANYONE},
    "api_unit_versions": {"GET": ANYONE},
    "api_unit_version": {"GET": ANYONE},
    "api_unit_difference": {"GET": ANYONE},
    "api_unit_assessments": {"GET": ANYONE},
    "api_unit_assessment": {"GET": ANYONE},
    "api_unit_working": {"GET": ANYONE},
    "api_unit_claim_working": {"GET": ANYONE},
    "api_unit_replies": {"GET": ANYONE},
    "api_units": {"GET": ANYONE},
    "api_facets": {"GET": ANYONE},
    "api_search": {"GET": ANYONE},
    "api_population": {"GET": ANYONE},
    "api_unit_photos": {"GET": ANYONE},
    "api_unit_photo": {"GET": ANYONE},
    "api_unit_annotations": {"GET": ANYONE},
    "api_unit_recordings": {"GET": ANYONE},
    "api_unit_recording": {"GET": ANYONE},
    "api_unit_recording_values": {"GET": ANYONE},
    "api_parts": {"GET": ANYONE},
    "api_part": {"GET": ANYONE},
    "api_families": {"GET": ANYONE},
    "api_family": {"GET": ANYONE},
    "api_unit_comments": {"GET": ANYONE, "POST": WRITE},
    "api_part_comments": {"GET": ANYONE, "POST": WRITE},
    "api_family_comments": {"GET": ANYONE, "POST": WRITE},
    "api_statements": {"GET": OWN},
    "api_bench_list": {"GET": SIGNED_IN, "POST": BENCH},
    "api_bench": {"GET": SIGNED_IN},
    "api_bench_submit": {"POST": BENCH},
    "api_bench_take_back": {"POST": BENCH},
    "api_bench_discard": {"POST": BENCH},
    "api_unit_correct": {"POST": BENCH},
    "api_bench_fields": {"GET": BENCH, "PATCH": BENCH},
    "api_bench_rows": {"GET": BENCH},
    "api_bench_row": {"GET": BENCH, "PUT": BENCH, "PATCH": BENCH, "DELETE": BENCH},
    "api_bench_section": {"GET": BENCH, "PUT": BENCH},
    "api_bench_photos": {"GET": BENCH, "POST": BENCH},
    "api_bench_recordings": {"GET": BENCH, "POST": BENCH},
    "api_part_propose": {"POST": WRITE},
    "api_family_propose": {"POST": WRITE},
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
    return refusal(request, stated[method])


def refusal(request, rule):
    """None for whom the rule lets in; else where to go, or PermissionDenied with the reason."""
    user = request.user
    if not rule.roles:
        return None
    if not user.is_authenticated:
        return kept_until_sign_in(request)
    if user.role not in rule.roles:
        raise PermissionDenied(OTHER_ROLE)
    if rule.by_trust and not user.acts_in_role:
        return _to_second_factor(request)
    if rule.standing and request.method not in READS:
        require_standing(user)
    return None


def require_standing(user):
    """Refuse, with the reason and the remedy, whoever may read but not write."""
    if user.is_suspended:
        raise PermissionDenied(SUSPENDED)
    if not user.is_verified:
        raise PermissionDenied(CONFIRM_ADDRESS)


def _to_second_factor(request):
    """To the page that asks for it; after a form was sent there is nothing to come back to."""
    if getattr(request, "api_token", None) is not None:
        raise PermissionDenied(BY_TOKEN)
    back = request.get_full_path() if request.method in READS else reverse("front_page")
    return redirect(f"{reverse('second_factor')}?{urlencode({'next': back})}")


def is_allowed(user, rule):
    """Whether a person satisfies the rule of a policy row, as far as it goes for reading."""
    if not rule.roles:
        return True
    return (user.is_authenticated and user.role in rule.roles
            and (user.acts_in_role or not rule.by_trust))
