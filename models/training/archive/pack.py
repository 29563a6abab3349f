"""Packs a folder into a .tar.gz that is the same, byte for byte, whenever and wherever it is packed."""

import subprocess
import tarfile

# Every file bears the day on which the model was made, 2026-11-25 00:00 UTC.
MADE_s = 1_795_564_800


def pack(folder, target):
    """One top folder, as Vosk wants it; names in order, no owner. gzip 1.12 at its best, without a name or a time."""
    tar_file = target.with_suffix("")
    with tarfile.open(tar_file, "w", format=tarfile.GNU_FORMAT) as tar:
        for path in [folder, *sorted(folder.rglob("*"))]:
            tar.add(path, arcname=str(path.relative_to(folder.parent)), recursive=False, filter=_plain)
    with open(target, "wb") as packed:
        subprocess.run(["gzip", "-9nc", str(tar_file)], stdout=packed, check=True)
    tar_file.unlink()


def _plain(entry):
    entry.uid = entry.gid = 0
    entry.uname = entry.gname = ""
    entry.mtime = MADE_s
    entry.mode = 0o755 if entry.isdir() else 0o644
    return entry
