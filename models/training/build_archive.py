#!/usr/bin/env python3
"""Builds the model archive from its weights, the same bytes each time.

Use: python3 build_archive.py OUT.tar.gz [--weights am-0.2.pt] [--lexicon lexicon.en.txt]

The name of the archive without `.tar.gz` is the name of its one top folder. Needs Python 3.9 or later without any
package, and g++, libfst-dev, libfst-tools (OpenFst 1.7.9) and gzip.
"""

import argparse
import hashlib
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE / "archive"))
sys.dont_write_bytecode = True

from conf import write_conf  # noqa: E402
from graph import write_graph  # noqa: E402
from lexicon import read_lexicon  # noqa: E402
from network import write_network  # noqa: E402
from pack import pack  # noqa: E402
from transitions import write_transition_model  # noqa: E402
from weights import read_weights  # noqa: E402


def build(weights_file, lexicon_file, target):
    """Writes the archive to `target`, and gives its SHA-256 as hexadecimal digits."""
    with tempfile.TemporaryDirectory() as work:
        model = Path(work) / target.name.removesuffix(".tar.gz")
        (model / "am").mkdir(parents=True)
        network = write_network(read_weights(weights_file))
        (model / "am" / "final.mdl").write_bytes(b"\0B" + write_transition_model() + network)
        write_conf(model / "conf")
        write_graph(read_lexicon(lexicon_file), model / "graph")
        packed = Path(work) / target.name
        pack(model, packed)
        target.write_bytes(packed.read_bytes())
    return hashlib.sha256(target.read_bytes()).hexdigest()


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("target", type=Path)
    parser.add_argument("--weights", type=Path, default=HERE / "am-0.2.pt")
    parser.add_argument("--lexicon", type=Path, default=HERE / "lexicon.en.txt")
    given = parser.parse_args()
    if not given.target.name.endswith(".tar.gz"):
        parser.error("the archive's name must end in .tar.gz")
    print(build(given.weights, given.lexicon, given.target.resolve()))


if __name__ == "__main__":
    main()
