#!/usr/bin/env python3
"""Makes the committed clips: every measuring sentence in one of the measuring voices, as Ogg Opus (24 kbit/s) with clips.tsv beside them.

    npx tsx tests/speech/phrases.ts && python3 tests/speech/make-clips.py

Needs what synthesise.py needs, and opusenc (Debian: opus-tools).
"""
import pathlib, subprocess, sys, tempfile

HERE = pathlib.Path(__file__).parent
CLIPS = HERE / "clips"

def main() -> None:
    work = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else pathlib.Path(tempfile.mkdtemp())
    subprocess.run([sys.executable, HERE / "synthesise.py", HERE / "phrases/measuring.txt", work, "--set", "measuring"], check=True)
    CLIPS.mkdir(exist_ok=True)
    for old in CLIPS.glob("*"): old.unlink()
    rows = [line.rstrip("\n").split("\t") for line in open(work / "index.tsv", encoding="utf-8")]
    voices = sorted({voice for _, voice, _ in rows})
    kept = [(file, voice, text) for file, voice, text in rows if int(file[:3]) % len(voices) == voices.index(voice)]
    for file, _, _ in kept:
        subprocess.run(["opusenc", "--quiet", "--bitrate", "24", "--speech", "--comp", "10", str(work / file), str(CLIPS / file.replace(".wav", ".opus"))], check=True)
    (CLIPS / "clips.tsv").write_text("".join(f"{file.replace('.wav', '.opus')}\t{voice}\t{text}\n" for file, voice, text in sorted(kept)), encoding="utf-8")
    print(f"{len(kept)} clips, {sum(f.stat().st_size for f in CLIPS.iterdir()) / 1e6:.1f} MB")

if __name__ == "__main__":
    main()
