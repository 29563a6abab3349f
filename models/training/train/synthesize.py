"""Says texts with blended voices. Use: synthesize.py KOKORO_FLOAT.onnx VOICES.npz TEXTS.json VOCAB.json OUT SECONDS SEED

VOICES.npz: each voice's first 130 style rows. Writes OUT_<number>.npy (16-bit samples, one recording after another) and
OUT_<number>.json (length and phones of each). Held-out voices are never drawn and never blended.
Needs onnxruntime-gpu, numpy, scipy; several at a time, each with a seed of its own.
"""

import json
import sys
import time
from random import Random

import numpy as np
from scipy.signal import resample_poly

from accents import with_accent
from held_out import held_out_voices
from texts import SHARES

SHARD = 400
LONGEST = 7 * 16000
MOST_TOKENS = 120
SPEEDS = (0.7, 0.8, 0.9, 1, 1, 1.1, 1.2, 1.35)
ENDS, END_SHARES = (".", "", "!", "?", ","), (70, 8, 10, 6, 6)


def trimmed(speech):
    """24 kHz floats -> 16 kHz, 16 bits, without silence around; None where nothing was said."""
    speech = resample_poly(speech, 2, 3).astype(np.float32)
    loudest = np.abs(speech).max()
    if not np.isfinite(loudest) or loudest < 1e-4:
        return None
    (loud,) = np.where(np.abs(speech) > 0.01 * loudest)
    if len(loud) < 1600:
        return None
    speech = speech[max(0, loud[0] - 400) : loud[-1] + 800]
    return (speech / np.abs(speech).max() * 20000).astype(np.int16)


class Voices:
    """Styles to speak with: three in ten one voice, four a blend of two, three with the rhythm of two others."""

    def __init__(self, path, random):
        stored = np.load(path)
        held = set(held_out_voices())
        self.styles = {name: stored[name].astype(np.float32) for name in stored.files if name not in held}
        self.random = random
        names = sorted(self.styles)
        self.english = [name for name in names if name[0] in "ab"]
        self.others = [name for name in names if name[0] not in "ab"]

    def _any(self):
        return self.random.choice(self.english if self.random.random() < 0.62 else self.others)

    def _blend(self, least, most):
        share = self.random.uniform(least, most)
        return self.styles[self._any()] * share + self.styles[self._any()] * (1 - share)

    def draw(self):
        """(style rows, 0 for American and 1 for British sounds, whether an accent is likelier)"""
        kind = self.random.random()
        if kind < 0.3:
            name = self._any()
            return self.styles[name], int(name[0] == "b"), name[0] not in "ab"
        style = self._blend(-0.15, 1.15)
        if kind > 0.7:
            style = np.concatenate([style[:, :128], self._blend(0, 1)[:, 128:]], 1)
        return style, self.random.randrange(2), False


def main(model, voices, texts, vocab, out, seconds, seed):
    import onnxruntime

    random = Random(int(seed))
    session = onnxruntime.InferenceSession(model, providers=["CUDAExecutionProvider", "CPUExecutionProvider"])
    tokens_of = json.load(open(vocab, encoding="utf-8"))["vocab"]
    made = json.load(open(texts, encoding="utf-8"))
    speakers = Voices(voices, random)
    recordings, rows, shard, end = [], [], 0, time.monotonic() + float(seconds)
    while time.monotonic() < end:
        kind = random.choices(list(SHARES), list(SHARES.values()))[0]
        text = made["texts"][random.choice(made["kinds"][kind])]
        style, english, is_foreign = speakers.draw()
        if random.random() < 0.08:
            english = random.randrange(len(text["sounds"]))
        sounds = text["sounds"][english]
        if random.random() < (0.2 if is_foreign else 0.1):
            sounds = with_accent(sounds, random)
        sounds += random.choices(ENDS, END_SHARES)[0]
        tokens = [tokens_of[sign] for sign in sounds if sign in tokens_of][:MOST_TOKENS]
        fed = {
            "tokens": np.array([[0, *tokens, 0]], dtype=np.int64),
            "style": style[len(tokens)][None],
            "speed": np.array([random.choice(SPEEDS)], dtype=np.float32),
        }
        speech = trimmed(session.run(None, fed)[0].reshape(-1))
        if speech is None or len(speech) > LONGEST:
            continue
        recordings.append(speech)
        rows.append({"samples": len(speech), "phones": text["phones"], "kind": "phrase" if kind == "phrase" else "other"})
        if len(rows) == SHARD:
            _keep(f"{out}_{seed}_{shard}", recordings, rows)
            recordings, rows, shard = [], [], shard + 1
    if rows:
        _keep(f"{out}_{seed}_{shard}", recordings, rows)


def _keep(name, recordings, rows):
    np.save(f"{name}.npy", np.concatenate(recordings))
    with open(f"{name}.json", "w", encoding="utf-8") as file:
        json.dump(rows, file)


if __name__ == "__main__":
    main(*sys.argv[1:])
