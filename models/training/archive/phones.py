"""The phones of CMUdict, and the numbers that network and graph know them by."""

PHONES = (
    "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH"
).split()

# Outputs of the network: blank, silence, then one for each phone.
BLANK = 0
SILENCE = 1
OUTPUT_OF = {phone: place + 2 for place, phone in enumerate(PHONES)}
OUTPUTS = len(PHONES) + 2

# In the graph a phone is another one at the beginning, inside, at the end and alone in a word.
POSITIONS = {"B": "begin", "I": "internal", "E": "end", "S": "singleton"}
GRAPH_PHONES = ["<eps>", "SIL"] + [f"{phone}_{place}" for phone in PHONES for place in "BIES"]
GRAPH_ID_OF = {name: number for number, name in enumerate(GRAPH_PHONES)}
GRAPH_SILENCE = GRAPH_ID_OF["SIL"]


def output_of_graph_phone(graph_id):
    """The network's output for a phone of the graph, whatever its place in the word."""
    if graph_id == GRAPH_SILENCE:
        return SILENCE
    return OUTPUT_OF[GRAPH_PHONES[graph_id].split("_")[0]]


def place_in_word(index, length):
    """B, I, E or S for the phone at `index` of a word of `length` phones."""
    if length == 1:
        return "S"
    if index == 0:
        return "B"
    return "E" if index == length - 1 else "I"
