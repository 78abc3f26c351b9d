"""Drawings of a page as files of fixed size."""
from xml.etree.ElementTree import fromstring

from teardowns.typesetting.drawings import Ink, standalone, symbols_in
from teardowns.typesetting.html_tree import tree_of

INK = Ink({"grid": {"stroke": "#ccc"}}, symbols_in(tree_of(
    '<svg><symbol id="v"><path class="grid" d="M0 0h1"/></symbol></svg>')))
SVG = "{http://www.w3.org/2000/svg}"


def drawn(markup, width=200, height=40, **more):
    svg = tree_of(markup).find(".//svg")
    return fromstring(standalone(svg, width, height, INK, **more))


def test_percentages_become_lengths_of_the_field():
    line = drawn('<svg><line class="grid" x1="25%" x2="25%" y1="0" y2="100%"/></svg>').find(
        f".//{SVG}line")
    assert (line.get("x1"), line.get("y2"), line.get("stroke")) == ("50.00", "40.00", "#ccc")


def test_a_rem_is_sixteen_pixels():
    """CSS Values 4, 6.1.1: the initial font size of the root; browsers set it to 16 px."""
    text = drawn('<svg><text y=".5rem">W</text></svg>').find(f".//{SVG}text")
    assert text.get("y") == "8.00"


def test_a_drawing_within_is_a_group_at_its_place():
    groups = drawn('<svg><svg x="50%" y="50%" width="1" height="1"><circle r="4"/></svg></svg>'
                   ).findall(f".//{SVG}g")
    assert groups[1].get("transform") == "translate(100 20)"


def test_a_stretched_field_moves_points_and_leaves_strokes_alone():
    # 1000 units on 200 px, 40 units on 60 % of 40 px: × 0.2 and × 0.6.
    path = drawn('<svg><svg width="100%" height="60%" viewBox="0 0 1000 40" '
                 'preserveAspectRatio="none"><path d="M500.0,40 L250.0,10z"/></svg></svg>').find(
        f".//{SVG}path")
    assert path.get("d") == "M100.00 24.00L50.00 6.00z"


def test_a_mark_is_drawn_where_its_name_stood():
    assert drawn('<svg viewBox="0 0 24 12"><use href="#v"/></svg>', 24, 12).find(
        f".//{SVG}path").get("d") == "M0 0h1"


def test_nothing_that_loads_a_file_comes_through():
    root = drawn('<svg><image href="/etc/passwd" xlink:href="/etc/passwd"/><foreignObject>'
                 '<p>x</p></foreignObject><style>a{}</style><rect width="1"/></svg>')
    assert {node.tag for node in root.iter()} == {f"{SVG}svg", f"{SVG}g", f"{SVG}rect"}


def test_labels_may_hang_over_the_sides():
    assert drawn("<svg></svg>", beside=10).get("viewBox") == "-10 0 200 40"


def test_nothing_of_the_page_is_left_in_it():
    root = drawn('<svg><title>words</title><g style="x" class="grid" onload="x"><a href="/">'
                 '<text>1</text></a></g></svg>')
    assert "words" not in "".join(root.itertext())
    assert not any({"class", "href"} & set(node.attrib) for node in root.iter())
