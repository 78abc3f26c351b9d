"""Netlists for ngspice, the outside check of the simulator's own circuits."""
import os
import re
import shutil
import subprocess
import tempfile
from pathlib import Path

import pytest

PROGRAM = shutil.which("ngspice")
SECONDS = 60


def needs_ngspice(test):
    """Skip without the program, unless REQUIRE_NGSPICE=1 asks for a failure."""
    absent = PROGRAM is None and os.environ.get("REQUIRE_NGSPICE") != "1"
    return pytest.mark.skipif(
        absent, reason="ngspice is not installed (Debian package ngspice); "
                       "REQUIRE_NGSPICE=1 makes this an error")(test)


def measured(netlist):
    """{name: value} of the .meas lines of a netlist."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "circuit.cir")
        path.write_text(netlist)
        found = subprocess.run([PROGRAM or "ngspice", "-b", path.name], cwd=folder, text=True,
                               capture_output=True, timeout=SECONDS, check=False)
    values = re.findall(r"^(\w+)\s*=\s*([-+.\deE]+)", found.stdout, re.MULTILINE)
    return {name: float(value) for name, value in values}


def bus(power, capacitance, voltage, frequency, full_wave, diode, resistance):
    """Mains, rectifier, capacitor and a load of constant power; the third period counts.

    diode : a model line's parameters
    """
    period = 1 / frequency
    start, stop = 2 * period, 3 * period
    bridge = ("D1 a p M\nD2 b p M\nD3 0 a M\nD4 0 b M" if full_wave
              else "D1 a p M\nVb b 0 0")
    return f"""rectifier
V1 a1 b SIN(0 {2**0.5 * voltage} {frequency} 0 0 90)
R1 a1 a {max(resistance, 1e-2)}
{bridge}
.model M D({diode})
C1 p 0 {capacitance} IC={2**0.5 * voltage - 1}
B1 p 0 I={power}/max(V(p),15)
Rb b 0 1e7
Cb b 0 1e-9
.options reltol=1e-4 abstol=1e-8 method=gear
.tran {period / 4000} {stop} {start} {period / 4000} UIC
.meas tran lowest MIN V(p) FROM={start} TO={stop}
.meas tran current RMS I(V1) FROM={start} TO={stop}
.end
"""


def flyback(bus_voltage, core, drive, lowest, on_time):
    """One period from the lowest flux linkage on: flux is the voltage of a 1 F capacitor.

    The winding's current is the same function of flux as in the simulator (it is the material);
    that it comes back to where it began, its peak and what the bus gave are not.
    """
    scale = core.turns * core.area
    density = f"(V(f)/{scale})"
    part = f"min({density}/{core.saturation},0.99)"
    field = f"{core.saturation / (4e-7 * 3.141592653589793 * core.permeability)}*atanh({part})"
    field += f"+max({density}-{0.99 * core.saturation},0)/{4e-7 * 3.141592653589793}"
    current = (f"(({field})*{core.length}+{density}*{core.gap / (4e-7 * 3.141592653589793)})"
               f"/{core.turns}")
    step = drive.period / 2000
    return f"""one cycle
Vd d 0 {bus_voltage}
Vg g 0 PWL(0 1 {on_time} 1 {on_time + step / 10} 0)
Bi i 0 V={current}
Ri i 0 1
Bw w 0 V=V(g)>0.5 ? V(d)-1-V(i)*{drive.resistance} : (V(f)>1e-12 ? -{drive.reflected} : 0)
Rw w 0 1
Bf 0 f I=V(w)
Cf f 0 1 IC={lowest}
Bq 0 q I=V(g)>0.5 ? V(i)*V(d) : 0
Cq q 0 1e-6 IC=0
.options reltol=1e-6 abstol=1e-12 vntol=1e-12 chgtol=1e-18
.tran {step} {drive.period} 0 {step} UIC
.meas tran peak MAX V(i)
.meas tran energy FIND V(q) AT={drive.period * 0.999}
.meas tran last FIND V(f) AT={drive.period * 0.999}
.end
"""
