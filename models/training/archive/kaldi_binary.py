"""The binary form in which Kaldi keeps tokens, numbers, vectors and matrices.

Source: Kaldi's src/base/io-funcs-inl.h, src/matrix/kaldi-matrix.cc and kaldi-vector.cc (Write, binary).
"""

import struct
import sys
from array import array

# The lower 13 of the 23 bits of a mantissa are rounded away in matrices: what is left is as fine as the half
# precision floats that the weights come in, and it packs.
ROUNDED_BITS = 13


def token(name):
    return name.encode("ascii") + b" "


def int32(value):
    return b"\x04" + struct.pack("<i", value)


def float32(value):
    return b"\x04" + struct.pack("<f", value)


def float64(value):
    return b"\x08" + struct.pack("<d", value)


def boolean(value):
    return b"T" if value else b"F"


def int_vector(values):
    return b"\x04" + struct.pack("<i", len(values)) + struct.pack(f"<{len(values)}i", *values)


def vector(values):
    return b"FV " + int32(len(values)) + _little_endian(array("f", values))


def matrix(tensor):
    """A Tensor of two dimensions, its mantissas rounded."""
    rows, columns = tensor.shape
    return b"FM " + int32(rows) + int32(columns) + _little_endian(rounded(tensor.values))


def rounded(values, bits=ROUNDED_BITS):
    """An `array` of floats, halves rounded away from zero, as an `array` of their bit patterns."""
    patterns = array("I", values.tobytes())
    half, keep = 1 << (bits - 1), ~((1 << bits) - 1) & 0xFFFFFFFF
    return array("I", [(pattern + half) & keep for pattern in patterns])


def _little_endian(values):
    if sys.byteorder == "big":
        values = array(values.typecode, values)
        values.byteswap()
    return values.tobytes()
