from types import SimpleNamespace

import pytest

from teardowns.forms.submit_form import ASK_FIRST, NOT_ANSWERED, SubmitForm, ticked
from tests.handing_in import sent


def shot(key="plate-1", version=3, is_checked=False):
    return SimpleNamespace(key=key, version=version, is_checked=is_checked, pk=1)


def remark(pk=5):
    return SimpleNamespace(pk=pk, text="Which port?")


def errors(data, **about):
    form = SubmitForm(data, **about)
    form.is_valid()
    return {name: str(found[0]) for name, found in form.errors.items()}


def test_a_sheet_without_photos_needs_the_terms_and_the_reason():
    form = SubmitForm(sent())
    assert form.is_valid() and form.terms().third_party == "none"
    assert set(errors({"edition": "1"})) == {"own_rights", "third_party", "why_no_photo"}


def test_where_there_are_photos_no_reason_is_asked_for():
    assert "why_no_photo" not in SubmitForm(has_photos=True).fields


def test_each_photo_is_ticked_for_the_version_that_was_seen():
    tick = {"photo-plate-1": "on", "seen-plate-1": "3"}
    assert errors(sent(**tick), photos=[shot()], has_photos=True) == {}
    stale = errors(sent(**tick), photos=[shot(version=4)], has_photos=True)
    assert "full size" in stale["photo-plate-1"]


def test_a_form_that_is_drawn_again_carries_the_version_as_it_is_now():
    form = SubmitForm(sent(**{"photo-plate-1": "on", "seen-plate-1": "3"}),
                      photos=[shot(version=4)])
    tick, seen = form.shown_photos()[1]
    assert seen.value() == "4" and not tick.value()


def test_a_tick_from_before_is_shown():
    tick, seen = SubmitForm(photos=[shot(is_checked=True)]).shown_photos()[1]
    assert tick.value() is True and seen.value() == 3


def test_a_remark_needs_an_answer():
    assert errors(sent(), remarks=[remark()]) == {"answer-5": NOT_ANSWERED}
    form = SubmitForm(sent(**{"answer-5": "The left one."}), remarks=[remark()])
    assert form.is_valid() and form.answers() == {5: "The left one."}


@pytest.mark.parametrize("said, field, words", [
    ({"third_party": "unsure"}, "third_party", ASK_FIRST),
    ({"third_party": "permitted"}, "third_party_note", "whose it is"),
    ({"third_party": "mine"}, "third_party", "valid choice")])
def test_what_others_made_is_cleared_first(said, field, words):
    assert words in errors(sent(**said))[field]


def test_what_was_typed_before_is_drawn_again_but_no_tick_and_no_edition():
    typed = {"message": "Look at C1.", "answer-5": "Soon.", "edition": "0", "photo-plate-1": "on"}
    form = SubmitForm(photos=[shot()], remarks=[remark()], typed=typed)
    assert form["message"].value() == "Look at C1." and form["answer-5"].value() == "Soon."
    assert form["edition"].value() == 1 and not form["photo-plate-1"].value()


def test_each_error_leads_to_its_field():
    form = SubmitForm(sent(own_rights=""))
    form.is_valid()
    assert [each[:2] for each in form.summary({})] == [(form["own_rights"].auto_id, "Terms")]


@pytest.mark.parametrize("text", ["", "x", "-1", "9" * 12, "²"])
def test_a_version_that_is_no_number_ticks_nothing(text):
    assert ticked({"seen-a": text, "photo-a": "on"}) == ({}, set())


def test_ticks_are_read_of_photos_that_were_asked_about_alone():
    assert ticked({"seen-a": "2", "seen-b": "1", "photo-a": "on", "photo-c": "on"}) == (
        {"a": 2, "b": 1}, {"a"})
