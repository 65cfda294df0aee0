"""Completion: each shell's own rules. bash is asked itself; zsh and fish only where they are installed."""

import shutil
import subprocess
from pathlib import Path

import pytest

from shedbook.cli.completion_scripts import SHELLS, completion_script, options_of
from shedbook.cli.known_verbs import VERBS
from shedbook.cli.main import main


def bash_completes(tmp_path: Path, *words: str) -> set[str]:
    """Return what bash offers for the last of the words."""
    script = tmp_path / "shedbook.bash"
    script.write_text(completion_script("bash"), encoding="utf-8")
    quoted = " ".join(f"'{word}'" for word in words)
    code = f"source '{script}'; COMP_WORDS=({quoted}); COMP_CWORD={len(words) - 1}; _shedbook; "
    code += 'printf "%s\\n" "${COMPREPLY[@]}"'
    done = subprocess.run(["bash", "-c", code], capture_output=True, text=True, check=True, timeout=30)
    assert not done.stderr
    return set(done.stdout.split())


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
def test_bash_completes_verbs_and_options(tmp_path: Path) -> None:
    names = {row.name for row in VERBS}
    assert bash_completes(tmp_path, "shedbook", "") == names | {"--version", "--help"}
    assert bash_completes(tmp_path, "shedbook", "ch") == {"check", "chord", "changes"}
    assert bash_completes(tmp_path, "shedbook", "help", "ex") == {"explain", "export"}
    assert bash_completes(tmp_path, "shedbook", "build", "book", "--tr") == {"--tracks"}
    assert bash_completes(tmp_path, "shedbook", "build", "b") == set()  # files, which bash adds itself


@pytest.mark.parametrize("shell", [name for name in SHELLS if shutil.which(name)])
def test_the_shell_can_read_its_script(shell: str, tmp_path: Path) -> None:
    script = tmp_path / "script"
    script.write_text(completion_script(shell), encoding="utf-8")
    subprocess.run([shell, "-n", str(script)], check=True, timeout=30)


@pytest.mark.parametrize("shell", sorted(SHELLS))
def test_every_verb_and_option_stands_in_the_script(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    dashes = "-l " if shell == "fish" else "--"
    for row in VERBS:
        assert row.name in script
        for option in options_of(row.name):
            assert dashes + option.written[2:] in script


def test_options_of_a_verb() -> None:
    assert {"--help", "--json", "--quiet"} <= {option.written for option in options_of("check")}
