#!/usr/bin/env python3
"""Makes the committed clips: every measuring sentence in one of the measuring voices, as Ogg Opus (24 kbit/s) with clips.tsv beside them.

    npx tsx tests/speech/phrases.ts && python3 tests/speech/make-clips.py

Needs what synthesise.py needs, and opusenc (Debian: opus-tools).
"""
import pathlib, subprocess, tempfile
from synthesise import MEASURING, VOICES, finish, spell

HERE = pathlib.Path(__file__).parent
CLIPS = HERE / "clips"

def main() -> None:
    CLIPS.mkdir(exist_ok=True)
    index = CLIPS / "clips.tsv"
    before = {line.split("\t")[0]: line.rstrip("\n").split("\t")[2] for line in open(index, encoding="utf-8")} if index.exists() else {}
    lines = [line.strip() for line in open(HERE / "phrases/measuring.txt", encoding="utf-8") if line.strip()]
    voices = sorted(MEASURING)
    rows = []
    with tempfile.TemporaryDirectory() as tmp:
        raw, wav = f"{tmp}/raw.wav", pathlib.Path(tmp) / "clip.wav"
        for v, voice in enumerate(voices):
            speak = VOICES[voice]()
            for n, text in enumerate(lines):
                if n % len(voices) != v: continue
                name = f"{n:03d}.{voice}.opus"
                if before.get(name) != text or not (CLIPS / name).exists():
                    speak(spell(text), 1.0, raw); finish(raw, wav)
                    subprocess.run(["opusenc", "--quiet", "--bitrate", "24", "--speech", "--comp", "10", str(wav), str(CLIPS / name)], check=True)
                rows.append((name, voice, text))
    index.write_text("".join("\t".join(row) + "\n" for row in sorted(rows)), encoding="utf-8")
    kept = {name for name, _, _ in rows}
    for old in CLIPS.glob("*.opus"):
        if old.name not in kept: old.unlink()
    print(f"{len(rows)} clips, {sum(f.stat().st_size for f in CLIPS.iterdir()) / 1e6:.1f} MB")

if __name__ == "__main__":
    main()
