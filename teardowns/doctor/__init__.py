"""What the domain needs of a deployment; `core.doctor` says how checks are written."""
from . import listing, printouts, rulebook, search  # noqa: F401  (each registers what it examines)
