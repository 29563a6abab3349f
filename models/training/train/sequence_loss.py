"""The loss: how unlikely the network finds the phones that were said, over all ways of laying them in time.

Each phone is entered in one frame, with its own output, and stays with blank; silence stays with its own output, and
silence between words may be left out. The graph of the model is built the same way (`archive/transitions.py`).
"""

import torch
from phones_path import BLANK, SILENCE

IMPOSSIBLE = -1e4


def sequence_loss(log_probabilities, frames, labels, lengths):
    """Negative log likelihood of each recording of a batch.

    log_probabilities (batch, time, outputs); frames (batch,) how many count; labels (batch, most labels) with silence
    first, last and between words; lengths (batch,) how many labels count. Runs anywhere, one step of time after another.
    """
    batch, time, _ = log_probabilities.shape
    states = labels.shape[1]
    entering = log_probabilities.gather(2, labels[:, None, :].expand(batch, time, states))
    is_silence = labels == SILENCE
    silence, blank = (log_probabilities[:, :, output : output + 1] for output in (SILENCE, BLANK))
    staying = torch.where(is_silence[:, None, :], silence, blank)
    may_skip = _over_silence(is_silence, lengths)

    def shifted(values, by):
        gap = torch.full((batch, by), IMPOSSIBLE, device=values.device)
        return torch.cat([gap, values[:, :-by]], 1)

    now = torch.full((batch, states), IMPOSSIBLE, device=log_probabilities.device)
    now = torch.cat([entering[:, 0, :1], now[:, 1:]], 1)
    history = [now]
    for frame in range(1, time):
        skipping = shifted(now, 2).masked_fill(~may_skip, IMPOSSIBLE)
        advanced = torch.logaddexp(shifted(now, 1), skipping) + entering[:, frame]
        now = torch.logaddexp(now + staying[:, frame], advanced)
        history.append(now)
    ends = torch.stack(history, 1).gather(1, (frames - 1)[:, None, None].expand(batch, 1, states))[:, 0]
    return -ends.gather(1, (lengths - 1)[:, None])[:, 0]


def _over_silence(is_silence, lengths):
    """States that may be entered from the one before the last, since a silence between words lies between."""
    inner = is_silence.clone()
    inner[:, 0] = False
    inner.scatter_(1, (lengths - 1)[:, None], False)
    none = torch.zeros(len(inner), 2, dtype=torch.bool, device=inner.device)
    return torch.cat([none, inner[:, 1:-1]], 1)
