"""The command `cutaway`: one file a verb, each of which reads its arguments, asks the façade and shows the answer.

`main.py` puts the verbs together and holds the one place where a fault of our own is caught; `showing.py` is the only
file that knows the terminal. No logic lives here. Exit codes stand in `exits.py`.
"""
