"""A kept page is right or gone: whatever moves on it, every process shows at once."""
import re
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from uuid import uuid4

import pytest
from django.conf import settings
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import translation

from core.audit.actions import ACTIONS, PUBLIC
from core.audit.models import Head
from teardowns.models import Likeness, Publication, SisterReport
from teardowns.services.active_rulebook import active_rulebook
from teardowns.services.compare_sisters import compare_sisters
from teardowns.services.find_likenesses import find_likenesses
from teardowns.services.hide_now import hide_now
from teardowns.services.index_likeness import index_likeness
from teardowns.services.log_tail import OF_ONE_UNIT, UNSEEN
from teardowns.services.moderate_comment import remove_comment
from teardowns.services.page_state import PageState, page_state
from teardowns.services.quarantine_unit import quarantine_unit, release_unit
from teardowns.services.receive_reply import receive_reply, verify_reply
from teardowns.services.withdraw_unit import withdraw_unit
from teardowns.services.write_comment import write_comment
from teardowns.views import kept_pages
from tests.corrections import corrected, public_unit
from tests.library import family as opened
from tests.likenesses import board, component, strangers
from tests.published import published
from tests.services.test_want_sisters import join
from tests.views.versions import two_versions

WHY = {"code": "not_this_unit", "facts": "Photo 2 shows another board."}
SAID = {"text": "The fuse was changed.", "author_name": "Veltrice Ltd", "language": "en",
        "check_hint": "press@veltrice.example", "disputes": True}
PROCESSES = 2
ENDS = ("", "versions/1/", "claims/out-5v/", "working/checks/plate_arithmetic/low/", "cite/")


@pytest.fixture
def unit(alice, bob):
    """Its log has a beginning: without one nothing is kept."""
    unit = public_unit(alice)
    write_comment(author=bob, thing=unit, text="Where was it bought?")
    return unit


@pytest.fixture
def processes(monkeypatch):
    """What each of two processes keeps."""
    each = [kept_pages.Pages() for _ in range(PROCESSES)]

    def ask(client, address, **headers):
        answers = []
        for pages in each:
            monkeypatch.setattr(kept_pages, "pages", pages)
            answers.append(client.get(address, headers=headers))
        return answers
    return ask


def address(unit):
    return f"/units/{unit.pk}/"


def text(answer):
    return re.sub(r'nonce="[^"]*"', "", answer.content.decode())


def queries(client, path):
    with CaptureQueriesContext(connection) as captured:
        client.get(path)
    return len(captured)


def reply(unit, bob, mona):
    said = receive_reply(author=bob, unit_pk=unit.pk, **SAID)
    verify_reply(moderator=mona, version_pk=said.versions.get().pk, name="Veltrice Ltd",
                 checked_how="They answered.")


def another_assessment(unit, bob, mona):
    """As a change of the rulebook leaves it; no entry of the log tells of it."""
    standing = Publication.objects.get(unit=unit).standing
    standing.pk, standing.rulebook = None, "f" * 12
    standing.save(force_insert=True)
    Publication.objects.filter(unit=unit).update(standing=standing)


def something_alike(unit, bob, mona):
    Likeness.objects.filter(unit=unit).update(alike=[[999, 0.8, "core"]])


def sisters_told(unit, bob, mona):
    SisterReport.objects.update_or_create(
        publication_id=unit.publication_id, defaults={
            "wanted": "a", "digest": "a", "open_points": [],
            "between": [{"units": [1, 2], "about": "transformer", "first": None, "second": None,
                         "texts": ["a", "b"]}]})


def comment_gone(unit, bob, mona):
    remove_comment(moderator=mona, pk=unit.comments.get().pk, code="personal_data", facts="A name.")


SEEN = {
    "a comment": lambda unit, bob, mona: write_comment(author=bob, thing=unit, text="Look again."),
    "a comment that is taken out": comment_gone,
    "a comment hidden at once": lambda unit, bob, mona: hide_now(
        by=mona, about=f"comment/{unit.comments.get().pk}", reason="A name."),
    "a reply": reply, "another assessment": another_assessment, "a likeness": something_alike,
    "sister boards": sisters_told,
}


def test_the_second_reader_costs_one_query_and_reads_the_same(client, unit):
    first, second = (text(client.get(address(unit))) for _ in range(2))
    assert first == second and unit.title in first
    assert queries(client, address(unit)) == 1


@pytest.mark.parametrize("change", SEEN)
def test_what_changes_on_the_page_shows_in_every_process(client, unit, bob, mona, processes,
                                                         change):
    bob.comments.update(state="shown")
    for before in processes(client, address(unit)):
        assert before.status_code == 200
    etag = before["ETag"]
    SEEN[change](unit, bob, mona)
    bob.comments.filter(state="held").update(state="shown")
    fresh = text(client.get(f"{address(unit)}?anew")).replace("%3Fanew", "")     # the footer's link
    for after in processes(client, address(unit), if_none_match=etag):
        assert after.status_code == 200 and after["ETag"] != etag
        assert text(after) == fresh


@pytest.mark.parametrize("end", ENDS)
def test_a_page_that_hangs_on_the_unit_alone_is_made_once(client, unit, end):
    first, second = (text(client.get(address(unit) + end)) for _ in range(2))
    assert first == second and queries(client, address(unit) + end) == 1


@pytest.mark.parametrize("end", ENDS)
def test_out_of_sight_it_is_gone_at_once_and_comes_back(client, unit, mona, milo, processes, end):
    etag = [answer["ETag"] for answer in processes(client, address(unit) + end)][0]
    quarantine_unit(moderator=mona, unit_pk=unit.pk, **WHY)
    for answer in processes(client, address(unit) + end, if_none_match=etag):
        assert answer.status_code == 404
    release_unit(moderator=milo, unit_pk=unit.pk, **WHY)
    assert {answer.status_code for answer in processes(client, address(unit) + end)} == {200}


def test_withdrawn_it_is_a_tombstone_at_once(client, unit, alice, processes):
    etag = [answer["ETag"] for answer in processes(client, address(unit))][0]
    withdraw_unit(by=alice, unit_pk=unit.pk, **WHY)
    for answer in processes(client, address(unit), if_none_match=etag):
        assert answer.status_code == 410 and "ETag" not in answer


@pytest.fixture
def mates(alice, bob, mona):
    """Two whose pages speak of each other: they look alike, and one of them was unwound."""
    made = [board(alice, "Torn down"), board(alice, "Closed", turns=None)]
    family = opened(mona)
    for one in made:
        component(one, "fuse", "T1A", rated_current=1.0)
        published(one)
        join(family, one, bob, mona)
    index_likeness([one.pk for one in (*made, *strangers(alice))])
    write_comment(author=bob, thing=made[0], text="Where was it bought?")
    worked_off()
    return made


def worked_off():
    while find_likenesses() + compare_sisters():
        pass


@pytest.mark.parametrize("change", [
    lambda mate, alice, mona: withdraw_unit(by=alice, unit_pk=mate.pk, **WHY),
    lambda mate, alice, mona: quarantine_unit(moderator=mona, unit_pk=mate.pk, **WHY),
    lambda mate, alice, mona: published(mate)], ids=["withdrawn", "quarantined", "another version"])
def test_what_it_says_of_another_unit_goes_with_that_unit(client, mates, alice, mona, processes,
                                                          change):
    mate, unit = mates
    for before in processes(client, address(unit)):
        assert address(mate) in text(before)
    change(mate, alice, mona)
    assert text(client.get(address(unit))) != text(before)
    for work in (lambda: None, worked_off):
        work()
        fresh = text(client.get(f"{address(unit)}?anew{work}")).partition("<footer")[0]
        for after in processes(client, address(unit)):
            assert text(after).partition("<footer")[0] == fresh


def test_a_comparison_loses_a_unit_that_is_out_of_sight(client, unit, alice, mona, processes):
    other = public_unit(alice, title="Hurdlop TurboGaN 45", uid=str(uuid4()))
    path = f"/compare/?units={unit.pk},{other.pk}"
    for answer in processes(client, path):
        assert "TurboGaN" in text(answer)
    assert queries(client, path) == 1
    quarantine_unit(moderator=mona, unit_pk=other.pk, **WHY)
    for answer in processes(client, path):
        assert "TurboGaN" not in text(answer)


def test_a_list_loses_a_unit_that_is_out_of_sight(client, unit, mona, processes):
    for path in ("/units/", f"/units/?kind={unit.kind}"):
        etag = [answer["ETag"] for answer in processes(client, path)][0]
        assert unit.title in text(client.get(path)) and queries(client, path) == 1
        assert {answer.status_code for answer in processes(client, path, if_none_match=etag)} == {
            304}
    quarantine_unit(moderator=mona, unit_pk=unit.pk, **WHY)
    for path in ("/units/", f"/units/?kind={unit.kind}"):
        for answer in processes(client, path, if_none_match=etag):
            assert answer.status_code == 200 and unit.title not in text(answer)


@pytest.mark.django_db
def test_the_method_is_kept_until_other_rules_are_in_force(client, monkeypatch):
    first = client.get("/method/")
    assert client.get("/method/", headers={"if-none-match": first["ETag"]}).status_code == 304
    rules = active_rulebook()
    other = rules.with_scenarios(rules.scenarios, "scenarios-9")
    monkeypatch.setattr("teardowns.views.method.active_rulebook", lambda: other)
    after = client.get("/method/", headers={"if-none-match": first["ETag"]})
    assert after.status_code == 200 and "scenarios-9" in text(after)


def test_a_search_is_not_kept(client, unit):
    assert "ETag" not in client.get("/units/?q=lumen")


def test_a_new_version_stands_at_once_and_the_old_address_says_so(client, alice, bob, mona):
    unit = two_versions(alice, bob, mona)
    assert "Version 2 stands now" in text(client.get(f"{address(unit)}versions/1/"))
    assert "Version 2, published" in text(client.get(address(unit)))


def test_work_on_other_units_leaves_it_kept(client, unit, alice, bob):
    client.get(address(unit))
    other = public_unit(alice, title="Hurdlop TurboGaN 45", uid=str(uuid4()))
    corrected(other, bob)
    write_comment(author=bob, thing=other, text="Is it sold here?")
    state = page_state([unit.pk])
    assert state.end != ""
    assert queries(client, address(unit)) == 2           # its state, and the log since
    assert queries(client, address(unit)) == 1


def test_every_language_has_its_page_and_its_mark(client, unit):
    answers = {}
    for code, _ in settings.LANGUAGES * 2:
        answer = client.get(address(unit), headers={"accept-language": code})
        assert answer["Content-Language"] == code and "Accept-Language" in answer["Vary"]
        assert f'lang="{code}"' in text(answer)
        assert answers.setdefault(code, answer["ETag"]) == answer["ETag"]
    assert len(set(answers.values())) == len(settings.LANGUAGES) > 1
    with translation.override("en"):
        foreign = client.get(address(unit), headers={
            "accept-language": "en", "if-none-match": answers[settings.LANGUAGES[1][0]]})
    assert foreign.status_code == 200


def test_who_has_it_already_is_told_so_and_gets_no_body(client, unit):
    answer = client.get(address(unit))
    again = client.get(address(unit), headers={"if-none-match": answer["ETag"]})
    assert again.status_code == 304 and not again.content
    assert answer["Cache-Control"] == again["Cache-Control"] == "no-cache"
    assert client.head(address(unit))["ETag"] == answer["ETag"]


def test_each_answer_has_a_nonce_of_its_own(client, unit):
    nonces = []
    for _ in range(3):
        answer = client.get(address(unit))
        found = re.findall(r'nonce="([^"]+)"', answer.content.decode())
        assert found and all(f"'nonce-{one}'" in answer["Content-Security-Policy"] for one in found)
        nonces.append(found[0])
    assert len(set(nonces)) == 3 and kept_pages.NONCE not in answer.content


def test_who_is_signed_in_is_shown_nobody_elses_page_and_leaves_none(client, unit, alice, bob):
    client.force_login(bob)
    mine = client.get(address(unit))
    assert "Signed in as" in text(mine) and "ETag" not in mine
    assert mine["Cache-Control"] == "no-store"
    client.logout()
    assert "Signed in as" not in text(client.get(address(unit)))


def test_a_page_with_a_message_for_its_reader_is_not_kept(client, unit, bob):
    client.force_login(bob)
    client.post("/sign-out/")
    told = client.get(address(unit))
    assert "ETag" not in told or 'role="status"' not in text(told)
    assert 'class="notices"' not in text(client.get(address(unit)))


def test_without_a_log_nothing_is_kept(client, unit):
    Head.objects.all().delete()
    assert page_state([unit.pk]) is None
    assert "ETag" not in client.get(address(unit))


def test_where_nothing_changes_a_page_is_made_anew_now_and_then(client, unit, monkeypatch):
    monkeypatch.setattr(kept_pages, "KEPT_FOR", -1.0)
    client.get(address(unit))
    assert queries(client, address(unit)) > 1


def test_what_one_process_made_no_other_makes_again(client, unit, monkeypatch):
    client.get(address(unit))
    monkeypatch.setattr(kept_pages, "pages", kept_pages.Pages())
    assert queries(client, address(unit)) == 1
    kept_pages.shared.clear()
    monkeypatch.setattr(kept_pages, "pages", kept_pages.Pages())
    assert queries(client, address(unit)) > 1


def test_of_many_who_want_a_page_at_once_one_makes_it():
    state, made = PageState((1,), "rows", 1, "end"), []

    def make():
        made.append(threading.get_ident())
        time.sleep(0.1)                               # the others come meanwhile
        return kept_pages.Kept(b"page", {}, "tag", state)

    with ThreadPoolExecutor(8) as readers:
        found = [readers.submit(kept_pages.kept_or_made, ("wanted by many",), state, make)
                 for _ in range(8)]
    assert {each.result().body for each in found} == {b"page"} and len(made) == 1


def test_nobody_waits_for_ever_for_a_page(monkeypatch):
    monkeypatch.setattr(kept_pages, "LONGEST_WAIT", 0.01)
    with kept_pages.makers.alone(("slow",)), ThreadPoolExecutor(1) as other:
        assert other.submit(kept_pages.kept_or_made, ("slow",), None, lambda: "made").result() \
            == "made"


def test_pages_kept_longest_make_room():
    pages = kept_pages.Pages(most_bytes=25)
    for name in "abc":
        pages.put((name,), kept_pages.Kept(b"0123456789", {}, name, None))
        pages.get(("a",))
    assert [pages.get((name,)) is not None for name in "abc"] == [True, False, True]


def test_actions_that_leave_pages_alone_are_actions_of_the_log_and_none_is_public():
    assert ACTIONS.keys() >= UNSEEN | OF_ONE_UNIT and not UNSEEN & (OF_ONE_UNIT | PUBLIC)
