"""Makes a batch as it would be heard: a recording, perhaps other speech before it, talk and noise around, the room."""

from dataclasses import dataclass

import numpy as np
import torch

from phones_path import SILENCE
from room import echo, made_noise, mask_filter, microphone_filter, one_in, uniform, whispered

RATE_HZ = 16000
LONGEST = 8 * RATE_HZ
ECHO = 8000
SPEEDS = (0.85, 0.9, 0.95, 1, 1, 1.05, 1.1, 1.18)
SPEEDS_BEFORE = (0.9, 1, 1.1)
# Samples for one output, and the middle of the first one.
OUTPUT_STEP, OUTPUT_MIDDLE = 480, 200
MOST_TALKERS = 8


@dataclass(frozen=True)
class Variety:
    """What differs between the two stages. Shares are of recordings."""

    echo_far: float = 0.8
    nobody: float = 0.06
    whisper: float = 0.04
    long_pauses: bool = False

    @property
    def talkers(self):
        return (1, 2, 3, 4, 5, 6, 6, 8) if self.long_pauses else (1, 2, 3, 4, 6, 6, 8)


@dataclass
class Batch:
    sound: torch.Tensor
    frames: torch.Tensor
    labels: torch.Tensor
    label_count: torch.Tensor
    # 1 where an output of the network must be silence: nobody speaks near the microphone.
    silent: torch.Tensor
    # Rows that fit into the longest sound.
    fits: torch.Tensor


class Mixer:
    def __init__(self, corpus, variety):
        self.corpus, self.variety, self.random = corpus, variety, corpus.random
        self.device = corpus.samples.device

    def batch(self, rows):
        plan = self._plan(rows)
        near, silent = self._near(plan)
        sound = self._with_surroundings(near, plan)
        sound = self._through_microphone(sound)
        labels, counts = self._labels(plan)
        frames = self._column((((plan["total"] - 400) // 160 + 1) + 2) // 3)[:, 0]
        outputs = ((sound.shape[1] - 400) // 160 + 1 + 2) // 3
        middles = (torch.arange(outputs, device=self.device) * OUTPUT_STEP + OUTPUT_MIDDLE).clamp(max=sound.shape[1] - 1)
        return Batch(sound, frames, labels, counts, silent[:, middles], self._column(plan["fits"])[:, 0].bool())

    def _column(self, values):
        return torch.from_numpy(np.ascontiguousarray(values)).to(self.device)[:, None]

    def _pause(self, count, short, long):
        """Samples; the second stage has long pauses in three of ten."""
        shorter = self.random.uniform(*short, count)
        if not self.variety.long_pauses:
            return (RATE_HZ * self.random.uniform(short[0], short[1] + 0.1, count)).astype(int)
        longer = self.random.uniform(*long, count)
        return (RATE_HZ * np.where(self.random.random(count) < 0.7, shorter, longer)).astype(int)

    def _plan(self, rows):
        """Where everything begins and ends, in samples, drawn on the processor."""
        count, corpus = len(rows), self.corpus
        speed, speed_before = self.random.choice(SPEEDS, count), self.random.choice(SPEEDS_BEFORE, count)
        before = corpus.short[self.random.integers(len(corpus.short), size=count)]
        has_before = self.random.random(count) < 0.2
        lead, trail = self._pause(count, (0.12, 0.7), (0.7, 1.6)), self._pause(count, (0.2, 0.8), (0.8, 1.5))
        gap = (RATE_HZ * self.random.uniform(0.03, 0.6, count)).astype(int)
        length_before = (corpus.length[before] / speed_before).astype(int)
        start = lead + np.where(has_before, length_before + gap, 0)
        end = start + (corpus.length[rows] / speed).astype(int)
        total = end + trail
        whole = int(min(LONGEST, -(-total.max() // 4000) * 4000))
        return {
            **{"rows": rows, "speed": speed, "before": before, "speed_before": speed_before, "has_before": has_before},
            **{"lead": lead, "start": start, "end": end, "whole": whole, "fits": total < LONGEST},
            **{"total": np.minimum(total, whole), "nobody": self.random.random(count) < self.variety.nobody},
        }

    def _placed(self, rows, speed, start, whole):
        """Recordings at a speed from a sample on, silence around, each with a power of one."""
        corpus = self.corpus
        first, length = self._column(corpus.start[rows]), self._column(corpus.length[rows])
        place = (torch.arange(whole, device=self.device)[None] - self._column(start)) * self._column(speed).float()
        inside = (place >= 0) & (place < length - 1)
        lower = torch.minimum(place.clamp(min=0).floor().long(), length - 2)
        share = (place - lower).clamp(0, 1)
        left, right = (corpus.samples[first + lower + step].float() for step in (0, 1))
        sound = (left + (right - left) * share) * inside
        power = (sound * sound).sum(1, keepdim=True) / inside.sum(1, keepdim=True).clamp(min=1)
        return sound / (power.sqrt() + 1)

    def _near(self, plan):
        whole = plan["whole"]
        speech = self._placed(plan["rows"], plan["speed"], plan["start"], whole)
        before = self._placed(plan["before"], plan["speed_before"], plan["lead"], whole)
        has_before, nobody = self._column(plan["has_before"]), self._column(plan["nobody"])
        level = 10 ** (uniform(-6, 3, len(speech), 1, like=speech) / 20)
        speech = speech + before * has_before * level
        time = torch.arange(whole, device=self.device)[None]
        first = torch.where(has_before, self._column(plan["lead"]), self._column(plan["start"]))
        silent = (time < first - 300) | (time > self._column(plan["end"]) + 2000) | nobody
        (whispering,) = np.where(self.random.random(len(speech)) < self.variety.whisper)
        if len(whispering):
            chosen = torch.from_numpy(whispering).to(self.device)
            speech = speech.index_copy(0, chosen, whispered(speech[chosen]))
        return torch.where(nobody, torch.zeros_like(speech), speech), silent.float()

    def _talk(self, like, nobody):
        """One to eight talkers within 5 dB of each other, and how many they are."""
        choice = torch.tensor(self.variety.talkers, device=self.device)
        many = choice[torch.randint(0, len(choice), (len(like), 1), device=self.device)]
        many = torch.where(nobody, many.clamp(min=4), many)
        talk = torch.zeros_like(like)
        steps = torch.arange(like.shape[1], device=self.device)
        for talker in range(MOST_TALKERS):
            last = self.corpus.samples.numel() - like.shape[1] - 1
            begin = torch.randint(0, last, (len(like), 1), device=self.device)
            one = self.corpus.samples[begin + steps].float()
            level = 10 ** (-uniform(0, 5, len(like), 1, like=like) / 20)
            talk = talk + one / (one.std(1, keepdim=True) + 1) * (many > talker) * level
        return talk, many

    def _noise(self, like):
        noise = made_noise(like)
        if not self.corpus.has_noise:
            return noise
        chosen = self.corpus.noise[self.random.integers(len(self.corpus.noise), size=len(like))]
        begin, length = self._column(chosen[:, 0]), self._column(chosen[:, 1])
        shift = torch.randint(0, 96000, (len(like), 1), device=self.device)
        steps = (torch.arange(like.shape[1], device=self.device)[None] + shift) % length
        real = self.corpus.samples[begin + steps].float()
        return torch.where(one_in(0.25, like), real / (real.std(1, keepdim=True) + 1), noise)

    def _with_surroundings(self, near, plan):
        """Noise in about half, talk in about half; one or two talkers at least 8 dB below, more of them down to 1 dB."""
        batch, whole = near.shape
        nobody = self._column(plan["nobody"])
        talk, many = self._talk(near, nobody)
        size = whole + ECHO
        spectrum = torch.fft.rfft(near, size) * torch.fft.rfft(echo(near, far=False, share=0.55), size)
        frequencies = torch.linspace(0, RATE_HZ / 2, spectrum.shape[1], device=self.device)
        near = torch.fft.irfft(spectrum * mask_filter(frequencies, near), size)[:, :whole]
        away = echo(near, far=True, share=self.variety.echo_far)
        talk = torch.fft.irfft(torch.fft.rfft(talk, size) * torch.fft.rfft(away, size), size)[:, :whole]
        talk = talk / (talk.std(1, keepdim=True) + 1e-3)
        kind = torch.rand(batch, 1, device=self.device)
        noisy, talked = (kind < 0.45) | (kind > 0.9), (kind > 0.45) & (kind < 0.97)
        least = torch.where(many <= 2, 8.0, 1.0)
        talk_db = least + (20 - least) * torch.rand(batch, 1, device=self.device) ** 0.9
        loud, faint = uniform(0, 28, batch, 1, like=near), uniform(18, 45, batch, 1, like=near)
        noise_db = torch.where(noisy, loud, faint)
        noise_db = torch.where(nobody & ~talked, uniform(-5, 30, batch, 1, like=near), noise_db)
        return near + talk * talked * 10 ** (-talk_db / 20) + self._noise(near) * 10 ** (-noise_db / 20)

    def _through_microphone(self, sound):
        """Uneven, clipped now and then, over 44 dB of level, rounded to whole numbers in every other batch."""
        size = sound.shape[1] + ECHO
        spectrum = torch.fft.rfft(sound, size)
        frequencies = torch.linspace(0, RATE_HZ / 2, spectrum.shape[1], device=self.device)
        sound = torch.fft.irfft(spectrum * microphone_filter(frequencies, sound), size)[:, : sound.shape[1]]
        sound = sound / (sound.std(1, keepdim=True) + 1e-4)
        limit = 0.35 * sound.abs().amax(1, keepdim=True)
        sound = torch.where(one_in(0.06, sound), torch.minimum(torch.maximum(sound, -limit), limit), sound)
        sound = (sound * 10 ** uniform(1.5, 3.7, len(sound), 1, like=sound)).clamp(-32767, 32767)
        return (sound + torch.rand_like(sound) - 0.5).round() if self.random.random() < 0.5 else sound

    def _labels(self, plan):
        """The labels of what was said before, without its last silence, then those of the recording."""
        corpus, rows, before = self.corpus, plan["rows"], plan["before"]
        leading = np.where(plan["has_before"], corpus.label_count[before] - 1, 0)
        counts = np.where(plan["nobody"], 1, leading + corpus.label_count[rows])
        place = torch.arange(int(counts.max()), device=self.device)[None]
        shift, most = self._column(leading), corpus.labels.shape[1] - 1
        own, earlier = (corpus.labels[torch.from_numpy(each).to(self.device)] for each in (rows, before))
        after = own.gather(1, (place - shift).clamp(0, most))
        first = earlier.gather(1, place.clamp(max=most).expand(len(rows), -1))
        labels = torch.where(place < shift, first, after)
        count = self._column(counts)
        labels = torch.where(place < count, labels, torch.zeros_like(labels))
        labels[self._column(plan["nobody"])[:, 0], 0] = SILENCE
        return labels, count[:, 0]
