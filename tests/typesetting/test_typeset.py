"""The PDF itself, looked at by a library that had no part in making it.

No validator of PDF/A can be installed with the project's own tools, so its clauses are looked at
one by one here: metadata, identifiers, tags, language, fonts, colours, links, nothing that runs.
The typesetter refuses what else breaks ISO 19005-2 level A or ISO 14289-1.
"""
import io
import shutil
import subprocess

import pikepdf
import pytest

from teardowns.typesetting.blocks import blocks
from teardowns.typesetting.drawings import Ink
from teardowns.typesetting.typeset import NotSet, typeset, with_code_points

# Units and signs of rating plates, and names in Greek, Cyrillic and accented Latin.
SIGNS = "µ Ω ⎓ ± ≤ − ° × ² Δ η"
NAMES = "Ľubo Ørsted Ηλέκτρα Жук"
PLANE_16 = "\U0010fff0"          # private use: no font at hand can have a letter for it


def document(html):
    return {"meta": {"title": "A record", "author": ["alice"], "keywords": ["x"],
                     "date": [2026, 3, 7, 10, 0, 0]},
            "running": {"left": "l", "right": "r", "foot": "f"}, "blocks": blocks(html, Ink({}))}


HTML = (f"<h1>A record of {NAMES}</h1><p>{SIGNS}</p><h2>Rows</h2>"
        "<table><thead><tr><th>Part</th><th>Value</th></tr></thead>"
        "<tbody><tr><th>C1</th><td>10 µF</td></tr></tbody></table>"
        '<svg viewBox="0 0 10 10"><title>A square</title><rect width="9" height="9"/></svg>'
        "<p><a href='https://underplate.example/units/20/'>the record</a></p>"
        "<div class='formula'><p><math><mi>P</mi><mo>=</mo><mn>1</mn></math></p></div>")


@pytest.fixture(scope="module")
def made():
    return typeset(document(HTML), {})


@pytest.fixture(scope="module")
def pdf(made):
    return pikepdf.open(io.BytesIO(made))


def test_it_says_what_standards_it_keeps(pdf):
    """ISO 19005-2, 6.6.4 and ISO 14289-1, 5: part and conformance stand in the metadata."""
    with pdf.open_metadata() as said:
        assert (said["pdfaid:part"], said["pdfaid:conformance"]) == ("2", "A")
        assert said["pdfuaid:part"] == "1"
        assert said["dc:title"] == "A record"


def test_it_is_tagged_in_a_language_with_a_title_to_show(pdf):
    assert pdf.Root.MarkInfo.Marked is True or bool(pdf.Root.MarkInfo.Marked)
    assert str(pdf.Root.Lang).lower().startswith("en")
    assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)


def test_headings_tables_formulas_and_drawings_have_their_tags(pdf):
    tags = set(tags_of(pdf.Root.StructTreeRoot))
    assert {"/H1", "/H2", "/Table", "/TH", "/TD", "/Figure", "/Formula"} <= tags


def tags_of(node):
    if isinstance(node, pikepdf.Array):
        for child in node:
            yield from tags_of(child)
    elif isinstance(node, pikepdf.Dictionary):
        if "/S" in node:
            yield str(node.S)
        if "/K" in node:
            yield from tags_of(node.K)


def test_colours_have_a_profile_and_every_font_is_inside(pdf):
    """ISO 19005-2, 6.2.3 and 6.2.11.4."""
    assert [str(one.S) for one in pdf.Root.OutputIntents] == ["/GTS_PDFA1"]
    fonts = [font for page in pdf.pages for font in page.Resources.get("/Font", {}).values()]
    for font in fonts:
        described = font.DescendantFonts[0].FontDescriptor if "/DescendantFonts" in font else (
            font.FontDescriptor)
        assert {"/FontFile2", "/FontFile3"} & set(described.keys())


def test_it_has_an_identifier_and_is_not_locked(pdf):
    """ISO 19005-2, 6.1.3: the trailer has an ID and no Encrypt."""
    assert "/ID" in pdf.trailer and "/Encrypt" not in pdf.trailer


def test_a_link_is_printed_and_says_where_it_leads(pdf):
    """ISO 19005-2, 6.3.2: flag Print set, Hidden and NoView not. ISO 14289-1, 7.18.5: Contents."""
    links = [one for page in pdf.pages for one in page.get("/Annots", [])]
    assert [str(one.A.URI) for one in links] == ["https://underplate.example/units/20/"]
    for one in links:
        assert int(one.F) & 0b100110 == 0b100        # Print; neither Hidden nor NoView
        assert str(one.Contents) == str(one.A.URI)


def test_its_syntax_is_sound(pdf):
    assert pdf.check_pdf_syntax() == []


def test_nothing_in_it_runs_or_leads_out(pdf):
    assert not {"/OpenAction", "/AA", "/AcroForm"} & set(pdf.Root.keys())
    assert not {"/JavaScript", "/EmbeddedFiles"} & set(pdf.Root.get("/Names", {}).keys())


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler-utils")
def test_signs_and_names_can_be_read_out_of_it(made, tmp_path):
    (tmp_path / "a.pdf").write_bytes(made)
    text = subprocess.run(["pdftotext", tmp_path / "a.pdf", "-"], capture_output=True,
                          check=True).stdout.decode()
    assert [sign for sign in (SIGNS + " " + NAMES).split() if sign not in text] == []


def test_the_same_goes_in_and_the_same_bytes_come_out(made):
    assert typeset(document(HTML), {}) == made


def test_a_character_without_a_letter_does_not_keep_the_document_from_being_set():
    made = pikepdf.open(io.BytesIO(typeset(document(f"<h1>Maker {PLANE_16}</h1><p>x</p>"), {})))
    assert len(made.pages) == 1


def test_a_whole_page_in_a_script_without_letters_is_set_all_the_same():
    """Private use again; each character would cost a run of its own."""
    many = "".join(chr(0x10F000 + i) for i in range(60))
    made = pikepdf.open(io.BytesIO(typeset(document(f"<h1>A</h1><p>{many}</p>"), {})))
    with made.open_metadata() as said:
        assert said["pdfaid:conformance"] == "A"


@pytest.mark.parametrize("text", [
    "\x01\x7f\ufeff\ufffe", "\ue000\uf8ff", "\U0001f468\u200d\U0001f467", "\u202e\u2066",
    "e\u0301\u0489", "\u0378", "\u2028", "#set text(1pt)", "\\u{5}"])
def test_whatever_people_type_a_document_comes_of_it(text):
    """Controls, private use, joined emoji, turned text, marks on marks, unassigned, markup."""
    html = f"<h1>A {text}</h1><svg viewBox='0 0 9 9'><title>{text}</title><text>{text}</text></svg>"
    assert typeset(document(html), {}).startswith(b"%PDF")


def test_a_language_that_is_none_is_left_out():
    assert typeset(document('<h1>A</h1><p lang="x-klingon-and-more">nuqneH</p>'), {})


def test_what_is_read_and_not_set_keeps_its_characters():
    changed = with_code_points(
        document("<h1>\U0010fff0</h1>") | {"meta": {"title": "\U0010fff0"}}, {"\U0010fff0"})
    assert changed["meta"]["title"] == "\U0010fff0"


def test_the_note_about_it_stands_below_the_title():
    changed = with_code_points(document("<h1>Maker \U0010fff0\U0010fff1</h1><p>x</p>"),
                               {"\U0010fff0", "\U0010fff1"})
    assert changed["blocks"][0]["runs"][0]["t"] == "Maker [U+10FFF0 U+10FFF1]"
    assert "U+10FFF0, U+10FFF1" in changed["blocks"][1]["runs"][0]["t"]


def test_what_cannot_be_set_is_said():
    broken = document("<h1>a</h1>") | {"blocks": [{"b": "photo", "file": "missing.jpg", "alt": "x",
                                                    "width": 1, "height": 1}]}
    with pytest.raises(NotSet, match="missing"):
        typeset(broken, {})
