"""`python -m shedbook` is the `shedbook` command."""

import sys

from shedbook.cli.main import main

sys.exit(main())
