"""One log on the bench: read on, spans moved, results taken, conditions changed, taken down."""
import pytest
from django.core.files.storage import storages

from teardowns.logs.layout import Layout, LogColumn
from teardowns.models import Measurement, Port, Recording, RecordingReading
from teardowns.services.extract_results import results_of
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.recording_files import drop_channels, original_at
from teardowns.views import bench_recording as subject
from tests.recordings import again, lay_out, read_whole, take_in, thermal_log
from tests.views.log_page import address_of, held, public, sender, text_of

pytestmark = pytest.mark.django_db
CODE = "case_temperature"


@pytest.fixture
def act(client, alice, recording):
    client.force_login(alice)
    return sender(client, recording)


def result(recording, name=CODE):
    return next(one for one in results_of(again(recording)) if one["name"] == name)


def shown(recording, name=CODE, target=None):
    """What the page sends when a result is taken: the span as it stands, and the row."""
    found = result(recording, name)
    return {"name": name, "start": f"{found['start']:.9g}", "end": f"{found['end']:.9g}",
            "shown_start": repr(found["start"]), "shown_end": repr(found["end"]),
            "target": target or f"{name.replace('_', '-')}-{recording.key}@0"}


def test_it_shows_the_chart_the_results_and_a_form_for_each_thing_to_do(client, act, recording):
    response = client.get(address_of(recording))
    page = text_of(response)
    assert "60.0" in page and "<svg" in page and "How it was read" in page
    for act_of in ("conditions", "describe", "take-down"):
        assert f'<input type="hidden" name="act" value="{act_of}">' in page
    assert "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page and "<style" not in page


# Being read

def test_a_log_that_is_not_laid_out_leads_to_how_it_is_read(client, alice, unit, tmp_path):
    client.force_login(alice)
    taken = take_in(alice, unit, thermal_log(tmp_path))
    for answer in (client.get(address_of(taken)), client.post(address_of(taken), {
            "act": "read-on"}), client.post(address_of(taken), {"act": "take"})):
        assert answer.url == address_of(taken, "layout/")


def test_a_person_reads_on_by_a_button_and_a_script_asks_how_far(client, alice, laid_out):
    client.force_login(alice)
    assert "Read so far: " in text_of(client.get(address_of(laid_out)))
    told = client.post(address_of(laid_out), {"act": "read-on"},
                       headers={"Accept": "application/json"})
    assert told.json() == {"percent": 100, "done": True}
    answer = client.post(address_of(laid_out), {"act": "read-on"})
    assert answer.url == address_of(laid_out) and again(laid_out).is_read


def test_a_file_that_is_lost_before_it_is_read_is_said(client, alice, laid_out):
    client.force_login(alice)
    with original_at(laid_out) as path:
        path.unlink()
    assert subject.NO_FILE in text_of(client.post(
        address_of(laid_out), {"act": "read-on"}, follow=True))
    told = client.post(address_of(laid_out), {"act": "read-on"},
                       headers={"Accept": "application/json"})
    assert (told.status_code, told.json()) == (507, {"message": subject.NO_FILE})


def test_numbers_that_are_lost_are_said_and_read_once_more(client, act, recording):
    results_of(recording)
    drop_channels(recording.channels)
    response = client.get(address_of(recording))
    assert response.status_code == 200 and subject.MISSING in text_of(response)
    assert subject.MISSING in act("conditions", ambient="25 °C")
    page = act("read-anew")
    assert subject.MISSING not in page and "60.0" in page
    assert again(recording).channels not in ("", recording.channels)
    assert storages["channels"].exists(again(recording).channels)


def test_reading_once_more_is_not_begun_from_a_page_that_was_overtaken(act, recording):
    assert subject.CHANGED in act("read-anew", seen="1")
    assert again(recording).channels == recording.channels


# Spans

def test_a_span_is_moved_and_moved_back(act, recording):
    before = result(recording)
    page = act("span", name=CODE, start="5 min", end="25 min")
    assert "Read again from that span." in page and "span set by hand" in page
    assert again(recording).spans == {CODE: [300.0, 1500.0]}
    assert result(recording)["end"] == 1500.0
    page = act("whole", name=CODE, start="5 min", end="25 min")
    assert "Read again from where the reader itself looks." in page
    assert again(recording).spans == {} and result(recording) == before


@pytest.mark.parametrize("start, end, words", [
    ("1500", "300", "The span ends before it begins"), ("", "300", "write both"),
    ("soon", "300", "soon"), ("9000", "9100", "The log runs from 0 to 2400 s")])
def test_a_span_that_is_none_is_refused_and_what_was_typed_stays(act, recording, start, end, words):
    page = act("span", name=CODE, start=start, end=end)
    assert words in page and f'value="{start}"' in page and f'value="{end}"' in page
    assert again(recording).spans == {}


def test_a_span_from_a_page_that_was_overtaken_is_kept_and_the_next_try_counts(act, recording):
    page = act("span", name=CODE, start="300", end="1500", seen="1")
    assert subject.CHANGED in page and 'value="300"' in page and again(recording).spans == {}
    assert f'name="seen" value="{recording.version}"' in page


def test_a_span_in_which_nothing_shows_can_be_given_back(act, recording):
    page = act("span", name=CODE, start="300", end="301")
    assert "The span does not show it" in page or "What this log does not show" in page
    assert "Let the reader look itself" in page
    act("whole", name=CODE)
    assert result(recording)["kind"] == "number"


@pytest.mark.parametrize("name", ["", "ripple_voltage", "nonsense#7", "x" * 61, "a\0b"])
@pytest.mark.parametrize("what", ["span", "whole", "take"])
def test_a_result_that_there_is_not_is_refused(act, recording, what, name):
    act(what, name=name, start="0", end="100", shown_start="0", shown_end="1", target="x@0")
    assert again(recording).spans == {} and not Measurement.objects.exists()


# Taking

def test_a_result_becomes_a_row_of_its_own(act, recording):
    page = act("take", **shown(recording))
    assert "It is part of the evidence now." in page and "Part of the evidence" in page
    row = Measurement.objects.get()
    assert (row.key, row.quantity, row.recording) == (f"case-temperature-{recording.key}", CODE,
                                                      recording)
    assert row.value == pytest.approx(60.0)


def test_a_result_goes_in_place_of_what_was_typed(act, alice, recording):
    Measurement.objects.create(unit=recording.unit, author=alice, key="typed", quantity=CODE,
                               value=55.0, version=4)
    page = act("take", **shown(recording, target="typed@4"))
    assert "It is part of the evidence now." in page
    row = Measurement.objects.get()
    assert (row.key, row.version) == ("typed", 5) and row.value == pytest.approx(60.0)


def test_a_row_that_was_changed_meanwhile_is_left_alone(act, alice, recording):
    Measurement.objects.create(unit=recording.unit, author=alice, key="typed", quantity=CODE,
                               value=55.0, version=5)
    assert subject.CHANGED in act("take", **shown(recording, target="typed@4"))
    assert Measurement.objects.get().value == 55.0 and not RecordingReading.objects.exists()


def test_taking_twice_makes_one_row(act, recording):
    sent = shown(recording)
    act("take", **sent)
    assert subject.CHANGED in act("take", **sent)
    assert Measurement.objects.count() == RecordingReading.objects.count() == 1


@pytest.mark.parametrize("changed", [
    {"shown_start": "0.0"}, {"shown_end": "nan"}, {"shown_start": ""}, {"shown_end": "inf"},
    {"target": "mass@1"}, {"target": ""}, {"target": "mass"}, {"target": "new\0@0"}])
def test_a_take_that_was_tampered_with_takes_nothing(act, alice, recording, changed):
    Measurement.objects.create(unit=recording.unit, author=alice, key="mass", value=0.05,
                               quantity="mass_total")
    assert subject.CHANGED in act("take", **shown(recording) | {"start": "", "end": ""} | changed)
    assert Measurement.objects.get().value == 0.05 and not RecordingReading.objects.exists()


def test_times_that_were_typed_and_not_read_from_are_not_passed_over(act, recording):
    page = act("take", **shown(recording) | {"start": "300", "end": "1500"})
    assert subject.UNREAD_SPAN in page and 'value="300"' in page
    assert not Measurement.objects.exists()


def test_a_row_that_says_something_else_by_now_is_shown_so(act, client, recording):
    act("take", **shown(recording))
    Measurement.objects.update(value=61.0)
    assert "where it stands as 61.00\u202f°C" in text_of(client.get(address_of(recording)))


def test_a_result_of_no_rule_is_not_taken(act, recording):
    page = act("take", name="after_limit", start="0", end="1", shown_start="0", shown_end="1",
               target="x@0")
    assert "This result is shown with the log, and no rule reads it." in page


# How the bench was set

@pytest.fixture
def load(client, alice, unit, tmp_path):
    client.force_login(alice)
    return held(alice, unit, tmp_path)


def test_with_other_conditions_the_results_are_read_anew(client, load):
    # 5 V held at 2 A; 1 m of 0.2 mm² there and back has 2 · 0.0175 Ω mm²/m · 1 m / 0.2 mm²
    # = 0.175 Ω (copper at 20 °C, handbook value), 0.7 W more at the port.
    before = result(load, "sustained_power")["value"]
    assert before == pytest.approx(10.0, rel=0.01)
    page = sender(client, load)("conditions", set_voltage="5 V", cable_length="1 m",
                                cable_area="0.2 mm²")
    assert "the results were read anew" in page
    after = result(load, "sustained_power")["value"]
    assert after - before == pytest.approx(0.7, abs=0.05)


@pytest.mark.parametrize("typed, words", [
    ({"set_voltage": "0 V"}, "A port is not set to 0 V"),
    ({"cable_length": "1 m"}, "write the area of one conductor"),
    ({"accuracy-output_voltage": "good"}, "write such as 0.5 % + 2 digits"),
    ({"mains_voltage": "a lot"}, "a lot")])
def test_a_mistake_in_them_is_said_and_kept(client, load, typed, words):
    page = sender(client, load)("conditions", ambient="21 °C", **typed)
    assert words in page and 'value="21 °C"' in page
    assert f'value="{next(iter(typed.values()))}"' in page
    assert again(load).conditions == load.conditions


def test_conditions_from_a_page_that_was_overtaken_are_kept_and_the_next_try_counts(client, load):
    act = sender(client, load)
    page = act("conditions", set_voltage="5 V", ambient="21 °C", seen="1")
    assert subject.CHANGED in page and 'value="21 °C"' in page
    assert again(load).conditions["ambient"] is None
    act("conditions", set_voltage="5 V", ambient="21 °C")
    assert again(load).conditions["ambient"] == 21.0


@pytest.fixture
def mains(alice, unit, tmp_path):
    """The mains side of the same test: begun 40 s later, 12.5 W where the output gives 10 W."""
    path = tmp_path / "mains.csv"
    path.write_text("t (s),P (W)\n" + "".join(
        f"{t},{12.5 if 60 <= t + 40 < 1900 else 0.1}\n" for t in range(0, 1950, 5)))
    layout = Layout("utf-8", ",", ".", 2, (LogColumn(0, "t (s)", "time", "s"),
                                           LogColumn(1, "P (W)", "input_power", "W")))
    taken = take_in(alice, unit, path, "load_sweep")
    return read_whole(lay_out(alice, taken, layout, kind="load_sweep"))


def test_the_mains_side_is_laid_beside_by_the_steps_that_both_show(client, load, mains):
    page = sender(client, load)("input-log", other=mains.key)
    assert "The mains side is taken from that log" in page and "Mains power" in page
    told = again(load).conditions
    # Half a step of either log, 5 s, is how closely steps can be laid together.
    assert told["input_log"] == mains.key and told["input_offset"] == pytest.approx(40, abs=5)
    assert result(load, "efficiency")["value"] == pytest.approx(0.8, rel=0.01)


def test_an_offset_that_was_typed_counts_and_none_takes_the_log_away(client, load, mains):
    act = sender(client, load)
    act("input-log", other=mains.key, offset="1234.5678 s")
    assert again(load).conditions["input_offset"] == 1234.5678
    assert 'value="1234.5678 s"' in text_of(client.get(address_of(load)))
    assert "No other log stands beside this one." in act("input-log", other="")
    assert again(load).conditions["input_log"] == ""


@pytest.mark.parametrize("typed, words", [
    ({"other": "thermal-9"}, "Select a valid choice"), ({"offset": "later"}, "later")])
def test_a_mistake_about_the_mains_side_is_said(client, load, mains, typed, words):
    page = sender(client, load)("input-log", **{"other": mains.key, "offset": ""} | typed)
    assert words in page and again(load).conditions["input_log"] == ""


def test_logs_that_do_not_match_are_told_apart_and_the_choice_stays(client, load, recording):
    page = sender(client, load)("input-log", other=recording.key)
    assert "write the offset by hand" in page
    assert f'<option value="{recording.key}" selected>' in page


def test_when_the_mains_side_is_taken_down_the_log_stands_alone(client, load, mains):
    sender(client, load)("input-log", other=mains.key)
    sender(client, mains)("take-down", reason="Of another unit")
    assert "Mains power" not in text_of(client.get(address_of(load)))


# Describing, taking down, who may

def test_it_is_described(act, alice, recording):
    Port.objects.create(unit=recording.unit, author=alice, key="c1", label="C1")
    page = act("describe", caption="Shelf, <b>no</b> air", instrument="Logger 9", port="c1",
               version=str(recording.version))
    row = again(recording)
    assert (row.caption, row.instrument, row.port.key) == ("Shelf, <b>no</b> air", "Logger 9", "c1")
    assert "The log’s description is saved." in page and "port C1" in page


def test_a_description_from_a_page_that_was_overtaken_counts_at_the_next_try(act, recording):
    page = act("describe", caption="Shelf", instrument="", port="", version="1")
    assert subject.CHANGED in page and 'value="Shelf"' in page
    assert f'name="version" value="{recording.version}"' in page
    assert again(recording).caption == ""


def test_too_long_a_caption_is_said_and_kept(act, recording):
    page = act("describe", caption="x" * 301, version=str(recording.version))
    assert f'value="{"x" * 301}"' in page and 'id="describe-caption_error"' in page


def test_it_is_taken_down_with_a_reason_and_found_by_nobody(act, client, recording):
    assert "Say why, for the log" in act("take-down", reason="")
    page = act("take-down", reason="The meter was wrong")
    assert "The log is taken down" in page and "No log has been sent yet." in page
    for address in (address_of(recording), public(recording), public(recording, "values.csv")):
        assert client.get(address).status_code == 404


def test_a_disk_that_is_full_is_said(act, recording, monkeypatch):
    def full(**told):
        raise OSError
    monkeypatch.setattr(subject, "lay_out_recording", full)
    assert NOT_STORED in act("conditions", ambient="21 °C")


def test_only_its_contributor_finds_it_while_the_sheet_is_open(client, alice, bob, rita, mona,
                                                                recording):
    for person in (bob, rita, mona):
        client.force_login(person)
        assert client.get(address_of(recording)).status_code == 404
        assert client.post(address_of(recording), {"act": "take-down", "reason": "x"}
                           ).status_code == 404
    client.force_login(alice)
    recording.unit.status = "published"
    recording.unit.save()
    assert client.get(address_of(recording)).status_code == 404
    assert Recording.objects.get().taken_down_at is None


def test_anonymous_is_led_to_sign_in(client, recording):
    assert client.get(address_of(recording)).url.startswith("/sign-in/")


@pytest.mark.parametrize("act_of", ["", "nonsense"])
def test_an_act_that_there_is_not_changes_nothing(act, recording, act_of):
    act(act_of)
    assert again(recording).version == recording.version


def test_it_costs_at_most_twelve_queries(client, alice, load, mains, recording, act,
                                         django_assert_max_num_queries):
    sender(client, load)("input-log", other=mains.key)
    port = Port.objects.create(unit=load.unit, author=alice, key="c1", label="C1")
    for n in range(20):
        Measurement.objects.create(unit=load.unit, author=alice, key=f"held-{n}", port=port,
                                   quantity="sustained_power", value=9.0)
    results_of(again(load))
    with django_assert_max_num_queries(12):
        assert client.get(address_of(load)).status_code == 200
