"""Captures of a switching node: times and ratios; never the absolute scale of a probe."""
