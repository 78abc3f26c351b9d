"""The feeds: whole Atom documents, nothing told that is not public, 304 where nothing changed."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import (
    Assessment,
    BoardFamily,
    BoardFamilyMember,
    Measurement,
    Publication,
    Review,
    ReviewDecision,
    Unit,
)
from teardowns.models.replies import MakerAccount, Reply, ReplyVersion
from teardowns.services.list_units import list_units
from tests.published import published
from tests.views.listed import contributor

from .atom import entries_of, feed_of, text

pytestmark = pytest.mark.django_db
FINDING = {"scenario": "loose_metal", "hazard": "shock", "level": "serious",
           "title": "Loose metal reaches live parts",
           "sentence": "In the unit examined a loose screw can bridge the gap.",
           "evidence": ["measurement/mass"]}


def public(title="Veltrice VQ-45", **fields):
    unit = Unit.objects.create(contributor=contributor(), title=title, **fields)
    Measurement.objects.create(
        unit=unit, key="mass", quantity="mass_total", value=0.05, uncertainty=0.001,
        uncertainty_kind="interval", author=unit.contributor, review_state="confirmed")
    published(unit)
    return unit


def serious(unit, **finding):
    """Its standing assessment has a finding of that kind."""
    standing = Publication.objects.get(unit=unit).standing
    standing.payload["safety"]["findings"] = [FINDING | finding]
    standing.risk = 4
    standing.save()
    list_units([unit.pk])


def confirm(unit, *reviewers, decision="confirmed"):
    for reviewer in reviewers:
        review = Review.objects.create(unit=unit, reviewer=reviewer, closed_at=timezone.now())
        ReviewDecision.objects.create(review=review, ref="measurement/mass", evidence_version=1,
                                      decision=decision, reason="seen otherwise")


def replied(unit, author, moderator, said="We changed it."):
    now = timezone.now()
    MakerAccount.objects.create(person=author, unit=unit, name="Veltrice Ltd", checked_how="x",
                                verified_by=moderator, verified_at=now)
    reply = Reply.objects.create(unit=unit, author_name="Veltrice Ltd", entered_by=author,
                                 state="verified")
    ReplyVersion.objects.create(reply=reply, number=1, text=said, received_at=now, decided_at=now,
                                state="verified", decided_by=moderator, language="de")


def feed(client, name="newest", **headers):
    return client.get(f"/feeds/{name}.atom", headers=headers)


def titles(client, name="newest"):
    return [text(entry, "title") for entry in entries_of(feed_of(feed(client, name)))]


def long_ago():
    """Everything happened a while ago, so that a date tells two states apart."""
    past = timezone.now() - timedelta(hours=1)
    Publication.objects.update(published_at=past)
    Assessment.objects.update(created_at=past)


def test_an_empty_feed_is_whole_and_does_not_change_by_itself(client):
    one, two = feed(client), feed(client)
    assert entries_of(feed_of(one)) == [] and one.content == two.content


def test_the_newest_stands_first_about_one_unit(client):
    for title in ("Lamplit L1", "Veltrice <b>&amp; Co"):
        public(title)
    root = feed_of(feed(client))
    assert [text(entry, "title") for entry in entries_of(root)] == [
        "Veltrice <b>&amp; Co", "Lamplit L1"]
    said = text(entries_of(root)[0], "summary")
    assert "one unit that somebody opened" in said
    assert "<p>" in said and text(entries_of(root)[0], "id").startswith("urn:uuid:")


def test_an_entry_keeps_its_id_at_another_address_and_a_version_has_its_own(client):
    unit = public()
    first, = [text(entry, "id") for entry in entries_of(feed_of(feed(client)))]
    again = client.get("/feeds/newest.atom", headers={"host": "127.0.0.1"})
    assert [text(entry, "id") for entry in entries_of(feed_of(again))] == [first]
    published(unit)
    entry, = entries_of(feed_of(feed(client)))
    assert text(entry, "id") != first and text(entry, "title") == "Veltrice VQ-45 (version 2)"


@pytest.mark.parametrize("change", [{"status": "withdrawn"}, {"quarantined_at": timezone.now()},
                                    {"status": "draft"}])
def test_what_is_not_public_is_in_no_feed(client, change, rita, rolf):
    unit = public()
    serious(unit)
    confirm(unit, rita, rolf)
    assert titles(client) and titles(client, "serious")
    Unit.objects.update(**change)
    assert titles(client) == titles(client, "serious") == []


def test_a_serious_finding_is_told_once_two_people_confirmed_it(client, rita, rolf):
    unit = public()
    serious(unit)
    confirm(unit, rita)
    assert titles(client, "serious") == []
    confirm(unit, rolf)
    entry, = entries_of(feed_of(feed(client, "serious")))
    assert text(entry, "title") == (
        "Serious risk in one unit examined: Loose metal reaches live parts (Veltrice VQ-45)")
    said = text(entry, "summary")
    for words in ("In the unit examined a loose screw", "Confirmed by 2 reviewers",
                  "illustration", "origin and authenticity were not established"):
        assert words in said


def test_neither_the_contributor_nor_a_dispute_nor_an_older_row_confirms(client, alice, rita, rolf):
    unit = public()
    serious(unit)
    confirm(unit, alice, rita)
    confirm(unit, rolf, decision="disputed")
    assert titles(client, "serious") == []


def test_a_finding_that_is_not_serious_is_no_headline(client, rita, rolf):
    unit = public()
    serious(unit, level="high")
    confirm(unit, rita, rolf)
    assert titles(client, "serious") == []


def test_the_makers_reply_stands_in_the_entry_and_renews_its_date(client, bob, mona, rita, rolf):
    unit = public()
    serious(unit)
    confirm(unit, rita, rolf)
    replied(unit, bob, mona, "We changed it. <script>alert(1)</script>")
    for name in ("newest", "serious"):
        entry, = entries_of(feed_of(feed(client, name)))
        said = text(entry, "summary")
        assert "Veltrice Ltd replied on" in said and '<blockquote lang="de"><p>We changed' in said
        assert "<script" not in said and text(entry, "updated") > text(entry, "published")


def test_a_family_has_its_own(client, alice, mona):
    unit, _ = public("Veltrice VQ-45"), public("Lamplit L1")
    family = BoardFamily.objects.create(name="Board A", slug="board-a", curator=alice)
    assert titles(client, "families/board-a") == []
    BoardFamilyMember.objects.create(
        family=family, unit=unit, proposer=alice, why="the same", decided_by=mona,
        decided_at=timezone.now(), reason="it is", state="accepted")
    assert titles(client, "families/board-a") == ["Veltrice VQ-45"]
    assert feed(client, "families/none").status_code == 404


def test_nothing_new_is_answered_in_a_line(client):
    public()
    long_ago()
    first = feed(client)
    for header, value in (("if-none-match", first.headers["ETag"]),
                          ("if-modified-since", first.headers["Last-Modified"])):
        answer = feed(client, **{header: value})
        assert answer.status_code == 304 and not answer.content
        assert answer.headers["ETag"] == first.headers["ETag"]


def test_news_is_answered_whole_by_either_header(client, rita):
    unit = public()
    long_ago()
    first = feed(client)
    confirm(unit, rita)
    for header, value in (("if-none-match", first.headers["ETag"]),
                          ("if-modified-since", first.headers["Last-Modified"])):
        assert feed(client, **{header: value}).status_code == 200


def test_within_seconds_no_date_is_given_that_could_hide_a_change(client):
    public()
    assert "Last-Modified" not in feed(client).headers and "ETag" in feed(client).headers


def test_one_feeds_mark_is_not_anothers(client):
    public()
    assert feed(client).headers["ETag"] != feed(client, "serious").headers["ETag"]


def test_characters_that_no_document_may_hold_break_nothing(client):
    public("Veltrice \x0c\x1b\ufffe VQ")
    assert titles(client)[0].startswith("Veltrice ")


def test_a_feed_is_bounded_and_asks_at_most_twelve_queries(
        client, django_assert_max_num_queries):
    for number in range(33):
        public(f"Lamplit L{number}")
    with django_assert_max_num_queries(12):
        assert len(titles(client)) == 30
