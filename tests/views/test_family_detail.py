"""A board family: units side by side, each by its own evidence, and why they stand there."""
import pytest

from teardowns.models import Unit
from teardowns.presenting.family_sheet import APART
from teardowns.services.edit_family import (
    decide_member,
    propose_member,
    remove_member,
    rename_family,
)
from tests.library import contain, listed
from tests.library import family as opened
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/families/board-hb-12/"


@pytest.fixture
def family(mona):
    return opened(mona)


def member(family, unit, proposer, moderator=None, why="The same board number."):
    if not unit.is_public:
        published(unit)
    made = propose_member(proposer=proposer, family_pk=family.pk, unit_pk=unit.pk, why=why)
    if moderator:
        decide_member(moderator=moderator, member_pk=made.pk, version=1, accepted=True,
                      reason="Looked at both boards.")
        made.refresh_from_db()
    return made


def text(client):
    return client.get(ADDRESS).content.decode()


def test_it_says_that_no_evidence_passes_from_unit_to_unit(client, family):
    assert APART in text(client)
    assert client.get("/families/no-such-family/").status_code == 404


def test_units_stand_side_by_side_as_they_were_published(client, family, unit, bob, mona):
    Unit.objects.update(maker="Veltrice", model="VQ-45")
    unit.refresh_from_db()
    member(family, unit, bob, mona)
    Unit.objects.update(maker="Changed on the bench")
    page = text(client)
    assert "Veltrice<br>VQ-45" in page and "Changed on the bench" not in page
    assert "bob proposed it, mona accepted it" in page and "Looked at both boards." in page


def test_a_unit_that_is_hidden_is_not_told_of(client, family, unit, bob, mona):
    member(family, unit, bob, mona)
    Unit.objects.update(status="withdrawn")
    assert "No published unit stands in this family" in text(client)
    assert f"unit {unit.pk}" not in text(client)


def test_a_proposal_is_seen_by_its_proposer_and_by_moderators(
        client, family, unit, alice, bob, mona):
    member(family, unit, bob, why="Words that nobody looked at yet.")
    for person, sees in ((None, False), (alice, False), (bob, True), (mona, True)):
        if person:
            client.force_login(person)
        assert ("nobody looked at yet" in text(client)) == sees


def test_named_rows_of_evidence_are_links_and_all_else_is_text(client, family, unit, mona):
    contain(unit, listed(mona, watts=None))
    published(unit)
    rename_family(moderator=mona, family_pk=family.pk, version=1, name=family.name,
                  description="<b>One</b> layer.", evidence_against="",
                  evidence_for=f"As {unit.pk}/component/ctrl shows.")
    page = text(client)
    assert "&lt;b&gt;One&lt;/b&gt; layer." in page
    assert f'<a href="/units/{unit.pk}/#component-ctrl">{unit.pk}/component/ctrl</a>' in page


def test_what_changed_is_told_with_who_and_why(client, family, unit, bob, mona):
    made = member(family, unit, bob, mona)
    rename_family(moderator=mona, family_pk=family.pk, version=1, name="Board HB-13",
                  description="", evidence_for="", evidence_against="")
    remove_member(moderator=mona, member_pk=made.pk, version=2, reason="Another revision.")
    page = text(client)
    for words in ("“Board HB-12”, now “Board HB-13”", f"Taken in: unit {unit.pk}",
                  f"Removed: unit {unit.pk}", "Another revision."):
        assert words in page


def test_a_family_of_many_costs_at_most_twelve_queries(
        client, family, alice, bob, mona, django_assert_max_num_queries):
    for n in range(8):
        unit = Unit.objects.create(contributor=alice, title=f"Unit {n}")
        member(family, unit, bob, mona if n else None)
    client.force_login(mona)
    with django_assert_max_num_queries(12):
        page = client.get(ADDRESS)
    assert len(page.context["members"]) == 7 and len(page.context["waiting"]) == 1


def test_the_newest_stand_first(client, family, alice, bob, mona):
    units = [Unit.objects.create(contributor=alice, title=f"Unit {n}") for n in range(3)]
    for unit in units:
        member(family, unit, bob, mona)
    shown = [one.unit.pk for one in client.get(ADDRESS).context["members"]]
    assert shown == [unit.pk for unit in reversed(units)]
