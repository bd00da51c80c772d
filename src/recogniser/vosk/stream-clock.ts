import { SAMPLE_RATE } from './session';

/**
 * Keeps a session's times and the stream's together, and the last audio, so that an utterance can be cut out.
 * A session starts anew with each grammar, and audio may be dropped when the engine can't keep up; neither may shift a word in time.
 */
export class StreamClock {
  /** Samples of the stream that came in, were dropped, and were sent to the session. */
  private received = 0;
  private sentToSession = 0;
  private sentBefore = 0;
  private gaps: { readonly atSent: number; readonly samples: number }[] = [];
  private kept: Float32Array[] = [];
  private keptSamples = 0;

  /** Audio came in that will be sent; the last `most` samples are kept. */
  keep(audio: Float32Array, most: number): void {
    this.received += audio.length;
    this.store(audio.slice(), most);
  }

  /** Audio came in that will never be sent. Its place is after all that has been received. */
  lost(samples: number): void {
    const last = this.gaps.at(-1);
    if (last?.atSent === this.received) this.gaps.pop();
    this.gaps.push({ atSent: this.received, samples: samples + (last?.atSent === this.received ? last.samples : 0) });
  }

  /** Audio went to the session. */
  sent(samples: number): void { this.sentToSession += samples; }

  /**
   * A new session begins.
   * @param done seconds of the old session's audio that are done with
   * @returns the audio sent after that, as far as it is kept, for the new session to hear first
   */
  restart(done: number): Float32Array {
    const end = this.sentBefore + this.sentToSession;
    const start = Math.min(end, Math.max(this.sentBefore + Math.round(done * SAMPLE_RATE), this.received - this.keptSamples));
    this.sentBefore = start;
    this.sentToSession = 0;
    return this.slice(start, end);
  }

  /** Seconds of the stream for seconds of the session. */
  toStream(seconds: number): number {
    const sent = this.sentBefore + seconds * SAMPLE_RATE;
    return (sent + this.lostBefore(sent)) / SAMPLE_RATE;
  }

  /** Kept audio between two times of the stream, as far as it is still there. */
  cut(from: number, to: number): Float32Array {
    const place = (seconds: number): number => this.receivedBefore(Math.round(seconds * SAMPLE_RATE));
    return this.slice(place(from), place(to));
  }

  clear(): void {
    this.kept = [];
    this.keptSamples = 0;
  }

  /** Kept audio between two places among the samples received. */
  private slice(from: number, to: number): Float32Array {
    const first = this.received - this.keptSamples;
    const [start, end] = [from, to].map((place) => Math.min(this.keptSamples, Math.max(0, place - first))) as [number, number];
    const out = new Float32Array(Math.max(0, end - start));
    let at = 0;
    for (const part of this.kept) {
      const piece = part.subarray(Math.max(0, start - at), Math.max(0, end - at));
      if (piece.length) out.set(piece, Math.max(0, at - start));
      at += part.length;
    }
    return out;
  }

  /** Samples received before a sample of the stream. */
  private receivedBefore(sample: number): number {
    let lost = 0;
    for (const gap of this.gaps) {
      if (sample < gap.atSent + lost) break;
      if (sample < gap.atSent + lost + gap.samples) return gap.atSent;
      lost += gap.samples;
    }
    return sample - lost;
  }

  /** Samples of the stream that were dropped before a sample that was received. */
  private lostBefore(sample: number): number {
    return this.gaps.reduce((sum, gap) => sum + (gap.atSent <= sample ? gap.samples : 0), 0);
  }

  private store(audio: Float32Array, most: number): void {
    this.kept.push(audio);
    this.keptSamples += audio.length;
    while (this.kept.length && this.keptSamples - (this.kept[0]?.length ?? 0) >= most) this.keptSamples -= this.kept.shift()?.length ?? 0;
  }
}
