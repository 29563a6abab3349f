"""Reads the words that the model knows, with their pronunciations."""

from phones import PHONES


def read_lexicon(path):
    """Word to its ways of saying it (lists of phones), words in their order of the graph.

    The order of the ways of one word decides the numbers of the graph's states: it is kept as it is in the file.
    Raises ValueError on a phone that is none, a word without a way to say it, and a word that stands twice.
    """
    known = set(PHONES)
    lexicon = {}
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            if line.startswith("#"):
                continue
            word, *ways = line.rstrip("\n").split("\t")
            if word in lexicon:
                raise ValueError(f"{word!r} stands twice in {path}")
            spoken = [way.split() for way in ways]
            foreign = {phone for way in spoken for phone in way} - known
            if not spoken or foreign or any(not way for way in spoken):
                raise ValueError(f"{word!r} cannot be said: {sorted(foreign)}")
            lexicon[word] = spoken
    return dict(sorted(lexicon.items()))
