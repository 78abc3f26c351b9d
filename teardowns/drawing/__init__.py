"""Pictures of a unit, drawn from its document: what the demo shows where photos would stand.

Pure Python, numpy and Pillow. `pictures.pictures_of(document)` draws them all; one module draws
one kind. Lengths are metres in documents, millimetres in layouts, pixels on sheets.
"""
