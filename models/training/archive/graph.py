"""Writes the graph folder of the model with OpenFst's own commands (Debian: libfst-tools, libfst-dev, g++)."""

import math
import struct
import subprocess
import tempfile
from pathlib import Path

from arcs import EPSILON, build_graph, word_numbers
from phones import GRAPH_ID_OF, GRAPH_PHONES, POSITIONS

HERE = Path(__file__).parent
# OpenFst names a table of symbols by the file it was read from. This is what it was called when 0.2 was made: with it
# the archive is the same to the last byte.
SYMBOLS_NAME = b"/tmp/tmp2ud_ib2r/words.txt"


def write_graph(lexicon, folder):
    """HCLr.fst, Gr.fst, words.txt, phones/word_boundary.int and disambig_tid.int in `folder`."""
    (folder / "phones").mkdir(parents=True)
    with tempfile.TemporaryDirectory() as name:
        numbers = _write_lookahead(build_graph(lexicon), word_numbers(lexicon), Path(name), folder / "HCLr.fst")
        _write_words(numbers, folder / "words.txt")
        _write_grammar(numbers, folder / "words.txt", Path(name), folder / "Gr.fst")
    _write_boundaries(folder / "phones" / "word_boundary.int")
    # Vosk wants the file; no label of ours is one of these.
    (folder / "disambig_tid.int").write_text("100000\n")


def _run(*command, **options):
    return subprocess.run([str(part) for part in command], check=True, **options)


def _write_lookahead(arcs, before, work, target):
    """The graph with the words numbered so that OpenFst can look ahead to them; gives word to number."""
    text, compiled, ordered, pairs = (work / name for name in ("graph.txt", "graph.fst", "ordered.fst", "pairs.txt"))
    lines = [f"{source} {to} {label} {word} {cost:.4f}" for source, to, label, word, cost in arcs]
    text.write_text("\n".join(lines) + "\n0 0\n")
    _run("fstcompile", text, compiled)
    _run("fstarcsort", "--sort_type=olabel", compiled, ordered)
    program = work / "lookahead"
    _run("g++", "-O1", "-std=c++17", "-o", program, HERE / "lookahead.cc", "-lfst", "-ldl")
    _run(program, ordered, target, pairs)
    after = dict(tuple(map(int, line.split())) for line in pairs.read_text().splitlines())
    return {word: after[number] for word, number in before.items() if word != EPSILON}


def _write_words(numbers, target):
    ordered = sorted(numbers.items(), key=lambda entry: entry[1])
    target.write_text("".join(f"{word} {number}\n" for word, number in [(EPSILON, 0), *ordered]))


def _write_grammar(numbers, words, work, target):
    """Any word after any word, each as likely. Vosk puts the app's phrases in its place and takes the symbols."""
    cost = math.log(len(numbers))
    text, compiled, ordered = (work / name for name in ("grammar.txt", "grammar.fst", "grammarOrdered.fst"))
    in_order = sorted(numbers.items(), key=lambda entry: entry[1])
    text.write_text("".join(f"0 0 {word} {word} {cost:.3f}\n" for word, _ in in_order) + "0 0\n")
    symbols = [f"--isymbols={words}", f"--osymbols={words}", "--keep_isymbols", "--keep_osymbols"]
    _run("fstcompile", *symbols, text, compiled)
    _run("fstarcsort", "--sort_type=ilabel", compiled, ordered)
    constant = work / "grammarConstant.fst"
    _run("fstconvert", "--fst_type=const", ordered, constant)
    target.write_bytes(constant.read_bytes().replace(_sized(str(words).encode()), _sized(SYMBOLS_NAME)))


def _sized(text):
    """A text as OpenFst writes it: its length first."""
    return struct.pack("<i", len(text)) + text


def _write_boundaries(target):
    lines = ["1 nonword"]
    for name in GRAPH_PHONES[2:]:
        lines.append(f"{GRAPH_ID_OF[name]} {POSITIONS[name[-1]]}")
    target.write_text("\n".join(lines) + "\n")
