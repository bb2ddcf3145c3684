"""The physics as pure functions of SI floats: formula, units, range, worked example and source with each.

Here live sizing (`sizing.py`), the standard atmosphere (`atmosphere.py`) and the flow laws of the element families.
A law calls `math` and nothing else, so that the kernel can compile it and a reader can follow it. Read `law.py` first.
"""
