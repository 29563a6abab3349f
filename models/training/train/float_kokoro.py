"""Makes the 8-bit Kokoro-82M a float one, since graphics cards run its 8-bit operators slowly or not at all.

Use: float_kokoro.py KOKORO.onnx OUT.onnx. Weights are multiplied out; activations are no longer rounded.
"""

import sys

import numpy as np
import onnx
from onnx import helper, numpy_helper

ONE = "float_kokoro_one"
TO_INT32 = 6


class _Floats:
    def __init__(self, graph):
        self.graph = graph
        self.stored = {each.name: numpy_helper.to_array(each) for each in graph.initializer}
        self.made_by = {name: node for node in graph.node for name in node.output}
        self.same_as = {}
        self.added = {}

    def convert(self):
        nodes = [node for each in self.graph.node for node in self._one(each)]
        for node in nodes:
            for place, name in enumerate(node.input):
                while name in self.same_as:
                    name = self.same_as[name]
                node.input[place] = name
        used = {name for node in nodes for name in node.input}
        kept = [each for each in self.graph.initializer if each.name in used]
        added = [numpy_helper.from_array(value, name) for name, value in self.added.items()]
        one = numpy_helper.from_array(np.float32(1), ONE)
        for field, values in ((self.graph.node, nodes), (self.graph.initializer, [*kept, *added, one])):
            del field[:]
            field.extend(values)
        del self.graph.value_info[:]

    def _one(self, node):
        """The nodes that take the place of one; none where its output is the same as its input."""
        given = {each.name: helper.get_attribute_value(each) for each in node.attribute}
        if node.op_type == "DynamicQuantizeLinear":
            self.same_as.update({node.output[0]: node.input[0], node.output[1]: ONE})
            return []
        source = self.made_by.get(node.input[0]) if node.op_type == "Cast" and given.get("to") == TO_INT32 else None
        if source is not None and source.op_type == "Floor":
            self.same_as[node.output[0]] = source.input[0]
            return []
        if node.op_type in ("MatMulInteger", "ConvInteger"):
            return [self._product(node, given)]
        return [self._lstm(node, given)] if node.op_type == "DynamicQuantizeLSTM" else [node]

    def _product(self, node, given):
        zero = np.asarray(self.stored[node.input[3]] if len(node.input) > 3 and node.input[3] else 0, np.float32)
        weight = self.stored[node.input[1]].astype(np.float32)
        is_conv = node.op_type == "ConvInteger"
        if is_conv and zero.ndim:
            zero = zero.reshape(-1, *[1] * (weight.ndim - 1))
        name = f"{node.input[1]}_float"
        self.added[name] = weight - zero
        kept = {key: value for key, value in given.items() if key != "auto_pad"} if is_conv else {}
        kind = "Conv" if is_conv else "MatMul"
        return helper.make_node(kind, [node.input[0], name], list(node.output), name=node.name, **kept)

    def _lstm(self, node, given):
        names = [*node.input, *[""] * (12 - len(node.input))]
        for weight, scale, zero in ((1, 8, 9), (2, 10, 11)):
            self.added[f"{names[weight]}_float"] = self._gates(names[weight], names[scale], names[zero])
        inputs = [names[0], f"{names[1]}_float", f"{names[2]}_float", *names[3:7]]
        kept = {key: given[key] for key in ("direction", "hidden_size") if key in given}
        return helper.make_node("LSTM", inputs, list(node.output), name=node.name, **kept)

    def _gates(self, weight, scale, zero):
        values = self.stored[weight].astype(np.float32)
        directions = values.shape[0]

        def spread(name):
            numbers = np.atleast_1d(self.stored[name]).astype(np.float32)
            if numbers.size == 1:
                return numbers.reshape(1, 1, 1)
            if numbers.size == directions:
                return numbers.reshape(-1, 1, 1)
            return numbers.reshape(numbers.shape[0] if numbers.shape[0] == directions else 1, 1, -1)

        return np.ascontiguousarray(((values - spread(zero)) * spread(scale)).transpose(0, 2, 1))


if __name__ == "__main__":
    model = onnx.load(sys.argv[1])
    _Floats(model.graph).convert()
    onnx.save(model, sys.argv[2])
