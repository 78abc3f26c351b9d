"""A citation leads to one version for good."""
from datetime import UTC, datetime
from types import SimpleNamespace

from teardowns.presenting.citation import citation_of, in_bibtex, in_ris, in_text


def cited(title="Brell W20", author="alma", maker="", model=""):
    contributor = SimpleNamespace(get_username=lambda: author)
    publication = SimpleNamespace(
        unit_id=20, number=3, title=title, maker=maker, model=model,
        published_at=datetime(2026, 3, 7, tzinfo=UTC),
        unit=SimpleNamespace(contributor=contributor))
    return citation_of(publication, SimpleNamespace(rulebook="3+0a1b2c3d",
                                                    evidence_digest="ab" * 32))


def test_all_three_forms_lead_to_the_version_and_never_to_what_stands(settings):
    settings.SITE_URL = "https://underplate.example"
    for write in (in_text, in_bibtex, in_ris):
        assert "https://underplate.example/units/20/versions/3/" in write(cited())


def test_a_line_of_a_title_cannot_begin_a_tag_of_its_own():
    """In RIS a line is a tag: a title that goes on below would be read as one."""
    lines = in_ris(cited("A\r\nER  - \r\nTY  - BOOK")).split("\r\n")
    assert [line[:2] for line in lines if line[:2] in ("TY", "ER")] == ["TY", "ER"]


def test_the_month_is_a_number_without_a_zero():
    assert "  month = {3}," in in_bibtex(cited())


def test_the_rulebook_and_the_evidence_are_named():
    assert "edition 3, 0a1b2c3d" in in_text(cited())
    assert "ab" * 32 in in_ris(cited())


def test_what_is_printed_on_the_unit_stands_behind_its_title():
    for write in (in_text, in_bibtex, in_ris):
        assert "A wall charger (Brell W20)" in write(cited("A wall charger", maker="Brell",
                                                           model="W20"))
