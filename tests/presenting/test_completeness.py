import pytest

from teardowns.forms.items import UnitFields
from teardowns.forms.sections import BY_SLUG
from teardowns.presenting.completeness import KEY_PARTS, completeness

from .asked_sheet import row, sheet, shot

PARTS = {"Bulk capacitor": "bulk_capacitor", "Primary controller": "primary_controller",
         "Transformer or its core": "transformer", "Optocoupler": "optocoupler",
         "Capacitor across the barrier": "barrier_capacitor"}


def item(title, *rows, **more):
    items = [each for group in completeness(sheet(*rows, **more)).groups for each in group.items]
    return next(each for each in items if each.title == title)


def state(title, *rows, **more):
    return item(title, *rows, **more).state


def test_an_empty_sheet_has_everything_open_that_applies():
    found = completeness(sheet())
    assert found.answered == 0
    # Five of what it is, three outside, seven inside, two distances, one load test; nothing to
    # describe, to scale or to give an uncertainty of.
    assert len(found.open) == found.asked == 5 + 3 + 7 + 2 + 1


@pytest.mark.parametrize("title, role", PARTS.items())
@pytest.mark.parametrize("looked", ["not_found", "not_readable", "not_looked"])
def test_a_part_is_answered_by_having_looked_for_it(title, role, looked):
    assert state(title, row("component", role, looked)) == looked
    assert state(title, row("component", role)) == "there"


def test_the_core_stands_for_the_transformer():
    assert state("Transformer or its core", row("component", "core")) == "there"
    assert len(KEY_PARTS) == len(PARTS)


def test_where_no_plate_was_found_its_photo_is_not_asked_for_and_claims_are_answered():
    no_plate = row("printedtext", "plate", "not_found")
    assert state("Text of the rating plate", no_plate) == "not_found"
    assert state("Photo of the rating plate", no_plate) == "not_applicable"
    assert state("Claims", no_plate) == "not_found"


def test_a_plate_that_cannot_be_read_is_still_photographed():
    unreadable = row("printedtext", "plate", "not_readable")
    assert state("Text of the rating plate", unreadable) == "not_readable"
    assert state("Photo of the rating plate", unreadable) == "missing"
    assert state("Photo of the rating plate", photos=[shot("plate")]) == "there"


def test_outside_dimensions_are_there_when_all_three_are_answered():
    sides = [row("measurement", f"case_{side}") for side in ("height", "width", "depth")]
    assert state("Outside dimensions", *sides) == "there"
    assert item("Outside dimensions", *sides[:2]).words == "2 of 3"
    unread = row("measurement", "case_depth", "not_readable")
    assert state("Outside dimensions", *sides[:2], unread) == "there"


def test_both_sides_of_the_board_are_counted():
    front, back = shot("component_side", 1), shot("solder_side", 2)
    assert state("Photos of both sides of the board", photos=[front]) == "partly"
    assert state("Photos of both sides of the board", photos=[front, back]) == "there"


@pytest.mark.parametrize("found", [{"photos": [shot("opened")]}, {}])
def test_a_picture_or_a_part_from_inside_shows_that_it_was_opened(found):
    rows = [] if found else [row("component", "fuse")]
    assert state("Opened", *rows, **found) == "there"


def test_a_distance_counts_on_the_barrier_that_it_crosses_alone():
    clearance = "Clearance, mains side to output"
    assert state(clearance, row("insulationobservation", "PRI_SEC", also="clearance")) == "there"
    assert state(clearance, row("insulationobservation", "L_N", also="clearance")) == "missing"
    assert state(clearance, row("insulationobservation", "PRI_SEC", also="creepage")) == "missing"


def test_mains_are_asked_for_only_where_a_load_was_recorded():
    mains = "Mains voltage during the load test"
    assert state(mains, row("measurement", "failed_power", "not_looked")) == "not_applicable"
    loads = [row("measurement", "sustained_power", mains=230.0), row("measurement", "failed_power")]
    assert item(mains, *loads).words == "stated of 1 of 2 loads"
    assert state(mains, loads[0]) == "there"


def test_where_it_came_from_is_told_by_its_words():
    assert item("How it was obtained", channel="street").words == "street or market stall"
    assert state("How it was obtained") == "missing"


def test_every_item_leads_to_a_table_of_a_section_that_is_there():
    for asked in completeness(sheet()).open:
        address, _, place = asked.address.partition("#")
        slug = address.rstrip("/").rpartition("/")[2]
        if place.startswith("table-"):
            prefixes = {each.prefix for each in BY_SLUG[slug].items
                        if not isinstance(each, UnitFields)}
            assert place.removeprefix("table-") in prefixes, asked
        else:
            assert slug in BY_SLUG or slug in ("photos", "7"), asked
