#!/usr/bin/env python
"""Django's command line for Underplate."""
import os
import sys

if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
    try:
        from django.core.management import execute_from_command_line

        execute_from_command_line(sys.argv)
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        sys.exit(130)       # as a shell says of what Ctrl+C ended
