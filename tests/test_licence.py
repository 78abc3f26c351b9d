from hashlib import sha256

import pytest

from teardowns.licence import ADDRESSES, EDITIONS, IN_FORCE, MEASUREMENTS, NAMES, WORKS

# People agreed to these words. Whoever changes them adds an edition; sha256sum of the text.
AGREED = {1: "bd388bb6406b423966c9274ed9924691a2e551c279506bd54edb294b734e7bee"}


def test_the_editions_that_people_agreed_to_stay_as_they_were():
    assert {number: edition.sha256 for number, edition in EDITIONS.items()} == AGREED


def test_the_newest_edition_is_in_force():
    assert IN_FORCE.number == max(EDITIONS)


def test_the_hash_is_of_every_word_that_is_shown():
    shown = [word for part in IN_FORCE.parts for word in part] + [IN_FORCE.statement]
    assert all(text in IN_FORCE.text for text in shown)
    assert IN_FORCE.sha256 == sha256(IN_FORCE.text.encode("utf-8")).hexdigest()


@pytest.mark.parametrize("licence", [MEASUREMENTS, WORKS])
def test_both_licences_have_their_name_and_address_and_stand_in_the_text(licence):
    assert licence in IN_FORCE.text and NAMES[licence]
    assert ADDRESSES[licence].startswith("https://creativecommons.org/")
