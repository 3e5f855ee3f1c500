"""The `shoplog` command. Each command is a module of its own, and is loaded when it is asked for.

Exit status 0 is fine, 1 is problems found or nothing found, 2 is wrong use.
"""

from __future__ import annotations

from importlib import import_module

import click

__all__ = ["COMMANDS", "main"]

# Each command and what it does, in a line; its module is `shoplog.cli.NAME`.
COMMANDS = {
    "start": "Start a new log: a site, a shop profile, and one worked page.",
    "calc": "Work out one expression.",
    "check": "Check every page of a log.",
    "sheet": "Make the bench sheet of a page: paper for the machine.",
    "find": "Find past setups, or the pages that have a size.",
    "export": "Write out every setup, for a spreadsheet or another program.",
    "take": "Take a spreadsheet of past setups into the log, as pages.",
    "profile": "Print the shop profile as it is read, or its schema.",
    "table": "Print the rows of a reference table.",
}


class _Commands(click.Group):
    """Loads a command when it is asked for: most need formulas or units, and some need none."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        found = getattr(import_module(f"shoplog.cli.{cmd_name}"), cmd_name)
        return found if isinstance(found, click.Command) else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="shoplog")
def main() -> None:
    """Work out, check and publish a workshop log."""
