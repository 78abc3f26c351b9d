import pytest

from teardowns.models import Claim, PrintedText
from tests.forms.sent import checked, messages, only_change

pytestmark = pytest.mark.django_db
PLATE = "INPUT 100-240V\nOUTPUT 5V 1A"


@pytest.fixture
def plate(unit, alice):
    return PrintedText.objects.create(unit=unit, key="plate", source="plate", text=PLATE,
                                      author=alice)


def claim(unit, **typed):
    row = {"key": "claim-1", "version": "0", "kind": "output", "printed_text": "plate"} | typed
    return checked(unit, "printed", {"claims-TOTAL": "1"} | {
        f"claims-0-{name}": text for name, text in row.items()
    })


def test_a_claim_keeps_its_words_and_their_place(unit, plate):
    stored = only_change(claim(unit, text="5V 1A", voltage="5", current="1", start="22", end="27"))
    assert (stored["start"], stored["end"]) == (22, 27)
    assert PLATE[22:27] == "5V 1A"
    assert (stored["voltage_low"], stored["voltage_high"], stored["current"]) == (5.0, 5.0, 1.0)
    assert stored["power"] is None


def test_the_place_follows_words_that_moved(unit, plate):
    stored = only_change(claim(unit, text="5V 1A", voltage="5", current="1", start="3", end="8"))
    assert (stored["start"], stored["end"]) == (22, 27)


def test_words_that_are_not_in_the_text_have_no_place(unit, plate):
    stored = only_change(claim(unit, text="9V 1A", voltage="9", current="1", start="22", end="27"))
    assert (stored["start"], stored["end"]) == (None, None)


def test_an_output_claim_needs_numbers(unit, plate):
    assert "needs a voltage and current, or a power" in messages(claim(unit, text="OUTPUT"))


def test_a_stored_claim_sent_back_unchanged_stays_untouched(unit, plate, alice):
    Claim.objects.create(unit=unit, key="in", kind="input", printed_text=plate, text="100-240V",
                         start=6, end=14, voltage_low=100.0, voltage_high=240.0, how="read_off",
                         author=alice)
    assert checked(unit, "printed", {}).row_changes() == []


def test_a_conflict_shows_words_of_the_page_and_no_hidden_place(unit, plate, alice):
    Claim.objects.create(unit=unit, key="claim-1", kind="mark", text="CE", printed_text=plate,
                         mark="ce", start=22, end=24, author=alice, version=2)
    said = messages(claim(unit, version="1", kind="mark", mark="ce", text="CE 0123", start="22",
                          end="29"))
    assert "Saved now: As printed: CE" in said and "End" not in said
