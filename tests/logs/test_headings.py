"""Words of the trade; letter symbols of IEC 60027, quantity/unit as in ISO 80000-1."""
import pytest

from teardowns.logs.headings import is_unit_cell, read_heading, read_unit

READ = [line.split("|") for line in """
V|voltage||V
Voltage(V)|voltage||V
U/V|voltage||V
Spannung [V]|voltage||V
Vbus|voltage|output|
I (mA)|current||mA
Current A|current||A
P(W)|power||W
Power|power||
Time (s)|time||s
Timestamp|time||
t|time||
Zeit|time||
Second|time||s
t/ms|time||ms
Time_ms|time||ms
Zeit in s|time||s
Laufzeit min|time||min
Excel time|time||d
T1 °C|temperature||°C
T2 (℃)|temperature||°C
Temp|temperature||
NTC|temperature||
Temp (deg C)|temperature||°C
Temperature [K]|temperature||K
Vin|voltage|input|
AC Voltage|voltage|input|
Voltage (VAC)|voltage|input|V
Input Power|power|input|
Ripple|voltage|ripple|
Output ripple (mV)|voltage|ripple|mV
Restwelligkeit [mV]|voltage|ripple|mV
Netzspannung in V|voltage|input|V
Ausgangsspannung [V]|voltage|output|V
Eingangsleistung (W)|power|input|W
Umgebungstemperatur [°C]|temperature|ambient|°C
Sollstrom [A]|current|set|A
Set Current (A)|current|set|A
Tension de sortie (V)|voltage|output|V
Puissance d'entrée (W)|power|input|W
Intensité (A)|current||A
Température ambiante (°C)|temperature|ambient|°C
Corriente de salida [A]|current|output|A
Tensión de red (V)|voltage|input|V
Potenza in ingresso [W]|power|input|W
Corrente (mA)|current||mA
Uitgangsspanning (V)|voltage|output|V
Netspanning (V)|voltage|input|V
Vermogen (W)|power||W
Drain voltage (V)|voltage|switch|V
Vds (V)|voltage|switch|V
Winding (V)|voltage|winding|V
vout_mv|voltage|output|mV
P_out / W|power|output|W
No.|index||
#|index||
Sample|index||
D+ (V)|||
Energy (Wh)|||
Capacity(mAh)|||
Power Factor|||
Scheinleistung (VA)|||
Vmax (V)|||
T|||
Remark|||
""".strip().splitlines()]


@pytest.mark.parametrize(("text", "quantity", "side", "unit"), READ, ids=[row[0] for row in READ])
def test_a_heading_tells_quantity_side_and_unit(text, quantity, side, unit):
    read = read_heading(text)
    assert (read.quantity, read.side, read.unit) == (quantity, side, unit)


def test_a_unit_alone_does_not_name_a_channel():
    assert read_heading("Voltage [V]").named
    assert not read_heading("Ch1 [V]").named and read_heading("Ch1 [V]").quantity == "voltage"


def test_the_line_of_units_wins_over_the_heading():
    assert read_heading("U", "mV").unit == "mV"
    assert read_heading("Energy", "Wh").quantity == ""


@pytest.mark.parametrize("text", ["VOLTAGE(MV)", "U [MV]"])
def test_capitals_leave_milli_and_mega_open(text):
    assert read_heading(text).units == ("mV", "MV") and read_heading(text).unit == ""


def test_each_code_point_of_micro_and_degree_is_the_same_unit():
    assert {read_unit(unit)[0] for unit in ("µs", "μs", "us")} == {"µs"}
    assert {read_unit(unit)[0] for unit in ("°C", "ºC", "˚C", "℃", "[°C]", "degC")} == {"°C"}


def test_what_only_a_mains_meter_shows_is_noticed():
    assert read_heading("PF").mains_meter and read_heading("Frequency (Hz)").mains_meter
    assert not read_heading("Power (W)").mains_meter


@pytest.mark.parametrize(("cell", "unit"), [("V", True), ("[mA]", True), ("-", True), ("", True),
                                            ("Wh", True), ("Voltage", False), ("5.1", False)])
def test_cells_of_a_line_of_units_are_known(cell, unit):
    assert is_unit_cell(cell) is unit
