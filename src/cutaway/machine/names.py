"""How things of the folder are named in a network and its traces: one function a sort of name.

    node       'engine pump.inlet'            signal     'engine pump: running'
    element    'engine pump.rotor'            mode       'fuel lamp: lit'
    control    'throttle', 'engine.starter'   failure    'engine pump: seized'
    condition  'height'

The across value of a port is recorded as a signal under its node's name, the flow into a part at a port as
'engine pump.inlet flow' (positive into the part), the value of an input as 'set throttle'.
"""


def node_name(part: str, node: str) -> str:
    """A node of a part; for a port also the name of the signal with its across value."""
    return f"{part}.{node}"


def element_name(part: str, element: str) -> str:
    """An element of a part."""
    return f"{part}.{element}"


def signal_name(part: str, signal: str) -> str:
    """A signal of a part's recipe."""
    return f"{part}: {signal}"


def mode_name(part: str, mode: str) -> str:
    """A mode of a part."""
    return f"{part}: {mode}"


def control_name(part: str, control: str) -> str:
    """The input of a control."""
    return f"{part}.{control}" if control else part


def failure_name(part: str, failure: str) -> str:
    """The input of a failure."""
    return f"{part}: {failure}"


def flow_name(part: str, port: str) -> str:
    """The signal with the flow into a part at one of its ports."""
    return f"{part}.{port} flow"


def set_name(input_name: str) -> str:
    """The signal with the value of an input."""
    return f"set {input_name}"
