"""What is typed is taken at its word: nothing empty, nothing twice, and -214 is a ring."""

from __future__ import annotations

import re
from collections.abc import Iterator

import click

from schema.errors import InputError


class Command(click.Command):
    """A command that refuses empty values and options given twice instead of passing over them.

    With ``dash_sizes`` an argument such as ``-214`` is the size 214, as the trade writes it.
    """

    dash_sizes = False

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        if ctx.resilient_parsing:
            return super().parse_args(ctx, args)
        return super().parse_args(ctx, list(self._plain(ctx, args)))

    def _plain(self, ctx: click.Context, args: list[str]) -> Iterator[str]:
        options = {
            name: option
            for option in self.get_params(ctx)
            if isinstance(option, click.Option)
            for name in (*option.opts, *option.secondary_opts)
        }
        given: dict[str, str] = {}
        rest = iter(args)
        for argument in rest:
            name, equals, value = argument.partition("=")
            option = options.get(name) if argument.startswith("-") else None
            if argument == "--":
                yield argument
                yield from rest
                return
            if option is None:
                yield self._positional(argument)
                continue
            yield argument
            if option.is_flag or option.count:
                continue
            if not equals:
                follows = next(rest, None)
                if follows is None:
                    return  # click says that the option needs a value
                if follows.partition("=")[0] in options:
                    raise InputError(
                        field=name, given="", problem=f"has no value: the option {follows} follows it"
                    )
                yield follows
                value = follows
            if not value.strip():
                raise InputError(
                    field=name,
                    given="",
                    problem="is empty; give a value, or leave the option out",
                )
            if name in given and not option.multiple:
                raise InputError(
                    field=name, given=f"{given[name]}, {value}", problem="is given twice; give it once"
                )
            given[name] = value

    def _positional(self, argument: str) -> str:
        if not argument.strip():
            raise InputError(field=f"borebook {self.name}", given="", problem="an argument is empty")
        if self.dash_sizes and re.fullmatch(r"-\d{1,3}", argument):
            return argument[1:]
        return argument


class RingCommand(Command):
    """A command whose arguments may be dash sizes."""

    dash_sizes = True
