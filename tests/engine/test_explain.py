"""The explanation is the rulebook read backwards: it agrees with what was published."""
import json
from xml.etree import ElementTree

import numpy as np
import pytest

from teardowns.engine.explain import explain, explain_claim
from teardowns.engine.report import report
from tests.engine.make import NAN, WIDE, judge
from tests.engine.test_pipeline import SIZES

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


EVERYTHING = (*BENCH, ("sustained_power", 12.0, 0.1, 230.0, 20.0), ("offered_voltage", 9.0, 0.05),
              ("controller_power_wide", 18.0, 0.0), ("controller_power_high", 25.0, 0.0),
              ("refused_voltage", 20.0, 0.1), ("isolated_feedback", 1.0, 0.0),
              ("protocol_controller", 1.0, 0.0), ("overcurrent_point", 2.4, 0.02, 100.0, 20.0),
              *((code, size, 0.02 * size) for code, size in SIZES.items()
                if code not in {"efficiency", "minimum_bus_voltage", "bulk_capacitance",
                                "sustained_power", "failed_power", "rated_voltage_low",
                                "rated_voltage_high", "mass_total", "overcurrent_point"}),
              ("bias_regulator", 0.0, 0.0), ("photographed_sides", 2.0, 0.0),
              ("power_factor_corrector", 0.0, 0.0))


def traces(done):
    """Every explanation that there is."""
    found = (explain(done, 0, rule.id, end) for rule in done.rulebook.lines for end in ENDS)
    return [trace for trace in found if trace is not None]


def test_the_budget_of_every_line_adds_up_to_one_and_to_its_uncertainty():
    done = judge(EVERYTHING, CLAIMS)
    found = [trace for trace in traces(done) if trace["kind"] != "switch"]
    # Where two lines tell the same fact, one of them speaks.
    assert {trace["id"] for trace in found} == {
        rule.id for rule in done.rulebook.lines if rule.kind != "switch" and not rule.unless}
    for trace in found:
        shares = [*(one["share"] for one in trace["inputs"]), trace["model_share"],
                  trace["scale_share"]]
        assert min(shares) >= 0 and sum(shares) == pytest.approx(1.0)
        value, u = trace["result"]["value"], trace["result"]["u"]
        model = trace["model_error"] * value
        parts = [one["contribution"] for one in trace["inputs"]]
        assert np.hypot.reduce([model, *parts]) == pytest.approx(u)


def test_every_input_of_every_line_names_its_evidence_or_the_source_of_its_default():
    for trace in traces(judge(EVERYTHING, CLAIMS)):
        for one in trace["inputs"]:
            if one["how"] == "not looked at":
                assert one["value"] is None and one["evidence"] == []
            else:
                assert one["evidence"] or one["default_source"], (trace["id"], one["code"])
                assert bool(one["evidence"]) is (one["how"] != "rulebook default")
        assert trace["source"] and trace["validity"] and trace["rulebook"]


def test_a_line_can_be_read_as_of_one_claim():
    # Lost at 5 V: nothing for the 20 V claim, which is the headline.
    done = judge([*WIDE, ("failed_power", 13.1, 0.1, 100.0, 5.0)], CLAIMS)
    of = [explain(done, 0, "power/failed_power", "low", claim=claim) for claim in (0, 1, None)]
    assert of[0]["result"]["value"] == 13.1 and of[1] is None and of[2] is None


@pytest.mark.parametrize("claim", [0, 1])
def test_the_weights_of_a_claim_are_those_that_were_judged(claim):
    done = judge(EVERYTHING, CLAIMS)
    judged = dict(zip((rule.id for rule in done.rulebook.lines), done.judged.weights[claim],
                      strict=True))
    found = {w["line"]: w["decibans"] for w in explain_claim(done, claim)["weights"]}
    assert found == {line: value for line, value in judged.items() if not np.isnan(value)}
    assert found.keys() >= {"power/bulk_capacitor", "power/mass_per_watt", "power/failed_power"}


# Shares of voltage alone, power alone, both untrue: a USB port, and an adapter of one voltage.
@pytest.mark.parametrize("connector, ways", [("usb_c", (1 / 3, 1 / 3, 1 / 3)),
                                             ("barrel", (0.05, 0.9, 0.05))])
def test_the_plausibility_can_be_computed_again_from_its_published_parts(connector, ways):
    rows = [*WIDE, ("mass_total", 0.06, 1e-4), ("output_capacitor_rating", 25.0, 0.0)]
    found = explain_claim(judge(rows, [(20.0, 2.25, NAN, connector)]), 0)
    power, voltage = found["plausibility_power"], found["plausibility_voltage"]
    assert 0.05 < power < 0.95 and 0.05 < voltage < 0.95 and power != voltage
    # Bayes over four cases, even odds for "both true" against the other three.
    untrue = (ways[0] * power * (1 - voltage) + ways[1] * (1 - power) * voltage
              + ways[2] * (1 - power) * (1 - voltage))
    true = power * voltage
    assert found["plausibility"] == pytest.approx(true / (true + untrue))
    assert found["total_decibans"] == pytest.approx(10 * np.log10(true / untrue))
    for share in ways:
            assert f"{100 * share:.0f}\u202f%" in found["prior"]


def test_a_claim_of_power_alone_has_the_plausibility_of_its_power():
    found = explain_claim(judge(BENCH, [(NAN, NAN, 12.0)]), 0)
    assert found["plausibility"] == found["plausibility_power"] != 0.5
    assert found["plausibility_voltage"] is None and "Even odds" in found["prior"]


def test_a_line_that_may_rest_on_a_mistake_says_how_likely_and_what_then():
    half, bridge = (
        explain(judge([*WIDE, ("bulk_capacitance", 1e-5, 1e-7), ("rectifier_full_wave", wave, 0.0)],
                      CLAIMS), 0, "power/bulk_capacitor", "low") for wave in (0.0, 1.0))
    assert half["doubt"] == {"share": 0.02, "factor": 2.6} and bridge["doubt"] is None


def test_the_inputs_that_other_lines_share_are_marked(done):
    found = inputs_of(explain(done, 0, "power/bulk_capacitor", "low"))
    assert found["efficiency"]["shared"] and not found["bulk_capacitance"]["shared"]
