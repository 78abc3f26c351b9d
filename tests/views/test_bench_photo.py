"""One photo on the bench: each form saves what it should, or keeps what was typed and says why."""
import html

import pytest
from django.test import Client

from teardowns.models import (
    Annotation,
    InsulationObservation,
    Measurement,
    Photo,
    PhotoCover,
    PhotoReading,
    PhotoScale,
)
from teardowns.services.annotate_photo import put_mark
from teardowns.services.scale_photo import scale_photo
from tests.photographs import photograph

pytestmark = pytest.mark.django_db
# 200 by 100 pixels are 20 by 10 mm: ten pixels a millimetre, seen square.
CORNERS = "100,100 300,100 300,200 100,200"
MARK = {"shape": "box", "points": "20,30 120,90", "label": "C1"}
SLOT = "120,150 182,150"           # 62 pixels


@pytest.fixture
def address(client, alice, photo):
    client.force_login(alice)
    return f"/bench/{photo.unit_id}/photos/{photo.key}/"


@pytest.fixture
def act(client, address):
    """Sends one of the forms; the page that follows, as text."""
    def sent(name, follow=True, **fields):
        response = client.post(address, {"act": name} | fields, follow=follow)
        assert response.status_code == 200
        return html.unescape(response.content.decode())
    return sent


@pytest.fixture
def scale(alice, photo):
    return scale_photo(author=alice, photo=photo, lengths=[0.020, 0.010], length_u=0.00002,
                       points=((100.0, 100.0), (300.0, 100.0), (300.0, 200.0), (100.0, 200.0)))


@pytest.fixture
def mark(alice, photo):
    return put_mark(author=alice, photo=photo, shape="line", points=((10.0, 20.0), (60.0, 20.0)),
                    label="slot", shows="")


def is_kept(page, *values):
    """Whether the page says that nothing was saved, and holds what was typed."""
    return "Nothing of this is saved yet; what you typed is kept." in page and all(
        f'value="{value}"' in page for value in values)


def test_it_shows_the_picture_with_a_form_for_each_thing_to_do(client, address):
    page = client.get(address).content.decode()
    for form in ("mark", "scale-line", "scale-corners", "measure", "cover", "describe",
                 "take-down"):
        assert f'<input type="hidden" name="act" value="{form}">' in page
    assert 'width="400" height="300"' in page and "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page


def test_it_says_what_was_taken_out_of_the_pictures(client, address, photo):
    page = client.get(address).content.decode()
    assert photo.stripped
    assert f"kept in the original: {', '.join(photo.stripped)}." in html.unescape(page)


def test_it_costs_at_most_twelve_queries(client, address, alice, photo, scale,
                                         django_assert_max_num_queries):
    for n in range(20):
        row = InsulationObservation.objects.create(
            unit=photo.unit, key=f"r{n}", path="clearance", place=f"place {n}", value=0.005,
            author=alice)
        put_mark(author=alice, photo=photo, shape="point", points=((1.0 + n, 5.0),), label=f"m{n}",
                 shows=row.ref)
        PhotoReading.objects.create(photo=photo, scale=scale, shows=row.ref, shape="line",
                                    points=[], value=0.005, uncertainty=1e-4, budget=[],
                                    author=alice)
    with django_assert_max_num_queries(12):
        assert client.get(address).status_code == 200


# Marks

def test_a_mark_is_saved_and_listed(act, photo):
    page = act("mark", **MARK)
    assert "The mark is saved." in page and 'data-key="m1"' in page
    assert Annotation.objects.get().body["target"]["selector"]["value"] == \
        "xywh=pixel:20,30,100,60"


def test_a_mark_may_show_an_entry_of_the_bench_sheet(act, photo, alice):
    row = InsulationObservation.objects.create(unit=photo.unit, key="slot", path="clearance",
                                               place="slot", value=0.006, author=alice)
    page = act("mark", **MARK | {"label": "", "shows": row.ref})
    assert Annotation.objects.get().shows == row.ref
    assert "slot, clearance</a>" in page


@pytest.mark.parametrize("changed, remedy", [
    ({"points": ""}, "Draw on the picture first"),
    ({"points": "20;30"}, "Write x and y in pixels with a comma"),
    ({"points": "20,30"}, "A box needs two opposite corners; 1 given."),
    ({"points": "20,30 900,90"}, "lies outside the picture, which is 400 pixels wide"),
    ({"points": "20,30 20,90"}, "must differ in x and in y"),
    ({"label": ""}, "give it a label, or choose an entry"),
])
def test_a_mark_that_is_wrong_keeps_what_was_typed_and_says_what_helps(act, changed, remedy):
    typed = MARK | changed
    page = act("mark", **typed)
    assert remedy in page
    assert is_kept(page, *filter(None, (typed["points"], typed["label"])))
    assert not Annotation.objects.exists()


def test_a_mark_of_an_unknown_shape_or_entry_is_refused(act):
    for changed in ({"shape": "star"}, {"shows": "component/none"}, {"version": "-1"}):
        assert "Nothing of this is saved yet" in act("mark", **MARK | changed)
    assert not Annotation.objects.exists()


def test_a_mark_is_drawn_anew_from_its_own_points(client, address, mark):
    page = client.get(f"{address}?mark={mark.key}").content.decode()
    assert 'value="10,20 60,20"' in page and 'value="slot"' in page
    assert 'name="key" value="m1"' in page and 'name="version" value="1"' in page


def test_drawing_a_mark_that_is_gone_anew_opens_an_empty_form(client, address):
    assert client.get(f"{address}?mark=none").status_code == 200


def test_a_mark_drawn_anew_stays_the_same_mark(act, mark):
    act("mark", shape="line", points="10,20 70,20", label="slot", key=mark.key, version="1")
    mark.refresh_from_db()
    assert (Annotation.objects.count(), mark.version) == (1, 2)
    assert 'x2="70"' in mark.body["target"]["selector"]["value"]


def test_a_mark_that_changed_meanwhile_keeps_both_what_stands_and_what_was_typed(act, mark):
    fields = {"shape": "line", "key": mark.key, "version": "1"}
    act("mark", points="10,20 70,20", label="first", **fields)
    page = act("mark", points="10,20 80,20", label="second", **fields)
    assert "changed elsewhere at the same moment" in page
    assert is_kept(page, "10,20 80,20", "second") and ">first</a>" in page
    mark.refresh_from_db()
    assert 'x2="70"' in mark.body["target"]["selector"]["value"]


def test_a_mark_is_removed_and_its_history_is_kept(act, mark):
    page = act("remove", key=mark.key, version="1")
    assert "The mark is removed; its history is kept." in page
    assert "Nothing is marked on this picture yet." in page
    assert not Annotation.objects.exists() and Annotation.history.count() == 2


@pytest.mark.parametrize("fields", [
    {"key": "m1", "version": "7"}, {"key": "m9", "version": "1"}, {"key": "m1", "version": "x"},
    {"key": "m1", "version": "²"}, {"key": "m1", "version": "9" * 30}, {},
])
def test_a_mark_that_changed_or_went_meanwhile_is_not_removed(act, mark, fields):
    assert "Look at it again." in act("remove", **fields)
    assert Annotation.objects.exists()


def test_a_label_is_shown_as_text(client, act, address):
    act("mark", **MARK | {"label": "<script>x</script>"})
    page = client.get(address).content.decode()
    assert "<script>x" not in page and "&lt;script&gt;x" in page


# Scales

def test_two_points_on_a_known_thing_are_a_scale(act):
    page = act("scale-line", points="100,100 300,100", known="ruler_10", plane="on the board")
    row = PhotoScale.objects.get()
    assert (row.lengths, row.known, row.plane) == ([0.01], "ruler_10", "on the board")
    # Limits of ± 0.1 mm, rectangular: 0.1 mm / √3 = 0.0577 mm (GUM, 4.3.7).
    assert row.length_uncertainty == pytest.approx(5.7735e-5, rel=1e-4)
    assert "The scale is set: 10" in page and 'data-mm-per-px="0.05"' in page


def test_a_typed_length_is_in_millimetres_and_its_u_is_of_95_percent(act):
    act("scale-line", points="100,100 300,100", known="typed", length="25,4 mm", length_u="0.1")
    row = PhotoScale.objects.get()
    assert row.lengths == pytest.approx([0.0254]) and row.known == ""
    assert row.length_uncertainty == pytest.approx(0.00005)       # half of it: k = 1


@pytest.mark.parametrize("typed, remedy", [
    ({"length": ""}, "Choose what the drawing lies on, or write its length in millimetres."),
    ({"length": "wide"}, "Write a number of millimetres, such as 25.4."),
    ({"length": "-3"}, "A length is not negative."),
    ({"length": "85600"}, "More than 2 metres: is that in millimetres?"),
    ({"length": "10", "length_u": "9"}, "more than a quarter of the length itself"),
    ({"length": "10", "points": "100,100 103,100"}, "at both ends of the known length"),
    ({"length": "10", "points": "100,100"}, "A line needs two points; 1 given."),
])
def test_a_line_that_is_no_scale_keeps_what_was_typed_and_says_what_helps(act, typed, remedy):
    typed = {"points": "100,100 300,100", "known": "typed", "plane": "on the board"} | typed
    page = act("scale-line", **typed)
    assert remedy in page
    assert is_kept(page, typed["points"], *filter(None, (typed["length"], typed["plane"])))
    assert not PhotoScale.objects.exists()


def test_four_corners_of_a_card_are_a_scale_without_perspective(act):
    # ID-1 is 85.60 mm by 53.98 mm (ISO/IEC 7810:2019).
    page = act("scale-corners", points="20,20 362,20 362,236 20,236", known="card")
    assert PhotoScale.objects.get().lengths == pytest.approx([0.0856, 0.05398])
    assert "data-homography=" in page and "four corners, perspective removed" in page


@pytest.mark.parametrize("typed, remedy", [
    ({"width": "20", "height": ""}, "Choose what the drawing lies on"),
    ({"points": "100,100 300,100 300,200"}, "A rectangle has four corners"),
    ({"points": "100,100 300,200 300,100 100,200"}, "The corners of the scale are crossed."),
    ({"width": "200"}, "far longer or shorter than its width and height say"),
])
def test_a_rectangle_that_is_no_scale_keeps_what_was_typed_and_says_what_helps(act, typed, remedy):
    typed = {"points": CORNERS, "known": "typed", "width": "20", "height": "10"} | typed
    page = act("scale-corners", **typed)
    assert remedy in page and is_kept(page, typed["points"], typed["width"])
    assert not PhotoScale.objects.exists()


# Lengths

def test_a_new_distance_becomes_evidence_with_its_photo(act, scale, photo):
    page = act("measure", shape="line", points=SLOT, scale=scale.pk, what="new:PRI_SEC:clearance",
               place="under the optocoupler")
    row = InsulationObservation.objects.get()
    assert row.value == pytest.approx(0.0062, rel=1e-6)           # 62 px at 10 px/mm
    assert (row.barrier, row.path, row.method, row.photo) == ("PRI_SEC", "clearance",
                                                              "photo_scale", photo)
    assert "under the optocoupler: 6.2" in page
    assert "(95 %). It is part of the evidence now." in page


def test_two_new_distances_are_two_rows(act, scale):
    for place in ("under the optocoupler", "beside the transformer"):
        act("measure", shape="line", points=SLOT, scale=scale.pk, what="new:PRI_SEC:clearance",
            place=place)
    assert list(InsulationObservation.objects.values_list("key", flat=True)) == ["photo-1",
                                                                                 "photo-2"]


def test_a_distance_recorded_already_gets_the_new_value_and_keeps_its_place(act, scale, photo,
                                                                           alice):
    row = InsulationObservation.objects.create(
        unit=photo.unit, key="slot", path="clearance", place="slot", state="not_looked",
        barrier="PRI_ENC", author=alice)
    act("measure", shape="line", points=SLOT, scale=scale.pk, what="row:slot")
    row.refresh_from_db()
    assert (row.state, row.place, row.barrier, row.version) == ("recorded", "slot", "PRI_ENC", 2)
    assert row.value == pytest.approx(0.0062, rel=1e-6)


def test_a_size_of_the_unit_is_a_measurement(act, scale):
    page = act("measure", shape="line", points=SLOT, scale=scale.pk, what="size:case_width")
    row = Measurement.objects.get()
    assert (row.quantity, row.key) == ("case_width", "case-width")
    assert row.value == pytest.approx(0.0062, rel=1e-6)
    assert "It is part of the evidence now." in page


def test_a_size_measured_twice_is_one_row(act, scale):
    for points in (SLOT, "120,150 190,150"):
        act("measure", shape="line", points=points, scale=scale.pk, what="size:case_width")
    assert Measurement.objects.get().value == pytest.approx(0.0070, rel=1e-6)
    assert PhotoReading.objects.count() == 2


def test_a_path_is_as_long_as_its_legs(act, scale):
    # 40 px to the right and 30 px down: 7 mm, not the 5 mm of the straight line.
    act("measure", shape="path", points="120,120 160,120 160,150", scale=scale.pk,
        what="new:PRI_SEC:clearance", place="round the slot")
    assert InsulationObservation.objects.get().value == pytest.approx(0.0070, rel=1e-6)


def test_a_creepage_bridges_grooves_narrower_than_a_millimetre(act, scale):
    # Across 3 mm, down and up a groove of 0.5 mm by 2 mm, 3 mm more: 6.5 mm, not 10.5 mm
    # (IEC 60664-1:2020, 6.8: X = 1 mm at pollution degree 2).
    act("measure", shape="path", points="120,120 150,120 150,140 155,140 155,120 185,120",
        scale=scale.pk, what="new:PRI_SEC:creepage", place="over the groove", surface="on")
    assert InsulationObservation.objects.get().value == pytest.approx(0.0065, rel=1e-6)


def test_what_lies_off_the_plane_is_less_certain(act, scale):
    fields = {"shape": "line", "points": SLOT, "scale": scale.pk, "what": "new:PRI_SEC:clearance"}
    act("measure", place="in the plane", **fields)
    act("measure", place="above it", off_plane="on", **fields)
    flat, above = PhotoReading.objects.all()
    assert above.uncertainty > flat.uncertainty and above.value == flat.value


@pytest.mark.parametrize("typed, remedy", [
    ({"place": ""}, "Say where the distance lies, so that a reviewer finds it."),
    ({"scale": "0"}, "Set a scale on this photo first, then choose it here."),
    ({"points": "120,150"}, "A line needs two points; 1 given."),
    ({"points": "120,150 120,150"}, "Points 1 and 2 are the same"),
    ({"surface": "on"}, "Only a creepage distance follows the surface"),
    ({"what": "row:none"}, "Select a valid choice"),
])
def test_a_length_that_is_wrong_keeps_what_was_typed_and_says_what_helps(act, scale, typed,
                                                                         remedy):
    typed = {"shape": "line", "points": SLOT, "scale": str(scale.pk), "place": "slot",
             "what": "new:PRI_SEC:clearance"} | typed
    page = act("measure", **typed)
    assert remedy in page and is_kept(page, *filter(None, (typed["points"], typed["place"])))
    assert not InsulationObservation.objects.exists() and not PhotoReading.objects.exists()


def test_without_a_scale_nothing_can_be_measured_and_the_page_says_so(act):
    page = act("measure", shape="line", points=SLOT, what="new:PRI_SEC:clearance", place="slot")
    assert "Set a scale on this photo first." in page and is_kept(page, SLOT, "slot")


# Covering, describing, taking down

def test_what_is_covered_gets_new_pictures(act, photo):
    before = set(photo.derivatives.values_list("path", flat=True))
    page = act("cover", points="120,90 20,30", reason="address on the parcel label")
    assert "burnt out of every picture" in page
    assert PhotoCover.objects.get().box == [20.0, 30.0, 100.0, 60.0]      # corners in any order
    assert before.isdisjoint(photo.derivatives.values_list("path", flat=True))


@pytest.mark.parametrize("typed, remedy", [
    ({"reason": ""}, "Say what is covered"), ({"points": ""}, "Draw on the picture first"),
    ({"points": "20,30 20,90"}, "must differ in x and in y"),
    ({"points": "20,30 120,301"}, "outside the picture, which is 300 pixels high"),
])
def test_a_cover_that_is_wrong_keeps_what_was_typed_and_says_what_helps(act, photo, typed, remedy):
    typed = {"points": "20,30 120,90", "reason": "address"} | typed
    page = act("cover", **typed)
    assert remedy in page and is_kept(page, *filter(None, typed.values()))
    assert not PhotoCover.objects.exists()


DESCRIBED = {"stage": "opened", "caption": "The slot ends before the transformer.",
             "alt": "Solder side with a slot", "version": "1"}


def test_a_description_is_saved_and_serves_as_the_picture_s_text(act, photo):
    page = act("describe", **DESCRIBED)
    photo.refresh_from_db()
    assert (photo.stage, photo.caption, photo.version) == ("opened", DESCRIBED["caption"], 2)
    assert "description is saved" in page and 'alt="Solder side with a slot"' in page


def test_a_description_that_is_too_long_is_kept_to_be_shortened(act):
    long = "very long " * 31                                      # 310 characters
    page = act("describe", **DESCRIBED | {"caption": long})
    assert "at most 300 characters" in page and is_kept(page, long)
    assert Photo.objects.get().caption == ""


def test_a_description_of_an_unknown_stage_or_version_is_refused(act):
    for changed in ({"stage": "nonsense"}, {"version": "x"}, {"version": ""}):
        assert is_kept(act("describe", **DESCRIBED | changed), DESCRIBED["alt"])
    assert Photo.objects.get().version == 1


def test_a_description_that_changed_meanwhile_loses_neither(act):
    act("describe", **DESCRIBED)
    page = act("describe", **DESCRIBED | {"alt": "Something else"})
    assert "changed elsewhere at the same moment" in page and is_kept(page, "Something else")
    assert Photo.objects.get().alt == DESCRIBED["alt"]


def test_a_description_sent_twice_is_one_change(act):
    act("describe", **DESCRIBED)
    assert "description is saved" in act("describe", **DESCRIBED)
    assert Photo.objects.get().version == 2


def test_a_photo_that_is_taken_down_is_shown_to_nobody_any_more(act, client, address, photo):
    assert "The photo is taken down" in act("take-down", reason="It shows a person.")
    assert client.get(address).status_code == 404
    assert client.get(photo.get_absolute_url()).status_code == 404
    assert Photo.objects.get().take_down_reason == "It shows a person."


def test_taking_down_needs_a_reason(act):
    assert "Say why, for the log" in act("take-down", reason=" ")
    assert Photo.objects.get().taken_down_at is None


def test_an_unknown_act_changes_nothing(act, photo):
    act("nonsense", points="1,2")
    assert Photo.objects.get().version == photo.version


# Who, and how

def test_only_the_contributor_s_open_sheet_is_found(client, address, bob, rita, mona, photo):
    for person in (bob, rita, mona):
        client.force_login(person)
        assert client.get(address).status_code == 404
        assert client.post(address, {"act": "mark"} | MARK).status_code == 404
    assert not Annotation.objects.exists()


@pytest.mark.parametrize("status", ["submitted", "published"])
def test_a_sheet_that_was_sent_in_is_closed(client, address, unit, status):
    unit.status = status
    unit.save()
    assert client.get(address).status_code == 404
    assert client.post(address, {"act": "mark"} | MARK).status_code == 404


def test_a_photo_of_another_unit_is_not_found(client, address, photo, alice):
    other = type(photo.unit).objects.create(contributor=alice, title="Another")
    assert client.get(f"/bench/{other.pk}/photos/{photo.key}/").status_code == 404


def test_a_form_without_its_token_is_refused(alice, address):
    client = Client(enforce_csrf_checks=True)
    client.force_login(alice)
    assert client.post(address, {"act": "mark"} | MARK).status_code == 403


def test_it_leads_to_the_photos_before_and_after(client, address, alice, unit, tmp_path, photo):
    client.post(f"/bench/{unit.pk}/photos/", {
        "photos": photograph(tmp_path, "b.png", colour="grey").open("rb"), "stage": "waveforms"})
    page = client.get(address).content.decode()
    assert "picture 1 of 2" in page and 'rel="prev"' not in page
    assert f'<a rel="next" href="/bench/{unit.pk}/photos/waveforms-1/">' in page


def test_it_rejects_put(client, address):
    assert client.put(address).status_code == 405
