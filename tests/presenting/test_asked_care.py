import pytest

from teardowns.presenting.asked_care import ASKS_OF_CARE, SERIAL

from .asked_sheet import row, sheet, shot


def item(title, *rows, **more):
    return next(found for ask in ASKS_OF_CARE
                if (found := ask(sheet(*rows, **more))).title == title)


def report(*verdicts):
    return {"claims": [{"text": f"claim {i}", "verdict": verdict}
                       for i, verdict in enumerate(verdicts, start=1)]}


def test_claims_that_no_evidence_speaks_to_are_named():
    found = item("Evidence for each claim", report=report("no evidence", "supported"))
    assert (found.state, found.words) == ("partly", "without any: claim 1")


def test_of_many_bare_claims_the_first_are_named_and_the_rest_counted():
    words = item("Evidence for each claim", report=report(*["no evidence"] * 6)).words
    assert words == "without any: claim 1; claim 2; claim 3; claim 4 and 2 more"


@pytest.mark.parametrize("unjudged", [None, report()])
def test_without_a_claim_none_is_asked_for(unjudged):
    assert item("Evidence for each claim", report=unjudged).state == "not_applicable"


def test_what_was_measured_has_an_uncertainty():
    rows = [row("measurement", "mass_total", also="measured", uncertainty=0.001),
            row("measurement", "case_height", also="measured"),
            row("insulationobservation", "PRI_SEC", also="clearance", uncertainty=1e-4)]
    assert item("Uncertainties", *rows).words == "given for 2 of 3 values"


@pytest.mark.parametrize("without", [
    row("measurement", "case_is_metal", also="measured"),                     # a flag
    row("measurement", "rated_ambient", also="read_off"),                     # printed by others
    row("measurement", "mass_total", "not_looked", also="measured")])
def test_what_has_no_uncertainty_of_its_own_is_not_asked_for_one(without):
    assert item("Uncertainties", without).state == "not_applicable"


def test_a_distance_off_a_photo_needs_a_scale_on_that_photo():
    read = row("insulationobservation", "PRI_SEC", also="creepage", photo=1, off_photo=True)
    title = "Scale on photos that distances were read off"
    assert item(title, read, photos=[shot("solder_side", 1)]).state == "missing"
    assert item(title, read, photos=[shot("solder_side", 1, has_scale=True)]).state == "there"
    other = shot("solder_side", 2, has_scale=True)
    assert item(title, read, photos=[other]).state == "missing"
    assert item(title).state == "not_applicable"


def test_photos_are_described_in_words():
    photos = [shot("plate", 1), shot("opened", 2, alt="")]
    assert item("Photos described in words", photos=photos).words == "1 of 2"
    assert item("Photos described in words").state == "not_applicable"


@pytest.mark.parametrize("text, looks", [
    ("Model VQ-45 S/N 2231B0457", True), ("SN: 004 117 225", True), ("Serial No. AB12CD34", True),
    ("SER.NR.: 90017723", True), ("S/N xxxxxxxx", False), ("Model SN-45", False),
    ("Input 100-240V 50/60Hz", False), ("serial production in series 4", False)])
def test_what_looks_like_a_serial_number(text, looks):
    assert bool(SERIAL.search(text)) == looks


def test_a_serial_number_in_a_text_is_shown_to_its_writer():
    found = item("Serial numbers left out", row("printedtext", "plate", also="S/N 2231B0457"))
    assert (found.state, found.words) == (
        "missing", "“S/N 2231B0457” looks like one: write x for its digits.")
    assert item("Serial numbers left out", row("claim", "output", also="5V 2A")).state == "there"
