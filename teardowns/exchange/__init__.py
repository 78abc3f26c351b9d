"""The exchange form of a unit, and its way into the engine. Pure Python; read document.py first."""
