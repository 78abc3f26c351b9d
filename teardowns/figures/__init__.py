"""Pictures: plain data in, SVG and HTML strings out. No Django, no files, no state.

Every graphic is a table whose middle column is a scale, so that a screen reader, a printer and a
phone get the same facts. Positions are percentages of the scale's width, sizes are pixels.
"""
