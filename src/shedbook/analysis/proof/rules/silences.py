"""The rule on silences: a phrase or a book may silence a rule only by a name that exists."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from shedbook.analysis.naming.sayings import Strung, saying
from shedbook.analysis.proof.finding import Found
from shedbook.analysis.proof.rule import Example, RuleRow, silence_rule
from shedbook.errors import near_names


@silence_rule(
    RuleRow(
        "silence-names-no-rule",
        "warning",
        "A rule is silenced that does not exist.",
        fires=Example("Dm7", "1/4 d4 f4 a4 c5", "dorian", edit="silence a rule that does not exist"),
        silent=Example("Dm7", "1/4 d4 f4 a4 c5", "dorian"),
        source="the project's design",
    )
)
def silence_names_no_rule(named: Collection[str], known: Collection[str]) -> Iterator[Found]:
    """Find names of rules that are silenced and that nobody knows; the mend is the nearest known name."""
    for rule in named:
        if rule not in known:
            near = tuple(saying("finding.quoted", text=name) for name in near_names(rule, known))
            names = Strung(near, "finding.or")
            mend = saying("finding.silence-names-no-rule.mend.near", names=names) if near else None
            yield Found(None, None, saying("finding.silence-names-no-rule", rule=rule), mend)
