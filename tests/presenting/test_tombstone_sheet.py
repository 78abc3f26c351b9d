"""What stands of a withdrawn record."""
from datetime import UTC, datetime
from hashlib import sha256
from types import SimpleNamespace

from teardowns.exchange.document import read_document, write_document
from teardowns.presenting.tombstone_sheet import tombstone_sheet
from tests.exchange.whole_document import whole_document

AT = datetime(2026, 5, 6, tzinfo=UTC)


def unit(**fields):
    publication = SimpleNamespace(
        number=2, document=whole_document(), withdrawn_at=AT, withdrawal_code="spam",
        withdrawal_reason="It advertises.")
    return SimpleNamespace(**{"pk": 7, "contributor_id": 1, "publication": publication,
                              "successor": None, "successor_id": None} | fields)


def statement(by):
    return SimpleNamespace(by_id=by, code="others_rights", rule="The rule.", facts="Not theirs.",
                           at=AT)


def test_it_says_when_by_which_role_and_why():
    sheet = tombstone_sheet(unit(), statement(by=1))
    assert (sheet["on"], sheet["by"], sheet["facts"]) == (
        "2026-05-06", "its contributor", "Not theirs.")
    assert sheet["reason"].startswith("It uses somebody’s picture")
    assert tombstone_sheet(unit(), statement(by=2))["by"] == "a moderator"


def test_without_a_statement_the_version_tells():
    sheet = tombstone_sheet(unit(), None)
    assert (sheet["on"], sheet["by"], sheet["facts"]) == ("2026-05-06", "", "It advertises.")


def test_the_digest_is_that_of_the_document_as_it_was_handed_out():
    text = write_document(read_document(whole_document()))
    assert tombstone_sheet(unit(), None)["digest"] == sha256(text.encode()).hexdigest()


def test_it_leads_on_without_a_word_of_what_the_other_record_says():
    sheet = tombstone_sheet(unit(successor=object(), successor_id=9), None)
    assert sheet["successor"] == {"title": "Unit 9", "href": "/units/9/"}


def test_nothing_that_the_record_held_is_repeated():
    told = str(tombstone_sheet(unit(), statement(by=1)))
    assert "Ostrava" not in told and "OL-20" not in told
