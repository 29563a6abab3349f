"""The settings that Vosk reads from the model's `conf` folder."""

MFCC = {
    "use-energy": "false",
    "num-mel-bins": 40,
    "num-ceps": 40,
    "low-freq": 20,
    "high-freq": 7600,
    "allow-upsample": "true",
    "allow-downsample": "true",
}

# Pace and the end of an utterance: pieces of 12 frames; a final result 0.4 s after the end of speech.
DECODING = {
    "min-active": 200,
    "max-active": 1500,
    "beam": 10.0,
    "lattice-beam": 2.0,
    "acoustic-scale": 1.0,
    "frame-subsampling-factor": 3,
    "frames-per-chunk": 12,
    "endpoint.silence-phones": 1,
    "endpoint.rule2.min-trailing-silence": 0.4,
    "endpoint.rule3.min-trailing-silence": 0.6,
    "endpoint.rule4.min-trailing-silence": 1.0,
}


def write_conf(folder):
    folder.mkdir(parents=True)
    for name, options in (("mfcc.conf", MFCC), ("model.conf", DECODING)):
        (folder / name).write_text("".join(f"--{key}={value}\n" for key, value in options.items()))
