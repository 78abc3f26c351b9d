"""Pictures of many public units: what is drawn, marked, narrowed, left out and refused."""
import pytest

from teardowns.models import ListedUnit, Unit
from teardowns.services.listing_clock import hold_clock, raise_clock
from tests.published import published

pytestmark = pytest.mark.django_db


def listed(alice, **columns):
    """A public unit whose row of the listing says this."""
    unit = Unit.objects.create(contributor=alice, title=f"Veltrice VQ-{Unit.objects.count()}")
    published(unit)
    ListedUnit.objects.filter(pk=unit.pk).update(changed=raise_clock(hold_clock()), **columns)
    return unit


@pytest.fixture
def units(alice):
    """Three, of which one was not weighed."""
    return [listed(alice, mass=0.05, measured_power=10, claimed_power=12, capability=9,
                   verdict="doubtful"),
            listed(alice, mass=0.08, measured_power=20, claimed_power=20, capability=21,
                   verdict="supported"),
            listed(alice, claimed_power=30, capability=31, verdict="supported")]


def text(client, query=""):
    answer = client.get(f"/population/{query}")
    assert answer.status_code == 200
    return answer.content.decode()


def drawing(page):
    return page[page.index('class="plane'):page.index("</figure>")]


def test_every_point_leads_to_its_unit(client, units):
    drawn = drawing(text(client))
    assert all(f'href="/units/{unit.pk}/"' in drawn for unit in units[:2])
    assert f'href="/units/{units[2].pk}/"' not in drawn


def test_who_is_left_out_is_counted(client, units):
    page = text(client)
    assert "2 units drawn" in page and "1 unit was not weighed without cable" in page
    assert "No band is drawn" in page


@pytest.mark.parametrize("of, heading", [
    ("mass", "Mass against measured power"), ("capability", "Capability against claim"),
    ("bulk", "Bulk capacitance per watt"), ("insulation", "Insulation margins"),
    ("no-such-thing", "Mass against measured power")])
def test_each_population_has_its_page(client, units, of, heading):
    assert f"<h1>{heading}</h1>" in text(client, f"?of={of}")


def test_the_same_facets_narrow_it_as_narrow_the_list(client, units):
    page = text(client, "?of=capability&verdict=supported")
    assert "2 units drawn" in page
    assert f'href="/units/{units[0].pk}/"' not in drawing(page)
    assert 'name="verdict" value="supported" checked' in page
    assert "?of=capability&amp;" in page[page.index("Narrowed by"):]      # taken off, still here


def test_a_wrong_choice_is_named_and_narrows_nothing(client, units):
    page = text(client, "?of=capability&verdict=splendid")
    assert "splendid" in page and "3 units drawn" in page


def test_the_unit_that_a_reader_came_from_is_marked_first_and_kept(client, units):
    page = text(client, f"?of=capability&unit={units[1].pk}")
    assert 'class="this"' in drawing(page)
    rows = page[page.index("<tbody"):]
    assert rows.index(units[1].title) < rows.index(units[0].title)
    assert f'name="unit" value="{units[1].pk}"' in page
    assert f"?of=mass&amp;unit={units[1].pk}" in page


@pytest.mark.parametrize("unit", ["999999", "0", "x", "-1", "9" * 40])
def test_a_unit_that_is_not_public_marks_nobody(client, units, unit):
    page = text(client, f"?unit={unit}")
    assert 'class="this"' not in page
    assert ("No public unit has the number" in page) == (unit == "999999")


def test_a_unit_that_was_not_weighed_is_told_so(client, units):
    assert "This unit is not drawn: it was not weighed" in text(client, f"?unit={units[2].pk}")


def test_where_nobody_is_left_the_page_says_so_and_leads_back(client, units):
    page = text(client, "?of=insulation&verdict=supported")
    assert "Of 2 units none has what this picture needs" in page
    assert 'href="?of=insulation"' in page and "plane" not in page.split("</style>")[-1]


def test_a_site_without_units_says_so(client):
    assert "0 units drawn" in text(client)


def test_what_is_typed_is_kept_and_escaped(client, units):
    page = text(client, "?q=%3Cb%3Eno")
    assert "&lt;b&gt;no" in page and "<b>no" not in page


@pytest.mark.parametrize("page", ["0", "-3", "999999999999999999999", "two"])
def test_a_page_that_is_no_page_is_the_nearest(client, units, page):
    assert "2 units drawn" in text(client, f"?page={page}")


def test_it_rejects_other_methods(client):
    assert client.post("/population/").status_code == 405


def test_it_asks_few_queries(client, units, django_assert_max_num_queries):
    query = f"?unit={units[0].pk}&verdict=supported&verdict=doubtful"
    text(client, query)
    with django_assert_max_num_queries(3):           # the clock twice, titles
        text(client, query)


def test_the_unit_s_page_leads_here(client, units):
    page = client.get(f"/units/{units[0].pk}/").content.decode()
    assert f"/population/?of=mass&amp;unit={units[0].pk}" in page


def test_what_the_address_asks_for_and_is_not_there_is_said(client, units):
    page = text(client, "?of=nonsense&unit=zz")
    assert "There is no picture “nonsense” of the units" in page
    assert "“zz” is not the number of a unit, so none is marked" in page
    assert "is not the number" not in text(client, f"?of=mass&unit={units[0].pk}")
    assert "There is no picture" not in text(client, "")
