"""Instrument logs of the demo units, made from what their documents record."""
