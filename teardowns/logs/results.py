"""What logs show that no rule reads: the word of each, and its unit; sorted by reader."""
RESULTS: dict[str, tuple[str, str]] = {
    # load tests
    "after_limit": ("Behaviour beyond the over-current point", ""),
    "drop_outs": ("Drop-outs of regulation under load", "1"),
    "efficiency_mark": ("Average efficiency beside the marks' tables", ""),
    "line_ripple": ("Output ripple at twice the mains frequency", "V"),
    "temperature_drift": ("Change of temperature over the time held", "K"),
    "time_held": ("Time held at one load", "s"),
    # waveforms
    "burst_rate": ("Bursts in a second", "Hz"),
    "bus_level": ("Bus voltage, on the capture's own scale", "V"),
    "bus_power": ("Power from the bus", "W"),
    "conduction_mode": ("Conduction mode", ""),
    "demagnetisation_time": ("Demagnetisation time", "s"),
    "duty_cycle": ("Duty cycle", "1"),
    "energy_per_cycle": ("Energy of one period", "J"),
    "load_following": ("How frequency and on-time follow the load", ""),
    "node_capacitance": ("Capacitance of the switching node", "F"),
    "plateau": ("Bus and reflected voltage together, on the capture's own scale", "V"),
    "pulse_frequency": ("Frequency of the pulses, not at full load", "Hz"),
    "pulse_on_time": ("On-time, not at full load", "s"),
    "reflected_share": ("Reflected over bus voltage", "1"),
    "ring_frequency": ("Ring after demagnetisation", "Hz"),
}
