"""`shedbook etude` puts a study over a whole form together from a book's phrases and drafted bars."""

from __future__ import annotations

import argparse

from shedbook.cli.argument_types import metre_of, named_path, tempo_of

_EPILOG = """\
CHANGES are text, a file of text, or a name: blues, minor blues, sixteen bars, "I-VI-ii-V with bridge".
  shedbook etude --changes "blues in F" --from my-book
  shedbook etude --changes "Cm7 | F7 | Bbmaj7 | %" --from my-book --into studies
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = _EPILOG
    parser.add_argument(
        "--changes", metavar="CHANGES", required=True, help="the form: text, a file, or a name"
    )
    parser.add_argument(
        "--from", dest="source", metavar="DIR", type=named_path, required=True,
        help="the phrases: a manuscript's folder, a folder of phrase files, or a file",
    )  # fmt: skip
    parser.add_argument("--key", metavar="KEY", default="", help='the key of a stock form: "Bb major"')
    parser.add_argument(
        "--metre", metavar="METRE", type=metre_of, default=None, help="the metre (default 4/4)"
    )
    parser.add_argument("--title", metavar="TEXT", default="Étude", help="the title (default Étude)")
    parser.add_argument(
        "--instrument", metavar="NAME", default="", help="its comfortable range, and its fingering"
    )
    parser.add_argument(
        "--tempo", metavar="BPM", type=tempo_of, default=120, help="beats a minute (default 120)"
    )
    parser.add_argument("--feel", metavar="FEEL", default="swing", help="the feel (default swing)")
    parser.add_argument(
        "--seed", metavar="N", type=int, default=1, help="what the dice begin with (default 1)"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.add_argument("--into", metavar="DIR", type=named_path, help="write a phrase file into this folder")


def run(options: argparse.Namespace) -> int:
    """Print the étude and which phrase stands where."""
    from shedbook.book.verbs.draft import phrase_text
    from shedbook.book.verbs.etude import EtudeRequest, write_etude
    from shedbook.cli.batch import print_json
    from shedbook.phrase.fields import fields_from_phrase

    answer = write_etude(
        EtudeRequest(
            options.changes, options.source, options.key, options.metre, options.title, options.instrument,
            options.tempo, options.feel, options.seed, options.into,
        )
    )  # fmt: skip
    made = answer.etude
    if options.json:
        pieces = [
            {
                "first_bar": one.first_bar, "bars": one.bars,
                "phrase": None if one.phrase is None else one.phrase.title,
                "from_bar": one.from_bar or None, "half_steps_up": one.up,
            }
            for one in made.pieces
        ]  # fmt: skip
        print_json(
            [
                {
                    **fields_from_phrase(made.phrase),
                    "pieces": pieces,
                    "files": [str(one) for one in answer.files],
                }
            ]
        )
        return 0
    print(f"{made.phrase.title}\n{phrase_text(made.phrase)}\n")
    print(made.phrase.commentary.replace(". ", ".\n"))
    print(f"{made.taken_bars} of {made.phrase.full_bars} bars come from phrases.")
    for path in answer.files:
        print(path)
    return 0
