"""Temperatures against time: where they settle, or would."""
