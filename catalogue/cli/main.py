"""The ``borebook`` command. Each subcommand lives in a module of its own, imported when it is called."""

from __future__ import annotations

import os
import sys
from importlib import import_module
from typing import Any

import click

from catalogue.cli.screen import on_screen
from catalogue.version import VERSION
from schema.errors import BorebookError, InputError, InputErrors
from schema.nearest import nearest

# The status a shell sees. 0 and 2 are click's own habit; a verdict that is not "fits" has its own.
EXIT_FITS, EXIT_FAILURE, EXIT_BAD_INPUT, EXIT_DOES_NOT_FIT, EXIT_NOT_PROVEN = 0, 1, 2, 3, 4

COMMANDS = {
    "rebuild": "Check every place of a unit before it is opened; the rebuild sheet.",
    "check": "Does this part fit this place?",
    "limits": "Limits of size of ISO 286 tolerance classes, and the fit they make.",
    "size": "A standard ring from its size code.",
    "demo": "Make the demo catalogue, run two checks and check a whole unit.",
    "units": "Units in the catalogue and their places.",
    "unit": "Unit files: check one, take it into the catalogue, write one.",
    "parts": "Parts in the catalogue.",
    "load": "Load a supplier's sheet: look at what changes, then take it.",
    "loads": "What was loaded; take a load back.",
    "export": "Write parts or a supplier's offers as CSV or XLSX.",
    "names": "The words that options and question files understand.",
    "schema": "The JSON Schema of a question file, a unit file or an answer.",
}


class _Lazy(click.Group):
    """A group that imports a command's module only when that command is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"catalogue.cli.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            near = nearest(args[0], COMMANDS)
            hint = f" Near: {', '.join(near)}." if near else ""
            ctx.fail(f"there is no command {args[0]!r}.{hint} Commands: {', '.join(COMMANDS)}.")
        return super().resolve_command(ctx, args)


@click.command(cls=_Lazy, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(VERSION, prog_name="borebook")
def cli() -> None:
    """Tell whether a seal fits its gland, as drawn and as measured, before the unit is opened.

    Start with: borebook demo
    """


def main(arguments: list[str] | None = None) -> None:
    """Run the command; every error of the project ends as a message and exit status 2 or 1."""
    typed = sys.argv[1:] if arguments is None else arguments
    if unreadable := _unreadable(typed):
        _say(unreadable)
        sys.exit(EXIT_BAD_INPUT)
    try:
        status: Any = cli.main(args=typed, prog_name="borebook", standalone_mode=False)
    except click.exceptions.Abort:
        _say("stopped")
        status = EXIT_FAILURE
    except click.ClickException as error:
        error.show()
        status = error.exit_code
    except click.exceptions.Exit as error:
        status = error.exit_code
    except (InputError, InputErrors) as error:
        _say(str(error))
        status = EXIT_BAD_INPUT
    except BorebookError as error:
        _say(str(error))
        status = EXIT_FAILURE
    except BrokenPipeError:
        # The reader of a pipe (head, less) has gone: nothing is left to say, and no traceback either.
        _drop_output()
        status = EXIT_FAILURE
    except UnicodeEncodeError as error:
        _say(
            f"the output is in {error.encoding}, which has no sign for {error.object[error.start]!a}; "
            "use a UTF-8 terminal, or set PYTHONIOENCODING=utf-8"
        )
        status = EXIT_FAILURE
    except OSError as error:
        if error.filename is None:
            _drop_output()
        _say(f"{error.filename or 'the output'} cannot be used: {error.strerror or error}")
        status = EXIT_FAILURE
    sys.exit(status if isinstance(status, int) else EXIT_FITS)


def _unreadable(typed: list[str]) -> str:
    """The refusal of an argument with bytes that are no text; "" where all are text."""
    for position, argument in enumerate(typed, start=1):
        try:
            argument.encode()
        except UnicodeEncodeError:
            return f"argument {position} has bytes in it that are not UTF-8 text: {argument!a}"
    return ""


def _drop_output() -> None:
    """What still waits to be written has nowhere to go; without this Python complains as it ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _say(text: str) -> None:
    for line in text.splitlines():
        click.echo(f"borebook: {on_screen(line)}".encode(errors="backslashreplace").decode(), err=True)
