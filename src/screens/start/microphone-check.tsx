import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import { LevelMeter } from '../bedside/parts';
import { moved } from '../hearing/ears';
import type { Level } from '../hearing/level';
import { levelView } from '../hearing/level';
import { microphoneSource } from '../hearing/sources';
import { messageOf } from '../shared/messages';
import type { Message } from '../shared/messages';
import { Notice } from '../shared/notice';
import { formatRoute } from '../shared/route';

/** Peak and root mean square of a chunk; clipped when two neighbouring samples sit at full scale. */
export function measure(audio: Float32Array): Level {
  let [sum, peak, clipped, before] = [0, 0, false, false];
  for (const sample of audio) {
    const size = Math.abs(sample);
    sum += sample * sample;
    peak = Math.max(peak, size);
    const full = size >= 0.999;
    clipped ||= full && before;
    before = full;
  }
  return { rms: audio.length ? Math.sqrt(sum / audio.length) : 0, peak, clipped };
}

const seconds = (): number => performance.now() / 1000;

/** Shows whether the microphone delivers anything, before an examination depends on it. */
export function MicrophoneCheck(): ReactNode {
  const [state, setState] = useState<'off' | 'starting' | 'listening' | 'failed'>('off');
  const [level, setLevel] = useState<Level | null>(null);
  const [message, setMessage] = useState<Message | null>(null);
  const times = useRef({ signal: 0, clipped: -Infinity });
  const stop = useRef<() => void>(() => undefined);
  useEffect(() => () => stop.current(), []);

  const start = (): void => {
    setState('starting');
    setMessage(null);
    times.current = { signal: seconds(), clipped: -Infinity };
    const heard = (audio: Float32Array): void => {
      const now = measure(audio);
      if (moved(now)) times.current.signal = seconds();
      if (now.clipped) times.current.clipped = seconds();
      setLevel(now);
    };
    const ended = (why: Message | null): void => { setState('failed'); setMessage(why); };
    microphoneSource(heard, ended).then(
      (opened) => { stop.current = opened.stop; setState('listening'); },
      (error: unknown) => ended(messageOf(error)),
    );
  };
  const end = (): void => { stop.current(); stop.current = () => undefined; setState('off'); setLevel(null); };

  const { hint, ...view } = levelView(state, level, seconds() - times.current.signal, seconds() - times.current.clipped);
  return (
    <section className="panel stack" aria-label="Microphone check">
      <h2>Microphone check</h2>
      <LevelMeter view={state === 'listening' && hint ? { ...view, hint } : view} />
      {message ? <Notice message={message} /> : null}
      <p className="row">{state === 'listening' || state === 'starting' ? <button type="button" onClick={end}>Stop the check</button> : <button type="button" onClick={start}>Check the microphone</button>}<a className="button" href={formatRoute({ screen: 'voice' })}>Voice profile</a></p>
    </section>
  );
}
