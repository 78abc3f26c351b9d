"""The chart of a log in a real browser: zoom, cursors, spans, by pointer and by keys alone."""
import json
import re
from urllib.parse import parse_qs, urlsplit

import numpy as np
import pytest

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.layout import LogColumn
from teardowns.presenting.log_chart import window_json

from .soundness import violations

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
LONG = Channels(np.arange(200_000) / 100, (
    Channel(LogColumn(1, "U", "output_voltage"), np.sin(np.arange(200_000)) + 5, 0.001),))


@pytest.fixture
def chart(page, live_server):
    """The style guide's chart, drawn by the script."""
    assert page.goto(f"{live_server.url}/styleguide/#logs").status == 200
    page.wait_for_selector("log-chart[data-ready]")
    return page.locator("log-chart")


@pytest.fixture
def windows(page, live_server):
    """A long log that a server answers for; gives the windows that were asked for."""
    asked = []

    def answer(route):
        query = {k: float(v[0]) for k, v in parse_qs(urlsplit(route.request.url).query).items()}
        asked.append(query)
        found = window_json(LONG, query.get("from", 0), query.get("to", 2000),
                            int(query["points"]))
        route.fulfill(json=found)

    def page_of(route):
        body = re.sub(r'<template class="log-data">.*?</template>', "", route.fetch().text(),
                      flags=re.DOTALL)
        body = body.replace("<log-chart ", '<log-chart data-window-url="/a-window/?of=1" ')
        route.fulfill(body=body, content_type="text/html")

    page.route("**/a-window/*", answer)
    page.route("**/styleguide/", page_of)
    page.goto(f"{live_server.url}/styleguide/")
    page.wait_for_selector("log-chart[data-ready]")
    return asked


def said(chart):
    """What the live region says once the pause is over."""
    chart.page.wait_for_timeout(700)
    return chart.locator(".log-said").inner_text().replace("\u202f", " ")


def heard(chart):
    """What a screen reader gets of the cursors."""
    chart.page.wait_for_timeout(700)
    return chart.locator(".log-live [role=status].off").text_content().replace("\u202f", " ")


def in_view(chart):
    """The two ends of the view that the live region tells, in minutes."""
    return [float(number) for number in re.findall(r"([\d.]+) min", said(chart))]


def read(chart, name):
    """The numbers of the readout's row: cursor 1, cursor 2, difference; joiners left out."""
    row = chart.locator(".log-readout tr").filter(has=chart.page.get_by_text(name, exact=True))
    cells = row.locator("td").all_inner_texts()
    return [text.replace("\u202f", " ").replace("\u2060", "") for text in cells]


def at(chart, share):
    """A place on the chart, as a share of its width."""
    box = chart.locator(".log-surface").bounding_box()
    return box["x"] + share * box["width"], box["y"] + box["height"] / 2


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (360, "dark")])
def test_it_is_sound_while_it_is_read(chart, width, scheme):
    page = chart.page
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    chart.locator(".log-surface").focus()
    page.keyboard.press("ArrowRight")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert page.complaints == []


def test_a_pointer_reads_the_nearest_sample(chart):
    chart.page.mouse.move(*at(chart, 150 / 1795))               # of 0 to 1795 s
    assert read(chart, "Time")[0] == "2.50 min"
    assert read(chart, "Output current")[0] == "1.00 A"


def test_two_places_give_difference_and_frequency(chart):
    for share in (150 / 1795, 450 / 1795):
        chart.page.mouse.click(*at(chart, share))
    assert read(chart, "Output current") == ["1.00 A", "2.00 A", "+1.00 A"]
    assert read(chart, "Time")[2] == "+300.0 s, 1/Δt 3.333 mHz"     # 1 / 300 s


def test_a_blank_cell_is_no_reading(chart):
    chart.page.mouse.move(*at(chart, 435 / 1795))
    assert read(chart, "Output power")[0] == "no reading"


def test_a_cursor_stands_on_a_sample_and_never_in_a_pause_of_the_log(chart):
    chart.page.mouse.move(*at(chart, 980 / 1795))                  # none from 895 s to 1085 s
    assert read(chart, "Time")[0] == "14.92 min"


def test_a_drag_over_a_span_zooms_to_it(chart):
    page = chart.page
    page.mouse.move(*at(chart, 0.5))
    page.mouse.down()
    page.mouse.move(*at(chart, 0.75), steps=4)
    page.mouse.up()
    assert in_view(chart) == pytest.approx([897.5 / 60, 1346.25 / 60], abs=0.05)  # to a pixel
    chart.get_by_role("button", name="Whole").click()
    assert in_view(chart) == [0, 29.92]


def test_the_wheel_zooms_with_ctrl_and_else_scrolls_the_page(chart):
    page = chart.page
    page.mouse.move(*at(chart, 0.5))
    before = page.evaluate("scrollY")
    page.mouse.wheel(0, 100)
    page.wait_for_timeout(300)
    assert page.evaluate("scrollY") > before
    assert chart.get_by_role("button", name="Whole").is_disabled()
    page.mouse.move(*at(chart, 0.5))
    page.keyboard.down("Control")
    page.mouse.wheel(0, -200)
    page.keyboard.up("Control")
    middle = 897.5 / 60
    assert in_view(chart) == pytest.approx([middle / 2, 1.5 * middle], abs=0.05)


def test_keys_alone_read_zoom_and_compare(chart):
    page = chart.page
    chart.locator(".log-surface").focus()
    for key in ("Home", "Enter", "ArrowRight", "Shift+ArrowRight"):
        page.keyboard.press(key)
    assert "+55.00 s" in heard(chart)                              # eleven samples of 5 s
    page.keyboard.press("+")
    assert not chart.get_by_role("button", name="Whole").is_disabled()
    page.keyboard.press("0")
    page.keyboard.press("Escape")
    assert said(chart) == "Cursors cleared."


def test_a_result_is_brought_into_view_and_its_row_says_which(chart):
    chart.get_by_role("button", name="Show A in the chart").click()
    letters = chart.locator(".log-surface .log-letter").all_text_contents()
    assert "A" in letters and "E" not in letters


def test_handles_fill_the_fields_and_fields_move_the_handles(chart):
    page = chart.page
    page.evaluate("""() => { window.heard = [];
      document.addEventListener('span-changed', ({detail}) => heard.push(detail.end)); }""")
    end = chart.get_by_role("slider", name="End of the span")
    end.focus()
    for _ in range(3):
        page.keyboard.press("Shift+ArrowRight")
    typed = float(chart.get_by_label("End of the span, s").input_value())
    assert typed > 300 and page.evaluate("heard.length") == 3
    chart.get_by_label("Start of the span, s").fill("60")
    assert chart.get_by_role("slider", name="Start of the span").get_attribute(
        "aria-valuenow") == "60"


def test_an_end_is_never_moved_beyond_the_other(chart):
    page = chart.page
    chart.get_by_role("slider", name="Start of the span").focus()
    page.keyboard.press("End")
    assert chart.get_by_label("Start of the span, s").input_value() == "300"


def test_a_handle_is_dragged(chart):
    page = chart.page
    box = chart.locator(".log-handle").nth(1).bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.mouse.move(*at(chart, 0.5), steps=4)
    page.mouse.up()
    assert float(chart.get_by_label("End of the span, s").input_value()) == pytest.approx(
        1795 / 2, abs=2)                                           # to a pixel


def test_handles_are_large_enough_to_hit(chart):
    box = chart.locator(".log-handle .reach").first.bounding_box()
    assert min(box["width"], box["height"]) >= 24                  # WCAG 2.2, 2.5.8


def test_paper_gets_the_drawing_of_the_server(chart):
    chart.page.emulate_media(media="print")
    assert chart.locator(".log-drawing").is_visible()
    assert not chart.locator(".log-live").is_visible()


def test_without_a_script_drawing_table_and_fields_are_there(chromium, live_server):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{live_server.url}/styleguide/")
    assert page.locator("log-chart .log-drawing").is_visible()
    page.get_by_text("The same as a table").click()
    assert page.locator(".log-steps").first.is_visible()
    assert page.get_by_label("Start of the span, s").is_editable()
    context.close()


def test_a_closer_view_asks_for_finer_rows_down_to_the_sample(page, windows):
    assert "from" not in windows[0]
    page.locator(".log-surface").focus()
    for _ in range(14):
        page.keyboard.press("+")
    for _ in range(100):                  # as long as a busy machine takes to follow
        page.wait_for_timeout(100)
        last = windows[-1]
        if last.get("to", 2000) - last.get("from", 0) < 2000 / 2**12:
            break
    assert last["to"] - last["from"] < 2000 / 2**12 and last["of"] == 1
    page.keyboard.press("Home")
    page.keyboard.press("Enter")
    page.keyboard.press("ArrowRight")
    assert "+10.00 ms" in heard(page.locator("log-chart"))   # 100 a second


def test_a_fast_hand_asks_only_once_it_rests(page, windows):
    page.locator(".log-surface").focus()
    before = len(windows)
    for _ in range(6):
        page.keyboard.press("+")
    page.wait_for_timeout(600)
    assert 1 <= len(windows) - before <= 3


def test_an_answer_that_does_not_come_is_said_and_the_chart_stays(page, windows):
    page.unroute("**/a-window/*")
    page.route("**/a-window/*", lambda route: route.fulfill(status=503, body=json.dumps({})))
    page.locator(".log-surface").focus()
    for _ in range(4):
        page.keyboard.press("+")
    page.wait_for_timeout(600)
    assert "The site answered with status 503." in page.locator(".log-said").inner_text()
    assert page.locator(".log-panels canvas").is_visible()
