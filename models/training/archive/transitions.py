"""Kaldi's transition model: each phone of the graph is entered once and may then stay in a second state.

Entering reads the phone's own output of the network, staying reads blank; silence reads its own output in both.
Source: Kaldi's src/hmm/hmm-topology.cc and transition-model.cc (Write, binary).
"""

from kaldi_binary import float32, int32, int_vector, token, vector
from phones import BLANK, GRAPH_PHONES, GRAPH_SILENCE, SILENCE, output_of_graph_phone

# Natural logarithm of one half, as the graph and the transition model write it.
LOG_HALF = -0.6931472


def write_transition_model():
    ids = list(range(1, len(GRAPH_PHONES)))
    tuples = b"".join(
        int32(value)
        for phone in ids
        for value in (phone, 0, output_of_graph_phone(phone), SILENCE if phone == GRAPH_SILENCE else BLANK)
    )
    return (
        token("<TransitionModel>")
        + _topology(ids)
        + token("<Tuples>") + int32(len(ids)) + tuples + token("</Tuples>")
        + token("<LogProbs>") + vector([0.0] + [LOG_HALF] * (2 * len(ids))) + token("</LogProbs>")
        + token("</TransitionModel>")
    )


def _topology(ids):
    """One topology for all phones: state 0 loops or leaves, each with one half; state 1 ends."""
    one_for_all = [-1] + [0] * len(ids)
    state_0 = int32(0) + int32(1) + int32(2) + int32(0) + float32(0.5) + int32(1) + float32(0.5)
    state_1 = int32(-1) + int32(-1) + int32(0)
    return (
        token("<Topology>")
        + int_vector(ids)
        + int_vector(one_for_all)
        # With an own output for staying; then how many topologies there are, and how many states this one has.
        + int32(-1) + int32(1) + int32(2)
        + state_0
        + state_1
        + token("</Topology>")
    )


def entering(phone):
    """Label of the arc that enters a phone of the graph."""
    return 2 * (phone - 1) + 2


def staying(phone):
    """Label of the arc that stays in it."""
    return 2 * (phone - 1) + 1
