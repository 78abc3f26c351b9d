"""Narrow, count, sort and page many units at once: numpy only, no database."""
