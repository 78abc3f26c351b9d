"""Instrument logs: delimited text → channels of numbers → what a load, a scope or a logger saw."""
