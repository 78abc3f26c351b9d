"""Draw ratings, print them in one of many everyday styles, read them back."""

from hypothesis import given
from hypothesis import strategies as st

from teardowns.reading.plates import read_plate

VOLTS = st.sampled_from([3.3, 5, 5.2, 9, 12, 15, 19.5, 20, 24, 28, 48])
AMPERES = st.integers(10, 600).map(lambda hundredths: hundredths / 100)
DC_SIGNS = st.sampled_from(["⎓", "=", " ⎓ ", "---", " - - - ", "—", " = "])
BLANKS = st.sampled_from(["", " "])
FULL_WIDTH = {ord("0") + i: chr(0xFF10 + i) for i in range(10)} | {ord("V"): "Ｖ", ord("A"): "Ａ"}


def number(value, comma):
    text = f"{value:g}"
    # A comma before three decimals would be a thousands separator to a careful reader.
    return text.replace(".", ",") if comma else text


@st.composite
def outputs(draw):
    """(text, [(volts, amperes, watts or None), …]) of one to four levels in one style."""
    comma, blank, sign = draw(st.booleans()), draw(BLANKS), draw(DC_SIGNS)
    levels = draw(st.lists(st.tuples(VOLTS, AMPERES), min_size=1, max_size=4))
    with_watts = draw(st.booleans())
    printed, meant = [], []
    for volts, amperes in levels:
        text = f"{number(volts, comma)}{blank}V{sign}{number(amperes, comma)}{blank}A"
        watts = round(volts * amperes, 1) if with_watts else None
        printed.append(f"{text} {number(watts, comma)}{blank}W" if with_watts else text)
        meant.append((volts, amperes, watts))
    separator = draw(st.sampled_from([" / ", "; ", "\n", ", ", " or ", " "]))
    label = draw(st.sampled_from(["Output: ", "OUTPUT ", "O/P: ", "输出：", "Salida: "]))
    return label + separator.join(printed), meant


@given(outputs())
def test_printed_outputs_are_read_back(drawn):
    text, meant = drawn
    claims = read_plate(text).claims
    assert [(c.voltage, c.current, c.power) for c in claims] == meant
    assert {(c.kind, c.nature) for c in claims} == {("output", "dc")}


@given(outputs())
def test_full_width_characters_are_read_alike(drawn):
    text, meant = drawn
    claims = read_plate(text.translate(FULL_WIDTH)).claims
    assert [(c.voltage, c.current, c.power) for c in claims] == meant


@given(outputs())
def test_nothing_of_a_clean_plate_is_left_unread_or_asked(drawn):
    reading = read_plate(drawn[0])
    assert reading.unread == ()
    assert reading.questions == ()


LOW, HIGH = st.sampled_from([90, 100, 110, 200, 220]), st.sampled_from([230, 240, 250, 264])
HERTZ = st.sampled_from([(50, 60), (50, 50), (60, 60), (47, 63)])


@st.composite
def inputs(draw):
    low, high, amperes = draw(LOW), draw(HIGH), draw(AMPERES)
    first, last = draw(HERTZ)
    dash = draw(st.sampled_from(["-", "–", " - ", "~", "−"]))
    volts = draw(st.sampled_from([f"{low}{dash}{high}V~", f"AC {low}V{dash}{high}V",
                                  f"{low}{dash}{high} VAC", f"{low}{dash}{high}V a.c."]))
    joined = draw(st.sampled_from(["/", "-", "–"]))
    hertz = f"{first}Hz" if first == last else f"{first}{joined}{last} Hz"
    current = f"{amperes:g}A" if draw(st.booleans()) else f"{amperes * 1000:.0f} mA"
    label = draw(st.sampled_from(["Input: ", "INPUT ", "I/P:", "", "输入:", "Entrada: "]))
    blank = draw(st.sampled_from([" ", ", ", "\n"]))
    return f"{label}{volts}{blank}{hertz}{blank}{current} Max", (low, high, first, last, amperes)


@given(inputs())
def test_a_printed_input_is_read_back(drawn):
    text, meant = drawn
    (claim,) = read_plate(text).claims
    read = (claim.voltage_low, claim.voltage_high, claim.frequency_low, claim.frequency_high)
    assert (*read, claim.current) == meant
    assert (claim.kind, claim.nature) == ("input", "ac")


PORTS = st.lists(st.sampled_from(["USB-C1", "USB-C2", "USB-C", "USB-A", "USB-A1"]), min_size=1,
                 max_size=3, unique=True)  # fmt: skip


@given(PORTS, st.data())
def test_ratings_stay_with_their_port(ports, data):
    meant, printed = [], []
    for port in ports:
        volts, amperes = data.draw(VOLTS), data.draw(AMPERES)
        name = data.draw(st.sampled_from([port, port.replace("USB-", "Type-"), port.lower()]))
        printed.append(f"{name}: {volts:g}V⎓{amperes:g}A")
        meant.append((port, volts, amperes))
    text = data.draw(st.sampled_from(["; ", "\n", " "])).join(printed)
    assert [(c.port, c.voltage, c.current) for c in read_plate(text).claims] == meant
