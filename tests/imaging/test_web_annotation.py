"""Marks as Web Annotations: what is written reads back, what is none of ours is refused."""
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.imaging.web_annotation import Mark, parsed_points, read, written

SOURCE = "https://example.org/photos/1/1280.webp"
SHAPES = [("point", "12.5,40"), ("line", "1,2 30.1,4"), ("path", "1,2 3,4 9,9.5"),
          ("polygon", "0,0 10,0 5,8"), ("box", "5,3 11,20")]
tenths = st.integers(0, 60_000).map(lambda n: n / 10)


def mark(shape="line", text="1,2 30.1,4", label="Slot", shows="path/slot-1"):
    return written(shape, parsed_points(text), label, shows, SOURCE)


@pytest.mark.parametrize("shape, text", SHAPES)
def test_a_mark_comes_back_as_it_was_written(shape, text):
    body = json.loads(json.dumps(mark(shape, text)))
    assert read(body) == Mark(shape, parsed_points(text), "Slot", "path/slot-1")


@given(st.lists(st.tuples(tenths, tenths), min_size=3, max_size=20, unique=True).map(tuple),
       st.text(max_size=200))
def test_any_polygon_and_label_come_back(points, label):
    found = read(written("polygon", points, label, "", SOURCE))
    assert found == Mark("polygon", points, label, "")


def test_the_form_is_that_of_the_data_model():
    # W3C Web Annotation Data Model, 2017: 3.1 @context and type, 3.2.4 TextualBody with purpose,
    # 4.2.7 SvgSelector with the shape as text.
    body = mark("point", "12.5,40", shows="")
    assert body["@context"] == "http://www.w3.org/ns/anno.jsonld"
    assert body["type"] == "Annotation" and body["target"]["source"] == SOURCE
    assert body["body"] == [{"type": "TextualBody", "value": "Slot", "purpose": "describing"}]
    assert body["target"]["selector"] == {
        "type": "SvgSelector", "value": '<svg xmlns="http://www.w3.org/2000/svg">'
                                        '<circle cx="12.5" cy="40" r="1"/></svg>'}


def test_a_box_grows_to_whole_pixels():
    # Media Fragments 1.0, 4.2.2: xywh=pixel: takes digits only. 10.2 to 5 and 20 to 3.7 become
    # 5 to 11 and 3 to 20.
    selector = mark("box", "10.2,20 5,3.7")["target"]["selector"]
    assert selector["type"] == "FragmentSelector"
    assert selector["conformsTo"] == "http://www.w3.org/TR/media-frags/"
    assert selector["value"] == "xywh=pixel:5,3,6,17"


def test_points_that_become_one_when_rounded_are_refused():
    with pytest.raises(ValueError, match="are the same"):
        mark("line", "1.01,2 1.04,2")


@pytest.mark.parametrize("change, told", [
    (lambda b: b.pop("target"), "lacks “target”"),
    (lambda b: b.update(type="Note"), "type must be"),
    (lambda b: b.update(onload="x"), "unknown: “onload”"),
    (lambda b: b["target"].update(selector={"type": "TextQuoteSelector"}), "SvgSelector or a"),
    (lambda b: b["target"].update(selector=[]), "SvgSelector or a"),
    (lambda b: b["body"].append({"type": "TextualBody", "purpose": "describing", "value": "x"}),
     "at most one body"),
    (lambda b: b["body"][0].update(value=["x"]), "with its value as text"),
    (lambda b: b["body"][1].update(source="javascript:alert(1)"), "component/bulk-1"),
    (lambda b: b["body"][0].update(value="x" * 201), "longer than 200"),
])
def test_what_is_none_of_ours_is_refused(change, told):
    body = mark()
    change(body)
    with pytest.raises(ValueError, match=told):
        read(body)


SVG = '<svg xmlns="http://www.w3.org/2000/svg">{}</svg>'


@pytest.mark.parametrize("value, told", [
    ("<svg", "cannot be read"), (7, "cannot be read"), ("<svg>\ud800</svg>", "cannot be read"),
    ("<svg><circle/></svg>", "cannot be read"),
    ('<!DOCTYPE a [<!ENTITY b "c">]>' + SVG.format("&b;"), "cannot be read"),
    (SVG.format('<circle cx="1" cy="1" r="1"/><circle cx="1" cy="1" r="1"/>'), "cannot be read"),
    ('<svg xmlns="http://www.w3.org/2000/svg" onload="x"><circle cx="1" cy="1" r="1"/></svg>',
     "cannot be read"),
    (SVG.format('<circle cx="1" cy="1" r="40"/>'), 'r="1"'),
    (SVG.format('<script>x</script>'), "must hold a circle"),
    (SVG.format('<line x1="1" y1="2" x2="3"/>'), "is no point"),
    (SVG.format('<polyline points="1,1 2,2" onclick="x"/>'), "no mark has: onclick"),
    (SVG.format('<polyline points="1,1"/>'), "at least two points"),
])
def test_an_svg_that_is_no_mark_is_refused(value, told):
    body = mark()
    body["target"]["selector"]["value"] = value
    with pytest.raises(ValueError, match=told):
        read(body)


@pytest.mark.parametrize("value", ["xywh=percent:1,1,2,2", "xywh=pixel:1.5,1,2,2", "t=10", None,
                                   "xywh=pixel:1,1,2,2&t=1", "xywh=pixel:-1,1,2,2",
                                   "xywh=pixel:1,1,2,2000000"])
def test_a_fragment_that_is_no_box_of_pixels_is_refused(value):
    body = mark("box", "5,3 11,20")
    body["target"]["selector"]["value"] = value
    with pytest.raises(ValueError, match="in whole pixels"):
        read(body)


def test_a_box_without_width_is_refused():
    body = mark("box", "5,3 11,20")
    body["target"]["selector"]["value"] = "xywh=pixel:5,3,0,20"
    with pytest.raises(ValueError, match="differ in x"):
        read(body)


@pytest.mark.parametrize("body", [None, [], "text", 3, {}])
def test_what_is_no_annotation_at_all_is_refused(body):
    with pytest.raises(ValueError, match="The annotation"):
        read(body)


def test_an_annotation_may_carry_its_address_and_dates():
    body = mark() | {"id": "https://example.org/a/1", "created": "2026-11-25T10:00:00Z"}
    assert read(body).label == "Slot"
