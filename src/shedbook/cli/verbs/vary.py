"""`shedbook vary FILE` makes variants of a phrase, each with what was done."""

from __future__ import annotations

import argparse
import sys

from shedbook.cli.argument_types import metre_of, named_path

_EPILOG = """\
The phrase itself is never changed; files are written only into the folder of --into.
  shedbook vary my-book/phrases/01-first.toml
  shedbook vary my-book/phrases/01-first.toml --do invert,sequence --onto "minor ii-V"
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = _EPILOG
    parser.add_argument(
        "file", metavar="FILE", type=named_path, help="a phrase file, or a manuscript's folder"
    )
    parser.add_argument("--phrase", metavar="N|TITLE", help="which phrase of the file (default: the first)")
    parser.add_argument(
        "--do", metavar="WHAT", default="",
        help="only these, with commas: decorate, thin, shift, displace, invert, reverse, sequence, easier, "
        "harder, onto other changes, another metre, joined (default: all that apply)",
    )  # fmt: skip
    parser.add_argument(
        "--keep", metavar="BAR:BEAT", action="append", default=[], help="a note that stays: 2:1.5"
    )
    parser.add_argument(
        "--onto", metavar="CHANGES", default="", help='other changes, or a name: "minor ii-V"'
    )
    parser.add_argument("--metre", metavar="METRE", type=metre_of, default=None, help="another metre: 3/4")
    parser.add_argument(
        "--with", dest="other", metavar="FILE", type=named_path, help="a phrase to join to it"
    )
    parser.add_argument(
        "--json", action="store_true", help="print one JSON array, an object for each variant"
    )
    parser.add_argument("--into", metavar="DIR", type=named_path, help="write phrase files into this folder")


def run(options: argparse.Namespace) -> int:
    """Print the variants; return 1 where there is none, else 0."""
    from shedbook.book.verbs.draft import phrase_text
    from shedbook.book.verbs.vary import VaryRequest, vary_phrase
    from shedbook.cli.batch import print_json
    from shedbook.phrase.fields import fields_from_phrase

    names = tuple(part.strip() for part in options.do.split(",") if part.strip())
    answer = vary_phrase(
        VaryRequest(
            options.file, options.phrase, names, tuple(options.keep), options.onto, options.metre,
            options.other, options.into,
        )
    )  # fmt: skip
    if options.json:
        print_json(
            [
                {"done": one.name, "said": one.said, **fields_from_phrase(one.phrase)}
                for one in answer.variants
            ]
        )
    else:
        for one in answer.variants:
            print(f"{one.name}: {one.said}\n{phrase_text(one.phrase)}\n")
        for path in answer.files:
            print(path)
    if not answer.variants:
        print(f'Nothing of this changes "{answer.phrase.title}".', file=sys.stderr)
    return 0 if answer.variants else 1
