"""What a sheet was sent back for stands at the entry that it speaks of."""
import pytest
from django.urls import reverse

from teardowns.models import Unit
from tests.handing_in import remark_on, with_plate

pytestmark = pytest.mark.django_db


@pytest.fixture
def page_of(client, alice, unit):
    with_plate(unit, alice)
    client.force_login(alice)
    Unit.objects.update(status="sent_back")
    return lambda slug: client.get(f"/bench/{unit.pk}/{slug}/").content.decode()


def test_it_stands_at_its_entry_with_the_way_to_answer(page_of, unit, mona):
    remark = remark_on(unit, mona, text="The photo says <1 A>.")
    page = page_of("printed")
    assert "The photo says &lt;1 A&gt;." in page
    assert f'{reverse("bench_submit", args=[unit.pk])}#remark-{remark.pk}' in page


def test_another_section_counts_it_in_the_rail_alone(page_of, unit, mona):
    remark_on(unit, mona)
    page = page_of("outside")
    assert "The photo says" not in page and "1 remark<" in page


def test_an_entry_that_was_never_written_can_have_one(page_of, unit, mona):
    remark_on(unit, mona, ref="measurement/mass-total", text="What does it weigh?")
    assert "What does it weigh?" in page_of("outside")


def test_a_remark_on_a_removed_row_is_on_the_list_alone(page_of, unit, mona, client):
    remark_on(unit, mona, ref="port/gone", text="Which port?")
    assert "Which port?" not in page_of("ports")
    assert "Which port?" in page_of("submit")


def test_a_remark_on_a_photo_stands_on_its_page(page_of, unit, photo, mona):
    remark_on(unit, mona, ref=f"photo/{photo.key}", text="Out of focus.")
    assert "Out of focus." in page_of(f"photos/{photo.key}")
    assert f"/bench/{unit.pk}/photos/{photo.key}/" in page_of("submit")


def test_a_section_with_remarks_costs_at_most_twelve_queries(
        page_of, unit, mona, django_assert_max_num_queries):
    for _ in range(3):
        remark_on(unit, mona)
    with django_assert_max_num_queries(12):
        page_of("printed")
