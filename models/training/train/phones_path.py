"""Makes the phones of the archive's build known here: training and graph must count them alike."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "archive"))

from phones import BLANK, OUTPUT_OF, OUTPUTS, PHONES, SILENCE  # noqa: E402, F401
