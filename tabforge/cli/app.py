"""The program itself: its commands by name, each in a module of its own that is loaded when it is asked for."""

from __future__ import annotations

from importlib import import_module
from typing import Annotated, Any, Final

import typer
from typer.core import TyperGroup

from tabforge.cli.exits import table

COMMANDS: Final = (
    *("build", "check", "tidy", "new", "diagram", "engrave", "tracks", "plan", "book", "serve"),
    *("list", "explain", "schema", "reference"),
)
"""In the order the help shows them; each is the module ``command_<name>``, whose function ``command`` it is."""


class Commands(TyperGroup):
    """The commands, each imported only when it is run or told about."""

    def list_commands(self, ctx: Any) -> list[str]:
        """The names of the commands."""
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of a name, or None."""
        if cmd_name not in COMMANDS:
            return None
        module = import_module(f"tabforge.cli.command_{cmd_name}")
        single = typer.Typer(add_completion=False, rich_markup_mode=None)
        single.command(name=cmd_name, epilog=table())(module.command)
        return typer.main.get_command(single)

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command the arguments begin with; a name that is none is an error that tells the nearest."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            from tabforge.diagnostics.core import nearest  # noqa: PLC0415  # only a mistake pays for it

            near = nearest(args[0], COMMANDS)
            ctx.fail(f"There is no command {args[0]!r}." + (f" Did you mean {near!r}?" if near else ""))
        return super().resolve_command(ctx, args)


def _version(wanted: bool) -> None:
    if wanted:
        from tabforge.cli.screen import say  # noqa: PLC0415
        from tabforge.cli.version import version  # noqa: PLC0415

        say(f"tabforge {version()}")
        raise typer.Exit


app = typer.Typer(
    cls=Commands,
    no_args_is_help=True,
    rich_markup_mode=None,  # plain help: it needs no library and reads the same in a pipe
    pretty_exceptions_enable=False,
    epilog=table(),
)


@app.callback()
def main(
    version: Annotated[
        bool, typer.Option("--version", help="Show the version and exit.", is_eager=True, callback=_version)
    ] = False,
) -> None:
    """Guitar exercises written as text, checked and exported as MusicXML with a TAB staff and as ASCII tab."""
