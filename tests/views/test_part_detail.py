"""One part: limits with sources, what contains it, and which limit changed when."""
import pytest

from teardowns.models import Change, Part, PartLimit
from teardowns.services.decide_part import accept_part
from teardowns.services.propose_part import propose_part
from tests.library import POWER, changed_limit, contain, listed, new_limit
from tests.published import published
from tests.services.measured_units import measured_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def part(mona):
    return listed(mona)


def text(client, part):
    return client.get(f"/parts/{part.pk}/").content.decode()


def test_a_reader_sees_its_limits_with_unit_and_source(client, part):
    page = text(client, part)
    assert "12\u202fW" in page and "table 1, page 3" in page
    assert "No published unit contains it." in page


def test_what_a_bench_sheet_brought_in_is_its_contributor_s_alone(client, alice, bob, mona):
    own = Part.objects.create(marking="KR905", curator=alice)
    for person, status in ((None, 404), (bob, 404), (alice, 200), (mona, 200)):
        if person:
            client.force_login(person)
        assert client.get(f"/parts/{own.pk}/").status_code == status
    assert client.get("/parts/0/").status_code == 404


def test_units_that_contain_it_stand_there_as_published(client, part, unit):
    contain(unit, part, designator="U1")
    published(unit)
    type(unit).objects.update(title="Renamed on the bench")
    page = text(client, part)
    assert "Veltrice VQ-45" in page and "primary controller U1" in page
    assert "Renamed on the bench" not in page


def test_units_stand_beside_the_power_that_is_cited(client, part, alice):
    plate = {"kind": "input", "key": "in", "text": "100-240 V", "voltage_low": 100.0,
             "voltage_high": 240.0}
    unit = measured_unit(alice, 50.0, 10.0, claims=[plate])
    contain(unit, part)
    published(unit)
    page = text(client, part)
    assert "Cited: 12\u202fW for 85 to 265 V" in page and 'class="plane spread"' in page
    assert "10.0\u202fW mains not stated" in page
    assert "What a published power means" in page


def test_a_part_without_a_published_power_is_compared_with_nothing(client, mona, unit):
    PartLimit.objects.create(part=(rated := listed(mona, "KM700-7", None)), citation="Sheet",
                             quantity="switch_voltage_rating", value=700.0)
    contain(unit, rated)
    published(unit)
    page = text(client, rated)
    assert "No published power of it is in the library" in page and "plane" not in page


def test_sources_that_differ_are_said_to_decide_nothing(client, part):
    assert "sources differ" not in text(client, part)
    PartLimit.objects.create(part=part, quantity=POWER, value=15.0, citation="Another sheet")
    assert text(client, part).count("sources differ") == 2


def test_it_says_which_limit_changed_when_by_whom_and_why(client, alice, mona, part):
    proposal = changed_limit(alice, part, 13.0)
    accept_part(moderator=mona, proposal_pk=proposal.pk, version=1, part_version=1,
                reason="Looked it up in rev. 3.")
    page, at = text(client, part), PartLimit.history.latest().history_date
    for words in ("12\u202fW, now 13\u202fW", f"{at:%Y-%m-%d %H:%M} UTC",
                  "alice: Rev. 3 says so.", "mona: Looked it up in rev. 3."):
        assert words in page


def test_what_a_bench_sheet_wrote_before_anybody_looked_is_not_told(client, alice, mona, unit):
    own = Part.objects.create(marking="KR905", curator=alice, function="Words of before.")
    own.function = "controller"
    own.save()
    contain(unit, own)
    published(unit)
    assert "Words of before." not in text(client, own)
    assert "Taken into the library." in text(client, own)
    client.force_login(mona)
    assert "Words of before." in text(client, own)


def test_a_version_that_rests_on_the_former_limit_is_marked(client, alice, mona, part, unit):
    contain(unit, part)
    published(unit)
    assert "before the latest change" not in text(client, part)
    proposal = changed_limit(alice, part, 13.0)
    accept_part(moderator=mona, proposal_pk=proposal.pk, version=1, part_version=1, reason="So.")
    assert "before the latest change" in text(client, part)
    published(unit)
    assert "before the latest change" not in text(client, part)


def test_what_takes_whose_place_is_said_on_both_pages(client, mona, part):
    newer = listed(mona, "PZ6319", None)
    Part.objects.filter(pk=part.pk).update(superseded_by=newer)
    assert "Superseded by" in text(client, part) and "PZ6319" in text(client, part)
    assert "takes the place of" in text(client, newer)


def test_a_waiting_proposal_is_seen_by_its_proposer_and_by_moderators(
        client, alice, bob, mona, part):
    new_limit(alice, part, why="Words that nobody looked at yet.")
    for person, sees in ((None, False), (bob, False), (alice, True), (mona, True)):
        if person:
            client.force_login(person)
        assert ("nobody looked at yet" in text(client, part)) == sees


def test_a_declined_proposal_is_not_told_to_readers(client, alice, mona, part):
    new_limit(alice, part, why="Words that were declined.")
    part.proposals.update(state="taken_back")
    assert "Words that were declined." not in text(client, part)


def test_a_page_full_of_everything_costs_at_most_twelve_queries(
        client, alice, mona, part, unit, django_assert_max_num_queries):
    older = listed(mona, "PZ6317", None, superseded_by=part)
    for n in range(5):
        contain(unit, part, f"c{n}")
        proposal = new_limit(alice, Part.objects.get(pk=part.pk), 20.0 + n, page=str(n))
        accept_part(moderator=mona, proposal_pk=proposal.pk, version=1,
                    part_version=Part.objects.get(pk=part.pk).version, reason="Looked up.")
    propose_part(proposer=alice, change=Change.SUPERSEDED, part=Part.objects.get(pk=part.pk),
                 why="Notice.", successor=listed(mona, "PZ9", None))
    published(unit)
    client.force_login(mona)
    with django_assert_max_num_queries(12):
        page = text(client, part)
    assert older.marking in page and "PZ9" in page
