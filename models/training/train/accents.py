"""Sounds that speakers of other languages put in the place of English ones (IPA); a simplification, no source."""

SWAPS = {
    "indian": [("θ", "t"), ("ð", "d"), ("w", "v")],
    "french": [("θ", "s"), ("ð", "z"), ("h", ""), ("ɪ", "i"), ("ʌ", "a")],
    "spanish": [("z", "s"), ("v", "b"), ("ɪ", "i"), ("ð", "d"), ("θ", "t"), ("ʌ", "a"), ("æ", "a")],
    "german": [("θ", "s"), ("ð", "z"), ("w", "v"), ("æ", "ɛ")],
    "chinese": [("θ", "s"), ("ð", "d"), ("v", "w"), ("ɪ", "i")],
    "japanese": [("l", "ɹ"), ("θ", "s"), ("v", "b"), ("æ", "a"), ("ʌ", "a")],
    "italian": [("h", ""), ("ɪ", "i"), ("θ", "t"), ("ð", "d"), ("æ", "ɛ"), ("ʌ", "a")],
}
# Nobody swaps every sound.
SHARE = 0.7


def with_accent(sounds, random):
    """The sounds of a text as one accent, drawn by lot, may have them."""
    for english, other in SWAPS[random.choice(sorted(SWAPS))]:
        if random.random() < SHARE:
            sounds = sounds.replace(english, other)
    return sounds
