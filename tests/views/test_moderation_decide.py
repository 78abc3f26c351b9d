"""Each decision is looked at as a statement first; bad input keeps all that was typed."""
import re

import pytest

from teardowns.models import ReviewRemark, SavedReply, Statement, Status, Unit
from teardowns.services.quarantine_unit import quarantine_unit
from tests.published import published
from tests.views.deciding import look, send

pytestmark = pytest.mark.django_db
WHY = {"code": "incomplete", "facts": "The transformer was not opened."}


@pytest.fixture
def desk(client, mona):
    client.force_login(mona)
    return client


@pytest.fixture
def submitted(unit):
    Unit.objects.update(status=Status.SUBMITTED)
    return unit


def address(unit, what):
    return f"/moderation/{unit.pk}/decide/{what}/"


@pytest.mark.parametrize("what", ["send_back", "decline", "quarantine"])
def test_the_statement_is_seen_before_it_is_sent_and_nothing_happens(desk, submitted, what):
    page = look(desk, address(submitted, what), do=what, **WHY)
    assert "This will be sent" in page and WHY["facts"] in page and "appeal" in page
    assert Unit.objects.get().status == Status.SUBMITTED and not Statement.objects.exists()


@pytest.mark.parametrize(("what", "after"), [
    ("send_back", "sent_back"), ("decline", "declined"), ("quarantine", "submitted")])
def test_sent_it_is_done_with_one_statement(desk, submitted, what, after):
    answer = send(desk, address(submitted, what), do=what, **WHY)
    assert answer.url == f"/moderation/{submitted.pk}/"
    assert Unit.objects.get().status == after and Statement.objects.get().facts == WHY["facts"]


def test_pressed_twice_it_is_done_once(desk, submitted):
    page = look(desk, address(submitted, "decline"), do="decline", **WHY)
    key = re.search(r'name="once" value="([^"]+)"', page).group(1)
    for _ in range(2):
        answer = send(desk, address(submitted, "decline"), do="decline", once=key, **WHY)
        assert answer["Location"] == f"/moderation/{submitted.pk}/"
    assert Statement.objects.count() == 1


@pytest.mark.parametrize(("missing", "words"), [
    ("code", "the statement cites its rule"), ("facts", "Write the facts")])
def test_what_is_missing_is_named_and_the_rest_is_kept(desk, submitted, missing, words):
    answer = send(desk, address(submitted, "send_back"), do="send_back", **WHY | {missing: ""},
                  **{"remark-text-0": "Weigh it."})
    page = answer.content.decode()
    assert answer.status_code == 200 and words in page and "Weigh it." in page
    assert 'aria-invalid="true"' in page and not Statement.objects.exists()


def test_remarks_go_to_their_items(desk, submitted, alice):
    submitted.measurements.create(key="mass", quantity="mass_total", value=0.05, author=alice)
    page = desk.get(address(submitted, "send_back")).content.decode()
    assert '<option value="measurement/mass">' in page
    send(desk, address(submitted, "send_back"), do="send_back", **WHY, **{
        "remark-ref-0": "measurement/mass", "remark-text-0": "Without the cable.",
        "remark-ref-1": "", "remark-text-1": "Fine otherwise."})
    assert set(ReviewRemark.objects.values_list("ref", "text")) == {
        ("measurement/mass", "Without the cable."), ("", "Fine otherwise.")}


def test_an_item_that_is_gone_is_said(desk, submitted):
    page = send(desk, address(submitted, "send_back"), do="send_back", **WHY, **{
        "remark-ref-0": "measurement/gone", "remark-text-0": "Weigh it."}).content.decode()
    assert "This item is gone" in page and "Weigh it." in page and not Statement.objects.exists()


def test_more_rows_keep_what_was_typed(desk, submitted):
    page = desk.post(address(submitted, "send_back"), {
        "step": "more", "do": "send_back", "facts": "Half a sen", "remark-text-0": "Weigh it.",
    }).content.decode()
    assert page.count("remark-text-") > 3 * 3 and "Half a sen" in page and "Weigh it." in page
    assert 'class="err"' not in page


def test_a_saved_reply_is_inserted_after_what_was_typed(desk, submitted, mona):
    reply = SavedReply.objects.create(title="Open it", text="Open the transformer, please.",
                                      code="incomplete", author=mona)
    page = desk.post(address(submitted, "decline"), {
        "step": "insert", "do": "decline", "facts": "Sound work.", "saved": reply.pk,
    }).content.decode()
    assert "Sound work.\n\nOpen the transformer, please." in page
    assert '<option value="incomplete" selected>' in page and not Statement.objects.exists()


def test_what_the_state_does_not_allow_is_said_on_the_page(desk, unit):
    published(unit)
    page = send(desk, address(unit, "send_back"), do="send_back", **WHY).content.decode()
    assert "cannot be sent back now" in page and WHY["facts"] in page


def test_another_word_in_the_address_is_not_found(desk, submitted):
    assert desk.get(address(submitted, "publish")).status_code == 404


def test_own_content_is_not_found(desk, submitted, mona):
    Unit.objects.update(contributor=mona)
    assert send(desk, address(submitted, "decline"), do="decline", **WHY).status_code == 404


@pytest.mark.parametrize("name", ["alice", "rita", "ada"])
def test_nobody_else_gets_in(client, request, submitted, name):
    client.force_login(request.getfixturevalue(name))
    assert send(client, address(submitted, "decline"), do="decline", **WHY).status_code == 403


def test_it_costs_at_most_twelve_queries(desk, submitted, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        desk.get(address(submitted, "send_back"))


@pytest.mark.parametrize("code", ["not_supported", "put_right", "looked_at_again", "trust"])
def test_no_decision_against_somebody_says_that_all_is_well(desk, submitted, code):
    page = desk.get(address(submitted, "decline")).content.decode()
    assert f'value="{code}"' not in page
    assert send(desk, address(submitted, "decline"), do="decline",
                **WHY | {"code": code}).status_code == 200
    assert not Statement.objects.exists()


def test_what_breaks_no_rule_is_released(desk, submitted, milo):
    quarantine_unit(moderator=milo, unit_pk=submitted.pk, **WHY)
    send(desk, address(submitted, "release"), do="release", **WHY | {"code": "not_supported"})
    assert Statement.objects.count() == 2 and Unit.objects.get().quarantined_at is None


def test_who_put_it_in_is_told_before_typing_that_another_releases_it(desk, submitted, milo, mona):
    quarantine_unit(moderator=mona, unit_pk=submitted.pk, **WHY)
    page = desk.get(address(submitted, "release")).content.decode()
    assert "somebody else decides" in page and 'name="facts"' not in page
    desk.force_login(milo)
    assert 'name="facts"' in desk.get(address(submitted, "release")).content.decode()
