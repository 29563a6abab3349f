"""Packs recordings of people into one array. Use: pack_people.py SPEECHOCEAN COMMANDS WAKE_WORDS PRECISE OUT

Writes OUT.npy (16-bit samples), OUT.json (length, phones, source of each) and OUT_held.json: what must not be trained on.
The four folders are as their sources unpack; see README.md for where they come from. Needs numpy and soundfile.
"""

import csv
import json
import re
import sys
from pathlib import Path

import numpy as np
import soundfile

from held_out import is_held_test_speaker, is_trained_on
from pronounce import say

RATE_HZ = 16000
SHORTEST, LONGEST = 6000, 7 * RATE_HZ
COMMANDS = "yes no stop go on off left right up down".split()
# Folder or file name's beginning to what is said.
WAKE_WORDS = {
    "alexa": "alexa",
    "computer": "computer",
    "jarvis": "jarvis",
    "snowboy": "snowboy",
    "smart": "smart mirror",
    "view": "view glass",
}
# In the set's own files the noise is cut into pieces of this length.
NOISE_PIECE = 6 * RATE_HZ


class Pack:
    def __init__(self):
        self.sounds, self.rows, self.held = [], [], []

    def add(self, path, source, phones):
        sound = _read(path)
        if sound is not None and SHORTEST <= len(sound) <= LONGEST:
            self._keep(sound, source, phones)

    def add_noise(self, path):
        sound = _read(path)
        for start in range(0, 0 if sound is None else len(sound) - RATE_HZ // 2, NOISE_PIECE):
            self._keep(sound[start : start + NOISE_PIECE], "noise", None)

    def _keep(self, sound, source, phones):
        self.sounds.append(sound)
        self.rows.append({"samples": len(sound), "phones": phones, "source": source})

    def hold(self, path, text):
        self.held.append([str(path), text])


def _read(path):
    """Mono at 16 kHz, or None: some files of these sets are damaged or have another rate."""
    try:
        sound, rate = soundfile.read(path, dtype="int16")
    except soundfile.LibsndfileError:
        return None
    return None if rate != RATE_HZ else sound if sound.ndim == 1 else sound[:, 0]


def add_speechocean(pack, folder):
    lexicon = {}
    for line in (folder / "resource" / "lexicon.txt").read_text(encoding="utf-8").splitlines():
        word, *phones = line.split()
        lexicon.setdefault(word, [re.sub(r"\d", "", phone) for phone in phones])
    halves = {half: _speechocean_half(folder / half) for half in ("train", "test")}
    test_speakers = {speaker for speaker, _, _ in halves["test"]}
    for half, rows in halves.items():
        for speaker, sound, words in rows:
            if not all(word in lexicon for word in words):
                continue
            if half == "test" and is_held_test_speaker(speaker, test_speakers):
                pack.hold(folder / sound, " ".join(words))
            else:
                pack.add(folder / sound, "speechocean", [lexicon[word] for word in words])


def _speechocean_half(folder):
    def table(name):
        return dict(line.split(None, 1) for line in (folder / name).read_text(encoding="utf-8").splitlines())

    speakers, sounds, texts = table("utt2spk"), table("wav.scp"), table("text")
    return [(speakers[each].strip(), sounds[each].strip(), texts[each].split()) for each in texts]


def add_commands(pack, folder):
    for word in COMMANDS:
        for path in sorted((folder / word).glob("*.wav")):
            if is_trained_on(path.name.split("_")[0]):
                pack.add(path, "command", say(word))
            else:
                pack.hold(path, word)
    for path in sorted((folder / "_unknown_").glob("*.wav")):
        word, speaker = path.stem.split("_")[:2]
        phones = say(word)
        if phones and is_trained_on(speaker):
            pack.add(path, "otherWord", phones)
    for path in sorted((folder / "_silence_").glob("*.wav")):
        if int(re.sub(r"\D", "", path.name)) % 10 < 6:
            pack.add_noise(path)


def add_wake_words(pack, folder):
    for beginning, text in WAKE_WORDS.items():
        for path in sorted(folder.glob(f"{beginning}*/*.wav")):
            if is_trained_on(path.name):
                pack.add(path, "wakeWord", say(text))
            else:
                pack.hold(path, text)


def add_precise(pack, folder):
    """Only what the donors' public-domain dedications list; of `amelia` no wording is stated: background talk."""
    for path in sorted((folder / "computer" / "en").glob("*.wav")):
        pack.add(path, "precise", say("computer"))
    for path in sorted((folder / "amelia" / "en").glob("*.wav")):
        pack.add(path, "background", None)
    other = folder / "not-wake-words" / "en"
    with open(other / "metadata.csv", encoding="utf-8", newline="") as rows:
        for name, text, *_ in csv.reader(rows):
            phones = say(text.strip().lower())
            if phones:
                pack.add(other / name, "precise", phones)
    for path in sorted((folder / "noise").glob("*.wav")):
        pack.add_noise(path)


def main(*arguments):
    *folders, out = arguments
    pack = Pack()
    for add, folder in zip((add_speechocean, add_commands, add_wake_words, add_precise), folders, strict=True):
        add(pack, Path(folder))
    np.save(f"{out}.npy", np.concatenate(pack.sounds))
    for name, content in ((f"{out}.json", pack.rows), (f"{out}_held.json", pack.held)):
        Path(name).write_text(json.dumps(content), encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:])
