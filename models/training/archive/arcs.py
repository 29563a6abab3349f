"""The decoding graph before OpenFst: a tree of phones with the words at its ends, and a loop for unknown sounds."""

from phones import GRAPH_ID_OF, GRAPH_SILENCE, PHONES, place_in_word
from transitions import LOG_HALF, entering, staying

UNKNOWN = "[unk]"
EPSILON = "<eps>"
# Costs, natural logarithm: of a pause between words, and of each phone of an unknown sound.
PAUSE_COST = 0.3
UNKNOWN_PHONE_COST = 2.0


class Graph:
    """Arcs as (from, to, label in, word out, cost). State 0 is where words begin and end, state 1 the pause."""

    def __init__(self):
        self.arcs = []
        self.states = 2

    def new_state(self):
        self.states += 1
        return self.states - 1

    def empty(self, source, to, word=0):
        self.arcs.append((source, to, 0, word, 0.0))

    def enter(self, source, phone, to=None, cost=0.0):
        """An arc into a phone, where it may stay; gives the state."""
        state = self.new_state() if to is None else to
        self.arcs.append((source, state, entering(phone), 0, cost - LOG_HALF_SHORT))
        return state

    def stay(self, state, phone):
        self.arcs.append((state, state, staying(phone), 0, -LOG_HALF_SHORT))


# The graph's costs have four digits.
LOG_HALF_SHORT = round(LOG_HALF, 4)


def word_numbers(lexicon):
    """Word to number, before OpenFst numbers them anew."""
    return {word: number for number, word in enumerate([EPSILON, UNKNOWN, *lexicon])}


def build_graph(lexicon):
    """The arcs, ordered by the state they leave. The numbers of the states follow the order of the lexicon."""
    graph = Graph()
    numbers = word_numbers(lexicon)
    graph.enter(0, GRAPH_SILENCE, to=1, cost=PAUSE_COST)
    graph.stay(1, GRAPH_SILENCE)
    graph.empty(1, 0)
    _add_words(graph, lexicon, numbers)
    _add_unknown(graph, numbers[UNKNOWN])
    return sorted(graph.arcs, key=lambda arc: arc[0])


def _add_words(graph, lexicon, numbers):
    """Words that begin alike share their states as far as they do."""
    reached = {}
    for word, ways in lexicon.items():
        for way in ways:
            state = 0
            for index, phone in enumerate(way):
                step = (state, GRAPH_ID_OF[f"{phone}_{place_in_word(index, len(way))}"])
                if step not in reached:
                    reached[step] = graph.enter(*step)
                    graph.stay(reached[step], step[1])
                state = reached[step]
            graph.empty(state, 0, numbers[word])


def _add_unknown(graph, number):
    """Any phones at all, as one word."""
    first = graph.new_state()
    graph.empty(0, first, number)
    middle = graph.new_state()
    for phone in PHONES:
        for source, place, to in ((first, "S", 0), (first, "B", middle), (middle, "I", middle), (middle, "E", 0)):
            graph_phone = GRAPH_ID_OF[f"{phone}_{place}"]
            state = graph.enter(source, graph_phone, cost=UNKNOWN_PHONE_COST)
            graph.stay(state, graph_phone)
            graph.empty(state, to)
