"""The network as Kaldi reads it: a text that says what feeds what, and the components."""

from components import affine, batch_norm, component, no_op, nonlinear, tdnn
from kaldi_binary import int32, token, vector
from layers import BYPASS, FEATURES, WIDTH, context, offsets_in_frames
from phones import OUTPUTS


def write_network(weights):
    """Bytes of the network with its context; `weights` by their names in training."""
    network = _Network()
    network.lines += [
        "",
        f"input-node name=input dim={FEATURES}",
    ]
    around = "Append(Offset(input, -1), input, Offset(input, 1))"
    network.add("tdnn1.affine", around, affine(weights["t1.weight"], weights["t1.bias"]))
    before = _relu_and_norm(network, "tdnn1", "tdnn1.affine", weights, "b1")
    for place, (left, right) in enumerate(offsets_in_frames()):
        before = _factored_layer(network, place, left, right, before, weights)
    network.add("prefinal-l", before, affine(weights["pl.weight"]))
    network.add("prefinal.affine", "prefinal-l", affine(weights["pa.weight"], weights["pa.bias"]))
    last = _relu_and_norm(network, "prefinal", "prefinal.affine", weights, "pb")
    network.add("output.affine", last, affine(weights["out.weight"], weights["out.bias"]))
    network.add("output.log-softmax", "output.affine", nonlinear("LogSoftmaxComponent", OUTPUTS))
    network.lines.append("output-node name=output input=output.log-softmax objective=linear")
    left, right = context()
    return (
        token("<Nnet3>")
        + "\n".join(network.lines).encode("ascii")
        + b"\n\n"
        + token("<NumComponents>")
        + int32(len(network.components))
        + b"".join(network.components)
        + token("</Nnet3>")
        + token("<LeftContext>") + int32(left)
        + token("<RightContext>") + int32(right)
        + token("<Priors>") + vector([])
    )


class _Network:
    def __init__(self):
        self.lines = []
        self.components = []

    def add(self, name, input_, body):
        self.lines.append(f"component-node name={name} component={name} input={input_}")
        self.components.append(component(name, body))


def _relu_and_norm(network, layer, input_, weights, norm):
    network.add(f"{layer}.relu", input_, nonlinear("RectifiedLinearComponent", WIDTH))
    mean, variance = weights[f"{norm}.running_mean"], weights[f"{norm}.running_var"]
    network.add(f"{layer}.batchnorm", f"{layer}.relu", batch_norm(mean, variance))
    return f"{layer}.batchnorm"


def _factored_layer(network, place, left, right, before, weights):
    layer = f"tdnnf{place + 2}"
    first = tdnn([-left, 0] if left else [0], weights[f"lin.{place}.weight"])
    second = tdnn([0, right] if right else [0], weights[f"aff.{place}.weight"], weights[f"aff.{place}.bias"])
    network.add(f"{layer}.linear", before, first)
    network.add(f"{layer}.affine", f"{layer}.linear", second)
    normed = _relu_and_norm(network, layer, f"{layer}.affine", weights, f"bn.{place}")
    network.add(f"{layer}.noop", f"Sum(Scale({BYPASS}, {before}), {normed})", no_op(WIDTH))
    return f"{layer}.noop"
