"""Who is never trained on: voices by name, and of the sets of people those that a sum of their names leaves out."""

import hashlib
from pathlib import Path

DATA = Path(__file__).resolve().parents[1] / "data"
TRAINED_SHARE = 60


def held_out_voices():
    return (DATA / "held_out_voices.txt").read_text(encoding="utf-8").split()


def is_trained_on(name):
    """60 of 100 names, always the same ones: a speaker, or a file where the speaker is not known."""
    return int(hashlib.md5(name.encode()).hexdigest(), 16) % 100 < TRAINED_SHARE


def is_held_test_speaker(speaker, test_speakers):
    """Every sixth of the test speakers of speechocean762; all others are trained on."""
    return speaker in set(sorted(test_speakers)[::6])
