"""Who may ask what, as the matrix of the basis says it: written by hand, apart from the code.

An action is a line: for each person of SAID_OF one letter for all states, or one for each of
STATES. Y let in · N refused · H as if it were not there · S led to sign-in · F led to the second
factor · T the tombstone of a record that was withdrawn. Numbers are rows of the matrix, of
reliability and security, 4.2; where ours says more or less than it, the line says so.

Let in means by right: whether a form is filled in well, or comes too late, is asked elsewhere.
"""
SAID_OF = ("nobody", "owner", "other", "reviewer", "holder", "moderator", "administrator",
           "suspended", "unverified", "no_factor")
SUSPENDED = {"suspended_holder": "holder", "suspended_moderator": "moderator"}
PEOPLE = (*SAID_OF, *SUSPENDED)
STATES = ("draft", "submitted", "in_review", "sent_back", "published", "corrected",
          "quarantined", "withdrawn")
# nobody: not signed in · owner: contributed the unit · other: a contributor, and in the state
# “corrected” the author of the open correction · holder: a reviewer who took this unit on ·
# suspended: the owner, suspended · no_factor: the holder, without a second factor.

_LINES = {
    # nobody   owner    other    reviewer holder   moderator admin   suspended unverif. no factor
    # 1, 2, 48: what is public, for everybody.
    "public": "Y Y Y Y Y Y Y Y Y Y",
    # 44: one's own account, notices and decisions; a suspended person's too.
    "own account": "S Y Y Y Y Y Y Y Y Y",
    "own, not there": "S H H H H H H H H H",       # nobody here has set one up
    # 1, 2, 4, 5, 6: a record is there for its owner at every stage, for the reviewer who took it on
    # while it is looked at, for moderators once it was handed in, for others while it is public.
    "read": """HHHHYYHT YYYYYYYT HHHHYYHT HHHHYYHT HYYHYYHT
               HYYYYYYT HHHHYYHT YYYYYYYT HHHHYYHT HHHHYYHT""",
    # A picture, a log, a working: as their record. Of what was withdrawn its owner and moderators
    # see the rows on, and whoever reads any address of it finds the tombstone.
    "read part": """HHHHYYHT YYYYYYYY HHHHYYHT HHHHYYHT HYYHYYHT
                    HYYYYYYY HHHHYYHT YYYYYYYY HHHHYYHT HHHHYYHT""",
    "read part, signed in": """S YYYYYYYY HHHHYYHT HHHHYYHT HYYHYYHT
                               HYYYYYYY HHHHYYHT YYYYYYYY HHHHYYHT HHHHYYHT""",
    # 21: replies stand at what is public, and nowhere else.
    "read replies": """HHHHYYHT HHHHYYHT HHHHYYHT HHHHYYHT HHHHYYHT
                       HHHHYYHT HHHHYYHT HHHHYYHT HHHHYYHT HHHHYYHT""",
    # 1: only what was published has versions.
    "read version": """HHHHYYHT HHHHYYYT HHHHYYHT HHHHYYHT HHHHYYHT
                       HHHHYYYT HHHHYYHT HHHHYYYT HHHHYYHT HHHHYYHT""",
    # 1, 5: a proposed correction; a draft is its author's and, ours, its record's contributor's.
    "read correction": """HHHHHHHT HHHHHYHT HHHHHYHT HHHHHHHT HHHHHHHT
                          HHHHHHHT HHHHHHHT HHHHHYHT HHHHHHHT HHHHHHHT""",
    # 4, 5: the rows as they are worked on.
    "read working copy": """S YYYYYYYT HHHHHYHT HHHHHHHT HYYHHHHT
                            HYYYYHYT HHHHHHHT YYYYYYYT HHHHHHHT HHHHHHHT""",
    # 8: private files are for who sent them; moderators have a page that asks why; ours: no
    # reviewer has them.
    "read original": "S Y HHHHHHHT HHHHHHHT HHHHHHHT HHHHHHHT N Y HHHHHHHT HHHHHHHT",
    # 11: everybody but an administrator begins a sheet.
    "begin": "S Y Y Y Y Y N Y Y Y",
    "begin, write": "S Y Y Y Y Y N N N Y",
    # 12, 14: a bench sheet is open to its author alone, before it is handed in and when sent back.
    "bench": "S YHHYHHHH HHHHHYHH H H H N YHHYHHHH H H",
    "bench, write": "S YHHYHHHH HHHHHYHH H H H N N N H",
    # A file on its way in is its sender's.
    "own upload": "S YHHYHHHH H H H H N YHHYHHHH H H",
    "own upload, write": "S YHHYHHHH H H H H N N N H",
    # 13: handing in, and where it stands since.
    "hand in": "S YYYYYHYY HHHHHYHH H H H N YYYYYHYY H H",
    "hand in, write": "S YYYYYHYY HHHHHYHH H H H N N N H",
    # 27: burnt out by its contributor while the sheet is open, by a moderator at any time.
    "cover": "S YHHYHHHT HHHHHHHT HHHHHHHT HHHHHHHT HYYYYYYY N YHHYHHHT HHHHHHHT HHHHHHHT",
    "cover, write": "S YHHYHHHH H H H HYYYYYYY N N N H",
    # 28: of what is public, who contributed it, or reviews, or moderates; of what is out of sight
    # already, its contributor and moderators are told so.
    "hide": "S HHHHYYYH H HHHHYYHH HHHHYYHH HHHHYYYH N H H H",
    "hide, write": "S HHHHYYYH H HHHHYYHH HHHHYYHH HHHHYYYH N N N H",
    # 14; ours: a moderator, too, may say what is wrong and write it down for review.
    "correct": """S HHHHYYYT HHHHYYHT HHHHYYHT HHHHYYHT
                  HHHHYYYT N HHHHYYYT HHHHYYHT HHHHYYHT""",
    "correct, write": """S HHHHYYYT HHHHYYHT HHHHYYHT HHHHYYHT
                         HHHHYYYT N N N HHHHYYHT""",
    # 16, 31: its contributor, or a moderator.
    "withdraw": "S HHHHYYYY HHHHHHHT HHHHHHHT HHHHHHHT HHHHYYYY N HHHHYYYY HHHHHHHT HHHHHHHT",
    "withdraw, write": "S HHHHYYYY H H H HHHHYYYY N N N H",
    # 30: a moderator, of what was withdrawn.
    "reinstate": "S N N N N HHHHHHHY N N N N",
    # 22: a reviewer, of somebody else's work while it is looked at.
    "review desk": "S N N Y Y N N N N F",
    "claim": "S N N HYYHHHHH HYYHHHHH N N N N F",
    "review": "S N N H HYYHHHHH N N N N F",
    "release": "S N N H Y N N N N F",       # what one holds can always be given back
    # Ours: whoever reviews may read once more off what they see.
    "read again": "S N N HHHHYYHT HYYHYYHT N N N N F",
    "read again, write": "S N N HHHHYYHH HYYHYYHH N N N N F",
    # 47: administrators alone; a program that has the site's own password for it besides.
    "metrics": "H H H H H H Y H H H",
    # 29 to 31, 35 to 37: moderators alone, and no draft of anybody.
    "moderate": "S N N N N Y N N N N",
    "moderate unit": "S N N N N HYYYYYYY N N N N",
    # 38 to 40: moderators and administrators see accounts; who may change what is asked further on.
    "people": "S N N N N Y Y N N N",
    # Reviewers and moderators look at what is grave.
    "hazards": "S N N Y Y Y N N N F",
    # 17: everybody but an administrator takes part, in good standing to write.
    "take part": "S Y Y Y Y Y N Y Y Y",
    "take part, write": "S Y Y Y Y Y N N N Y",
    # 5, 17: before it is public only those at work on it talk about it.
    "discuss": """S HYYYYYHH HHHHYYHH HHHHYYHH HYYHYYHH
                  HYYYYYHH N N N HHHHYYHH""",
    "watch": "S YYYYYYYY HHHHYYHH HHHHYYHH HYYHYYHH HYYYYYYY N N N HHHHYYHH",
    # 19: everybody who sees it; ours: also who is suspended.
    "report": """HHHHYYHH YYYYYYYY HHHHYYHH HHHHYYHH HYYHYYHH
                 HYYYYYYY HHHHYYHH YYYYYYYY HHHHYYHH HHHHYYHH""",
    # 21: to what is public; for whom somebody speaks is checked before it is shown, by moderators,
    # who send none.
    "reply": """S HHHHYYHT HHHHYYHT HHHHYYHT HHHHYYHT
                N N HHHHYYHT HHHHYYHT HHHHYYHT""",
    "reply, write": "S HHHHYYHH HHHHYYHH HHHHYYHH HHHHYYHH N N N N HHHHYYHH",
    "own reply": """S HHHHHHHT HHHHYYHT HHHHHHHT HHHHHHHT
                    N N HHHHHHHT HHHHHHHT HHHHHHHT""",
    "own reply, write": "S H HHHHYYHH H H N N N N H",
    # 18: one's own.
    "own comment": "S Y H H H H N Y H H",
    "own comment, write": "S Y H H H H N N N H",
    # What was proposed to the library: its proposer's and the moderators'.
    "proposal": "S H Y H H Y H H H H",
    "own proposal, write": "S H Y H H H N N N H",
    # A statement of reasons: its addressee's and the moderators'.
    "statement": "S Y H H H Y H Y H H",
    # 1: what everybody reads, everybody prints and cites; ours: also who is suspended.
    "print": " ".join(["HHHHYYHT"] * 10),
    "print, write": " ".join(["HHHHYYHH"] * 10),
    "not made": " ".join(["HHHHHHHT"] * 10),
    "nothing": "H H H H H H H H H H",
    # The API reads tokens and no sessions: nobody is led anywhere, and a token acts as a
    # contributor, whatever the role of its owner. 401 and 403 are both N.
    "api, own account": "N Y Y Y Y Y Y Y Y Y",
    "api, begin": "N Y Y Y Y Y N N N Y",
    "api, own sheet": "N YYYYYHYY HHHHHYHH H H H H YYYYYHYY H H",
    "api, bench": "N YHHYHHHH HHHHHYHH H H H N YHHYHHHH H H",
    "api, bench, write": "N YHHYHHHH HHHHHYHH H H H N N N H",
    "api, hand in": "N YYYYYHYY HHHHHYHH H H H N N N H",
    "api, of what is public": """N HHHHYYHH HHHHYYHH HHHHYYHH HHHHYYHH
                                 HHHHYYHH N N N HHHHYYHH""",
}
ACTIONS = {name: line.split() for name, line in _LINES.items()}

# Of each address: what asking for it is, and what sending to it is; "" has no such method.
ADDRESSES = {}


def _say(get, send, *names, method="POST"):
    for name in names:
        ADDRESSES[name] = {"GET": get} if get else {}
        if send:
            ADDRESSES[name][method] = send


_say("public", "", "plate_search", "search_suggestions", "for_makers")
_say("public", "", "front_page", "unit_list", "unit_list_csv", "unit_list_columns",
     "rulebook_changes", "method", "styleguide", "data",
     "population", "compare", "audit_log", "licence", "part_list", "part_detail", "family_list",
     "family_detail",
     "feed_newest", "feed_serious", "feed_family", "report_receipt",
     "moderation_numbers")
_say("public", "", "alive", "ready")
_say("metrics", "", "metrics")
_say("read", "", "unit_detail", "unit_versions")
_say("read replies", "", "unit_replies", "unit_bag")
_say("print", "print, write", "unit_report")
_say("print", "", "unit_cite", "unit_card")
_say("public", "", "unit_by_title", "unit_badge", "unit_version_badge")
_say("not made", "", "unit_report_file")
_say("nothing", "", "compare_report_file", "data_package")
_say("nothing", "nothing", "compare_report")                        # of no units
_say("read version", "", "unit_version", "unit_difference")
_say("read correction", "", "unit_correction")
_say("read working copy", "", "unit_working_copy")
_say("read part", "", "unit_photo", "photo_picture", "unit_recording", "recording_window",
     "recording_chart", "recording_values", "unit_document", "unit_working", "unit_claim_working",
     "unit_recordings")
_say("read part, signed in", "", "photo_from_above")
_say("read original", "", "photo_original", "recording_original")
_say("own account", "", "bench_list")
_say("begin", "begin, write", "bench_new")
_say("bench", "bench, write", "bench_discard", "bench_photos", "bench_photo", "bench_recordings",
     "bench_recording", "bench_recording_layout", "bench_capabilities")
_say("own upload", "own upload, write", "bench_upload", "bench_recording_upload", method="PUT")
_say("", "bench, write", "bench_plate_reading", "bench_upload_start",
     "bench_recording_upload_start")
# A section that is closed leads its author to where it stands, and keeps what was still typed.
_say("hand in", "hand in, write", "bench_submit", "bench_section")
_say("", "hand in, write", "bench_take_back")
_say("cover", "cover, write", "photo_cover")
_say("hide", "hide, write", "hide")
_say("correct", "correct, write", "unit_correct")
_say("withdraw", "withdraw, write", "unit_withdraw")
_say("reinstate", "reinstate", "unit_reinstate")
_say("review desk", "", "review_queue")
_say("review desk", "review desk", "review_ties")
_say("claim", "claim", "review_claim")
_say("review", "", "review_sheet")
_say("review", "review", "review_measure")
_say("", "review", "review_decide", "review_close")
_say("", "release", "review_release")
_say("read again", "read again, write", "photo_read_again")
_say("moderate", "", "moderation", "reports", "appeals", "library_queue", "moderation_comments",
     "moderation_replies")
_say("moderate", "moderate", "scenario_edit", "report_case", "appeal_case", "hidden_case",
     "saved_replies", "comment_moderate", "reply_moderate", "family_edit", "lookalike")
_say("public", "moderate", "scenario_list")
_say("", "moderate", "part_decide", "family_decide")
_say("moderate unit", "moderate unit", "moderation_unit", "moderation_decide", "moderation_files",
     "unit_merge")
_say("people", "", "people")
_say("people", "people", "person", "approvals")
_say("hazards", "", "hazard_list")
_say("take part", "take part, write", "part_propose", "family_propose")
_say("public", "take part, write", "part_discussion", "family_discussion")
_say("read part", "discuss", "unit_discussion")
_say("", "watch", "watch")
_say("report", "report", "report")
_say("reply", "reply, write", "reply_new")
_say("own reply", "own reply, write", "reply_edit")
_say("own comment", "own comment, write", "comment_edit")
_say("", "own comment, write", "comment_retract")
_say("proposal", "", "part_proposal", "family_member")
_say("", "own proposal, write", "part_take_back", "family_take_back")
_say("statement", "statement", "statement")
_say("own account", "", "watch_list", "statements")
_say("own account", "own account", "notices", "saved_searches")
_say("", "own account", "digest_setting", "search_save", "search_drop")
_say("nothing", "nothing", "digest_stop")           # a token of nobody's

# Accounts: signing in and up is for everybody, what is one's own for who is signed in.
_say("public", "public", "language")
_say("public", "public", "sign_in", "account_login", "mfa_authenticate", "mfa_login_webauthn",
     "account_signup", "account_reset_password", "account_reset_password_from_key")
_say("", "public", "sign_out", "account_logout", "csp_reports")
_say("public", "", "account_email_verification_sent", "account_reset_password_done",
     "account_reset_password_from_key_done", "account_inactive")
_say("public", "nothing", "account_confirm_email")    # a key of nobody's
_say("own account", "", "account", "second_factor", "mfa_index")
_say("own account", "own account", "account_email", "account_change_password",
     "usersessions_list", "account_reauthenticate", "account_tokens", "account_export",
     "account_delete", "mfa_reauthenticate", "mfa_activate_totp", "mfa_reauthenticate_webauthn",
     "mfa_generate_recovery_codes", "mfa_add_webauthn",
     "mfa_edit_webauthn", "mfa_remove_webauthn")
_say("own account", "", "mfa_list_webauthn")
_say("own, not there", "", "mfa_view_recovery_codes", "mfa_download_recovery_codes")
_say("own, not there", "own, not there", "mfa_deactivate_totp")


# The API: what is read in public is the same for everybody; the rest takes a token.
_say("public", "", "api_index", "api_openapi", "api_documentation", "api_method", "api_rule",
     "api_quantities", "api_licence", "api_log", "api_units", "api_facets", "api_search",
     "api_population", "api_parts", "api_part", "api_families", "api_family")
_say("read replies", "", "api_unit", "api_unit_document", "api_unit_versions", "api_unit_version",
     "api_unit_difference", "api_unit_assessments", "api_unit_assessment", "api_unit_working",
     "api_unit_claim_working", "api_unit_replies", "api_unit_photos", "api_unit_photo",
     "api_unit_annotations", "api_unit_recordings", "api_unit_recording",
     "api_unit_recording_values")
_say("read replies", "api, of what is public", "api_unit_comments")
_say("public", "api, begin", "api_part_comments", "api_family_comments")
_say("", "api, begin", "api_part_propose", "api_family_propose")
_say("", "api, of what is public", "api_unit_correct")
_say("api, own account", "", "api_statements")
_say("api, own account", "api, begin", "api_bench_list")
_say("api, own sheet", "", "api_bench")
_say("", "api, hand in", "api_bench_submit", "api_bench_take_back")
_say("", "api, bench, write", "api_bench_discard")
_say("api, bench", "", "api_bench_rows")
_say("api, bench", "api, bench, write", "api_bench_photos", "api_bench_recordings")
_say("api, bench", "api, bench, write", "api_bench_fields", method="PATCH")
_say("api, bench", "api, bench, write", "api_bench_section", "api_bench_row", method="PUT")
ADDRESSES["api_bench_row"] |= dict.fromkeys(("PATCH", "DELETE"), "api, bench, write")


# 44, and what anybody may do: the only things that a suspended person sends.
LEFT_TO_THE_SUSPENDED = {"public", "own account", "own, not there", "statement", "report",
                         "print, write", "nothing"}
OFFERS_NOTHING_ELSE = {"hide"}        # a page that is there for those alone who may send it


def expanded(action: str, method: str) -> list[str]:
    """For each person the letters of all states. Suspended, one reads on and changes nothing."""
    said = dict(zip(SAID_OF, (letters * len(STATES) if len(letters) == 1 else letters
                              for letters in ACTIONS[action]), strict=True))
    may = method == "GET" or action in LEFT_TO_THE_SUSPENDED
    refused = "H" if action in OFFERS_NOTHING_ELSE else "N"
    return [*said.values(), *(said[role] if may and refused == "N" else refused * len(STATES)
                              for role in SUSPENDED.values())]


def grid() -> str:
    """What tests/core/policy_grid.txt has to be."""
    head = ["# One line an address and method; for each person the letters of all states.",
            f"# people: {' '.join(PEOPLE)}", f"# states: {' '.join(STATES)}"]
    lines = [f"{name} {method} {' '.join(expanded(action, method))}"
             for name, methods in ADDRESSES.items() for method, action in methods.items()]
    return "\n".join([*head, *sorted(lines)]) + "\n"


if __name__ == "__main__":
    print(grid(), end="")
