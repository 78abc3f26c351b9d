"""Style sheets as drawings on paper read them."""
from teardowns.typesetting.styles import colours, styles

TOKENS = """/* --ink: red; */
:root { --ink: light-dark(#17222d, #e3e8e9); --rule: #ccd3d2; --paper: x; }
@supports not (color: light-dark(red, red)) { :root { --ink: #000; } }"""


def test_of_two_colours_paper_gets_the_light_one():
    assert colours(TOKENS)["--ink"] == "#17222d"


def test_paper_is_white():
    assert colours(TOKENS)["--paper"] == "#ffffff"


def test_a_class_gives_its_attributes_and_a_variable_its_value():
    found = styles([".grid { stroke: var(--rule); margin: 0; }"], colours(TOKENS))
    assert found == {"grid": {"stroke": "#ccd3d2"}}


def test_a_rule_for_the_screen_alone_says_nothing_on_paper():
    sheet = ("@media screen { .grid { stroke: red; } } .a:hover { fill: red; } "
             ".b, .c { fill: blue; }")
    assert styles([sheet], {}) == {"b": {"fill": "blue"}, "c": {"fill": "blue"}}
