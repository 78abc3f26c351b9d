"""Logs of instruments in a real browser: sent, read, moved, taken as evidence, found again."""
import numpy as np
import pytest
from playwright.sync_api import expect

from core.accounts.models import User
from teardowns.drawing.logs.bench_runs import staircase, warming
from teardowns.drawing.logs.dialects import MILLI, SEMICOLON, scope_text
from teardowns.drawing.logs.switch_capture import switch_voltage
from teardowns.models import Claim, Measurement, Port, Recording, Unit
from teardowns.services import read_recording
from teardowns.services.assess_units import assess_units
from tests.photographs import photograph
from tests.recordings import lay_out, read_whole, take_in, thermal_log

from .keys import Keys
from .soundness import check, violations

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
HELD, LOST = 17.0, 20.5             # W: the load sweep keeps 12 V at one and loses it at the other
FREQUENCY = 65e3                    # Hz


@pytest.fixture
def logs(tmp_path):
    """Three files of one adapter for 12 V, each written as another instrument would."""
    rng = np.random.default_rng(5)
    sweep = staircase(12.0, HELD, 660.0, LOST, "hiccup", 0.1, (0.8, 0.82, 0.83, 0.83), rng)
    capture = switch_voltage(FREQUENCY, HELD / 0.83, 0.6e-3, 318.0, 85.0, rng)
    warm = warming({"case_temperature": 66.0}, 24.0, 150.0, rng)
    return {name: _written(tmp_path / name, data) for name, data in (
        ("sweep.csv", SEMICOLON.written(*sweep)), ("scope.csv", scope_text(*capture, 0)),
        ("warm.tsv", MILLI.written(*warm)))}


def _written(path, data):
    path.write_bytes(data)
    return path


@pytest.fixture
def sheet(alices_sheet):
    """Its plate claims 24 W, which the sweep does not reach."""
    unit, alice = Unit.objects.get(), User.objects.get()
    Port.objects.create(unit=unit, key="p1", label="12 V plug", author=alice)
    Claim.objects.create(unit=unit, author=alice, key="out", kind="output", text="12 V 2 A",
                         voltage_low=12.0, voltage_high=12.0, current=2.0, power=24.0)
    assess_units([unit])
    return alices_sheet


@pytest.fixture
def without_script(chromium, sheet, page):
    """The same person in a browser that runs no script, on a phone."""
    context = chromium.new_context(java_script_enabled=False,
                                   viewport={"width": 360, "height": 800},
                                   storage_state=page.context.storage_state())
    context.set_default_timeout(10_000)
    yield context.new_page()
    context.close()


def opened(page, sheet, path, kind="load_sweep"):
    """Sends a file with the script and goes on to how it is read."""
    page.goto(f"{sheet}/recordings/")
    page.select_option("[name=kind]", kind)
    page.set_input_files("#receive-files", path)
    page.get_by_role("link", name=f"Open {path.name}").click()
    page.wait_for_url("**/layout/")


def sent(page, sheet, path, kind="load_sweep"):
    """Sends a file without a script."""
    page.goto(f"{sheet}/recordings/")
    page.select_option("[name=kind]", kind)
    page.set_input_files("#receive-files", path)
    page.get_by_role("button", name="Send").click()


def read(page, **said):
    for name, text in said.items():
        page.fill(f"[name={name}]", text)
    with page.expect_navigation():
        page.get_by_role("button", name="Read the log").click()


def take(page, name):
    with page.expect_navigation():
        page.locator(f"#result-{name}").get_by_role("button", name="Take as evidence").click()


def verdict(page, sheet):
    page.goto(f"{sheet}/recordings/")
    return page.locator(".live .chip").inner_text()


def unit_page(sheet):
    return sheet.replace("/bench/", "/units/") + "/"


def test_what_a_log_shows_changes_the_verdict_and_is_found_again(page, sheet, logs):
    before = verdict(page, sheet)
    opened(page, sheet, logs["sweep.csv"])
    expect(page.locator(".read-as")).to_contain_text("V")
    read(page, set_voltage="12 V", mains_voltage="230 V", mains_frequency="50 Hz")
    page.locator("log-chart[data-ready]").wait_for()
    for name in ("sustained_power", "failed_power", "overcurrent_point"):
        take(page, name)
        expect(page.locator(f"#result-{name}").get_by_text("Part of the evidence")).to_be_visible()
    rows = {row.quantity: row.value for row in Measurement.objects.all()}
    assert rows["sustained_power"] == pytest.approx(HELD, rel=0.01)        # as it was made
    assert rows["overcurrent_point"] == pytest.approx(LOST / 12.0, rel=0.02)
    assert verdict(page, sheet) != before
    page.goto(unit_page(sheet))
    page.locator("a[href$='#result-failed_power']").first.click()
    expect(page.locator("#result-failed_power")).to_be_in_viewport()
    page.locator("#result-failed_power").get_by_role("button", name="Show").click()
    expect(page.locator(".log-said")).to_contain_text("in view")
    assert page.complaints == []


def test_keys_alone_answer_what_the_file_leaves_open(page, sheet, logs):
    page.goto(f"{sheet}/recordings/")
    page.get_by_text("You can also drop logs here").wait_for()
    keys = Keys(page)
    keys.choose("[name=kind]", "waveform")
    keys.go("#receive-files")
    keys.chosen().set_files(logs["scope.csv"])
    page.locator(".photo-queue a").wait_for()
    keys.follow("Open")
    keys.go("#kind")                    # beyond the radios, which are one stop of the Tab key
    keys.press("button[value=read]")
    expect(page.get_by_text("answer the question above first")).to_be_visible()
    keys.tick("input[value=switch_voltage]")
    keys.write("[name=load]", "17 W")
    keys.press("button[value=read]")
    keys.press("#result-switching_frequency button[value=take]")
    assert Measurement.objects.get().value == pytest.approx(FREQUENCY, rel=0.002)
    assert page.complaints == []


def test_a_handle_unfolds_the_span_and_a_span_that_was_not_read_is_not_taken(page, sheet, logs):
    opened(page, sheet, logs["sweep.csv"])
    read(page, set_voltage="12 V")
    page.locator("log-chart[data-ready]").wait_for()
    fold = page.locator("#span-sustained_power")
    expect(fold).to_be_hidden()
    handle = page.get_by_role("slider", name="End of A")
    handle.focus()
    page.keyboard.press("Shift+ArrowLeft")
    expect(fold).to_be_visible()
    with page.expect_navigation():
        page.locator("#result-sustained_power button[value=take]").click()
    said = page.locator("#result-sustained_power .errors")
    expect(said).to_contain_text("Read from that span first")
    assert not Measurement.objects.exists()


def test_the_handles_go_to_the_span_that_is_unfolded(page, sheet, logs):
    opened(page, sheet, logs["sweep.csv"])
    read(page, set_voltage="12 V")
    page.locator("log-chart[data-ready]").wait_for()
    result = page.locator("#result-source_resistance")
    result.get_by_text("Move the span").click()
    letter = result.get_attribute("data-letter")
    expect(page.get_by_role("slider", name=f"Start of {letter}")).to_be_visible()


def test_a_span_in_which_nothing_is_read_leads_to_the_reason(page, sheet, logs):
    opened(page, sheet, logs["sweep.csv"])
    read(page, set_voltage="12 V")
    page.locator("#result-sustained_power").get_by_text("Move the span").click()
    page.fill("#end-sustained_power", "300")                   # too short to have held
    with page.expect_navigation():
        page.get_by_role("button", name="Read from this span").first.click()
    unread = page.locator(".unread #span-sustained_power")
    expect(unread).to_be_in_viewport()
    with page.expect_navigation():
        unread.get_by_role("button", name="Let the reader look itself").click()
    expect(page.locator("#result-sustained_power")).to_be_in_viewport()


def test_a_finger_takes_a_result(chromium, page, sheet, logs):
    context = chromium.new_context(has_touch=True, is_mobile=True,
                                   viewport={"width": 360, "height": 740},
                                   storage_state=page.context.storage_state())
    phone = context.new_page()
    phone.goto(f"{sheet}/recordings/")
    phone.locator("[name=kind]").select_option("thermal")
    phone.set_input_files("#receive-files", logs["warm.tsv"])
    phone.get_by_role("link", name="Open warm.tsv").tap()
    phone.get_by_label("Place of Case").select_option("case_temperature")
    phone.get_by_role("button", name="Read the log").tap()
    phone.locator("#result-case_temperature button[value=take]").tap()
    expect(phone.locator("#result-case_temperature")).to_contain_text("Part of the evidence")
    assert phone.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    context.close()


def test_all_of_it_goes_without_a_script(without_script, sheet, logs):
    page = without_script
    sent(page, sheet, logs["sweep.csv"])
    read(page, set_voltage="12 parsec")
    expect(page.locator(".f-set_voltage .err")).to_contain_text("parsec")
    read(page, set_voltage="12 V")
    expect(page.locator(".log-drawing")).to_be_visible()
    row = page.locator("#result-source_resistance")
    row.get_by_text("Move the span").click()
    row.get_by_label("From, s").fill("5")
    row.get_by_label("To, s").fill("4")
    row.get_by_role("button", name="Read from this span").click()
    expect(row.locator(".errors")).to_contain_text("ends before it begins")
    row.get_by_label("To, s").fill("880")
    row.get_by_role("button", name="Read from this span").click()
    expect(row).to_contain_text("span set by hand")
    row.get_by_role("button", name="Take as evidence").click()
    assert Measurement.objects.get().quantity == "source_resistance"
    expect(row).to_be_in_viewport()


def test_files_that_are_no_logs_are_named_with_the_remedy(without_script, sheet, tmp_path):
    page = without_script
    sent(page, sheet, _written(tmp_path / "empty.csv", b""))
    expect(page.get_by_role("alert")).to_contain_text("empty.csv: the file is empty")
    picture = photograph(tmp_path).rename(tmp_path / "picture.csv")
    sent(page, sheet, picture)
    expect(page.get_by_role("alert")).to_contain_text("Export the readings as text (CSV)")
    assert not Recording.objects.exists()


def test_a_cell_that_is_no_number_is_named_by_line_and_column(without_script, sheet, tmp_path):
    page = without_script
    lines = ["Time (s),Voltage (V),Current (A)", *(f"{k},5.0{k % 3},1.00" for k in range(60))]
    lines[6] = "5,nan,1.00"
    sent(page, sheet, _written(tmp_path / "bad.csv", "\n".join(lines).encode()))
    read(page, set_voltage="5 V")
    expect(page.locator(".errors").last).to_contain_text("Line 7, column 2: “nan” is no number")
    assert page.input_value("[name=set_voltage]").startswith("5")


@pytest.fixture
def long_log(sheet, tmp_path, monkeypatch):
    """A log that takes more requests than the one that confirms its layout; not read yet."""
    monkeypatch.setattr(read_recording, "SLICE", 1000)
    alice, unit = User.objects.get(), Unit.objects.get()
    recording = lay_out(alice, take_in(alice, unit, thermal_log(tmp_path, rows=600)))
    return f"{sheet}/recordings/{recording.key}/"


def test_a_long_log_is_read_on_by_itself(page, long_log):
    page.goto(long_log)
    expect(page.locator(".log-results")).to_be_visible(timeout=20_000)
    assert Recording.objects.get().rows == 600
    assert page.complaints == []


def test_a_long_log_that_meets_a_broken_line_keeps_what_was_read(page, long_log):
    page.route(long_log, lambda route: route.abort() if route.request.method == "POST"
               else route.continue_())
    page.goto(long_log)
    expect(page.get_by_text("The connection broke off")).to_be_visible(timeout=20_000)
    expect(page.get_by_role("button", name="Read on")).to_be_visible()
    page.unroute(long_log)
    page.get_by_role("button", name="Read on").click()
    expect(page.locator(".log-results")).to_be_visible(timeout=20_000)


def test_without_a_script_a_button_reads_on(without_script, long_log):
    page = without_script
    page.goto(long_log)
    before = page.locator(".read-percent").inner_text()
    page.get_by_role("button", name="Read on").click()
    assert int(page.locator(".read-percent").inner_text()) > int(before)


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (360, "dark")])
def test_the_pages_of_a_log_are_sound(page, sheet, tmp_path, width, scheme):
    alice, unit = User.objects.get(), Unit.objects.get()
    recording = read_whole(lay_out(alice, take_in(alice, unit, thermal_log(tmp_path))))
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    logs, public = f"{sheet}/recordings/", f"{unit_page(sheet)}recordings/"
    for address in (logs, f"{logs}{recording.key}/", f"{logs}{recording.key}/layout/",
                    f"{logs}capabilities/", public, f"{public}{recording.key}/"):
        check(page, address)


def test_a_question_and_its_errors_are_sound(page, sheet, logs):
    page.set_viewport_size({"width": 360, "height": 800})
    opened(page, sheet, logs["scope.csv"], "waveform")
    read(page, load="17 parsec")
    expect(page.locator(".f-load .err")).to_contain_text("parsec")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
