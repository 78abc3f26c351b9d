"""Proposals for logs in many dialects; RFC 4180 for quotes, ISO 8601-1 for dates."""
import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from teardowns.logs.cells import number
from teardowns.logs.detect import detect_layout, signature
from teardowns.logs.layout import Layout
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.separators import cells_of
from tests.logs.dialects import DIALECTS, REFUSED


def by_name(name):
    return next(text for known, text, *_ in DIALECTS if known == name)


def told(layout):
    """A layout as dialects.py writes it."""
    parts = [f"{layout.separator} {layout.decimal} {layout.first_line} {layout.time_style}"]
    parts += [f"thousands={layout.thousands}"] * bool(layout.thousands)
    parts += [f"order={layout.date_order}"] * bool(layout.date_order)
    parts += [f"interval={layout.interval}"] * (layout.interval is not None)
    return " ".join(parts)


def roles(layout):
    return tuple(c.role + (f":{c.unit}" if c.unit else "") for c in layout.columns)


def asked(proposal):
    return {question.field for question in proposal.questions}


@pytest.mark.parametrize(("text", "layout", "columns", "questions"),
                         [row[1:] for row in DIALECTS], ids=[row[0] for row in DIALECTS])
def test_a_dialect_is_recognised_or_asked_about(text, layout, columns, questions):
    proposal = detect_layout(text.encode())
    columns = columns + ("not_used",) * (len(proposal.layout.columns) - len(columns))
    assert told(proposal.layout) == layout
    assert roles(proposal.layout) == columns
    assert asked(proposal) == set(questions)


@pytest.mark.parametrize(("head", "code", "line"), [row[1:] for row in REFUSED],
                         ids=[row[0] for row in REFUSED])
def test_what_is_no_log_is_refused_with_its_place(head, code, line):
    with pytest.raises(RefusedLog) as refused:
        detect_layout(head)
    assert (refused.value.code, refused.value.line) == (code, line)


@pytest.mark.parametrize("codec", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be",
                                   "cp1252"])
def test_the_same_log_reads_alike_in_every_encoding(codec):
    text = "Zeit [µs];Spannung [V];Gerätetemperatur [°C]\n0,5;5,12;25,5\n1,5;5,11;25,6\n"
    proposal = detect_layout(text.encode(codec))
    assert roles(proposal.layout) == ("time:µs", "output_voltage:V", "temperature:°C")
    assert not proposal.questions


def test_a_code_page_that_is_not_western_windows_is_asked_about():
    head = "t (s);T1 (°C);Gehäuse\n0,5;25,5;1\n1,5;25,6;1\n".encode("cp850")
    question = detect_layout(head).questions[0]
    assert question.field == "encoding"
    assert any("(°C)" in choice.reading for choice in question.choices)
    settled = detect_layout(head, answers={"encoding": "cp850"})
    assert settled.layout.encoding == "cp850" and settled.layout.columns[1].unit == "°C"


def test_the_choices_show_how_a_cell_of_the_file_reads():
    text = by_name("every cell with three decimals")
    choices = detect_layout(text.encode()).questions[0].choices
    assert [choice.reading for choice in choices] == ["1.234 → 1.234", "1.234 → 1\u202f234"]


@pytest.mark.parametrize("row", [row for row in DIALECTS if row[4]], ids=lambda row: row[0])
def test_answers_settle_what_was_asked(row):
    head, answers = row[1].encode(), {}
    for _ in range(4):                    # an answer may raise another question: role, then unit
        questions = detect_layout(head, answers=answers).questions
        answers |= {q.field: q.choices[0].value for q in questions}
    assert not detect_layout(head, answers=answers).questions


@pytest.mark.parametrize(("decimal", "thousands"), [(".", ""), (",", ".")])
def test_the_answer_about_decimals_is_followed(decimal, thousands):
    text = by_name("every cell with three decimals")
    layout = detect_layout(text.encode(), answers={"decimal": decimal}).layout
    assert (layout.decimal, layout.thousands) == (decimal, thousands)


def test_an_answer_overrides_what_a_heading_says():
    head = by_name("comma and point").encode()
    layout = detect_layout(head, answers={"role:1": "switch_voltage", "unit:1": "mV"}).layout
    assert roles(layout) == ("time:s", "switch_voltage:mV", "output_current:A")


def test_a_role_that_is_answered_is_taken_from_the_other_column():
    head = by_name("two columns for one role").encode()
    layout = detect_layout(head, answers={"role:2": "output_voltage"}).layout
    assert roles(layout) == ("time:s", "not_used", "output_voltage:V")


def test_commas_that_mark_decimals_as_well_are_refused_when_the_answer_says_so():
    head = b"0,100,5,12\n0,200,5,11\n"
    assert "separator" in asked(detect_layout(head))
    with pytest.raises(RefusedLog, match="semicolons"):
        detect_layout(head, answers={"separator": "both"})


def test_a_number_of_seconds_answers_the_interval():
    head = by_name("a count and no interval").encode()
    assert detect_layout(head).layout.interval is None
    assert detect_layout(head, answers={"interval": "0.25"}).layout.interval == 0.25


# An interval that a file writes without its unit is asked for again: the next may be another.
@pytest.mark.parametrize("row", [row for row in DIALECTS if row[4] and row[0] !=
                                 "interval without a unit"], ids=lambda row: row[0])
def test_a_remembered_layout_is_proposed_as_it_is(row):
    head, answers = row[1].encode(), {}
    for _ in range(4):
        answers |= {q.field: q.choices[-1].value if q.field == "decimal" else q.choices[0].value
                    for q in detect_layout(head, answers=answers).questions}
    before = detect_layout(head, answers=answers)
    separator = {key: value for key, value in answers.items() if key == "separator"}
    again = detect_layout(head, answers=separator,
                          remembered=Layout.from_json(before.layout.to_json()))
    assert again.layout == before.layout and not again.questions
    assert signature(again) == signature(before)


def test_a_remembered_layout_never_outweighs_what_the_file_says():
    text = by_name("every cell with three decimals")
    remembered = detect_layout(text.encode(), answers={"decimal": ","}).layout
    layout = detect_layout(text.replace("5.124", "5.12").encode(), remembered=remembered).layout
    assert (layout.decimal, layout.thousands) == (".", "")


def test_a_remembered_layout_of_other_headings_is_left_aside():
    remembered = detect_layout(b"t (s);Ch1 [V]\n0,5;1\n1,5;2\n",
                               answers={"role:1": "switch_voltage"}).layout
    assert asked(detect_layout(b"t (s);Ch2 [V]\n0,5;1\n1,5;2\n", remembered=remembered)) == {
        "role:1"}


def test_the_signature_follows_headings_and_units_but_not_the_numbers():
    one, same, other = (signature(detect_layout(text)) for text in (
        b"t;U\ns;V\n0,5;5,1\n1,5;5,2\n", b"x: 1\nt;U\ns;V\n3,5;9\n",
        b"t;U\ns;mV\n0,5;5,1\n1,5;5\n"))
    assert one == same != other


def test_the_preview_shows_the_first_rows_with_their_lines():
    rows = "".join(f"{n},5;5,1\n" for n in range(40))
    proposal = detect_layout(f"Gerät: 3\n\nZeit (s);U (V)\n{rows}".encode())
    assert proposal.heading == ("Zeit (s)", "U (V)")
    assert proposal.rows[0] == (4, ("0,5", "5,1")) and len(proposal.rows) == 12


def test_over_range_and_errors_do_not_hide_the_table():
    proposal = detect_layout(b"t (s);T1 (K)\n0,5;OL\n1,5;#DIV/0!\n2,5;NaN\n3,5;300,5\n")
    assert proposal.layout.first_line == 2 and not proposal.questions


def test_a_head_that_ends_inside_a_line_is_read_as_far_as_it_goes():
    row = "1.234567,5.125\n"
    head = ("Zeit [µs],V\n" + row * 20000).encode()[:256 << 10]
    assert detect_layout(head).layout.first_line == 2


def written(value, places, decimal, thousands):
    """A number in a dialect, by a rule that is independent of the reader's; None is blank."""
    if value is None:
        return ""
    whole, _, fraction = f"{abs(value):.{places}f}".partition(".")
    groups = [whole[max(0, end - 3):end] for end in range(len(whole), 0, -3)][::-1]
    return "-" * (value < 0) + thousands.join(groups) + (decimal + fraction if fraction else "")


@st.composite
def logs(draw):
    """Lines of a log in some dialect, and the numbers that they stand for."""
    separator = draw(st.sampled_from([",", ";", "\t", "|", " "]))
    decimal = draw(st.sampled_from([".", ","]))
    thousands = draw(st.sampled_from(["", "'", {".": ",", ",": "."}[decimal], "\u202f"]))
    assume(separator != " " or thousands != "\u202f")
    places = draw(st.lists(st.integers(0, 5), min_size=1, max_size=4))
    blank = [] if separator == " " or len(places) == 1 else [st.none()]
    cell = st.tuples(st.one_of(st.integers(-10**7, 10**7), *blank), st.integers(-1, 0))
    rows = draw(st.lists(st.tuples(*[cell] * len(places)), min_size=2, max_size=12))
    end = draw(st.sampled_from(["", separator])) if separator != " " else ""
    lines, values = [], []
    for row in rows:
        digits = [max(0, p + less) for p, (_, less) in zip(places, row, strict=True)]
        row = [None if n is None else round(n / 10**p, d)
               for (n, _), p, d in zip(row, places, digits, strict=True)]
        cells = [written(v, d, decimal, thousands) for v, d in zip(row, digits, strict=True)]
        lines.append(separator.join(f'"{c}"' if separator in c else c for c in cells) + end)
        values.append(row)
    if draw(st.booleans()):
        lines.insert(0, separator.join(["Zeit[s]", "U[V]", "I[A]", "P[W]"][:len(places)]) + end)
    return lines, values


@given(logs())
@settings(max_examples=100, deadline=None)
def test_numbers_of_any_dialect_are_read_as_written_or_asked_about(log):
    lines, values = log
    assume(all(any(value is not None for value in row) for row in values))
    proposal = detect_layout("\n".join(lines).encode())
    if not {"separator", "decimal"} & asked(proposal):
        for line, row in zip(lines[-len(values):], values, strict=True):
            check_row(line, row, proposal.layout)


def check_row(line, row, layout):
    """Every cell reads as the number that was meant, blank as missing."""
    cells = cells_of(line, layout.separator)
    assert len(cells) == len(row) or cells[len(row):] == ("",)
    for cell, value in zip(cells, row, strict=False):
        read = number(cell, layout)
        assert read == value or (value is None and math.isnan(read))
