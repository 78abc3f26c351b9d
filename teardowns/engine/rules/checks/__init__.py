"""Consistency checks, one claim at a time."""
