"""From records to arrays to a run.

`network.py` is the numeric network of one standard; `bind.py` makes it from the folder and the part library and
converts every figure to SI, here and nowhere else; `slicing.py` cuts out what can reach a question; `compile.py` turns
it into flat arrays; `kernel.py` holds the compiled solver; `run.py` runs lanes and returns traces. No text for users
and no opinion why. Read `network.py` first, then `run.py`.
"""
