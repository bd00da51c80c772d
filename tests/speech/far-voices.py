#!/usr/bin/env python3
"""Speaks the sentences of the voice-profile bench in synthetic voices that are far from the acoustic model (US English, adults).

    python3 tests/speech/far-voices.py PROMPTS.txt TUNING.txt MEASURING.txt OUT_DIR [voice ...]

OUT_DIR/VOICE/prompt00.wav (to enrol with), test00.wav and bystander00.wav (the bystander-*.txt beside MEASURING.txt), each with its text beside it. Tuning voices say tuning sentences, held-out
voices measuring sentences. Debian packages espeak-ng, flite, festival, festvox-kallpc16k, sox.
All voices are synthetic: the accents and speaker variants of espeak-ng, and flite's and festival's speakers, some with the pitch
and the resonances moved together (a shorter or longer vocal tract), some through a narrow or dull channel.
"""
import pathlib, subprocess, sys
from synthesise import espeak, festival, finish, flite, spell

VOICES = {  # name: (how it speaks, what is done to it, held out)
    "scotland-m7": (espeak("en-gb-scotland+m7", 30), [], False),
    "caribbean-f5": (espeak("en-029+f5", 60), [], False),
    "kal-diphone": (festival("kal_diphone"), [], False),
    "slt-up": (flite("slt"), ["pitch", "300"], False),
    "us-telephone": (espeak("en-us+m1", 45), ["sinc", "300-3300"], False),
    "rp-f5": (espeak("en-gb-x-rp+f5", 65), [], True),
    "lancaster-m8": (espeak("en-gb-x-gbclan+m8", 35), [], True),
    "caribbean-m4": (espeak("en-029+m4", 45), [], True),
    "awb-down": (flite("awb"), ["pitch", "-300"], True),
    "rms-up": (flite("rms"), ["pitch", "400"], True),
    "rp-muffled": (espeak("en-gb-x-rp+m3", 40), ["lowpass", "-1", "1200", "lowpass", "-1", "2500"], True),
    "awb": (flite("awb"), [], True),
}

def lines(file: str) -> list[str]:
    return [line.strip() for line in open(file, encoding="utf-8") if line.strip() and not line.startswith("#")]

def main() -> None:
    prompts, tuning, measuring, out, *names = sys.argv[1:]
    for name in names or VOICES:
        speak, effects, held = VOICES[name]
        folder = pathlib.Path(out) / name
        folder.mkdir(parents=True, exist_ok=True)
        tests = lines(measuring)[3::10] if held else lines(tuning)[20:100:4]
        others = lines(str(pathlib.Path(measuring).with_name("bystander-measuring.txt" if held else "bystander-tuning.txt")))[:15]
        for kind, texts in (("prompt", lines(prompts)), ("test", tests), ("bystander", others)):
            for n, text in enumerate(texts):
                sound, note = folder / f"{kind}{n:02d}.wav", folder / f"{kind}{n:02d}.txt"
                if sound.exists() and note.exists() and note.read_text() == text: continue
                raw, changed = str(folder / "raw.wav"), str(folder / "changed.wav")
                speak(spell(text), 1.0, raw)
                subprocess.run(["sox", raw, "-r", "16000", changed, "gain", "-6", *effects], check=True, stderr=subprocess.DEVNULL)
                finish(changed, sound)
                note.write_text(text)
        for rest in ("raw.wav", "changed.wav"): (folder / rest).unlink(missing_ok=True)
        (folder / "held-out").write_text("yes" if held else "no")

if __name__ == "__main__":
    main()
