"""Every reader of what comes in, asked things that nobody would write: `python -m tests.fuzz`."""
