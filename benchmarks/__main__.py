"""`python -m benchmarks`: every measurement, as ratios."""

from __future__ import annotations

from benchmarks import build_speed, theory_speed


def main() -> None:
    theory_speed.main()
    print()
    build_speed.main()


if __name__ == "__main__":
    main()
