"""The addresses of the domain's pages; a name is also its view's module and its template."""
from django.urls import path

from teardowns.views.appeal_case import appeal_case
from teardowns.views.appeals import appeals
from teardowns.views.approvals import approvals
from teardowns.views.bench_capabilities import bench_capabilities
from teardowns.views.bench_discard import bench_discard
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
from teardowns.views.bench_submit import bench_submit
from teardowns.views.bench_take_back import bench_take_back
from teardowns.views.bench_upload import bench_upload, bench_upload_start
from teardowns.views.comment_edit import comment_edit, comment_retract
from teardowns.views.comment_moderate import comment_moderate, moderation_comments
from teardowns.views.compare import compare
from teardowns.views.compare_report import compare_report, compare_report_file
from teardowns.views.data import data, data_package, unit_bag
from teardowns.views.family_detail import family_detail
from teardowns.views.family_discussion import family_discussion
from teardowns.views.family_edit import family_edit
from teardowns.views.family_list import family_list
from teardowns.views.family_member import family_decide, family_member, family_take_back
from teardowns.views.family_propose import family_propose
from teardowns.views.feeds import feed_family, feed_newest, feed_serious
from teardowns.views.for_makers import for_makers
from teardowns.views.front_page import front_page
from teardowns.views.hazard_list import hazard_list
from teardowns.views.hidden_case import hidden_case
from teardowns.views.hide import hide
from teardowns.views.library_queue import library_queue
from teardowns.views.licence import licence
from teardowns.views.lookalike import lookalike
from teardowns.views.method import method
from teardowns.views.moderation import moderation
from teardowns.views.moderation_decide import moderation_decide
from teardowns.views.moderation_files import moderation_files
from teardowns.views.moderation_numbers import moderation_numbers
from teardowns.views.moderation_unit import moderation_unit
from teardowns.views.notices import digest_setting, digest_stop, notices
from teardowns.views.part_detail import part_detail
from teardowns.views.part_discussion import part_discussion
from teardowns.views.part_list import part_list
from teardowns.views.part_proposal import part_decide, part_proposal, part_take_back
from teardowns.views.part_propose import part_propose
from teardowns.views.people import people
from teardowns.views.person import person
from teardowns.views.photo_cover import photo_cover
from teardowns.views.photo_picture import photo_from_above, photo_original, photo_picture
from teardowns.views.photo_read_again import photo_read_again
from teardowns.views.plate_search import plate_search
from teardowns.views.population import population
from teardowns.views.recording_numbers import (
    recording_chart,
    recording_original,
    recording_values,
    recording_window,
)
from teardowns.views.reply_moderate import moderation_replies, reply_moderate
from teardowns.views.report import report
from teardowns.views.report_case import report_case
from teardowns.views.report_receipt import report_receipt
from teardowns.views.reports import reports
from teardowns.views.review_claim import review_claim, review_release
from teardowns.views.review_close import review_close
from teardowns.views.review_decide import review_decide
from teardowns.views.review_measure import review_measure
from teardowns.views.review_queue import review_queue
from teardowns.views.review_sheet import review_sheet
from teardowns.views.review_ties import review_ties
from teardowns.views.rulebook_changes import rulebook_changes
from teardowns.views.saved_replies import saved_replies
from teardowns.views.saved_searches import saved_searches, search_drop, search_save
from teardowns.views.scenario_edit import scenario_edit
from teardowns.views.scenario_list import scenario_list
from teardowns.views.search_suggestions import search_suggestions
from teardowns.views.statement import statement
from teardowns.views.statements import statements
from teardowns.views.styleguide import styleguide
from teardowns.views.unit_badge import unit_badge, unit_version_badge
from teardowns.views.unit_by_title import unit_by_title
from teardowns.views.unit_card import unit_card
from teardowns.views.unit_cite import unit_cite
from teardowns.views.unit_claim_working import unit_claim_working
from teardowns.views.unit_correct import unit_correct
from teardowns.views.unit_correction import unit_correction
from teardowns.views.unit_detail import unit_detail, unit_version, unit_working_copy
from teardowns.views.unit_difference import unit_difference
from teardowns.views.unit_discussion import unit_discussion
from teardowns.views.unit_document import unit_document
from teardowns.views.unit_list import unit_list
from teardowns.views.unit_list_csv import unit_list_columns, unit_list_csv
from teardowns.views.unit_merge import unit_merge
from teardowns.views.unit_photo import unit_photo
from teardowns.views.unit_recording import unit_recording
from teardowns.views.unit_recordings import unit_recordings
from teardowns.views.unit_reinstate import unit_reinstate
from teardowns.views.unit_replies import reply_edit, reply_new, unit_replies
from teardowns.views.unit_report import unit_report, unit_report_file
from teardowns.views.unit_versions import unit_versions
from teardowns.views.unit_withdraw import unit_withdraw
from teardowns.views.unit_working import unit_working
from teardowns.views.watch import watch, watch_list

site_urls = [
    path("", front_page, name="front_page"),
    path("units/", unit_list, name="unit_list"),
    path("units/list.csv", unit_list_csv, name="unit_list_csv"),
    path("units/list-columns/", unit_list_columns, name="unit_list_columns"),
    path("searches/", saved_searches, name="saved_searches"),
    path("searches/save/", search_save, name="search_save"),
    path("searches/drop/", search_drop, name="search_drop"),
    path("population/", population, name="population"),
    path("compare/", compare, name="compare"),
    path("method/", method, name="method"),
    path("method/changes/", rulebook_changes, name="rulebook_changes"),
    path("method/scenarios/", scenario_list, name="scenario_list"),
    path("method/scenarios/<slug:scenario>/", scenario_edit, name="scenario_edit"),
    path("hazards/", hazard_list, name="hazard_list"),
    path("licence/", licence, name="licence"),
    path("makers/", for_makers, name="for_makers"),
    path("data/", data, name="data"),
    path("data/<slug:name>.zip", data_package, name="data_package"),
    path("styleguide/", styleguide, name="styleguide"),
]
unit_urls = [
    path("units/by-plate/", plate_search, name="plate_search"),
    path("units/suggestions.json", search_suggestions, name="search_suggestions"),
    path("units/<int:pk>/", unit_detail, name="unit_detail"),
    path("units/<int:pk>/working/<path:line_id>/<slug:end>/", unit_working, name="unit_working"),
    path("units/<int:pk>/claims/<slug:key>/", unit_claim_working, name="unit_claim_working"),
    path("units/<int:pk>/document.json", unit_document, name="unit_document"),
    path("units/<int:pk>/bag.zip", unit_bag, name="unit_bag"),
    path("units/<int:pk>/versions/", unit_versions, name="unit_versions"),
    path("units/<int:pk>/versions/<int:number>/", unit_version, name="unit_version"),
    path("units/<int:pk>/versions/<int:number>/against/<int:other>/", unit_difference,
         name="unit_difference"),
    path("units/<int:pk>-<slug:words>/", unit_by_title, name="unit_by_title"),
    path("units/<int:pk>/report/", unit_report, name="unit_report"),
    path("units/<int:pk>/report/record.pdf", unit_report_file, name="unit_report_file"),
    path("units/<int:pk>/cite/", unit_cite, name="unit_cite"),
    path("units/<int:pk>/card.png", unit_card, name="unit_card"),
    path("units/<int:pk>/badge.svg", unit_badge, name="unit_badge"),
    path("units/<int:pk>/versions/<int:number>/badge.svg", unit_version_badge,
         name="unit_version_badge"),
    path("compare/report/", compare_report, name="compare_report"),
    path("compare/report/comparison.pdf", compare_report_file, name="compare_report_file"),
    path("units/<int:pk>/correct/", unit_correct, name="unit_correct"),
    path("units/<int:pk>/corrections/<int:correction>/", unit_correction, name="unit_correction"),
    path("units/<int:pk>/withdraw/", unit_withdraw, name="unit_withdraw"),
    path("units/<int:pk>/reinstate/", unit_reinstate, name="unit_reinstate"),
    path("units/<int:pk>/working-copy/", unit_working_copy, name="unit_working_copy"),
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
library_urls = [
    path("parts/", part_list, name="part_list"),
    path("parts/propose/", part_propose, name="part_propose"),
    path("parts/<int:pk>/", part_detail, name="part_detail"),
    path("parts/<int:pk>/propose/", part_propose, name="part_propose"),
    path("parts/proposals/<int:pk>/", part_proposal, name="part_proposal"),
    path("parts/proposals/<int:pk>/decide/", part_decide, name="part_decide"),
    path("parts/proposals/<int:pk>/take-back/", part_take_back, name="part_take_back"),
    path("families/", family_list, name="family_list"),
    path("families/open/", family_edit, name="family_edit"),
    path("families/units/<int:pk>/", family_member, name="family_member"),
    path("families/units/<int:pk>/decide/", family_decide, name="family_decide"),
    path("families/units/<int:pk>/take-back/", family_take_back, name="family_take_back"),
    path("families/<slug:slug>/", family_detail, name="family_detail"),
    path("families/<slug:slug>/edit/", family_edit, name="family_edit"),
    path("families/<slug:slug>/propose/", family_propose, name="family_propose"),
    path("moderation/library/", library_queue, name="library_queue"),
    path("moderation/library/alike/<int:pk>/", lookalike, name="lookalike"),
]
bench_urls = [
    path("bench/", bench_list, name="bench_list"),
    path("bench/new/", bench_new, name="bench_new"),
    path("bench/<int:pk>/plate-reading/", bench_plate_reading, name="bench_plate_reading"),
    path("bench/<int:pk>/submit/", bench_submit, name="bench_submit"),
    path("bench/<int:pk>/take-back/", bench_take_back, name="bench_take_back"),
    path("bench/<int:pk>/discard/", bench_discard, name="bench_discard"),
    path("bench/<int:pk>/<slug:section>/", bench_section, name="bench_section"),
]
discussion_urls = [
    path("units/<int:pk>/discussion/", unit_discussion, name="unit_discussion"),
    path("parts/<int:pk>/discussion/", part_discussion, name="part_discussion"),
    path("families/<slug:slug>/discussion/", family_discussion, name="family_discussion"),
    path("comments/<int:pk>/edit/", comment_edit, name="comment_edit"),
    path("comments/<int:pk>/retract/", comment_retract, name="comment_retract"),
    path("moderation/comments/", moderation_comments, name="moderation_comments"),
    path("moderation/comments/<int:pk>/", comment_moderate, name="comment_moderate"),
    path("watches/", watch_list, name="watch_list"),
    path("watches/change/", watch, name="watch"),
    path("notices/", notices, name="notices"),
    path("notices/by-mail/", digest_setting, name="digest_setting"),
    path("notices/no-mail/<str:token>/", digest_stop, name="digest_stop"),
    path("units/<int:pk>/replies/", unit_replies, name="unit_replies"),
    path("units/<int:pk>/replies/new/", reply_new, name="reply_new"),
    path("units/<int:pk>/replies/<int:reply>/", reply_edit, name="reply_edit"),
    path("moderation/replies/", moderation_replies, name="moderation_replies"),
    path("moderation/replies/<int:pk>/", reply_moderate, name="reply_moderate"),
    path("feeds/newest.atom", feed_newest, name="feed_newest"),
    path("feeds/serious.atom", feed_serious, name="feed_serious"),
    path("feeds/families/<slug:slug>.atom", feed_family, name="feed_family"),
]
moderation_urls = [
    path("moderation/", moderation, name="moderation"),
    path("moderation/<int:pk>/", moderation_unit, name="moderation_unit"),
    path("moderation/<int:pk>/files/", moderation_files, name="moderation_files"),
    path("moderation/<int:pk>/merge/", unit_merge, name="unit_merge"),
    path("moderation/<int:pk>/decide/<slug:what>/", moderation_decide, name="moderation_decide"),
    path("moderation/reports/", reports, name="reports"),
    path("moderation/reports/<int:pk>/", report_case, name="report_case"),
    path("moderation/appeals/", appeals, name="appeals"),
    path("moderation/appeals/<int:pk>/", appeal_case, name="appeal_case"),
    path("moderation/hidden/<int:pk>/", hidden_case, name="hidden_case"),
    path("moderation/approvals/", approvals, name="approvals"),
    path("moderation/people/", people, name="people"),
    path("moderation/people/<int:pk>/", person, name="person"),
    path("moderation/saved-replies/", saved_replies, name="saved_replies"),
    path("log/numbers/", moderation_numbers, name="moderation_numbers"),
    path("report/", report, name="report"),
    path("report/receipts/<uuid:uid>/", report_receipt, name="report_receipt"),
    path("hide/", hide, name="hide"),
    path("statements/", statements, name="statements"),
    path("statements/<uuid:uid>/", statement, name="statement"),
]

review_urls = [
    path("reviews/", review_queue, name="review_queue"),
    path("reviews/ties/", review_ties, name="review_ties"),
    path("reviews/<int:pk>/", review_sheet, name="review_sheet"),
    path("reviews/<int:pk>/claim/", review_claim, name="review_claim"),
    path("reviews/<int:pk>/release/", review_release, name="review_release"),
    path("reviews/<int:pk>/decide/", review_decide, name="review_decide"),
    path("reviews/<int:pk>/measure/<slug:kind>/<str:key>/", review_measure,
         name="review_measure"),
    path("reviews/<int:pk>/close/", review_close, name="review_close"),
]
urlpatterns = [
    *site_urls, *unit_urls, *photo_urls, *recording_urls, *library_urls, *bench_urls,
    *discussion_urls, *moderation_urls, *review_urls,
]
