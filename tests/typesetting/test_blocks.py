"""A page's markup as blocks of plain data."""
import json

from teardowns.typesetting.blocks import blocks
from teardowns.typesetting.drawings import Ink

INK = Ink({})


def made(html, **more):
    return blocks(html, INK, **more)


def words(runs):
    return "".join(run.get("t", "\n" if "br" in run else "") for run in runs)


def test_words_are_data_whatever_they_look_like():
    block, = made("<p>#read(&quot;/etc/passwd&quot;) $x$ *b* &lt;b&gt;</p>")
    assert words(block["runs"]) == '#read("/etc/passwd") $x$ *b* <b>'


def test_thin_spaces_stay_and_others_join():
    block, = made("<p>45\u202fW\n   or  more </p>")
    assert words(block["runs"]) == "45\u202fW or more"


def test_what_is_for_screens_alone_is_left_out():
    assert made('<p class="noprint">x</p><nav>y</nav><span class="off">z</span>'
                '<a href="/w/">Show the working<span class="off"> of it</span></a>') == []


def test_a_remark_stands_on_its_own_line():
    table, = made("<table><tbody><tr><td>9 V<small>read off</small></td></tr></tbody></table>")
    runs = table["body"][0]["cells"][0]["runs"]
    assert words(runs) == "9 V\nread off"
    assert runs[-1]["s"] and "b" not in runs[-1]


def test_headings_lie_one_level_apart_at_most():
    """ISO 14289-1, 7.4.2: no level may be skipped."""
    levels = [block["level"] for block in made(
        "<h1>a</h1><h2>b</h2><details><summary>c</summary></details><h4>d</h4><h2>e</h2>")]
    assert levels == [1, 2, 3, 4, 2]


def test_terms_and_facts_are_pairs_with_or_without_groups():
    terms, facts = made("<dl><dt>a</dt><dd>1</dd><dt>b</dt><dd>2</dd></dl>"
                        '<dl class="facts"><div><dt>c</dt><dd>3</dd></div></dl>')
    assert [words(term) for term, _ in terms["rows"]] == ["a", "b"]
    assert [words(name) for name, _ in facts["cells"]] == ["c"]


def test_a_drawing_in_a_scale_is_as_high_as_the_words_beside_it_need():
    row = "<tr><th>{}</th><td class='plot'><svg></svg></td><td class='val'>1</td></tr>"
    table, = made(f"<table class='scale'><tbody>{row.format('short')}"
                  f"{row.format('word ' * 60)}</tbody></table>")
    short, long = table["body"]
    assert short["height"] < long["height"] == long["cells"][1]["h"]


def test_a_picture_is_set_only_where_its_file_is_at_hand():
    assert made('<img src="elsewhere.jpg" alt="x">') == []
    block, = made('<img src="a.jpg" alt="A board">', pictures={"a.jpg": "a.jpg"})
    assert (block["file"], block["alt"]) == ("a.jpg", "A board")


def test_blocks_are_json():
    json.dumps(made("<p><math><mrow><mi>P</mi><mo>=</mo><mfrac><mn>1</mn><mn>2</mn></mfrac>"
                    "</mrow></math></p><ul><li>x</li></ul>"))
