import json

import numpy as np
import pytest
from django.utils.translation import override

from core.templatetags.said import said_picture
from teardowns.figures.log_chart import log_chart
from teardowns.logs.channels import Channel, Channels
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.layout import LogColumn
from teardowns.presenting.log_chart import chart_table, log_figure, span_rows, window_json

HELD = Extracted("sustained_power", "Sustained output power", 10.0, 0.1, "W", 1.0, 3.0)
SILENT = Unread("ripple_voltage", "Ripple", "No column shows it.")


def channel(role, values, heading="", step=0.0):
    return Channel(LogColumn(1, heading, role), np.array(values, float), step)


def log(*channels):
    return Channels(np.arange(len(channels[0].values), dtype=float), channels)


def sweep():
    return log(channel("output_voltage", [5.1, 5.0, np.nan, 4.9, 4.8]),
               channel("output_current", [0, 1, 2, 3, 4]),
               channel("set_current", [0, 1, 2, 3, 4]))


def test_currents_share_a_panel_and_voltages_of_unlike_size_do_not():
    chart = log_figure("k", "Log", log(channel("output_voltage", [5, 5]),
                                       channel("input_voltage", [230, 230]),
                                       channel("output_current", [1, 1]),
                                       channel("set_current", [1, 1])), [])
    assert [(panel.title, panel.unit, len(panel.traces)) for panel in chart.panels] == [
        ("Output voltage", "V", 1), ("Mains voltage, rms", "V", 1), ("Output current", "A", 2)]


def test_temperatures_are_told_apart_by_the_headings_of_the_file():
    chart = log_figure("k", "Log", log(channel("temperature", [30, 31], "Core"),
                                       channel("temperature", [25, 25], "Air")), [])
    labels = [trace.label for trace in chart.panels[0].traces]
    assert labels == ["Temperature (Core)", "Temperature (Air)"]


def test_a_long_heading_is_cut():
    chart = log_figure("k", "Log", log(channel("temperature", [30], "x" * 80)), [])
    assert chart.panels[0].traces[0].label == f"Temperature ({'x' * 31}…)"


def test_a_heading_that_is_a_word_of_ours_stays_as_it_stands_in_the_file():
    with override("de"):
        logged = log(channel("temperature", [30, 31], "Core"), channel("temperature", [25, 25]))
        figure = log_figure("k", "Log", logged, [])
        drawing, heads = said_picture(log_chart(figure)), chart_table(logged).heads
    assert drawing.count("Temperatur (Core)") == 2 and "Kern" not in drawing + " ".join(heads)
    assert heads[1:] == ("Temperatur (Core): niedrigster, mittlerer, höchster Wert",
                         "Temperatur: niedrigster, mittlerer, höchster Wert")


def test_the_drawing_says_in_words_what_it_shows():
    says = log_figure("k", "Log", sweep(), []).says
    assert says.startswith("5 rows, 0\u202fs to 4.000\u202fs.")
    assert "Output voltage: 4.80\u202fV to 5.10\u202fV." in says


def test_only_results_with_a_place_get_a_letter():
    rows = span_rows([SILENT, HELD])
    assert [(row.letter, row.label) for row in rows] == [("A", "Sustained output power")]
    assert (float(rows[0].start), float(rows[0].end)) == (1, 3)
    assert len(log_figure("k", "", sweep(), [SILENT, HELD]).markings) == 1


def test_the_table_says_where_nothing_was_recorded():
    table = chart_table(log(channel("output_voltage", [np.nan, 5, 5, 5, 5])))
    assert table.rows[0] == ("0\u202fs", "nothing recorded")       # 0 to 0.5 s: the blank alone
    assert table.heads[1] == "Output voltage: lowest, mean, highest"


def test_a_window_is_json_with_null_for_a_blank():
    found = json.loads(json.dumps(window_json(sweep(), 0, 4, 100), allow_nan=False))
    assert found["time"] == [0, 1, 2, 3, 4] and found["all"]
    assert found["channels"][0]["values"] == [5.1, 5.0, None, 4.9, 4.8]
    assert {k: found[k] for k in ("from", "to", "first", "last", "rows")} == {
        "from": 0, "to": 4, "first": 0, "last": 4, "rows": 5}


def test_a_window_between_two_samples_has_both_of_them():
    assert window_json(sweep(), 1.2, 1.6, 100)["time"] == [1, 2]


@pytest.mark.parametrize("asked", [-5, 0, 500, 10**9])
def test_no_request_gets_more_points_than_are_sent(asked):
    long = log(channel("output_voltage", np.sin(np.arange(100_000))),
               channel("output_current", np.cos(np.arange(100_000))))
    found = window_json(long, 0, 1e5, asked)
    assert len(found["time"]) <= min(max(asked, 16), 16_000)
    assert not found["all"]


def test_what_stands_for_a_pause_is_told_from_a_blank_row():
    time = np.concatenate([np.arange(9.0), 100 + np.arange(9.0)])
    found = window_json(Channels(time, (channel("output_voltage", np.ones(18)),)), 0, 200, 100)
    assert found["pauses"] == [9] and found["channels"][0]["values"][9] is None


def test_a_log_without_rows_can_be_shown():
    empty = log(channel("output_voltage", []))
    assert window_json(empty, 0, 1, 100)["time"] == []
    assert log_chart(log_figure("k", "Log", empty, []))
    assert chart_table(empty).rows[0][1] == "nothing recorded"
