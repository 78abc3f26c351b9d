"""Invented plates and listings, each with what a careful person reads from it.

A row: name, text, claims as dicts of the fields that are printed, pieces left unread, and how many
questions are put. Notation after IEC 60417 (5031 ⎓, 5032 ~, 5172 ▣, 5957 ⌂); hyphen = range and
slash = selectable values (marking practice of IEC 62368-1, F.3).
"""


def mains(low, high, *, hertz=None, amperes=None, nature="ac", **more):
    frequencies = {} if hertz is None else {"frequency_low": hertz[0], "frequency_high": hertz[-1]}
    current = {} if amperes is None else {"current": amperes}
    given = {"kind": "input", "voltage_low": low, "voltage_high": high, "nature": nature}
    return given | frequencies | current | more


def level(volts=None, amperes=None, watts=None, **more):
    fields = {"kind": "output"}
    if isinstance(volts, tuple):
        fields |= {"voltage_low": volts[0], "voltage_high": volts[1]}
    elif volts is not None:
        fields["voltage"] = volts
    if amperes is not None:
        fields["current"] = amperes
    if watts is not None:
        fields |= {"power": watts, "power_stated": True}
    return fields | more


def dc(*values, **more):
    return level(*values, nature="dc", **more)


def total(watts, **more):
    return level(None, None, watts) | {"kind": "total"} | more


def listing(watts, **more):
    return level(None, None, watts) | {"kind": "listing"} | more


def mark(code):
    return {"kind": "mark", "mark": code}


def feature(code):
    return {"kind": "feature", "mark": f"{code}_protection"}


def model(name):
    return {"kind": "model", "model": name}


def protocol(name, version="", **more):
    return {"kind": "protocol", "protocol": name, "protocol_version": version} | more


# The table is data: one line for a plate, however long its claims.
# ruff: noqa: E501
# fmt: off
PLATES = [
    # inputs
    ("input in one line", "100-240V~ 50/60Hz 0.6A Max", [mains(100, 240, hertz=(50, 60), amperes=0.6)], [], 0),
    ("a.c. in front", "AC 220-240 V", [mains(220, 240)], [], 0),
    ("unit at both ends and a decimal comma", "INPUT: AC100V–240V 50-60Hz 0,35A", [mains(100, 240, hertz=(50, 60), amperes=0.35)], [], 0),
    ("selectable voltages", "115/230V~", [mains(115, 230, voltages=(115, 230))], [], 0),
    ("a tilde as range sign", "AC100V~240V 50/60Hz", [mains(100, 240, hertz=(50, 60))], [], 0),
    ("a single voltage", "Input: 230V~ 50Hz 60mA", [mains(230, 230, hertz=(50,), amperes=0.06)], [], 0),
    ("no sign of a.c. at all", "INPUT 100-240V 50-60Hz 0.2A", [mains(100, 240, hertz=(50, 60), amperes=0.2, nature=None)], [], 0),
    ("frequency first", "50/60Hz 100-240VAC 0.5A", [mains(100, 240, hertz=(50, 60), amperes=0.5)], [], 0),
    ("current first", "Input: 0.5A 100-240V~", [mains(100, 240, amperes=0.5)], [], 0),
    ("two ranges with their currents", "100-120/200-240V~ 1.5/0.8A 50-60Hz", [mains(100, 120, hertz=(50, 60), amperes=1.5), mains(200, 240, hertz=(50, 60), amperes=0.8)], [], 0),
    ("a current that falls along the range", "Input 100-240V~ 1.7-0.8A", [mains(100, 240, amperes=1.7, currents=(0.8, 1.7))], [], 0),
    ("apparent power", "Input: 230V~ 50Hz 12VA", [mains(230, 230, hertz=(50,), apparent_power=12)], [], 0),
    ("input power", "INPUT: 220-240V~ 50/60Hz 9W", [mains(220, 240, hertz=(50, 60), power=9, power_stated=True)], [], 0),
    ("a tilde in front", "Input: ~ 100-240V", [mains(100, 240)], [], 0),
    ("dotted abbreviation", "INPUT 100-240 V a.c. 50/60 Hz", [mains(100, 240, hertz=(50, 60))], [], 0),
    ("the word to as range sign", "Input 100 to 240 V AC", [mains(100, 240)], [], 0),
    ("broken lines", "Input 100-\n240V~ 50/\n60Hz", [mains(100, 240, hertz=(50, 60))], [], 0),
    ("two voltages with a frequency each", "115V/60Hz 230V/50Hz", [mains(115, 115, hertz=(60,), nature=None), mains(230, 230, hertz=(50,), nature=None)], [], 0),
    ("a d.c. input", "INPUT: 12-24V⎓ 3A OUTPUT: 5V⎓2.4A", [mains(12, 24, amperes=3, nature="dc"), dc(5, 2.4)], [], 0),
    ("an outlet's rating above the input's", "16A 250V~\nUSB input 220-240V~ 50Hz 0.2A", [mains(250, 250, amperes=16), mains(220, 240, hertz=(50,), amperes=0.2)], [], 1),
    ("an outlet's rating below the input's", "USB input 220-240V~ 0.2A\n16A 250V~", [mains(220, 240, amperes=0.2), mains(250, 250, amperes=16)], [], 1),
    ("an outlet's rating alone", "Socket-outlet: 16A 250V~\nUSB: 5V⎓2.1A", [mains(250, 250, amperes=16), dc(5, 2.1, port="USB")], [], 1),
    # outputs
    ("two levels", "5V⎓3A / 9V⎓2.22A", [dc(5, 3), dc(9, 2.22)], [], 0),
    ("equals sign as d.c. symbol", "DC5V=2.4A", [dc(5, 2.4)], [], 0),
    ("three hyphens as d.c. symbol", "5V---2A", [dc(5, 2)], [], 0),
    ("spaced hyphens as d.c. symbol", "OUTPUT 5V - - - 2A", [dc(5, 2)], [], 0),
    ("a long dash as d.c. symbol", "OUTPUT: 5V—2A", [dc(5, 2)], [], 0),
    ("a single hyphen says nothing of d.c.", "Output: 5V-2A", [level(5, 2)], [], 0),
    ("watts in brackets", "20V 2.25A (45W Max)", [level(20, 2.25, 45)], [], 0),
    ("trailing zeros", "5.0V 3.0A 15.0W", [level(5, 3, 15)], [], 0),
    ("watts that disagree stay as printed", "OUTPUT: 5V⎓2.1A 5W", [dc(5, 2.1, 5)], [], 0),
    ("paired lists", "5V/9V/12V⎓3A/2A/1.5A", [dc(5, 3), dc(9, 2), dc(12, 1.5)], [], 0),
    ("units only at the end of the lists", "5/9/12V⎓3/2/1.5A", [dc(5, 3), dc(9, 2), dc(12, 1.5)], [], 0),
    ("one current for all", "5V,9V,12V⎓1.5A", [dc(5, 1.5), dc(9, 1.5), dc(12, 1.5)], [], 0),
    ("commas between short numbers are a list", "5,9,12V⎓1.5A", [dc(5, 1.5), dc(9, 1.5), dc(12, 1.5)], [], 0),
    ("amperes first", "Output: 3A 5V, 2A 9V", [level(5, 3), level(9, 2)], [], 0),
    ("milliamperes", "Output: DC 5V 2400mA", [dc(5, 2.4)], [], 0),
    ("nothing between volts and amperes", "Output: 5V3A 9V2A 12V1.5A", [level(5, 3), level(9, 2), level(12, 1.5)], [], 0),
    ("slash between volts and amperes", "Output:DC5V/3A 9V/2A", [dc(5, 3), level(9, 2)], [], 0),
    ("abbreviation behind the volts", "OUTPUT: 12VDC, 1A", [dc(12, 1)], [], 0),
    ("abbreviation with points", "OUT: 5V d.c. 2A", [dc(5, 2)], [], 0),
    ("words for units", "Output 5 volts 2 amps 10 watts", [level(5, 2, 10)], [], 0),
    ("a.c. output", "Output: 12V~ 50Hz 1A", [level(12, 1, nature="ac", frequency_low=50, frequency_high=50)], [], 0),
    ("watts at each level", "5V⎓3A 15W, 9V⎓2A 20W, 12V⎓1.5A 18W", [dc(5, 3, 15), dc(9, 2, 20), dc(12, 1.5, 18)], [], 0),
    ("the most of all levels is asked about", "OUTPUT: 5V⎓3A, 9V⎓2A (30W Max)", [dc(5, 3), dc(9, 2), total(30)], [], 1),
    ("a range of voltage", "PPS 3.3-11V⎓3A", [protocol("PPS"), dc((3.3, 11), 3, protocol="PPS")], [], 0),
    ("a fixed level is not of PPS", "PPS: 3.3-11V⎓3A, 20V⎓3.25A", [protocol("PPS"), dc((3.3, 11), 3, protocol="PPS"), dc(20, 3.25)], [], 0),
    ("protocols of one port", "USB-C: PD 3.0 5V⎓3A 9V⎓2A PPS 3.3-5.9V⎓3A", [protocol("PD", "3.0", port="USB-C"), dc(5, 3, port="USB-C", protocol="PD", protocol_version="3.0"), dc(9, 2, port="USB-C", protocol="PD", protocol_version="3.0"), protocol("PPS", port="USB-C"), dc((3.3, 5.9), 3, port="USB-C", protocol="PPS")], [], 0),
    ("ranges of a stepped protocol", "QC3.0: 3.6-6.5V⎓3A, 6.5-9V⎓2A", [protocol("QC", "3.0"), dc((3.6, 6.5), 3, protocol="QC", protocol_version="3.0"), dc((6.5, 9), 2, protocol="QC", protocol_version="3.0")], [], 0),
    ("several currents for one voltage", "OUTPUT: 5V⎓2.1A/1A", [dc(5, 2.1), dc(5, 1)], [], 1),
    ("lists of different length", "OUTPUT: 5V/9V/12V⎓3A/2A", [dc(5), dc(9), dc(12)], [], 1),
    ("a second current in brackets", "OUTPUT: DC5V=4.8A (2.4A)", [dc(5, 4.8)], ["2.4A"], 1),
    # ports, shared ratings, totals
    ("two ports", "USB-C1: 5V⎓3A, 9V⎓3A, 20V⎓3.25A 65W; USB-A: 5V⎓2.4A", [dc(5, 3, port="USB-C1"), dc(9, 3, port="USB-C1"), dc(20, 3.25, 65, port="USB-C1"), dc(5, 2.4, port="USB-A")], [], 0),
    ("powers used together", "C1+A: 45W+18W", [level(None, None, 45, port="USB-C1", shared=True), level(None, None, 18, port="USB-A", shared=True)], [], 0),
    ("power of two ports together", "C1+C2: 65W Max", [total(65, port="USB-C1+USB-C2", shared=True)], [], 0),
    ("levels used together", "USB-C1+USB-A: 20V⎓2.25A + 5V⎓2.4A", [dc(20, 2.25, port="USB-C1", shared=True), dc(5, 2.4, port="USB-A", shared=True)], [], 0),
    ("one level for two ports together", "A+C max. 5V⎓3.4A 17W", [dc(5, 3.4, 17, port="USB-A+USB-C", shared=True) | {"kind": "total"}], [], 0),
    ("the whole and its parts", "50 W (30 W + 20 W)", [total(50), level(None, None, 30, shared=True), level(None, None, 20, shared=True)], [], 1),
    ("the whole and its parts below a rating", "Output: 5V⎓3A 9V⎓3A\n50W (30W + 20W)", [level(5, 3, nature="dc"), level(9, 3, nature="dc"), total(50), level(None, None, 30, shared=True), level(None, None, 20, shared=True)], [], 1),
    ("a total and the part of each port", "Total 50W: USB-C1 30W + USB-A 20W", [total(50), level(None, None, 30, port="USB-C1", shared=True), level(None, None, 20, port="USB-A", shared=True)], [], 0),
    ("parts of ports in brackets", "Total power 50 W (USB-C 30 W + USB-A 20 W)", [total(50), level(None, None, 30, port="USB-C", shared=True), level(None, None, 20, port="USB-A", shared=True)], [], 0),
    ("parts of three ports by their letters", "Total 65W: C1 (30W) + C2 (20W) + A (15W)", [total(65), *(level(None, None, w, port=p, shared=True) for p, w in (("USB-C1", 30), ("USB-C2", 20), ("USB-A", 15)))], [], 0),
    ("parts with labels of their own", "C1: 30W Max + A: 20W Max", [level(None, None, 30, port="USB-C1", shared=True), level(None, None, 20, port="USB-A", shared=True)], [], 0),
    ("parts of the ports that were named", "USB-C1+USB-A: 50W (30W + 20W)", [total(50, port="USB-C1+USB-A", shared=True), level(None, None, 30, port="USB-C1", shared=True), level(None, None, 20, port="USB-A", shared=True)], [], 0),
    ("a total and what each port gives alone", "Total output 65W: C1 45W / A 18W", [total(65), level(None, None, 45, port="USB-C1"), level(None, None, 18, port="USB-A")], [], 0),
    ("a rating whose watts have parts stays one", "20V 2.5A 50W (30W+20W)", [level(20, 2.5, 50), level(None, None, 30, shared=True), level(None, None, 20, shared=True)], [], 1),
    ("total output", "Total output 65W max", [total(65)], [], 0),
    ("total behind the watts", "65W total", [total(65)], [], 0),
    ("total with volts and amperes", "Total: 5V⎓6A 30W", [dc(5, 6, 30) | {"kind": "total"}], [], 0),
    ("total behind a rating: it is shared", "USB-A1/A2: 5V⎓4.8A total", [dc(5, 4.8, port="USB-A1/USB-A2", shared=True)], [], 0),
    ("each", "USB-A1/A2: 5V⎓2.4A each", [dc(5, 2.4, port="USB-A1/USB-A2", shared=False)], [], 0),
    ("counted ports are asked about", "2×USB-A: 5V⎓2.4A", [dc(5, 2.4, port="USB-A")], [], 1),
    ("port behind the rating", "5V⎓3A (USB-C)", [dc(5, 3, port="USB-C")], [], 0),
    ("port names with the word output", "USB-C output: 5V⎓3A; USB-A output: 5V⎓2.4A", [dc(5, 3, port="USB-C"), dc(5, 2.4, port="USB-A")], [], 0),
    ("Type-C spelled out", "Output (Type-C): 5V⎓3A", [dc(5, 3, port="USB-C")], [], 0),
    ("numbered outputs", "OUTPUT 1: 5V⎓2.4A OUTPUT 2: 5V⎓2.4A TOTAL: 5V⎓4.8A", [dc(5, 2.4, port="output 1"), dc(5, 2.4, port="output 2"), dc(5, 4.8) | {"kind": "total"}], [], 0),
    ("watts of ports only", "Output: USB-C 65W, USB-A 18W", [level(None, None, 65, port="USB-C"), level(None, None, 18, port="USB-A")], [], 0),
    ("a total within a port's line is the port's", "USB-A ×2: 5V⎓2.4A total 24W", [dc(5, 2.4, port="USB-A"), total(24, port="USB-A")], [], 0),
    ("maximum output", "OUTPUT: 65W MAX", [total(65)], [], 0),
    ("power with a colon", "Power: 20W", [total(20)], [], 0),
    # whole plates
    ("a plain plate", "Model: UX-20C\nINPUT: 100-240V~50/60Hz 0.5A\nOUTPUT: 5V⎓3A, 9V⎓2.22A\n▣ VI CE", [model("UX-20C"), mains(100, 240, hertz=(50, 60), amperes=0.5), dc(5, 3), dc(9, 2.22), mark("class_ii"), mark("efficiency_level:VI"), mark("ce")], [], 0),
    ("an output that follows the input label", "Input: 100-240V~ 0.8A\nC1: 5V⎓3A / 9V⎓2.22A\nC1+A1: 30W Max", [mains(100, 240, amperes=0.8), dc(5, 3, port="USB-C1"), dc(9, 2.22, port="USB-C1"), total(30, port="USB-C1+USB-A1", shared=True)], [], 0),
    ("a total in its own line is of the unit", "USB-A: 5V=2.4A\nTotal 30W", [dc(5, 2.4, port="USB-A"), total(30)], [], 0),
    ("a low voltage under the input label is asked about", "INPUT 100-240V 5V 2A", [mains(100, 240, nature=None), level(5, 2)], [], 1),
    ("no labels", "AC 220-240 V 50Hz 0.15A\nDC 5V 2.1A  10.5W", [mains(220, 240, hertz=(50,), amperes=0.15), dc(5, 2.1, 10.5)], [], 0),
    ("full-width characters", "输入：１００－２４０Ｖ～５０／６０Ｈｚ 输出：５Ｖ＝２Ａ", [mains(100, 240, hertz=(50, 60)), dc(5, 2)], [], 0),
    ("Cyrillic units", "Вход: 220 В~ 50 Гц 0,1 А Выход: 5 В⎓2 А 10 Вт", [mains(220, 220, hertz=(50,), amperes=0.1), dc(5, 2, 10)], [], 0),
    ("Cyrillic look-alikes", "ОUТРUТ: 5V⎓2А", [dc(5, 2)], [], 0),
    ("Spanish and German labels", "Entrada: 230V~ Salida: 5,0 V⎓2,1 A / Ausgang 5V⎓2,1A", [mains(230, 230), dc(5, 2.1), dc(5, 2.1)], [], 0),
    ("unit ligatures", "Output: 5V 500㎃", [level(5, 0.5)], [], 0),
    ("maker and text nobody needs", "Manufacturer: Wexlow Works\nMade in Nowhere", [{"kind": "maker", "maker": "Wexlow Works"}], ["Made in Nowhere"], 0),
    ("model of two words", "Model Nova 20 Output: 5V⎓2A", [model("Nova 20"), dc(5, 2)], [], 0),
    ("a model that contains a protocol", "Model: PD-20W", [model("PD-20W")], [], 0),
    ("a model without its word", "ZXQ-65W", [], ["ZXQ-65W"], 0),
    # marks
    ("class II in words", "Protection class II, double insulated", [mark("class_ii")], [], 0),
    ("class II look-alike", "回 ⌂ 🗑", [mark("class_ii"), mark("indoor_use"), mark("wheeled_bin")], [], 0),
    ("roman numeral as one character", "Ⅵ", [mark("efficiency_level:VI")], [], 0),
    ("level in words", "Efficiency Level: VI", [mark("efficiency_level:VI")], [], 0),
    ("level with an arabic number", "Level 6", [mark("efficiency_level:VI")], [], 0),
    ("class 2 is asked about", "Class 2", [], ["Class 2"], 1),
    ("a limited supply of class 2", "Class 2 power supply LPS", [mark("class_2_supply"), mark("lps")], [], 0),
    ("conformity", "CE UKCA FCC RoHS UL IP20 EN 62368-1", [mark(m) for m in ("ce", "ukca", "fcc", "rohs", "ul", "ip:20", "standard:62368-1")], [], 0),
    ("words for house and bin", "For indoor use only. Crossed-out wheeled bin", [mark("indoor_use"), mark("wheeled_bin")], [], 0),
    # listings
    ("fast charge", "45W fast charge", [listing(45)], [], 0),
    ("up to", "up to 65 W", [listing(65)], [], 0),
    ("material of the switch", "GaN 65W", [mark("gan"), listing(65)], [], 0),
    ("protocol in a listing", "20W PD charger", [listing(20), protocol("PD")], [], 0),
    ("listing words under the output", "Output: 5V⎓3A\n45W fast charge", [dc(5, 3), listing(45)], [], 0),
    ("protections in words", "Over-voltage, over-current, over-heat protection", [feature(f) for f in ("over_voltage", "over_current", "over_temperature")], [], 0),
    ("protections abbreviated", "OVP/OCP/SCP/OTP", [feature(f) for f in ("over_voltage", "over_current", "short_circuit", "over_temperature")], [], 0),
    ("protection in front", "Protected against short circuit", [feature("short_circuit")], ["against"], 0),
    ("a protection that is denied", "No over-voltage protection", [], ["No over-voltage protection"], 0),
    ("a warning is no protection", "Do not short circuit", [], ["Do not short circuit"], 0),
    ("an overvoltage category is no protection", "Overvoltage category II, GaN", [mark("gan")], ["Overvoltage category II"], 0),
    ("a charging protocol of the same letters", "SCP 10V⎓4A", [dc(10, 4)], ["SCP"], 0),
    # what cannot be read
    ("letter O for a zero", "Output 5OV 2A", [level(None, 2)], ["5OV"], 1),
    ("letter l for a one", "Input l00-240V~", [], ["l00-240V"], 1),
    ("a comma before three digits", "Output 5V 1,000mA", [level(5)], ["1,000mA"], 1),
    ("a comma between two usual voltages", "Output 5,9V 2A", [level(None, 2)], ["5,9V"], 1),
    ("a decimal comma that is none of them", "Output 12,5V 2,5A", [level(12.5, 2.5)], [], 0),
    ("a battery's figures", "10000mAh 37Wh", [], ["10000mAh 37Wh"], 0),
    ("numbers without units", "Lot 2024 12345678", [], ["Lot 2024 12345678"], 0),
    ("nothing", "", [], [], 0),
]
# fmt: on
