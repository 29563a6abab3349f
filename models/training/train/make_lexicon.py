"""Writes the words of a new model and how they are said, for `build_archive.py --lexicon`.

Use: make_lexicon.py OLD_LEXICON.txt OUT.txt [ADDED_WORDS.txt]
Every word of the old lexicon stays, so that no phrase of a site loses one; words of the list that CMUdict and our own
pronunciations do not have are left out. A word that stands in the old lexicon keeps its ways and their order.
"""

import sys

from held_out import DATA
from pronounce import ways_to_say


def make_lexicon(old_lines, added):
    lexicon = {}
    for line in old_lines:
        if line and not line.startswith("#"):
            word, *ways = line.split("\t")
            lexicon[word] = ways
    for word in added:
        ways = [" ".join(way) for way in ways_to_say(word)]
        if ways:
            lexicon.setdefault(word, ways)
    return lexicon


if __name__ == "__main__":
    old, out, *more = sys.argv[1:]
    words = open(more[0] if more else DATA / "added_words.txt", encoding="utf-8").read().split()
    lexicon = make_lexicon(open(old, encoding="utf-8").read().splitlines(), words)
    with open(out, "w", encoding="utf-8") as lines:
        for word, ways in sorted(lexicon.items()):
            lines.write("\t".join([word, *ways]) + "\n")
