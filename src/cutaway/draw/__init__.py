"""Pictures of a run: sheets as shapes, and the one writer that turns shapes into SVG.

`shapes.py` is what a picture is made of, `theme.py` how each role looks, `svg.py` the writer. `symbols/` has one
symbol a kind, in coordinates of its own. `wiring.py` says what stands on a sheet, `seen.py` what is so in a run,
`layout.py` where everything goes, and `sheet.py` puts them together. Nothing here asks why, and no symbol knows a
colour. Read `sheet.py` first.
"""
