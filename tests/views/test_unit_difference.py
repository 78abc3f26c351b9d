"""Two versions side by side."""
import pytest

from teardowns.models import Measurement, Unit
from teardowns.services.publish_unit import keep_version
from tests.corrections import public_unit
from tests.published import confirm_all
from tests.views.versions import address, page, two_versions


@pytest.fixture
def unit(alice, bob, mona):
    return two_versions(alice, bob, mona)


def test_it_says_what_was_added_removed_and_changed(client, unit):
    text = page(client, unit, "versions/2/against/1/")
    assert "1 added, 1 removed, 1 changed" in text
    assert "12.30 ± 0.10 W, ± U" in text and "13.00 ± 0.10 W, ± U" in text
    assert "50 mm" in text


def test_the_rows_lead_to_the_version_in_which_they_stand(client, unit):
    text = page(client, unit, "versions/2/against/1/")
    assert f'href="{address(unit, "versions/2/")}#measurement-held"' in text
    assert f'href="{address(unit, "versions/1/")}#claim-class-2"' in text


def test_it_reads_the_other_way_round_too(client, unit):
    text = page(client, unit, "versions/1/against/2/")
    assert text.index("13.00 ± 0.10 W") < text.index("12.30 ± 0.10 W")


def test_a_version_against_itself_is_the_same(client, unit):
    assert "The evidence of both is the same" in page(client, unit, "versions/2/against/2/")


@pytest.mark.parametrize("end", ["versions/3/against/1/", "versions/1/against/0/"])
def test_a_version_that_is_not_there_is_not_found(client, unit, end):
    page(client, unit, end, status=404)


def test_no_words_of_a_contributor_become_markup(client, alice, mona):
    unit = public_unit(alice)
    Measurement.objects.filter(unit=unit, key="held").update(note="<b onclick=x>new</b> words")
    keep_version(Unit.objects.get(pk=unit.pk), mona)
    text = page(client, unit, "versions/2/against/1/")
    assert "<b onclick" not in text and "&lt;b" in text


def test_two_hundred_changed_rows_are_one_page_of_few_queries(
        client, alice, mona, django_assert_max_num_queries):
    unit = public_unit(alice)
    Measurement.objects.bulk_create(Measurement(
        unit=unit, key=f"m{n}", quantity="case_height", value=0.05 + n / 1e4, author=alice,
        review_state="confirmed") for n in range(200))
    confirm_all(unit)
    keep_version(Unit.objects.get(pk=unit.pk), mona)
    Measurement.objects.filter(unit=unit, key__startswith="m1").update(value=0.07)
    Measurement.objects.filter(unit=unit, key__startswith="m2").update(review_state="disputed")
    keep_version(Unit.objects.get(pk=unit.pk), mona)
    with django_assert_max_num_queries(12):
        text = page(client, unit, "versions/3/against/2/")
    assert "review was “confirmed”, is now “disputed”" in text
    assert len(text) < 150_000
    with django_assert_max_num_queries(12):
        assert "200 added" in page(client, unit, "versions/2/against/1/")


def test_a_draft_has_no_address_for_it(client, unit, alice):
    draft = Unit.objects.create(contributor=alice, title="Draft")
    client.force_login(alice)
    page(client, draft, "versions/2/against/1/", status=404)


def test_only_reading(client, unit):
    assert client.post(address(unit, "versions/2/against/1/")).status_code == 405
