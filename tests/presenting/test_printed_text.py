from teardowns.presenting.printed_text import marked

PLATE = "OUTPUT: 5V 3A (15W Max)"


def test_the_words_behind_a_claim_are_marked_and_lead_to_it():
    assert marked(PLATE, [(8, 13, "claim-a")]) == (
        'OUTPUT: <mark><a href="#claim-a">5V 3A</a></mark> (15W Max)'
    )


def test_text_without_claims_stays_as_it_is():
    assert marked(PLATE, []) == PLATE
    assert marked("", [(0, 4, "claim-a")]) == ""


def test_printed_text_cannot_inject_markup():
    assert "<b>" not in marked("<b>45W</b>", [(0, 10, "claim-a")])


def test_of_two_nested_spans_the_inner_keeps_its_own_mark():
    written = marked("5V 3A 15W", [(0, 9, "outer"), (6, 9, "inner")])
    assert written == (
        '<mark><a href="#outer">5V 3A </a></mark><mark><a href="#inner">15W</a></mark>'
    )


def test_a_span_beyond_the_text_is_cut():
    assert marked("45W", [(0, 99, "claim-a")]) == '<mark><a href="#claim-a">45W</a></mark>'
