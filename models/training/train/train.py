"""Trains the network. Use: train.py OUT.pt --start WEIGHTS.pt --sound 'syn_*.json' people.json --seconds N [options]

A run is limited by time and draws at random: a second one gives a slightly different model.
"""

import argparse
import math
import time

import numpy as np
import torch

from acoustic_network import AcousticNetwork
from corpus import Corpus
from features import Mfcc
from mixing import Mixer, Variety
from phones_path import SILENCE
from sequence_loss import sequence_loss
from start_weights import load_start

WARM_UP_STEPS = 400
LONGEST_GRADIENT = 4.0
# A recording in which nobody speaks weighs as much as one of ten labels.
NOBODY_LABELS = 10
MOST_MEMORY = 0.999


def arguments():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("out")
    parser.add_argument("--start", required=True)
    parser.add_argument("--sound", nargs="+", required=True, help="JSON files of synthesize.py and pack_people.py")
    parser.add_argument("--seconds", type=float, required=True)
    parser.add_argument("--device", default="cuda:0")
    parser.add_argument("--batch", type=int, default=160)
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--silence-weight", type=float, default=0.3)
    parser.add_argument("--echo-far", type=float, default=0.8)
    parser.add_argument("--nobody", type=float, default=0.06)
    parser.add_argument("--whisper", type=float, default=0.04)
    parser.add_argument("--long-pauses", action="store_true")
    return parser.parse_args()


def rate_at(share, step, highest):
    """Up in 400 steps, then down along a cosine to a hundredth."""
    return highest * min(1, (step + 1) / WARM_UP_STEPS) * (0.99 * 0.5 * (1 + math.cos(math.pi * share)) + 0.01)


def losses(log_probabilities, batch):
    """(loss for each phone, loss of silence where nobody speaks near)"""
    found = sequence_loss(log_probabilities, batch.frames, batch.labels, batch.label_count)
    counts = batch.fits & (batch.frames > batch.label_count)
    labels = torch.where(batch.label_count == 1, NOBODY_LABELS, batch.label_count)
    phones = (torch.where(counts, found, torch.zeros_like(found)) / labels).sum() / counts.sum().clamp(min=1)
    time_ = torch.arange(log_probabilities.shape[1], device=found.device)[None]
    silent = batch.silent[:, : log_probabilities.shape[1]] * (time_ < batch.frames[:, None])
    silence = -(log_probabilities[:, :, SILENCE] * silent).sum() / silent.sum().clamp(min=1)
    return phones, silence


class Averaged:
    """The running mean of the weights, which is what is kept."""

    def __init__(self, network):
        self.mean = {name: value.detach().clone() for name, value in network.state_dict().items()}

    def follow(self, network, step):
        share = 1 - min(MOST_MEMORY, (1 + step) / (10 + step))
        for name, value in network.state_dict().items():
            self.mean[name].lerp_(value, share) if value.is_floating_point() else self.mean[name].copy_(value)

    def save(self, path):
        halves = {name: value.half() if value.is_floating_point() else value for name, value in self.mean.items()}
        torch.save({name: value.cpu() for name, value in halves.items()}, path)


def main():
    given = arguments()
    torch.manual_seed(given.seed)
    corpus = Corpus(given.sound, given.device, np.random.default_rng(given.seed))
    mixer = Mixer(corpus, Variety(given.echo_far, given.nobody, given.whisper, given.long_pauses))
    network, features = AcousticNetwork(), Mfcc().to(given.device)
    load_start(network, given.start)
    network.to(given.device).train()
    optimizer = torch.optim.AdamW(network.parameters(), lr=given.rate, weight_decay=1e-3)
    averaged, step, begun = Averaged(network), 0, time.monotonic()
    kind = torch.device(given.device).type
    while (spent := time.monotonic() - begun) < given.seconds:
        for group in optimizer.param_groups:
            group["lr"] = rate_at(spent / given.seconds, step, given.rate)
        with torch.no_grad():
            batch = mixer.batch(corpus.draw(given.batch))
            seen = features(batch.sound)
        with torch.autocast(kind, dtype=torch.bfloat16, enabled=kind == "cuda"):
            log_probabilities = network(seen)
        phones, silence = losses(log_probabilities.float(), batch)
        optimizer.zero_grad(set_to_none=True)
        (phones + given.silence_weight * silence).backward()
        torch.nn.utils.clip_grad_norm_(network.parameters(), LONGEST_GRADIENT)
        if not math.isfinite(float(phones.detach())):
            raise SystemExit(f"the loss is no number after {step} steps; begin again with a lower --rate")
        optimizer.step()
        with torch.no_grad():
            averaged.follow(network, step)
        if step % 500 == 0:
            print(f"{step} steps, {spent:.0f} s, loss {float(phones):.3f} a phone, silence {float(silence):.3f}", flush=True)
            averaged.save(given.out)
        step += 1
    averaged.save(given.out)
    print(f"{step} steps")


if __name__ == "__main__":
    main()
