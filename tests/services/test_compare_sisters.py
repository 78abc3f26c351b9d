"""What sister boards showed is kept beside the verdict, and never moves it."""
import pytest

from teardowns.models import Assessment, FamilyPool, ListedUnit, Publication, SisterReport
from teardowns.services.compare_sisters import compare_sisters
from tests.library import family as opened
from tests.likenesses import board, component, winding
from tests.published import published
from tests.services.test_want_sisters import join

pytestmark = pytest.mark.django_db


@pytest.fixture
def torn_down(alice):
    """A unit whose transformer somebody unwound."""
    unit = board(alice, "Torn down")
    winding(unit, "secondary", 3, 9.0)
    component(unit, "fuse", "T1A", rated_current=1.0)
    published(unit)
    return unit


@pytest.fixture
def closed(alice):
    """A unit of which the parts were read and nothing was unwound."""
    return board(alice, "Closed", turns=None)


@pytest.fixture
def family(torn_down, closed, bob, mona):
    made = opened(mona)
    for unit in (torn_down, closed):
        join(made, unit, bob, mona)
    return made


def report_of(unit):
    return SisterReport.objects.get(publication__unit=unit)


def test_it_keeps_what_the_unit_could_take_over_and_from_where(family, torn_down, closed):
    assert compare_sisters() == 3                        # two units and the family
    kept = report_of(closed)
    assert kept.holds and kept.families == [family.slug]
    rows = {row["code"]: row for row in kept.inherited}
    assert rows["secondary_turns"]["unit"] == torn_down.pk
    assert rows["secondary_turns"]["version"] == 2
    assert report_of(torn_down).inherited == []


def test_it_moves_no_verdict_no_list_and_no_assessment(family):
    before = [list(model.objects.order_by("pk").values()) for model in (
        Assessment, ListedUnit, Publication)]
    compare_sisters()
    assert [list(model.objects.order_by("pk").values()) for model in (
        Assessment, ListedUnit, Publication)] == before


def test_run_twice_it_has_nothing_left_to_do(family):
    compare_sisters()
    assert compare_sisters() == 0


def test_what_became_stale_is_worked_out_anew(family, torn_down, closed):
    compare_sisters()
    winding(torn_down, "auxiliary", 5, 11.0)
    published(torn_down)
    assert not report_of(closed).holds
    compare_sisters()
    assert "auxiliary_turns" in {row["code"] for row in report_of(closed).inherited}


def test_a_sister_of_another_design_is_set_aside_and_named(family, torn_down, closed):
    closed.components.filter(role="primary_controller").update(marking="PZ6318")
    published(closed)
    compare_sisters()
    kept = report_of(closed)
    assert kept.inherited == [] and kept.set_aside[0]["about"] == "primary_controller"
    assert FamilyPool.objects.get().disagreements[0]["about"] == "primary_controller"


def test_the_family_s_pool_names_each_reading_with_its_unit(family, torn_down):
    compare_sisters()
    pooled = {row["code"]: row["unit"] for row in FamilyPool.objects.get().pooled}
    assert pooled["secondary_turns"] == torn_down.pk
