"""Reads a file of weights as torch writes it, without torch: a zip of one pickle and raw numbers."""

import io
import pickle
import struct
import zipfile
from array import array

STORED_AS = {"HalfStorage": "e", "FloatStorage": "f", "LongStorage": "q"}


class Tensor:
    """Numbers in rows: `shape` and a flat `array` of 32-bit floats, first index slowest."""

    def __init__(self, shape, values):
        self.shape = tuple(shape)
        self.values = values


def read_weights(path):
    """Name to Tensor. Halves become floats exactly; counters are left out. Raises ValueError on what is not plain."""
    with zipfile.ZipFile(path) as archive:
        (index,) = [name for name in archive.namelist() if name.endswith("/data.pkl")]
        folder = index[: -len("data.pkl")]

        def numbers(key, kind):
            raw = archive.read(f"{folder}data/{key}")
            code = STORED_AS[kind]
            return array("f", struct.unpack(f"<{len(raw) // struct.calcsize(code)}{code}", raw))

        entries = _PlainUnpickler(io.BytesIO(archive.read(index))).load()
        return {
            name: Tensor(shape, numbers(key, kind))
            for name, (key, kind, shape) in entries.items()
            if kind != "LongStorage"
        }


class _PlainUnpickler(pickle.Unpickler):
    """Takes dictionaries of contiguous tensors and nothing else, so that a file of weights can run no code."""

    def find_class(self, module, name):
        if (module, name) == ("torch._utils", "_rebuild_tensor_v2"):
            return _tensor
        if module == "torch" and name in STORED_AS:
            return name
        if (module, name) == ("collections", "OrderedDict"):
            return dict
        raise ValueError(f"weights must not hold {module}.{name}")

    def persistent_load(self, pid):
        _, kind, key, _, _ = pid
        return key, kind


def _tensor(storage, offset, shape, strides, *_):
    key, kind = storage
    expected = []
    step = 1
    for length in reversed(shape):
        expected.insert(0, step)
        step *= length
    if offset != 0 or tuple(strides) != tuple(expected):
        raise ValueError(f"storage {key} is not laid out row by row")
    return key, kind, shape
