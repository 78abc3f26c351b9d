"""What takes two people, on one page: never decided by who asked."""
import pytest

from core.accounts.models import User
from teardowns.models import Approval, Unit
from teardowns.services.grant_role import propose_role
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/moderation/approvals/"


@pytest.fixture
def asked(alice, mona):
    return propose_role(by=mona, person_pk=alice.pk, role="reviewer", reason="Twelve records.")


def post(client, approval, act, answer=""):
    return client.post(ADDRESS, {"approval": approval.pk, "act": act, "answer": answer})


def test_an_administrator_reads_what_and_why_and_approves(client, asked, alice, ada):
    client.force_login(ada)
    page = client.get(ADDRESS).content.decode()
    assert "Make alice a reviewer, now a contributor." in page and "Twelve records." in page
    assert post(client, asked, "approve").url == ADDRESS
    assert User.objects.get(pk=alice.pk).role == "reviewer"
    assert "<b>Approved</b> by ada" in client.get(ADDRESS).content.decode()


def test_refused_it_needs_an_answer(client, asked, alice, ada):
    client.force_login(ada)
    page = post(client, asked, "refuse").content.decode()
    assert "Write why not" in page and Approval.objects.get().state == "waiting"
    post(client, asked, "refuse", "Too early.")
    assert Approval.objects.get().state == "refused"
    assert User.objects.get(pk=alice.pk).role == "contributor"


def test_who_asked_takes_it_back_and_cannot_approve_it(client, asked, mona):
    client.force_login(mona)
    assert 'value="approve"' not in client.get(ADDRESS).content.decode()
    assert post(client, asked, "approve").status_code == 404
    post(client, asked, "take-back")
    assert Approval.objects.get().state == "taken_back"


def test_a_moderator_who_may_not_decide_about_roles_is_told_somebody_else_does(
        client, asked, milo):
    client.force_login(milo)
    assert "Somebody else decides" in client.get(ADDRESS).content.decode()
    assert post(client, asked, "approve").status_code == 404


def test_a_merge_is_asked_for_on_its_page_and_approved_by_another(
        client, unit, bob, mona, milo):
    published(unit)
    younger = Unit.objects.create(contributor=bob, title="VQ-45 by Veltrice")
    published(younger)
    client.force_login(mona)
    page = client.post(f"/moderation/{younger.pk}/merge/", {"into": 9999, "reason": "Same."})
    assert "no published record with that number" in page.content.decode()
    client.post(f"/moderation/{younger.pk}/merge/", {"into": unit.pk, "reason": "Same scratch."})
    assert Unit.objects.published().count() == 2
    client.force_login(milo)
    assert f"(record {unit.pk})" in client.get(ADDRESS).content.decode()
    post(client, Approval.objects.get(), "approve")
    assert Unit.objects.published().get() == unit


@pytest.mark.parametrize("typed", [{"into": ""}, {"into": "12b"}, {"reason": ""}, {"into": "-1"}])
def test_a_merge_without_a_number_or_a_reason_is_not_asked_for(client, unit, mona, typed):
    published(unit)
    client.force_login(mona)
    answer = client.post(f"/moderation/{unit.pk}/merge/", {"into": "3", "reason": "Same."} | typed)
    assert answer.status_code == 200 and 'class="err"' in answer.content.decode()
    assert not Approval.objects.exists()


def test_two_hundred_cost_at_most_twelve_queries(client, alice, bob, ada,
                                                 django_assert_max_num_queries):
    people = User.objects.bulk_create(User(username=f"person-{n}") for n in range(200))
    Approval.objects.bulk_create(
        Approval(action="role", subject=f"user/{one.pk}", asked_by=bob, code="trust",
                 reason="Sound.", detail={"role": "reviewer", "before": "contributor"})
        for one in people)
    client.force_login(ada)
    with django_assert_max_num_queries(12):
        client.get(ADDRESS)


@pytest.mark.parametrize("name", ["alice", "rita"])
def test_nobody_else_gets_in(client, request, name, asked):
    client.force_login(request.getfixturevalue(name))
    assert post(client, asked, "approve").status_code == 403
