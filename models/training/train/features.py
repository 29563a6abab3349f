"""The MFCC features that Kaldi computes with the model's `conf/mfcc.conf`, on many recordings at once."""

import math

import torch
from torch import nn

RATE_HZ = 16000
WINDOW = 400
STEP = 160
FFT = 512
BINS = 40
LOWEST_HZ, HIGHEST_HZ = 20.0, 7600.0
PREEMPHASIS = 0.97
LIFTER = 22
SMALLEST_ENERGY = 1.1920929e-07


def _mel(hertz):
    return 1127.0 * torch.log1p(torch.as_tensor(hertz, dtype=torch.float64) / 700.0)


def _povey_window():
    place = torch.arange(WINDOW, dtype=torch.float64)
    return (0.5 - 0.5 * torch.cos(2 * math.pi * place / (WINDOW - 1))) ** 0.85


def _mel_triangles():
    low, high = _mel(LOWEST_HZ), _mel(HIGHEST_HZ)
    width = (high - low) / (BINS + 1)
    of_bin = _mel(torch.arange(FFT // 2, dtype=torch.float64) * RATE_HZ / FFT)
    triangles = torch.zeros(BINS, FFT // 2 + 1, dtype=torch.float64)
    for number in range(BINS):
        left, centre, right = (low + (number + step) * width for step in range(3))
        rising, falling = (of_bin - left) / (centre - left), (right - of_bin) / (right - centre)
        triangles[number, : FFT // 2] = torch.clamp(torch.minimum(rising, falling), min=0)
    return triangles


def _lifted_cosines():
    order = torch.arange(BINS, dtype=torch.float64)
    cosines = math.sqrt(2.0 / BINS) * torch.cos(math.pi / BINS * (order[None] + 0.5) * order[:, None])
    cosines[0] = math.sqrt(1.0 / BINS)
    lift = 1 + 0.5 * LIFTER * torch.sin(math.pi * order / LIFTER)
    return cosines * lift[:, None]


class Mfcc(nn.Module):
    """Samples (batch, time) as 16-bit numbers in floats -> features (batch, frames of 10 ms, 40)."""

    def __init__(self):
        super().__init__()
        self.register_buffer("window", _povey_window().float())
        self.register_buffer("triangles", _mel_triangles().float())
        self.register_buffer("cosines", _lifted_cosines().float())

    def forward(self, samples):
        frames = samples.unfold(1, WINDOW, STEP)
        frames = frames - frames.mean(-1, keepdim=True)
        first, rest = frames[..., :1] * (1 - PREEMPHASIS), frames[..., 1:] - PREEMPHASIS * frames[..., :-1]
        power = torch.fft.rfft(torch.cat([first, rest], -1) * self.window, FFT).abs().pow(2)
        energies = torch.clamp(power @ self.triangles.T, min=SMALLEST_ENERGY)
        return torch.log(energies) @ self.cosines.T
