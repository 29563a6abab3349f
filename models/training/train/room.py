"""What a room, a mask and a microphone do to sound, each drawn at random; all on batches (batch, time)."""

import math

import torch

RATE_HZ = 16000
ECHO = 8000


def uniform(low, high, *shape, like):
    return low + (high - low) * torch.rand(*shape, device=like.device)


def one_in(share, like):
    """True for about that share of a batch's rows (batch, 1)."""
    return torch.rand(like.shape[0], 1, device=like.device) < share


def echo(like, far, share):
    """Impulse responses: the sound itself and a decaying echo of 0.08 to 0.5 s, 1 to 16 dB below it; far ones louder."""
    batch = like.shape[0]
    time = torch.arange(ECHO, device=like.device) / RATE_HZ
    decay = torch.exp(-6.9 * time / uniform(0.08, 0.5, batch, 1, like=like))
    tail = torch.randn(batch, ECHO, device=like.device) * decay
    tail[:, :32] = 0
    below_db = uniform(-2, 6, batch, 1, like=like) if far else uniform(1, 16, batch, 1, like=like)
    tail = tail / tail.norm(dim=1, keepdim=True) * 10 ** (-below_db / 20) * one_in(share, like).float()
    return torch.cat([torch.ones(batch, 1, device=like.device), tail[:, 1:]], 1)


def made_noise(like):
    """Noise from white to brown, some with a hump, some that swells, some with a beeping tone; standard deviation 1."""
    batch, length = like.shape
    spectrum = torch.fft.rfft(torch.randn_like(like))
    bins = torch.arange(spectrum.shape[1], device=like.device).float() + 1
    spectrum = spectrum * bins ** (-uniform(0, 1.3, batch, 1, like=like))
    centre = torch.rand(batch, 1, device=like.device) * len(bins)
    width = len(bins) * uniform(0.02, 0.32, batch, 1, like=like)
    spectrum = spectrum * (1 + 4 * torch.rand(batch, 1, device=like.device) * torch.exp(-(((bins - centre) / width) ** 2)))
    noise = torch.fft.irfft(spectrum, length)
    time = torch.arange(length, device=like.device) / RATE_HZ
    phase = 6 * torch.rand(batch, 1, device=like.device)
    swell = torch.sin(2 * math.pi * uniform(0.3, 6, batch, 1, like=like) * time + phase)
    noise = noise * (1 + uniform(0, 1, batch, 1, like=like) * one_in(0.3, like) * swell)
    tone = torch.sin(2 * math.pi * uniform(200, 2000, batch, 1, like=like) * time)
    beep = (time * uniform(0.5, 2.5, batch, 1, like=like)) % 1 < 0.2
    return noise / noise.std(1, keepdim=True) + 3 * tone * beep * one_in(0.15, like)


def mask_filter(frequencies, like):
    """Gains over frequencies of a mask before the mouth: a low pass from 1.5 to 4 kHz, in 18 of 100."""
    batch = like.shape[0]
    corner, order = uniform(1500, 4000, batch, 1, like=like), uniform(1, 2.2, batch, 1, like=like)
    low_pass = (1 + (frequencies / corner) ** (2 * order)) ** -0.5
    return torch.where(one_in(0.18, like), low_pass, torch.ones_like(low_pass))


def microphone_filter(frequencies, like):
    """Gains of an uneven microphone: 12 points over the logarithm of the frequency, joined by lines, in one of two."""
    batch = like.shape[0]
    points = torch.randn(batch, 12, device=like.device) * uniform(0, 4, batch, 1, like=like)
    place = torch.log2(1 + frequencies / 200) / math.log2(41) * 11
    lower = place.floor().long().clamp(0, 10)
    share = place - lower
    gains = 10 ** ((points[:, lower] * (1 - share) + points[:, lower + 1] * share) / 20)
    return torch.where(one_in(0.5, like), gains, torch.ones_like(gains))


def whispered(speech):
    """An imitated whisper: the outline of the spectrum filled with noise. It did not help; see MODEL-CARD.md."""
    window = torch.hann_window(512, device=speech.device)

    def spectrum(sound):
        return torch.stft(sound, 512, 128, window=window, return_complex=True)

    cepstrum = torch.fft.irfft((spectrum(speech).abs() + 1e-4).log(), dim=1)
    cepstrum[:, 28:-27] = 0
    outline = torch.fft.rfft(cepstrum, dim=1).real.exp()
    noise = spectrum(torch.randn_like(speech))
    high = torch.linspace(0, 1, 257, device=speech.device)[None, :, None]
    breathed = outline * noise / (noise.abs() + 1e-3) * high / (high + 0.06)
    sound = torch.istft(breathed, 512, 128, window=window, length=speech.shape[1])
    return sound / (sound.std(1, keepdim=True) + 1e-4) * speech.std(1, keepdim=True)
