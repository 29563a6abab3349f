"""Weights to begin from: those of a network of the same shape, or those of 0.1, which differs in three ways."""

import torch

from acoustic_network import BOTTLENECK, WIDTH


def load_start(network, path):
    """0.1 has a layer (`lda`) before the first one, less context to the left, and is otherwise the same."""
    weights = {name: value.float() for name, value in torch.load(path, map_location="cpu").items()}
    if "lda.weight" not in weights:
        network.load_state_dict(weights)
        return
    with torch.no_grad():
        _merge_first_layers(network, weights)
        for place in range(len(network.layers)):
            _copy_layer(network, place, weights)
        for name in ("pl.weight", "pa.weight", "pa.bias", "pb.running_mean", "pb.running_var", "out.weight", "out.bias"):
            network.state_dict()[name].copy_(weights[name])


def _merge_first_layers(network, weights):
    """Two layers without anything between them are one."""
    network.t1.weight.copy_(weights["t1.weight"] @ weights["lda.weight"])
    network.t1.bias.copy_(weights["t1.weight"] @ weights["lda.bias"] + weights["t1.bias"])
    network.b1.running_mean.copy_(weights["b1.running_mean"])
    network.b1.running_var.copy_(weights["b1.running_var"])


def _copy_layer(network, place, weights):
    own, old = network.lin[place].weight, weights[f"lin.{place}.weight"]
    frames, old_frames = own.shape[1] // WIDTH, old.shape[1] // WIDTH
    # A frame more to look at begins with what its neighbour had; one less drops the older.
    own.copy_(old[:, -WIDTH * frames :] if frames <= old_frames else torch.cat([old, old], 1)[:, : WIDTH * frames])
    own, old = network.aff[place].weight, weights[f"aff.{place}.weight"]
    frames, old_frames = own.shape[1] // BOTTLENECK, old.shape[1] // BOTTLENECK
    for frame in range(frames):
        source = min(frame, old_frames - 1) * BOTTLENECK
        part = old[:, source : source + BOTTLENECK] * (old_frames / frames)
        own[:, frame * BOTTLENECK : (frame + 1) * BOTTLENECK].copy_(part)
    network.aff[place].bias.copy_(weights[f"aff.{place}.bias"])
    network.bn[place].running_mean.copy_(weights[f"bn.{place}.running_mean"])
    network.bn[place].running_var.copy_(weights[f"bn.{place}.running_var"])
