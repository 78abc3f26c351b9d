"""One photo on the bench: each form saves what it should, or keeps what was typed and says why."""
import html

import pytest
from django.test import Client

from teardowns.models import (
    Annotation,
    InsulationObservation,
    Photo,
    PhotoCover,
    PhotoReading,
)
from teardowns.services.annotate_photo import put_mark
from teardowns.services.scale_photo import scale_photo
from tests.photographs import photograph
from tests.views.photo_page import address_of, is_kept, sender

pytestmark = pytest.mark.django_db
MARK = {"shape": "box", "points": "20,30 120,90", "label": "C1"}


@pytest.fixture
def address(client, alice, photo):
    client.force_login(alice)
    return address_of(photo)


@pytest.fixture
def act(client, address, photo):
    return sender(client, photo)


@pytest.fixture
def mark(alice, photo):
    return put_mark(author=alice, photo=photo, shape="line", points=((10.0, 20.0), (60.0, 20.0)),
                    label="slot", shows="")


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


def test_it_costs_at_most_twelve_queries(client, address, alice, photo,
                                         django_assert_max_num_queries):
    scale = scale_photo(author=alice, photo=photo, points=((100.0, 100.0), (300.0, 100.0)),
                        lengths=[0.020], length_u=None)
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
    above = page[page.index('<p class="errors"'):].split("</p>")[0]
    assert f">{next(iter(changed)).capitalize()}: " in above and remedy in above
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
