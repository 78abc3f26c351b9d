"""What of a document a search may find."""
import json
from pathlib import Path

from teardowns.services.load_demo import FIXTURES
from teardowns.services.search_texts import of_document

DOCUMENT = {
    "unit": {"notes": "Lent by a\nneighbour."},
    "printed_texts": [{"text": "VELTRICE  VQ-45\nOUTPUT: 5V 3A"}, {}],
    "claims": [{"kind": "model", "text": "Model No.: VQ-45"},
               {"kind": "output", "voltage_low": 5.0, "voltage_high": 5.0, "current": 3.0}],
    "components": [{"role": "primary_controller", "marking": "PZ6318", "part": "PZ6318"},
                   {"role": "fuse", "marking": "T2A"}, {"role": "case"}],
    "parts": [{"marking": "PZ6318", "function": "flyback controller"}],
}


def texts(document=DOCUMENT, title="Desk charger", maker="Veltrice", model="VQ 45"):
    return of_document(document, title, maker, model)


def test_title_maker_and_model_are_one_title():
    assert texts().title == "Desk charger · Veltrice · VQ 45"
    assert texts(maker="", model="").title == "Desk charger"


def test_each_printed_line_part_and_note_is_a_line():
    assert texts().lines == (
        "VELTRICE VQ-45", "OUTPUT: 5V 3A", "primary controller: PZ6318 (flyback controller)",
        "fuse: T2A", "Lent by a", "neighbour.")


def test_a_model_is_known_without_the_label_before_it():
    assert texts().models == ("VQ 45", "VQ-45")


def test_markings_and_ratings_are_kept_apart():
    assert texts().markings == ("PZ6318", "T2A")
    assert texts().claims == ("5v3a",)


def test_a_document_that_says_nothing_gives_its_title():
    assert texts({}, "Cube", "", "").lines == ()


def test_an_accent_that_stands_apart_is_joined():
    assert texts({}, "Cafe\u0301", "", "").title == "Café"


def test_captions_of_photos_are_no_words():
    """A photo may be hidden, and its words with it."""
    assert texts(DOCUMENT | {"photos": [{"caption": "my street"}]}) == texts()


def test_a_whole_document_is_read():
    document = json.loads((Path(FIXTURES) / "12-umberlisk-hub65.json").read_text("utf-8"))
    found = texts(document, "Desktop charger", "Umberlisk", "Hub 65")
    # Its plate, its controller and one rating, as the file has them.
    assert "UMBERLISK HUB 65" in found.lines and "ZHB-1" in found.markings
    assert "20v3.25a" in found.claims
