"""What is typed about a photo, without the page around it."""
import pytest

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.photo_forms import (
    CoverForm,
    DescribeForm,
    LengthField,
    MarkForm,
    ScaleCornersForm,
    ScaleLineForm,
    TakeDownForm,
    TemperatureForm,
    surfaces,
)
from teardowns.forms.photo_measuring_forms import ClicksForm, MeasureForm, ReadForm
from teardowns.imaging.known_lengths import BY_CODE, KNOWN_LENGTHS
from teardowns.models import Photo

PHOTO = Photo(width=400, height=300)
FORMS = (DescribeForm, TakeDownForm, MarkForm, ScaleLineForm, ScaleCornersForm, ReadForm,
         ClicksForm, MeasureForm, TemperatureForm, CoverForm)
LINE = {"shape": "line", "points": "10,20 60.5,20"}
CARD = {"points": "20,20 362,20 362,236 20,236"}


def filled(form, **typed):
    bound = form(typed, photo=PHOTO)
    bound.is_valid()
    return bound


def options(form, name):
    """Every choice of a field, groups opened."""
    for value, label in form.fields[name].choices:
        yield from label if isinstance(label, (list, tuple)) else [(value, label)]


def test_forms_of_one_page_share_no_id():
    ids = [field.auto_id for form in FORMS if form is not ReadForm for field in form(photo=PHOTO)]
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize("form", FORMS)
def test_every_field_that_is_shown_has_a_label_and_stands_in_one_place(form):
    bound = form(photo=PHOTO)
    names = [field.name for field in (*bound.shown, *bound.more, *bound.hidden)]
    assert sorted(names) == sorted(bound.fields)
    assert all(field.label for field in (*bound.shown, *bound.more))


@pytest.mark.parametrize("form", [MarkForm, ScaleLineForm, ClicksForm, MeasureForm, TemperatureForm,
                                  CoverForm])
def test_the_picture_comes_first(form):
    first = [name for name in form(photo=PHOTO).fields if name in ("shape", "points")]
    assert list(form(photo=PHOTO).fields)[:len(first)] == first and "points" in first


def test_points_become_numbers_inside_the_picture():
    form = filled(MarkForm, label="slot", **LINE)
    assert form.cleaned_data["points"] == ((10.0, 20.0), (60.5, 20.0))


@pytest.mark.parametrize("points", ["0,0 400,300", " 10 , 20   60,20 "])
def test_points_may_lie_on_the_edge_and_be_spaced_as_one_likes(points):
    assert filled(MarkForm, shape="line", points=points, label="x").is_valid()


@pytest.mark.parametrize("points, remedy", [
    ("", "Draw on the picture first"), ("10", "Write x and y in pixels"),
    ("1e3,5 2,2", "Write x and y in pixels"), ("nan,5 2,2", "Write x and y in pixels"),
    ("-1,5 2,2", "lies outside the picture"), ("10,300.5 20,20", "300 pixels high"),
    ("10,20 10,20", "are the same"),
])
def test_points_that_make_no_line_are_refused_with_what_to_write(points, remedy):
    assert remedy in filled(MarkForm, shape="line", points=points, label="x").errors["points"][0]


def test_a_mark_needs_a_label_or_an_entry():
    assert "give it a label" in filled(MarkForm, **LINE).errors["label"][0]
    named = MarkForm(LINE | {"shows": "component/c1"}, photo=PHOTO, named=[("component/c1", "C1")])
    assert named.is_valid()


def test_a_mark_that_is_drawn_wrong_is_not_told_of_its_label_as_well():
    assert list(filled(MarkForm, shape="line", points="1,2").errors) == ["points"]


@pytest.mark.parametrize("typed, metres", [
    ("25.4", 0.0254), ("25,4", 0.0254), (" 25.4 mm", 0.0254), ("0", 0.0), ("2000", 2.0),
    ("", None),
])
def test_millimetres_become_metres(typed, metres):
    found = LengthField(required=False).clean(typed)
    assert found == (None if metres is None else pytest.approx(metres))


@pytest.mark.parametrize("typed", ["nan", "inf", "1 in", "25.4 cm", "-1", "2001"])
def test_what_is_no_length_is_refused(typed):
    form = filled(ScaleLineForm, points="10,10 110,10", known="typed", length=typed)
    assert form.errors["length"]


def test_a_scale_offers_what_has_as_many_lengths_as_it_takes():
    lines = {code for code, _ in options(ScaleLineForm(photo=PHOTO), "known")}
    cards = {code for code, _ in options(ScaleCornersForm(photo=PHOTO), "known")}
    assert lines | cards == {"typed", *BY_CODE} and lines & cards == {"typed"}
    assert "card" in cards and "ruler_10" in lines


@pytest.mark.parametrize("known", KNOWN_LENGTHS, ids=lambda known: known.code)
def test_every_known_thing_can_be_chosen(known):
    form = ScaleLineForm if len(known.lengths) == 1 else ScaleCornersForm
    chosen = filled(form, known=known.code,
                    **(CARD if form is ScaleCornersForm else {"points": "10,10 110,10"}))
    assert chosen.cleaned_data["lengths"] == list(known.lengths)
    assert (chosen.cleaned_data["code"], chosen.cleaned_data["u"]) == (known.code,
                                                                       known.uncertainty)


def test_what_is_typed_counts_before_what_is_chosen():
    said = filled(ScaleCornersForm, known="card", width="85.5", height="54.1", **CARD).cleaned_data
    assert said["lengths"] == pytest.approx([0.0855, 0.0541]) and said["code"] == ""


def test_an_uncertainty_is_typed_for_95_percent_and_kept_as_one_standard_deviation():
    # U = 2 u (GUM, 6.2.1, with k = 2).
    form = filled(ScaleLineForm, points="10,10 110,10", known="card_width", length_u="0.3")
    assert form.cleaned_data["u"] == pytest.approx(0.00015)


def test_a_typed_length_without_its_uncertainty_has_none():
    form = filled(ScaleLineForm, points="10,10 110,10", known="typed", length="10")
    assert form.cleaned_data["u"] is None


def test_a_typed_length_does_not_take_the_tolerance_of_what_was_chosen():
    form = filled(ScaleLineForm, points="10,10 110,10", known="card_width", length="40")
    assert (form.cleaned_data["lengths"], form.cleaned_data["u"]) == ([0.04], None)


def test_half_a_rectangle_beside_a_chosen_card_is_no_card():
    form = filled(ScaleCornersForm, known="card", width="80", **CARD)
    assert "both sides" in form.errors["height"][0]


def test_half_a_rectangle_is_told_what_to_add():
    assert "in millimetres" in filled(ScaleCornersForm, known="typed", width="85",
                                      **CARD).errors["width"][0]


def test_a_length_that_cannot_be_read_is_told_so_once():
    form = filled(ScaleLineForm, points="10,10 110,10", known="typed", length="wide")
    assert form.errors["length"] == ["Write a number of millimetres, such as 25.4."]


@pytest.mark.parametrize("points", ["20,20 362,20 362,236", "1,1 9,1 9,9 5,12 1,9"])
def test_a_rectangle_has_four_corners(points):
    form = filled(ScaleCornersForm, known="card", points=points)
    assert "A rectangle has four corners" in form.errors["points"][0]


def test_surfaces_are_temperatures_of_the_unit_and_not_of_the_room():
    codes = {each.code for each in surfaces()}
    assert codes and "ambient_temperature" not in codes
    assert all(QUANTITIES[code].unit == "°C" for code in codes)


TEMPERATURE = {"shape": "point", "points": "10,20", "reading": "71,5 °C", "reading_u": "2",
               "set_emissivity": "1", "emissivity": "0,95", "emissivity_u": "0.04",
               "background": "−5"}


def test_a_temperature_is_read_as_people_type_it():
    said = filled(TemperatureForm, what=surfaces()[0].code, **TEMPERATURE).cleaned_data
    assert (said["reading"], said["emissivity"], said["background"]) == (71.5, 0.95, -5.0)


@pytest.mark.parametrize("changed, remedy", [
    ({"reading": "hot"}, "Write a number of °C, such as 71.5."),
    ({"reading": "-300"}, "check the sign"), ({"reading": "4000"}, "Hotter than any charger"),
    ({"emissivity": "95"}, "An emissivity lies between 0.05 and 1."),
    ({"emissivity": "0"}, "An emissivity lies between 0.05 and 1."),
    ({"set_emissivity": "shiny"}, "such as 0.95"), ({"points": "1,2 3,4"}, "needs one point"),
])
def test_a_temperature_that_makes_no_sense_is_refused_with_the_remedy(changed, remedy):
    form = filled(TemperatureForm, what=surfaces()[0].code, **TEMPERATURE | changed)
    assert remedy in form.errors[next(iter(changed))][0]


@pytest.mark.parametrize("low, high, legend", [
    ("", "", None), ("24,5 °C", "88", (24.5, 88.0)), ("−5", "40", (-5.0, 40.0))])
def test_a_legend_has_two_ends_or_none(low, high, legend):
    form = filled(TemperatureForm, what=surfaces()[0].code, legend_low=low, legend_high=high,
                  **TEMPERATURE)
    assert form.is_valid() and form.cleaned_data["legend"] == legend


@pytest.mark.parametrize("low, high, field, remedy", [
    ("24", "", "legend_high", "Write both ends of the legend"),
    ("", "88", "legend_low", "Write both ends of the legend"),
    ("88", "24", "legend_high", "must lie above"), ("24", "24", "legend_high", "must lie above"),
    ("cold", "24", "legend_low", "such as 71.5"),
])
def test_half_a_legend_or_one_upside_down_is_told_what_helps(low, high, field, remedy):
    form = filled(TemperatureForm, what=surfaces()[0].code, legend_low=low, legend_high=high,
                  **TEMPERATURE)
    assert remedy in form.errors[field][0] and list(form.errors) == [field]


def test_what_is_covered_has_to_be_said():
    form = filled(CoverForm, points="20,30 120,90")
    assert "Say what is covered" in form.errors["reason"][0]
