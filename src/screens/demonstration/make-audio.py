#!/usr/bin/env python3
"""Speak script.txt into examination.flac (16 kHz, mono, 16 bit), with 1.2 s between utterances.

    python3 src/screens/demonstration/make-audio.py [SCRIPT [OUT]]

Needs, from Debian: flite, sox. From PyPI: hibari-tts 0.2.1 (Apache-2.0; the voice is inside the wheel).
Both voices are synthetic: hibari "heart" examines, flite "rms" talks to the patient. OUT may end in .flac or .wav.
"""
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).parent
GAP_S, LEAD_S = 1.2, 1.0


def speak(text: str, to_patient: bool, out: str) -> None:
    if to_patient:
        subprocess.run(["flite", "-voice", "rms", "-t", text, "-o", out], check=True)
    else:
        subprocess.run(["hibari", text, "--seed", "1", "-o", out], check=True, stdout=subprocess.DEVNULL)


def main() -> None:
    script = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else HERE / "script.txt"
    out = sys.argv[2] if len(sys.argv) > 2 else str(HERE / "examination.flac")
    lines = [line.strip() for line in script.read_text(encoding="utf-8").splitlines()]
    lines = [line for line in lines if line and not line.startswith("#")]
    with tempfile.TemporaryDirectory() as tmp:
        clips = []
        for n, line in enumerate(lines):
            raw, clip = f"{tmp}/{n}-raw.wav", f"{tmp}/{n}.wav"
            speak(line.lstrip("> "), line.startswith(">"), raw)
            lead = LEAD_S if n == 0 else 0
            # -R: the same dither every time, so that the file can be made again bit by bit.
            subprocess.run(["sox", "-R", raw, "-r", "16000", "-c", "1", "-b", "16", clip, "gain", "-n", "-6", "pad", str(lead), str(GAP_S)], check=True)
            clips.append(clip)
        speech, room = f"{tmp}/speech.wav", f"{tmp}/room.wav"
        subprocess.run(["sox", "-R", *clips, speech], check=True)
        # No room is digitally silent: pink noise some 50 dB below the voice.
        subprocess.run(["sox", "-R", speech, "-b", "16", room, "synth", "pinknoise", "vol", "-50dB"], check=True)
        pack = ["-C", "8"] if out.endswith(".flac") else []
        subprocess.run(["sox", "-R", "-m", "-v", "1", speech, "-v", "1", room, *pack, out], check=True)


if __name__ == "__main__":
    main()
