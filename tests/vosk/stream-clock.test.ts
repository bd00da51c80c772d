import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StreamClock } from '../../src/recogniser/vosk/stream-clock';

const RATE = 16_000;
/** Audio whose value is its place in the stream, so that a cut tells where it came from. */
const audio = (from: number, length: number): Float32Array => Float32Array.from({ length }, (_, n) => from + n);

describe('stream clock', () => {
  it('keeps times across sessions', () => {
    const clock = new StreamClock();
    clock.keep(audio(0, 2 * RATE), 10 * RATE);
    clock.sent(2 * RATE);
    expect(clock.restart(2)).toHaveLength(0);
    expect(clock.toStream(0.5)).toBe(2.5);
    clock.keep(audio(2 * RATE, RATE), 10 * RATE);
    clock.sent(RATE);
    clock.restart(1);
    expect(clock.toStream(0)).toBe(3);
  });

  it('gives back what a new session must hear first, at its own time', () => {
    const clock = new StreamClock();
    clock.keep(audio(0, 1000), 1500);
    clock.keep(audio(1000, 1000), 1500);
    clock.sent(1200);
    const again = clock.restart(700 / RATE);
    expect([again[0], again.at(-1), again.length]).toEqual([700, 1199, 500]);
    expect(Math.round(clock.toStream(0) * RATE)).toBe(700);
    clock.keep(audio(2000, 1000), 1500);
    clock.sent(2000);
    const late = clock.restart(0);
    expect([late[0], late.at(-1)]).toEqual([1000, 2699]);
    expect(Math.round(clock.toStream(0) * RATE)).toBe(1000);
  });

  it('keeps times across audio that was dropped', () => {
    const clock = new StreamClock();
    clock.keep(audio(0, RATE), 10 * RATE);
    clock.lost(RATE);
    clock.lost(RATE);
    clock.keep(audio(3 * RATE, RATE), 10 * RATE);
    clock.sent(2 * RATE);
    expect(clock.toStream(0.5)).toBe(0.5);
    expect(clock.toStream(1.5)).toBe(3.5);
  });

  it('cuts the audio at the times it gives, for any sequence of chunks, sessions and losses', () => {
    const event = fc.record({ kind: fc.constantFrom('keep', 'lose', 'restart'), length: fc.integer({ min: 1, max: 5000 }) });
    fc.assert(fc.property(fc.array(event, { minLength: 1, maxLength: 30 }), fc.double({ min: 0, max: 1, noNaN: true }), (events, share) => {
      const clock = new StreamClock();
      let stream = 0;
      let session = 0;
      const places: number[] = [];
      for (const { kind, length } of events) {
        if (kind === 'restart') { clock.restart(session / RATE); session = 0; places.length = 0; }
        if (kind === 'lose') { clock.lost(length); stream += length; }
        if (kind === 'keep') {
          clock.keep(audio(stream, length), Infinity);
          clock.sent(length);
          for (let n = 0; n < length; n += 1) places.push(stream + n);
          stream += length;
          session += length;
        }
      }
      if (!session) return;
      const at = Math.min(session - 1, Math.floor(share * session));
      const seconds = clock.toStream(at / RATE);
      expect(Math.round(seconds * RATE)).toBe(places[at]);
      expect(clock.cut(seconds, seconds + 1 / RATE)[0]).toBe(places[at]);
    }));
  });

  it('keeps no more than asked for, and cuts what is left', () => {
    const clock = new StreamClock();
    for (let n = 0; n < 100; n += 1) clock.keep(audio(n * 1000, 1000), 5000);
    expect(clock.cut(0, 1)).toHaveLength(0);
    expect([...clock.cut(99_000 / RATE, 99_003 / RATE)]).toEqual([99_000, 99_001, 99_002]);
    expect(clock.cut(0, 100)).toHaveLength(5000);
  });
});
