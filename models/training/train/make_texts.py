"""Use: make_texts.py PHRASES.json LEXICON.txt SPEECHOCEAN_DIR OUT.json

OUT holds each text with its phones and its sounds (IPA) in two to four kinds of English, and the texts of each kind.
Needs espeak-ng; its code and data are not shipped.
"""

import json
import subprocess
import sys
from pathlib import Path
from random import Random

from pronounce import say
from texts import make_texts

SEED = 11
ACCENTS = ("en-us", "en-gb")
# Only for what has phrases in it: synthesis takes long.
MORE_ACCENTS = ("en-gb-scotland", "en-gb-x-rp")
# espeak-ng's signs that Kokoro's voices were not trained with.
KOKORO_SIGNS = str.maketrans({"ʲ": "j", "r": "ɹ", "x": "k", "ɬ": "l", "ɚ": "əɹ", "ɐ": "ə", "ᵻ": "ɪ"})
AT_ONCE = 2000


def sounds(texts, accent):
    """Text to IPA. Raises ValueError where espeak-ng makes more or fewer lines than it was given."""
    spoken = {}
    for start in range(0, len(texts), AT_ONCE):
        part = texts[start : start + AT_ONCE]
        command = ["espeak-ng", "-q", "--ipa", "-v", accent]
        said = subprocess.run(
            command, input="\n\n".join(f"{text}." for text in part), text=True, capture_output=True, check=True
        )
        lines = [line.strip() for line in said.stdout.splitlines() if line.strip()]
        if len(lines) != len(part):
            raise ValueError(f"{accent}: {len(lines)} lines for {len(part)} texts")
        spoken.update(zip(part, (line.translate(KOKORO_SIGNS) for line in lines)))
    return spoken


def sentences_of(folder):
    for half in ("train", "test"):
        for line in (Path(folder) / half / "text").read_text(encoding="utf-8").splitlines():
            yield " ".join(line.split()[1:]).lower()


def main(phrases_file, lexicon_file, speechocean, out):
    book = json.loads(Path(phrases_file).read_text(encoding="utf-8"))["phrases"]
    phrases = sorted({phrase for wordings in book.values() for phrase in wordings})
    lines = Path(lexicon_file).read_text(encoding="utf-8").splitlines()
    words = [line.split("\t")[0] for line in lines if line and not line.startswith("#")]
    kinds = make_texts(phrases, words, set(sentences_of(speechocean)), Random(SEED))
    every = sorted({text for texts in kinds.values() for text in texts})
    near = sorted({text for kind in ("phrase", "near", "words", "clinic") for text in kinds[kind]})
    spoken = [sounds(every, accent) for accent in ACCENTS] + [sounds(near, accent) for accent in MORE_ACCENTS]
    texts = [
        {"text": text, "sounds": [table[text] for table in spoken if text in table], "phones": say(text)}
        for text in every
    ]
    place = {text: number for number, text in enumerate(every)}
    places = {kind: [place[text] for text in chosen] for kind, chosen in kinds.items()}
    Path(out).write_text(json.dumps({"texts": texts, "kinds": places}), encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:])
