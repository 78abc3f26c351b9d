"""What an item of a review shows: a place in a log, a value or its absence, whose word is told."""
import pytest

from teardowns.models import Measurement, Recording
from teardowns.presenting.review_items import HIDDEN, Sources, holds_a_number, item_kinds
from teardowns.reviewing.progress import progress
from teardowns.reviewing.words import Row
from teardowns.services.review_rows import row_under_review

pytestmark = pytest.mark.django_db


def row(unit, rita, **fields):
    Measurement.objects.create(**{
        "unit": unit, "key": "m", "quantity": "mass_total", "value": 0.0514,
        "author": unit.contributor} | fields)
    return row_under_review(unit, rita, "measurement", "m")


def item(found, unit, rita, **more):
    rows = {name: [] for name in ("printedtext", "claim", "port", "component", "stacklayer",
                                  "insulationobservation")} | {"measurement": [found]}
    came = progress([Row(found.ref, found.version, found.author_id)], [], unit.contributor_id)
    sources = Sources(unit, rita.pk, {found.ref: came.rows[0]}, {}, {}, {}, **more)
    return item_kinds(rows, sources)[0].items[0]


def cells(shown):
    return {cell.label: str(cell.text) for cell in shown.cells}


def test_a_number_read_from_a_log_leads_to_its_place_in_it(unit, rita):
    log = Recording.objects.create(
        unit=unit, key="sweep", kind="load_sweep", sha256="0" * 64, caption="Sweep at 230 V",
        received=True, channels="c", author=unit.contributor)
    found = row(unit, rita, recording=log)
    found.span_name, found.span_start, found.span_end = "mass_total#2", 720.0, 1320.0
    shown = item(found, unit, rita).shown
    assert shown.log == f"/units/{unit.pk}/recordings/sweep/#result-mass_total-2"
    assert shown.log_words.startswith("Sweep at 230 V, from ") and shown.words == ""


def test_what_nothing_shows_says_so(unit, rita):
    assert item(row(unit, rita), unit, rita).shown.words == "No photo and no log shows it."


def test_a_value_is_shown_or_hidden_until_one_has_measured(unit, rita):
    found = row(unit, rita)
    assert "51.4" in cells(item(found, unit, rita))["Value"]
    assert cells(item(found, unit, rita, hide_values=True))["Value"] == HIDDEN


def test_looked_for_and_not_found_is_a_fact_to_decide(unit, rita):
    found = row(unit, rita, state="not_found", value=None)
    shown = item(found, unit, rita)
    assert "Looked, not found" in cells(shown)["Value"] and shown.is_open


def test_a_note_is_escaped(unit, rita):
    shown = item(row(unit, rita, note="<b>read twice</b>"), unit, rita)
    assert cells(shown)["Note"] == "&lt;b&gt;read twice&lt;/b&gt;"


@pytest.mark.parametrize(("quantity", "holds"), [
    ("mass_total", True), ("loose_metal", False), ("of_another_edition", True)])
def test_whether_a_part_is_there_is_not_measured(quantity, holds):
    assert holds_a_number(Measurement(quantity=quantity)) is holds
