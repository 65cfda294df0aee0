"""What lets a shell complete verbs, options and file names: made from the parsers, for bash, zsh and fish."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from shedbook.cli.known_verbs import VERBS, parser_of


class Option(NamedTuple):
    """One option of a verb: how it is written, and what it does."""

    written: str
    says: str


def options_of(verb: str) -> tuple[Option, ...]:
    """Return the options of a verb that are written with two dashes."""
    return tuple(_options(parser_of(verb)))


def _options(parser: argparse.ArgumentParser) -> Iterator[Option]:
    for action in parser._actions:
        for written in action.option_strings:
            if written.startswith("--"):
                yield Option(written, (action.help or "").replace("%%", "%").replace("\n", " "))


def completion_script(shell: str) -> str:
    """Return the script for a shell, one of `SHELLS`."""
    return SHELLS[shell]()


def _bash() -> str:
    cases = "\n".join(
        f'        {row.name}) words="{" ".join(option.written for option in options_of(row.name))}" ;;'
        for row in VERBS
    )
    names = " ".join(row.name for row in VERBS)
    return f"""\
_shedbook() {{
    local word="${{COMP_WORDS[COMP_CWORD]}}" words=""
    if [ "$COMP_CWORD" -eq 1 ] || {{ [ "$COMP_CWORD" -eq 2 ] && [ "${{COMP_WORDS[1]}}" = help ]; }}; then
        COMPREPLY=($(compgen -W "{names} --version --help" -- "$word"))
        return
    fi
    case "${{COMP_WORDS[1]}}" in
{cases}
    esac
    case "$word" in
        -*) COMPREPLY=($(compgen -W "$words" -- "$word")) ;;
        *) COMPREPLY=() ;;
    esac
}}
complete -o default -F _shedbook shedbook
"""


def _zsh() -> str:
    verbs = "\n".join(f"        {_quoted(f'{row.name}:{row.says}')}" for row in VERBS)
    cases = "\n".join(
        f"        {row.name}) _arguments {' '.join(_zsh_option(option) for option in options_of(row.name))}"
        " '*:file:_files' ;;"
        for row in VERBS
    )
    return f"""\
#compdef shedbook
_shedbook() {{
    local -a verbs
    verbs=(
{verbs}
    )
    if (( CURRENT == 2 )) || {{ (( CURRENT == 3 )) && [[ $words[2] == help ]]; }}; then
        _describe verb verbs
        return
    fi
    case $words[2] in
{cases}
    esac
}}
compdef _shedbook shedbook
"""


def _zsh_option(option: Option) -> str:
    plain = option.says.replace("[", "(").replace("]", ")").replace(":", ",")
    return _quoted(f"{option.written}[{plain}]")


def _fish() -> str:
    seen = "__fish_seen_subcommand_from"
    names = " ".join(row.name for row in VERBS)
    lines = [
        f"complete -c shedbook -f -n 'not {seen} {names}' -a {row.name} -d {_fish_quoted(row.says)}"
        for row in VERBS
    ]
    lines += [
        f"complete -c shedbook -n '{seen} {row.name}' -l {option.written[2:]} -d {_fish_quoted(option.says)}"
        for row in VERBS
        for option in options_of(row.name)
    ]
    return "\n".join([*lines, f"complete -c shedbook -f -n '{seen} help' -a '{names}'", ""])


def _quoted(text: str) -> str:
    """Return a text between single quotes, as the shells of the Bourne family read it."""
    return "'" + text.replace("'", "'\\''") + "'"


def _fish_quoted(text: str) -> str:
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"


SHELLS: Mapping[str, Callable[[], str]] = MappingProxyType({"bash": _bash, "zsh": _zsh, "fish": _fish})
"""The shells for which there is a script."""
