"""The reference page of the command line, made from the live commands."""

from collections.abc import Iterator

import typer
from typer.core import TyperArgument, TyperCommand, TyperGroup, TyperOption

Parameter = TyperArgument | TyperOption

_INTRODUCTION = """\
# Commands

Every verb takes `--help`. Exit codes: 0 fine, 1 something was found (an error in the folder, a claim that fails), 2 the
command was not understood or names something that is not there, and nothing was done, 3 a fault of Cutaway's own, 130
stopped.

A type folder is said last or with `-C`, whichever you like; where it is not said, it is the one that you are in.
"""


def commands_page(app: typer.Typer) -> str:
    """The page, in Markdown: a section a verb, with its arguments, options and examples."""
    group = typer.main.get_command(app)
    assert isinstance(group, TyperGroup)
    commands = sorted(group.commands.items())
    return _INTRODUCTION + "".join(_section(name, c) for name, c in commands if isinstance(c, TyperCommand))


def _section(name: str, command: TyperCommand) -> str:
    parameters = [p for p in command.params if isinstance(p, TyperArgument | TyperOption) and p.name != "help"]
    arguments = [p for p in parameters if isinstance(p, TyperArgument)]
    usage = " ".join(["cutaway", name, *(_metavar(p) for p in arguments)])
    lines = [f"\n## {name}\n", (command.help or "").strip(), f"\n```sh\n{usage} [options]\n```\n"]
    if parameters:
        lines += ["| | |\n|---|---|", *(f"| {_spelled(p)} | {_cell(p)} |" for p in parameters)]
    lines += _examples(command.epilog or "")
    return "\n".join(lines) + "\n"


def _metavar(argument: TyperArgument) -> str:
    name = (argument.name or "").upper()
    return name if argument.required else f"[{name}]"


def _spelled(parameter: Parameter) -> str:
    if isinstance(parameter, TyperArgument):
        return f"`{_metavar(parameter)}`"
    return ", ".join(f"`{name}`" for name in (*parameter.opts, *parameter.secondary_opts))


def _cell(parameter: Parameter) -> str:
    words = (parameter.help or "").replace("|", "\\|").strip()
    default = parameter.default
    if isinstance(default, (int, float)) and not isinstance(default, bool):
        words += f" Default: {default}."
    return words


def _examples(epilog: str) -> Iterator[str]:
    text = epilog.removeprefix("Examples:").removeprefix("Example:").strip()
    if text:
        shown = "\n".join(part.strip() for part in text.split("    ") if part.strip())
        yield f"\nExamples:\n\n```\n{shown}\n```"
