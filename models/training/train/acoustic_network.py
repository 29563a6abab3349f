"""The network in torch. Its names of weights are those that `archive/network.py` writes for Kaldi."""

import sys
from pathlib import Path

import torch
import torch.nn.functional as F
from torch import nn

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "archive"))
from components import EPSILON  # noqa: E402
from layers import (  # noqa: E402
    AFTER_SUBSAMPLING,
    BEFORE_SUBSAMPLING,
    BOTTLENECK,
    BYPASS,
    FEATURES,
    SUBSAMPLING,
    WIDTH,
    context,
)
from phones import OUTPUTS  # noqa: E402

DROPOUT = 0.05


def _norm():
    return nn.BatchNorm1d(WIDTH, eps=EPSILON, affine=False)


def _over_time(norm, values):
    """Batch norm over all frames of all recordings."""
    return norm(values.flatten(0, 1)).view_as(values)


class AcousticNetwork(nn.Module):
    """Features (batch, frames of 10 ms, 40) -> log probabilities (batch, frames of 30 ms, outputs)."""

    def __init__(self):
        super().__init__()
        self.layers = BEFORE_SUBSAMPLING + AFTER_SUBSAMPLING
        self.t1, self.b1 = nn.Linear(3 * FEATURES, WIDTH), _norm()
        self.lin, self.aff, self.bn = nn.ModuleList(), nn.ModuleList(), nn.ModuleList()
        for left, right in self.layers:
            self.lin.append(nn.Linear(WIDTH * (2 if left else 1), BOTTLENECK, bias=False))
            self.aff.append(nn.Linear(BOTTLENECK * (2 if right else 1), WIDTH))
            self.bn.append(_norm())
        self.pl, self.pa, self.pb = nn.Linear(WIDTH, BOTTLENECK, bias=False), nn.Linear(BOTTLENECK, WIDTH), _norm()
        self.out = nn.Linear(WIDTH, OUTPUTS)

    def forward(self, features):
        left, right = context()
        first, last = features[:, :1].expand(-1, left, -1), features[:, -1:].expand(-1, right, -1)
        padded = torch.cat([first, features, last], 1)
        around = torch.cat([padded[:, :-2], padded[:, 1:-1], padded[:, 2:]], -1)
        hidden = _over_time(self.b1, F.relu(self.t1(around)))
        for place, offsets in enumerate(self.layers):
            if place == len(BEFORE_SUBSAMPLING):
                hidden = hidden[:, ::SUBSAMPLING]
            hidden = self._factored(place, offsets, hidden)
        hidden = _over_time(self.pb, F.relu(self.pa(self.pl(hidden))))
        return F.log_softmax(self.out(hidden).float(), -1)

    def _factored(self, place, offsets, hidden):
        left, right = offsets
        narrow = self.lin[place](torch.cat([hidden[:, :-left], hidden[:, left:]], -1) if left else hidden)
        wide = self.aff[place](torch.cat([narrow[:, :-right], narrow[:, right:]], -1) if right else narrow)
        around = hidden[:, left : hidden.shape[1] - right]
        normed = _over_time(self.bn[place], F.relu(wide))
        return BYPASS * around + F.dropout(normed, DROPOUT, self.training)
