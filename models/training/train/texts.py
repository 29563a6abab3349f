"""What is said in the synthetic speech, by kind. Pure: everything random comes from the generator that is passed in."""

from held_out import DATA
from pronounce import say

# Longer ones make recordings longer than the network is trained on.
MOST_LETTERS = 69
# How often each kind is drawn.
SHARES = {"phrase": 40, "words": 16, "near": 13, "talk": 13, "clinic": 3, "lexicon": 15}


def _lines(name):
    return (DATA / name).read_text(encoding="utf-8").splitlines()


def near_miss(phrases, words, fillers, random):
    """A phrase with a word changed, a piece of one with other words, or a whole one in the middle of talk."""
    spoken = random.choice(phrases).split()
    draw = random.random()
    if draw < 0.45:
        other = random.choice(phrases).split() if draw < 0.3 else words
        spoken[random.randrange(len(spoken))] = random.choice(other)
        return " ".join(spoken)
    before, after = random.choice(fillers), random.choice(fillers)
    if draw < 0.6:
        return f"{random.choice((spoken[0], spoken[-1]))} {after}"
    if draw < 0.7:
        return f"{before} {random.choice(spoken)}"
    whole = " ".join(spoken)
    if draw < 0.8:
        return f"{before} {whole}"
    return f"{whole} {after}" if draw < 0.9 else f"{before} {whole} {after}"


def make_texts(phrases, words, sentences, random):
    """Kind to texts that can be said. `sentences`: those of speechocean762."""
    fillers, clinic = _lines("fillers.txt"), _lines("clinic_sentences.txt")
    of_phrases = sorted({word for phrase in phrases for word in phrase.split()})

    def some(source, counts):
        return " ".join(random.choice(source) for _ in range(random.choice(counts)))

    kinds = {
        "phrase": phrases,
        "words": {some(of_phrases, (1, 2, 2, 3, 3, 4, 5, 6)) for _ in range(9000)},
        "near": {near_miss(phrases, words, fillers, random) for _ in range(9000)},
        "talk": {*sentences, *clinic}
        | {f"{random.choice(fillers)} {some(words, (1, 2, 3))} {random.choice(fillers)}" for _ in range(3000)},
        "clinic": clinic,
        "lexicon": {some(words, (1, 1, 2, 2, 3, 4)) for _ in range(14000)},
    }
    return {
        kind: [text for text in sorted(texts) if len(text) <= MOST_LETTERS and say(text)]
        for kind, texts in kinds.items()
    }
