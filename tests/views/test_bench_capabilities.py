"""What a port told: pasted or sent as a file, read, asked where it is open, kept as evidence."""
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from teardowns.logs.capabilities import MOST_TEXT
from teardowns.models import Measurement, Port, Recording
from teardowns.services.photo_files import NOT_STORED
from teardowns.views import bench_capabilities as subject
from tests.views.log_page import hidden, text_of

pytestmark = pytest.mark.django_db
# By hand, fixed supply (USB PD, source PDO; from memory): voltage / 50 mV in bits 19 to 10,
# current / 10 mA in bits 9 to 0. 5 V 3 A: 100 << 10 | 300 = 0x0001912C; 9 V 3 A: 180 << 10 | 300.
WORDS = ["0A01912C", "0002D12C"]
ON_WIRE = "2C 91 01 0A 2C D1 02 00"


@pytest.fixture
def port(alice, unit):
    return Port.objects.create(unit=unit, author=alice, key="c1", label="C1", version=3)


@pytest.fixture
def address(client, alice, unit):
    client.force_login(alice)
    return f"/bench/{unit.pk}/recordings/capabilities/"


@pytest.fixture
def read(client, address, port):
    """The page after a list was read; `keep` sends it once more to be kept."""
    def sent(text="", **more):
        return text_of(client.post(address, {"port": "c1", "text": text, "act": "read"} | more))
    return sent


@pytest.fixture
def keep(client, address, port, read):
    def sent(text, **more):
        page = read(text, **more)
        return text_of(client.post(address, {
            "port": "c1", "text": text, "act": "keep", "shown": hidden(page, "shown"),
            "seen-c1": hidden(page, "seen-c1")} | more, follow=True))
    return sent


def test_it_asks_for_a_list(client, address, port):
    page = text_of(client.get(address))
    assert "Paste what a protocol analyser wrote" in page and "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page and "<style" not in page


def test_words_are_read_before_they_are_kept(read):
    page = read("0x0A01912C\n0002D12C\nVBUS stable")
    assert "5.00\u202fV" in page or "5\u202fV" in page
    assert "Line 3: <span class=\"mono\">VBUS stable" in page
    assert not Recording.objects.exists()


def test_words_become_what_the_port_advertises(keep, port):
    page = keep("\n".join(WORDS), instrument="Analyser 2")
    assert "What port C1 advertises is kept." in page and "Protocol capture" in page
    port.refresh_from_db()
    kept = Recording.objects.get()
    assert (port.advertised, port.recording, port.version) == (WORDS, kept, 4)
    assert (kept.kind, kept.port, kept.instrument) == ("protocol", port, "Analyser 2")
    assert not Measurement.objects.exists()


def test_modes_become_measurements_of_the_port(keep, port):
    # 9 V · 2 A = 18 W is more than 5 V · 3 A = 15 W; a range is no fixed mode and counts not.
    page = keep("Fixed 5 V 3 A\nFixed 9 V 2 A\nPPS 3.3-21 V 5 A")
    assert "What port C1 advertises is kept." in page
    assert {(row.quantity, row.value, row.port) for row in Measurement.objects.all()} == {
        ("advertised_voltage", 9.0, port), ("advertised_power", 18.0, port)}
    port.refresh_from_db()
    assert port.advertised == [] and port.version == 3
    keep("Fixed 5 V 3 A")
    assert {row.value for row in Measurement.objects.all()} == {5.0, 15.0}


def test_a_list_without_fixed_modes_is_kept_and_counts_as_nothing(keep):
    assert "nothing in it counts as advertised" in keep("QC 3.0: 3.6-12 V 3 A")
    assert Recording.objects.exists() and not Measurement.objects.exists()


def test_bytes_that_begin_with_5_v_one_way_only_are_turned(keep, port):
    keep(ON_WIRE)
    port.refresh_from_db()
    assert port.advertised == WORDS


BOTH = "2C D1 02 00 2C D1 02 00"        # 9 V first as on the wire; nonsense as written


def test_bytes_that_may_go_either_way_are_asked_about(client, address, read, port):
    page = read(BOTH)
    assert "Which byte comes first?" in page and 'value="keep"' not in page
    page = text_of(client.post(address, {"port": "c1", "text": BOTH, "act": "keep"}))
    assert "Which byte comes first?" in page and not Recording.objects.exists()
    page = read(BOTH, order="reversed")
    assert 'value="reversed" checked' in page and 'value="keep"' in page


def test_an_answer_is_kept_with_its_order(keep, port):
    keep(BOTH, order="reversed")
    port.refresh_from_db()
    assert port.advertised == ["0002D12C", "0002D12C"]


def test_an_answer_counts_for_no_other_list(keep, port):
    keep("\n".join(WORDS), order="reversed")
    port.refresh_from_db()
    assert port.advertised == WORDS


def test_a_list_that_nobody_looked_at_is_not_kept(client, address, read, port):
    seen = hidden(read("\n".join(WORDS)), "shown")
    page = text_of(client.post(address, {"port": "c1", "text": WORDS[0], "act": "keep",
                                         "seen-c1": "3", "shown": seen}))
    assert subject.OTHER in page and WORDS[0] in page and not Recording.objects.exists()


@pytest.mark.parametrize("text, words", [
    ("", "Paste the list, or choose a text file with it."),
    ("  \n", "Paste the list, or choose a text file with it."),
    ("nothing here", "Neither capability words nor modes were found"),
    ("0A01912C\0", "The text holds a character that is none (NUL)"),
    ("x" * (MOST_TEXT + 1), "leave in only the lines"),
    ("\n".join(WORDS * 7), "14 words were found")])
def test_what_is_no_list_is_said_and_what_was_typed_stays(read, text, words):
    page = read(text, instrument="Analyser 2")
    assert words in page and 'value="Analyser 2"' in page and 'id="capabilities-text_error"' in page
    assert text.strip().strip("\0") in page


@pytest.mark.parametrize("key", ["", "c9"])
def test_without_a_port_of_the_unit_the_list_stays(client, address, port, key):
    page = text_of(client.post(address, {"port": key, "text": WORDS[0], "act": "keep"}))
    assert WORDS[0] in page and 'id="capabilities-port_error"' in page


def test_a_unit_without_ports_is_told_to_add_one(client, address):
    assert "This unit has no port yet." in text_of(client.get(address))
    assert client.post(address, {"text": WORDS[0], "act": "keep"}).status_code == 200


def file(content, name="list.txt"):
    return SimpleUploadedFile(name, content)


def test_a_file_is_read_and_stands_in_the_page_to_be_kept(read):
    page = read(file=file("\ufeff5 V 3 A\n".encode()))
    assert "5 V 3 A\n</textarea>" in page and 'value="keep"' in page


@pytest.mark.parametrize("content, words", [
    (b"\xff\xfe5\0V\0", "no text in UTF-8"), (b"", "Paste the list"),
    (b"5 V 3 A\0", "none (NUL)"), (b"nothing", "Neither capability words"),
    (b"x" * 80_001, "80,001 bytes"), (b"x" * 30_000, "at most 20,000 are read")])
def test_a_file_that_is_no_list_is_said(read, content, words):
    assert words in read(file=file(content)) and not Recording.objects.exists()


def test_a_file_beside_a_pasted_list_does_not_push_it_out(read):
    page = read("9 V 3 A", file=file(b"5 V 3 A"))
    assert "There is a list above as well" in page
    assert "9 V 3 A</textarea>" in page.replace("\n", "")


def test_a_port_that_was_changed_meanwhile_is_left_alone_and_the_next_try_counts(
        client, address, keep, port):
    page = keep("\n".join(WORDS), **{"seen-c1": "2"})
    assert subject.CHANGED in page and WORDS[1] in page
    port.refresh_from_db()
    assert port.advertised == [] and hidden(page, "seen-c1") == "3"
    keep("\n".join(WORDS))
    port.refresh_from_db()
    assert port.advertised == WORDS


def test_a_disk_that_is_full_is_said(keep, monkeypatch):
    def full(**told):
        raise OSError
    monkeypatch.setattr(subject, "keep_capabilities", full)
    assert NOT_STORED in keep(WORDS[0])


def test_what_was_pasted_is_shown_as_text(client, address, port):
    page = client.post(address, {"port": "c1", "text": "5 V 3 A\n<script>x</script>"}).content
    assert b"<script>x" not in page and page.count(b"&lt;script&gt;x") == 2


def test_only_the_contributors_open_sheet_is_found(client, alice, bob, rita, mona, unit, port):
    address = f"/bench/{unit.pk}/recordings/capabilities/"
    for person in (bob, rita, mona):
        client.force_login(person)
        assert client.get(address).status_code == 404
        assert client.post(address, {"port": "c1", "text": WORDS[0]}).status_code == 404
    client.force_login(alice)
    unit.status = "published"
    unit.save()
    assert client.get(address).status_code == 404


def test_anonymous_is_led_to_sign_in(client, unit):
    assert client.get(f"/bench/{unit.pk}/recordings/capabilities/").url.startswith("/sign-in/")


def test_it_costs_at_most_twelve_queries(client, address, alice, unit,
                                         django_assert_max_num_queries):
    for n in range(12):
        Port.objects.create(unit=unit, author=alice, key=f"p{n}", label=f"P{n}")
    with django_assert_max_num_queries(12):
        assert client.get(address).status_code == 200
