"""From a report and its evidence to prepared strings: numbers, sentences, pictures, links.

Templates only place what stands ready here; nothing is computed, formatted or queried there.
"""
