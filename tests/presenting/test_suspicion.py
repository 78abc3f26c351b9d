from teardowns.presenting.suspicion import suspect_rows, suspicion


def suspect(text, share, factor=2.4, sigmas=13.3):
    return {"rule": "power/bulk_capacitor", "code": "bulk_capacitance_marked", "label": "Marking",
            "how": "read off", "value": 4.7e-6, "agrees": 1.1e-5, "factor": factor,
            "sigmas": sigmas, "share": share, "text": text}


MARKING = "the marking (read as 4.7 µF; about 11 µF would agree)"


def test_the_likeliest_mistake_is_named_first_and_the_rest_after_it():
    claim = {"suspects": [suspect(MARKING, 0.7), suspect("the load", 0.2), suspect("the bus", 0.1)]}
    assert suspicion(claim) == (
        f"Most likely wrong: {MARKING}. Less likely: the load or the bus.")


def test_two_that_are_as_likely_are_told_as_equals():
    claim = {"suspects": [suspect("the one", 0.5), suspect("the other", 0.5)]}
    assert suspicion(claim) == "As likely the one wrong as the other: the one or the other."


def test_where_nothing_contradicts_nothing_is_said():
    assert suspicion({"suspects": []}) == suspicion({}) == ""
    assert suspect_rows({}) == []


def test_a_row_tells_how_far_the_reading_would_have_to_move():
    row, = suspect_rows({"suspects": [suspect(MARKING, 0.714)]})
    assert row.way == "2.4 times the value, 13 standard uncertainties away"
    assert row.share.replace("\u202f", " ") == "71 %"


def test_a_finding_has_an_opposite_and_an_exact_number_no_uncertainty():
    flag, exact = suspect_rows({"suspects": [suspect("the bridge", 0.5, None, None),
                                             suspect("the rating", 0.5, 1.05, None)]})
    assert flag.way == "the opposite finding"
    assert exact.way.endswith("entered as exact")
