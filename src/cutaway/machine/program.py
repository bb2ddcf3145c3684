"""Signal expressions into the kernel's program: registers, each written once, constants first."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import assert_never

import numpy as np

from cutaway.machine.layout import (
    ACROSS,
    CONTENT,
    INPUT,
    MODE,
    OPERATIONS,
    TABLE,
    THROUGH,
    Floats,
    Ints,
)
from cutaway.parts.recipe import Across, Apply, Const, Content, Expr, Input, ModeIs, Signal, Table, Through

_CALCULATES = frozenset(OPERATIONS.values())


@dataclass(slots=True)
class Program:
    """Grows as expressions are written into it. A register is -1 - k for constant k, else the number of its
    instruction.

    nodes, elements, modes, inputs: places by name. boundary: what prescribes each boundary node. signals: expressions
    by name. Equal instructions are written once; constants never count as equal, so that a lane with another number
    has the same program.
    """

    nodes: Mapping[str, int]
    elements: Mapping[str, int]
    modes: Mapping[str, int]
    inputs: Mapping[tuple[str, str], int]
    boundary: Mapping[str, Expr]
    signals: Mapping[str, Expr]
    constants: list[float] = field(default_factory=list)
    code: list[tuple[int, int, int, int]] = field(default_factory=list)
    moving: list[bool] = field(default_factory=list)
    known: dict[tuple[int, int, int, int], int] = field(default_factory=dict)
    named: dict[tuple[str, str], int] = field(default_factory=dict)
    table_at: list[int] = field(default_factory=lambda: [0])
    table_x: list[float] = field(default_factory=list)
    table_y: list[float] = field(default_factory=list)
    placed: list[int] = field(default_factory=list)

    def register(self, expression: Expr) -> int:
        """The register in which the expression's value will stand."""
        match expression:
            case Const(value):
                self.constants.append(float(value))
                return -len(self.constants)
            case Signal(name):
                return self._named("signal", name, self.signals[name])
            case Across(node) if node in self.boundary:
                return self._named("boundary", node, self.boundary[node])
            case Across(node):
                return self._write(True, ACROSS, self.nodes[node])
            case Through(element, terminal):
                return self._write(True, THROUGH, self.elements[element], terminal)
            case Content(element):
                return self._write(True, CONTENT, self.elements[element])
            case Input(sort, name):
                return self._write(False, INPUT, self.inputs[(sort, name)])
            case ModeIs(mode):
                return self._write(False, MODE, self.modes[mode])
            case Table(of, xs, ys):
                return self._table(self.register(of), xs, ys)
            case Apply(op, of):
                of_registers = [self.register(one) for one in of]
                return self._write(any(map(self._moves, of_registers)), OPERATIONS[op], *of_registers)
        assert_never(expression)

    def _named(self, sort: str, name: str, expression: Expr) -> int:
        key = (sort, name)
        if key not in self.named:
            self.named[key] = self.register(expression)
        return self.named[key]

    def _write(self, moves: bool, operation: int, a: int = 0, b: int = 0, c: int = 0) -> int:
        """The register of an instruction. moves: whether its value may change within a step."""
        instruction = (operation, a, b, c)
        if instruction not in self.known:
            self.known[instruction] = len(self.code)
            self.code.append(instruction)
            self.moving.append(moves)
        return self.known[instruction]

    def _moves(self, register: int) -> bool:
        return register >= 0 and self.moving[register]

    def _table(self, of: int, xs: tuple[float, ...], ys: tuple[float, ...]) -> int:
        self.table_x.extend(xs)
        self.table_y.extend(ys)
        self.table_at.append(len(self.table_x))
        return self._write(self._moves(of), TABLE, of, len(self.table_at) - 2)

    def place(self, register: int) -> int:
        """Where a register stands once the program is complete: constants first, then what is steady."""
        return -1 - register if register < 0 else len(self.constants) + self._order()[register]

    def finished(self) -> tuple[Ints, Floats]:
        """The program and its constants as arrays."""
        rows = np.zeros((len(self.code), 5), np.int64)
        for (operation, a, b, c), at in zip(self.code, self._order(), strict=True):
            if operation in _CALCULATES:
                a, b, c = self.place(a), self.place(b), self.place(c)
            elif operation == TABLE:
                a = self.place(a)
            rows[at] = (len(self.constants) + at, operation, a, b, c)
        return rows, np.array(self.constants, np.float64)

    def steady(self) -> int:
        """How many instructions move only with inputs and modes, and so not within a step."""
        return self.moving.count(False)

    def _order(self) -> list[int]:
        """The place of each instruction: the steady ones first, else as they were written."""
        if len(self.placed) != len(self.code):
            order = sorted(range(len(self.code)), key=self.moving.__getitem__)
            self.placed = [0] * len(order)
            for at, i in enumerate(order):
                self.placed[i] = at
        return self.placed
