"""The explanation is the rulebook read backwards: it agrees with what was published."""
import json
from xml.etree import ElementTree

import pytest

from teardowns.engine.explain import explain, explain_claim
from teardowns.engine.report import report
from tests.engine.make import NAN, WIDE, judge

BENCH = (*WIDE, ("bulk_capacitance_marked", 15e-6, 1.73e-6), ("mass_total", 0.0462, 1e-4),
         ("failed_power", 13.1, 0.1, 100.0, 20.0), ("output_capacitor_rating", 16.0, 0.0))
CLAIMS = ((5.0, 3.0, NAN, "usb_c"), (20.0, 2.25, 45.0, "usb_c"))
ENDS = ("low", "high")


@pytest.fixture(scope="module")
def done():
    return judge(BENCH, CLAIMS)


def inputs_of(trace):
    return {one["code"]: one for one in trace["inputs"]}


def test_every_line_explains_the_value_that_the_report_prints(done):
    for line in report(done, 0)["lines"]:
        for end in ENDS:
            trace = explain(done, 0, line["id"], end)
            assert (trace is None) is (line["ends"][end] is None)
            if trace and line["kind"] != "switch":
                assert trace["result"]["value"] == line["ends"][end]["value"]


def test_the_shares_of_the_budget_add_up_to_one(done):
    trace = explain(done, 0, "power/bulk_capacitor", "low")
    total = sum(one["share"] for one in trace["inputs"]) + trace["model_share"]
    assert total == pytest.approx(1.0)


def test_an_input_says_where_it_came_from(done):
    found = inputs_of(explain(done, 0, "power/bulk_capacitor", "low"))
    assert found["bulk_capacitance"]["how"] == "derived"
    assert found["bulk_capacitance"]["evidence"] == [
        str(i) for i in done.evidence.behind(0, "bulk_capacitance_marked")]
    assert found["minimum_bus_voltage"]["how"] == "rulebook default"
    assert found["minimum_bus_voltage"]["default_source"]
    assert found["mains_voltage"]["how"] == "evidence"


def test_an_assumed_mains_voltage_says_so():
    done = judge([("bulk_capacitance", 15e-6, 3e-7)], CLAIMS)
    found = inputs_of(explain(done, 0, "power/bulk_capacitor", "low"))["mains_voltage"]
    assert found["how"] == "rulebook default" and "220 to 240 V" in found["default_source"]


def test_the_result_has_a_90_percent_interval(done):
    # ±1.645 standard uncertainties in ln.
    result = explain(done, 0, "power/bulk_capacitor", "low")["result"]
    assert result["value"] ** 2 == pytest.approx(result["low"] * result["high"])
    assert result["low"] < result["value"] - result["u"]


def test_an_absent_line_has_no_explanation(done):
    assert explain(done, 0, "power/sustained_power", "low") is None


def test_an_unknown_line_is_a_key_error(done):
    with pytest.raises(KeyError):
        explain(done, 0, "power/no_such_rule", "low")


def test_a_claim_is_explained_with_its_prior_and_its_weights(done):
    found = explain_claim(done, 1)
    claim = report(done, 0)["claims"][1]
    assert found["plausibility"] == claim["plausibility"]
    assert found["total_decibans"] == claim["total_decibans"]
    assert [w["line"] for w in found["weights"]] == [w["line"] for w in claim["weights"]]
    assert found["power"]["met"] == pytest.approx([42.75, 72.0])        # 0.95 and 1.6 times 45 W
    assert found["voltage"]["unmet"] == pytest.approx([4.5, 19.0])


def test_a_claim_of_5_volts_has_no_voltage_part(done):
    assert explain_claim(done, 0)["voltage"] is None


def test_explanations_are_json_with_well_formed_formulas(done):
    for trace in (explain(done, 0, "power/bulk_capacitor", "low"), explain_claim(done, 1)):
        json.dumps(trace, allow_nan=False)
        assert ElementTree.fromstring(trace["formula"]).tag == "math"
