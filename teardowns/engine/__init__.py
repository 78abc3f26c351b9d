"""From evidence to verdict, in plain Python and numpy. Read pipeline.py first."""
