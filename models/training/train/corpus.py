"""All recordings in the memory of the graphics card, and how often each kind of them is drawn."""

import glob
import json

import numpy as np
import torch

from phones_path import OUTPUT_OF, SILENCE

RATE_HZ = 16000
LONGEST = int(6.5 * RATE_HZ)
SHORT = int(2.5 * RATE_HZ)
SHARES = {
    "phrase": 0.36,
    "other": 0.36,
    "speechocean": 0.15,
    "command": 0.06,
    "otherWord": 0.015,
    "wakeWord": 0.025,
    "precise": 0.004,
}


def labels_of(words):
    """Outputs of the network in order: silence first, last and between words."""
    return [SILENCE] + [label for word in words for label in [OUTPUT_OF[phone] for phone in word] + [SILENCE]]


class Corpus:
    """`samples` holds everything; `start`, `length`, `labels` and `label_count` have one row for each spoken recording."""

    def __init__(self, patterns, device, random):
        sounds, spoken, noise, place = [], [], [], 0
        for file in sorted(name for pattern in patterns for name in glob.glob(pattern)):
            if file.endswith("_held.json"):
                continue
            rows = json.load(open(file, encoding="utf-8"))
            sounds.append(np.load(f"{file[: -len('.json')]}.npy"))
            for row in rows:
                kind = row.get("source") or row["kind"]
                if kind == "noise":
                    noise.append((place, row["samples"]))
                elif kind in SHARES and row["samples"] < LONGEST:
                    spoken.append((place, row["samples"], labels_of(row["phones"]), kind))
                place += row["samples"]
        self.random = random
        self.samples = torch.from_numpy(np.concatenate(sounds)).to(device)
        self.start, self.length = (np.array([row[part] for row in spoken]) for part in (0, 1))
        self.label_count = np.array([len(row[2]) for row in spoken])
        table = np.zeros((len(spoken), self.label_count.max()), dtype=np.int64)
        for number, row in enumerate(spoken):
            table[number, : len(row[2])] = row[2]
        self.labels = torch.from_numpy(table).to(device)
        self.noise = np.array(noise or [(0, 1)])
        self.has_noise = bool(noise)
        self.short = np.where(self.length < SHORT)[0]
        kinds = np.array([row[3] for row in spoken])
        weights = sum(share * (kinds == kind) / max(1, (kinds == kind).sum()) for kind, share in SHARES.items())
        self.cumulated = np.cumsum(weights / weights.sum())

    def draw(self, count):
        """Rows of about one length: of four times as many, ordered by length, one quarter."""
        drawn = np.searchsorted(self.cumulated, self.random.random(4 * count)).clip(0, len(self.length) - 1)
        ordered = drawn[np.argsort(self.length[drawn])]
        quarter = self.random.integers(4)
        return ordered[quarter * count : (quarter + 1) * count]
