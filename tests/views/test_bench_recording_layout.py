"""How a log is read: proposed beside its rows, asked where it is open, confirmed."""
import pytest

from teardowns.logs.layout import Layout
from teardowns.models import Recording
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.recording_files import original_at
from teardowns.views import bench_recording_layout as subject
from tests.recordings import again, lay_out, read_whole, take_in, thermal_log
from tests.views.log_page import address_of, text_of

pytestmark = pytest.mark.django_db
OPEN = "The file can be read in two ways: answer the question above first."


@pytest.fixture
def taken(client, alice, unit, tmp_path):
    client.force_login(alice)
    return take_in(alice, unit, thermal_log(tmp_path), instrument="Logger 8")


@pytest.fixture
def ambiguous(client, alice, unit, tmp_path):
    """Watts written 1.200 to 1.219: 1.2 W, or 1 200 W."""
    client.force_login(alice)
    path = tmp_path / "power.csv"
    path.write_text("t (s);Power (W)\n" + "".join(f"{n};1.{200 + n}\n" for n in range(20)))
    return take_in(alice, unit, path, "load_sweep")


class Page:
    """The form as a browser has it: what is on the page is sent, with what a person changes."""

    def __init__(self, client, recording):
        self.client, self.address = client, address_of(recording, "layout/")
        self.recording = recording
        self._show(client.get(self.address))

    def _show(self, response):
        self.response, self.text = response, text_of(response)
        context = response.context or {}
        self.fields = {"kind": context.get("kind", ""), "drawn": context.get("drawn", "")}
        for name in ("form", "conditions"):
            form = context.get(name)
            for field in form or ():
                self.fields[field.html_name] = "" if field.value() is None else field.value()
        self.fields["settled"] = list(context.get("settled", ()))
        self.questions = [each.field for each in context.get("questions") or ()]

    def send(self, act="read", **changed):
        typed = {name.replace("__", "-"): value for name, value in changed.items()}
        response = self.client.post(self.address, self.fields | {"act": act} | typed)
        if response.status_code == 200:
            self._show(response)
        else:
            self.response = response
        return self

    @property
    def is_read(self):
        return self.response.status_code == 302 and again(self.recording).is_read


@pytest.fixture
def page(client, taken):
    return Page(client, taken)


@pytest.fixture
def open_page(client, ambiguous):
    return Page(client, ambiguous)


def test_it_shows_the_rows_beside_what_they_are_read_as(page):
    assert "Line 2 is read as" in page.text and "60.0000\u202f°C" in page.text
    assert '<td class="mono">60.0</td>' in page.text and not page.questions
    assert " style=" not in page.text and " onclick=" not in page.text


def test_confirmed_as_it_is_the_log_is_read_and_its_page_follows(page, taken):
    assert page.send(place__1="case_temperature", ambient="23 °C").is_read
    assert page.response.url == address_of(taken)
    row = again(taken)
    assert row.columns == {"time": "Time (s)", "case_temperature": "Case (°C)",
                           "ambient_temperature": "Air (°C)"}
    assert row.conditions["ambient"] == 23.0 and row.rows == 241


@pytest.mark.parametrize("changed, name, words", [
    ({"role__0": "not_used"}, "interval", "Say how long it is from one row"),
    ({"unit__1": "mV"}, "unit-1", "choose a unit of °C"),
    ({"first_line": "0"}, "first_line", "The first line of a file is line 1."),
    ({"ambient": "warm"}, "ambient", "warm"),
    ({"time_style": "fortnights"}, "time_style", "fortnights")])
def test_a_mistake_is_said_at_its_field_and_everything_typed_stays(page, taken, changed, name,
                                                                   words):
    page.send(mains_voltage="230 V", **changed)
    assert page.response.status_code == 200 and not again(taken).is_laid_out
    said = page.response.context["conditions" if name == "ambient" else "form"].errors[name][0]
    assert words in said and said in page.text and page.fields["mains_voltage"] == "230 V"
    bound = page.response.context["conditions" if name == "ambient" else "form"][name]
    assert f'href="#{bound.auto_id}">' in page.text.split("</ul></div>")[0]     # named above
    field, typed = next(iter(changed.items()))
    assert page.fields[field.replace("__", "-")] == typed


def test_two_columns_of_one_meaning_and_no_column_at_all_are_said(page):
    page.send(role__1="ambient_temperature", unit__1="°C")
    assert "Two columns are “temperature of the air”" in page.text
    page.send(role__1="not_used", role__2="not_used")
    assert "No column is used: say of at least one what it is." in page.text


# Questions

def test_an_open_question_blocks_reading_until_it_is_answered(open_page, ambiguous):
    assert open_page.questions == ["decimal"] and "1.200 → 1\u202f200" in open_page.text
    open_page.send()
    assert OPEN in open_page.text and not again(ambiguous).is_laid_out
    assert open_page.send(**{"answer-decimal": "."}).is_read
    assert again(ambiguous).layout["decimal"] == "."


def test_an_answer_wins_over_the_select_that_nobody_touched(open_page, ambiguous):
    # Nobody said anything of thousands either: they follow from the answer.
    assert open_page.send(**{"answer-decimal": ","}).is_read
    layout = Layout.from_json(again(ambiguous).layout)
    assert (layout.decimal, layout.thousands) == (",", ".")


@pytest.mark.parametrize("answer, first", [(".", "1.20000\u202fW"), (",", "1.20000\u202fkW")])
def test_after_another_look_the_answer_still_counts(open_page, ambiguous, answer, first):
    open_page.send("look", **{"answer-decimal": answer})
    assert not open_page.questions and first in open_page.text
    open_page.send("look", mains_voltage="100 V")
    assert not open_page.questions and first in open_page.text
    assert open_page.send().is_read
    assert again(ambiguous).layout["decimal"] == answer


@pytest.mark.parametrize("answer, changed", [(".", ","), (",", ".")])
def test_who_thinks_again_after_an_answer_is_believed(open_page, ambiguous, answer, changed):
    open_page.send("look", **{"answer-decimal": answer})
    assert open_page.send(decimal=changed).is_read
    assert again(ambiguous).layout["decimal"] == changed


def test_a_select_that_was_changed_is_an_answer(open_page, ambiguous):
    assert open_page.send(decimal=",").is_read
    assert Layout.from_json(again(ambiguous).layout).thousands == "."


def test_rows_without_a_time_are_asked_for_their_interval(client, alice, unit, tmp_path):
    client.force_login(alice)
    path = tmp_path / "plain.csv"
    path.write_text("U (V);I (A)\n" + "5.01;1.21\n5.02;1.22\n" * 10)
    for number, (changed, interval) in enumerate([
            ({"answer-interval": "0.5"}, 0.5), ({"interval": "250 ms"}, 0.25)]):
        path.write_text(path.read_text() + "5.03;1.23\n")
        # One instrument's habit would answer for its next log.
        recording = take_in(alice, unit, path, "load_sweep", instrument=f"Meter {number}")
        page = Page(client, recording)
        assert page.questions == ["interval"]
        page.send()
        assert OPEN in page.text
        page.send("look", **changed)
        assert not page.questions and page.send().is_read
        assert again(recording).layout["interval"] == interval


def test_a_capture_is_asked_where_the_probe_was(client, alice, unit, tmp_path):
    client.force_login(alice)
    path = tmp_path / "scope.csv"
    path.write_text("t (us);U (V)\n" + "".join(f"{n};{12 + n % 7}.5\n" for n in range(60)))
    recording = take_in(alice, unit, path, "load_sweep")
    page = Page(client, recording)
    page.send("look", kind="waveform", load="20 W")
    assert page.questions == ["role:1"] and "where was the probe?" in page.text
    page.send("look", **{"answer-role:1": "winding_voltage", "load": "20 W"})
    assert not page.questions and page.fields["load"] == "20 W"
    assert page.send().is_read
    assert (again(recording).kind, again(recording).layout["columns"][1]["role"]) == (
        "waveform", "winding_voltage")


# Looking again

def test_looking_again_keeps_all_that_was_typed(page, taken):
    page.send("look", place__1="case_temperature", role__2="not_used", mains_voltage="100 V",
              ambient="about 20", first_line="3")
    assert page.fields["place-1"] == "case_temperature" and page.fields["role-2"] == "not_used"
    assert page.fields["mains_voltage"] == "100 V" and page.fields["ambient"] == "about 20"
    assert page.fields["first_line"] == "3" and not again(taken).is_laid_out


def test_with_another_separator_the_columns_are_looked_at_before_they_are_read(page, taken):
    page.send(separator=";", mains_voltage="100 V")
    assert page.response.status_code == 200 and not again(taken).is_laid_out
    assert page.fields["separator"] == ";" and 'value="100 V"' in page.text
    page.send("look", separator=",")
    assert page.fields["role-2"] == "ambient_temperature"
    assert page.send().is_read


@pytest.mark.parametrize("name", ["encoding", "separator", "decimal", "thousands", "time_style",
                                  "date_order", "interval", "first_line", "role-1", "unit-1",
                                  "place-1", "answer-decimal", "answer-role:1", "answer-unit:9",
                                  "answer-interval", "settled", "kind", "version"])
@pytest.mark.parametrize("act", ["look", "read", "nonsense"])
def test_no_nonsense_is_too_odd_for_the_page(page, name, act):
    page.send(act, **{name: "nonsense"})
    assert page.response.status_code in (200, 302)


# Refusals, stale pages, lost files

@pytest.fixture
def broken(client, alice, unit, tmp_path):
    """A table whose line 202 has no number where the case's temperature stands."""
    client.force_login(alice)
    path = thermal_log(tmp_path)
    lines = path.read_text("utf-8").splitlines(keepends=True)
    lines[201] = "2000,sixty,25.0\n"
    path.write_text("".join(lines), "utf-8")
    return take_in(alice, unit, path)


def test_a_refusal_names_line_and_column_and_the_next_try_is_taken(client, broken):
    page = Page(client, broken)
    page.send(mains_voltage="230 V")
    assert page.response.status_code == 200 and "Line 202, column 2: " in page.text
    assert "sixty" in page.text and 'value="230 V"' in page.text
    assert "Line 202, column 2: " in text_of(client.get(address_of(broken)))
    assert page.send(role__1="not_used").is_read
    assert again(broken).refusal == "" and again(broken).rows == 241


def test_a_page_that_was_overtaken_is_told_and_sent_once_more_it_counts(client, alice, page, taken):
    lay_out(alice, taken)                 # in another window
    page.send(place__1="transformer_temperature")
    assert subject.CHANGED in page.text and page.fields["place-1"] == "transformer_temperature"
    assert again(taken).layout["columns"][1]["place"] == "case_temperature"
    assert page.send().is_read
    assert again(taken).layout["columns"][1]["place"] == "transformer_temperature"


def test_a_log_that_is_read_shows_how_it_is_read_and_the_same_again_changes_nothing(
        client, alice, recording):
    client.force_login(alice)
    page = Page(client, recording)
    assert page.fields["place-1"] == "case_temperature"
    assert page.send().is_read
    assert again(recording).channels == recording.channels


def test_what_was_confirmed_stays_confirmed(client, alice, taken):
    Page(client, taken).send(first_line="5", role__2="not_used")
    page = Page(client, taken)
    assert page.fields["first_line"] == 5 and page.fields["role-2"] == "not_used"
    page.send("look", mains_voltage="230 V")
    assert page.fields["first_line"] == "5" and page.send().is_read
    layout = again(taken).layout
    assert (layout["first_line"], layout["columns"][2]["role"]) == (5, "not_used")


def test_the_mains_side_stays_beside_it(client, alice, recording):
    client.force_login(alice)
    stored = recording.conditions | {"input_log": "load-sweep-9", "input_offset": 4.0}
    Recording.objects.update(conditions=stored)
    assert Page(client, recording).send(ambient="21 °C").is_read
    told = again(recording).conditions
    assert (told["input_log"], told["input_offset"], told["ambient"]) == ("load-sweep-9", 4.0, 21.0)


def test_a_file_that_is_lost_is_said(client, alice, page, taken):
    with original_at(taken) as path:
        path.unlink()
    for response in (client.get(page.address), client.post(page.address, page.fields)):
        assert response.status_code == 200
        assert "Its file is missing. Tell a moderator." in text_of(response)


def test_a_disk_that_is_full_is_said_and_nothing_typed_is_lost(page, taken, monkeypatch):
    def full(**told):
        raise OSError
    monkeypatch.setattr(subject, "lay_out_recording", full)
    page.send(mains_voltage="230 V")
    assert NOT_STORED in page.text and 'value="230 V"' in page.text


def test_only_its_contributor_finds_it_while_the_sheet_is_open(client, bob, rita, mona, alice,
                                                                recording):
    for person in (bob, rita, mona):
        client.force_login(person)
        assert client.get(address_of(recording, "layout/")).status_code == 404
        assert client.post(address_of(recording, "layout/"), {"act": "read"}).status_code == 404
    client.force_login(alice)
    recording.unit.status = "published"
    recording.unit.save()
    assert client.get(address_of(recording, "layout/")).status_code == 404


def test_anonymous_is_led_to_sign_in(client, laid_out):
    assert client.get(address_of(laid_out, "layout/")).url.startswith("/sign-in/")


def test_headings_and_cells_are_shown_as_text(client, alice, unit, tmp_path):
    client.force_login(alice)
    path = tmp_path / "odd.csv"
    path.write_text("Time (s),<b>Case (°C),Note\n" + "".join(
        f"{n},{60 + n % 2}.5,<script>x</script>\n" for n in range(30)), "utf-8")
    response = client.get(address_of(take_in(alice, unit, path), "layout/"))
    assert b"<b>Case" not in response.content and b"<script>x" not in response.content
    assert b"&lt;script&gt;x" in response.content


def test_it_costs_at_most_twelve_queries(client, page, recording, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        client.get(address_of(recording, "layout/"))
    read_whole(recording)
