"""Averages the weights of two stages. Use: average.py FIRST.pt SECOND.pt SHARE_OF_SECOND OUT.pt"""

import sys

import torch


def average(first, second, share):
    """Floats are averaged and stored as halves; counters are taken from the first."""
    return {
        name: (value.float() * (1 - share) + second[name].float() * share).half()
        if value.is_floating_point()
        else value
        for name, value in first.items()
    }


if __name__ == "__main__":
    one, two = (torch.load(path, map_location="cpu") for path in sys.argv[1:3])
    torch.save(average(one, two, float(sys.argv[3])), sys.argv[4])
