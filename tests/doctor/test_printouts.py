from teardowns.doctor import printouts
from teardowns.typesetting.typeset import NotSet
from tests.core.doctor.found import bad, found


def test_a_record_can_be_typeset():
    assert bad("printouts") == ""


def test_letters_that_are_missing_are_a_note(monkeypatch):
    monkeypatch.setattr(printouts, "font_folders", lambda: [])
    monkeypatch.setattr(printouts, "typeset", lambda document, pictures: b"%PDF")
    assert [level for level, _ in found("printouts")] == ["note", "note", "good"]


def test_a_typesetter_that_fails_is_a_fault(monkeypatch):
    def fails(document, pictures):
        raise NotSet("No module named typst")

    monkeypatch.setattr(printouts, "typeset", fails)
    assert "No record can be put on paper" in bad("printouts")
