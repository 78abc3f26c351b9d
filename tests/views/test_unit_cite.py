"""How a record is cited, and how its verdict is shown elsewhere."""
import re
from html.parser import HTMLParser

import pytest

from teardowns.models import Publication
from tests.views.printed import public_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit(settings):
    settings.SITE_URL = "https://underplate.example"
    return public_unit("01-brethuld-b5.json")


@pytest.fixture
def address(unit):
    return f"/units/{unit.pk}/cite/"


def test_the_words_name_author_title_version_day_rulebook_and_address(client, unit, address):
    words = client.get(f"{address}?as=text").content.decode()
    for part in ("alice", unit.title, "version 1", "rulebook edition",
                 f"https://underplate.example/units/{unit.pk}/versions/1/"):
        assert part in words


def test_ris_is_tags_of_two_letters_and_ends_with_er(client, address):
    lines = client.get(f"{address}?as=ris").content.decode().split("\r\n")
    assert lines[0] == "TY  - DATA" and lines[-2:] == ["ER  - ", ""]
    assert all(re.match(r"[A-Z][A-Z0-9]  - ", line) for line in lines[:-1])


def test_bibtex_survives_a_title_made_of_its_signs(client, unit, address):
    Publication.objects.filter(unit=unit).update(
        maker="", model="", title="100 % {safe} & _sound_ \\ $5 #1\r\n}")
    entry = client.get(f"{address}?as=bibtex").content.decode()
    title = next(line for line in entry.splitlines() if line.startswith("  title"))
    assert title == (r"  title = {{100 \% \textbraceleft{}safe\textbraceright{} \& \_sound\_ "
                     r"\textbackslash{} \$5 \#1 \textbraceright{}}},")
    assert entry.count("{") == entry.count("}")


def test_a_snippet_is_a_link_with_a_picture_that_has_words(client, unit, address):
    Publication.objects.filter(unit=unit).update(title='A "title" <b>&')
    page = Read(client.get(address).content.decode())
    snippets = [Read(text) for text in page.pre if text.startswith("<a ")]
    assert len(snippets) == 2
    for one in snippets:
        assert [tag for tag, _ in one.tags] == ["a", "img"]
        assert all(dict(given).get("href", "https://").startswith("https://")
                   for _, given in one.tags)
        assert dict(one.tags[1][1])["alt"]
    assert 'A "title" <b>&' in dict(snippets[1].tags[1][1])["alt"]


class Read(HTMLParser):
    """The tags of a text, and what stands in its <pre>."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.pre, self.inside = [], [], False
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, attrs))
        self.inside = self.inside or tag == "pre"
        if tag == "pre":
            self.pre.append("")

    def handle_endtag(self, tag):
        self.inside = self.inside and tag != "pre"

    def handle_data(self, data):
        if self.inside:
            self.pre[-1] += data


def test_what_is_not_public_is_not_cited(client):
    assert client.get("/units/987654/cite/").status_code == 404


def test_it_costs_at_most_twelve_queries(client, address, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        client.get(address)
