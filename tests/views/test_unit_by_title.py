"""An address to be read aloud."""
from teardowns.presenting.share_words import readable_path


def test_it_leads_to_the_record_whatever_the_words(client):
    answer = client.get("/units/20-some-older-title/")
    assert (answer.status_code, answer.url) == (301, "/units/20/")


def test_it_is_made_of_the_title_and_plain_where_that_has_no_latin_letters():
    assert readable_path(20, "Brell W20, 45\u202fW") == "/units/20-brell-w20-45-w/"
    assert readable_path(20, "充电器") == "/units/20/"
