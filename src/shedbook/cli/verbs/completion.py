"""`shedbook completion SHELL` prints what lets a shell complete verbs and options."""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("shell", metavar="SHELL", choices=("bash", "zsh", "fish"), help="bash, zsh or fish")
    parser.epilog = (
        'For bash write eval "$(shedbook completion bash)" into ~/.bashrc, for zsh the same with zsh into '
        "~/.zshrc behind compinit; for fish: "
        "shedbook completion fish > ~/.config/fish/completions/shedbook.fish"
    )


def run(options: argparse.Namespace) -> int:
    """Print the script and return 0."""
    from shedbook.cli.completion_scripts import completion_script

    print(completion_script(options.shell), end="")
    return 0
