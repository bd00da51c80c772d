import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import promptText from '../../../grammars/voice-prompts.txt?raw';
import { createEnrolment, Endpointer, LEAST_READINGS, readPrompts, snrOf } from '../../recogniser';
import type { Enrolment, VoiceProfile } from '../../recogniser';
import { LevelMeter } from '../bedside/parts';
import { moved } from '../hearing/ears';
import type { Level } from '../hearing/level';
import { levelView } from '../hearing/level';
import { microphoneSource } from '../hearing/sources';
import { heardGrammar, modelUrl } from '../session/language';
import { CAUTION_LINE, messageOf } from '../shared/messages';
import type { Message } from '../shared/messages';
import { Notice } from '../shared/notice';
import { formatRoute } from '../shared/route';
import { deleteVoice, loadVoice, saveVoice } from '../shared/voice-store';
import { measure } from './microphone-check';

const PROMPTS = readPrompts(promptText);
const seconds = (): number => performance.now() / 1000;

/** Speech must stand out this far, in dB, or the profile would learn the room and its noise (a design choice, no source). */
const LEAST_SNR = 15;

/** Cuts what the microphone delivers into readings, as the recogniser cuts it into utterances; with the power of the noise around each. */
function createCutter(onReading: (audio: Float32Array, noise: Float64Array) => void): (audio: Float32Array) => void {
  const endpointer = new Endpointer();
  let held = new Float32Array(0);
  let origin = 0;
  return (audio) => {
    const start = Math.max(origin, Math.min(endpointer.keepFrom, origin + held.length));
    const longer = new Float32Array(origin + held.length - start + audio.length);
    longer.set(held.subarray(start - origin));
    longer.set(audio, longer.length - audio.length);
    [held, origin] = [longer, start];
    for (const event of endpointer.push(audio))
      if (event.type === 'ended') onReading(held.slice(Math.max(0, event.stretch.from - origin), event.stretch.to - origin), event.stretch.noise);
  };
}

type Step =
  | { readonly name: 'ready' | 'loading' | 'computing' | 'made' }
  | { readonly name: 'reading'; readonly at: number; readonly used: number; readonly checking: boolean; readonly refused?: 'misfit' | 'noise' };

/** One sentence at a time, in large type; hands-free once begun. Ends by itself when all are read. */
function Readings({ onMade }: { onMade: (profile: VoiceProfile) => void }): ReactNode {
  const [step, setStep] = useState<Step>({ name: 'ready' });
  const [level, setLevel] = useState<Level | null>(null);
  const [message, setMessage] = useState<Message | null>(null);
  const now = useRef<Step>(step);
  const times = useRef({ signal: 0, clipped: -Infinity });
  const enrolment = useRef<Enrolment | null>(null);
  const closers = useRef<(() => void)[]>([]);
  const heading = useRef<HTMLHeadingElement>(null);
  const go = (next: Step): void => { now.current = next; setStep(next); };
  const close = (): void => { for (const end of closers.current.splice(0)) end(); enrolment.current = null; setLevel(null); };
  const stop = (why: Message | null): void => { close(); setMessage(why); go({ name: 'ready' }); };
  useEffect(() => () => { for (const end of closers.current.splice(0)) end(); }, []);

  const advance = async (used: number, at: number): Promise<void> => {
    if (at < PROMPTS.length) { go({ name: 'reading', at, used, checking: false }); return; }
    const opened = enrolment.current;
    if (!opened) return;
    if (used < LEAST_READINGS) { stop({ what: 'Too few sentences were read for a voice profile.', todo: `At least ${LEAST_READINGS} of the ${PROMPTS.length} are needed. Nothing was changed.` }); return; }
    go({ name: 'computing' });
    try {
      const profile = await opened.profile();
      if (enrolment.current !== opened) return;
      await saveVoice(profile);
      close();
      go({ name: 'made' });
      onMade(profile);
    } catch (error) { stop(messageOf(error)); }
  };

  const take = async (audio: Float32Array, noise: Float64Array): Promise<void> => {
    const current = now.current;
    const opened = enrolment.current;
    if (current.name !== 'reading' || current.checking || !opened) return;
    if (snrOf(audio, noise) < LEAST_SNR) { go({ ...current, refused: 'noise' }); return; }
    go({ ...current, checking: true });
    try {
      const fits = await opened.read({ text: PROMPTS[current.at] ?? '', audio });
      // Skipped or stopped meanwhile: that stands.
      if (enrolment.current !== opened || now.current.name !== 'reading' || now.current.at !== current.at) return;
      if (fits) await advance(current.used + 1, current.at + 1);
      else go({ ...current, checking: false, refused: 'misfit' });
    } catch (error) { stop(messageOf(error)); }
  };

  const begin = async (): Promise<void> => {
    setMessage(null);
    go({ name: 'loading' });
    try {
      const { pronunciations } = await heardGrammar();
      const opened = createEnrolment({ modelUrl: modelUrl(), pronunciations });
      enrolment.current = opened;
      closers.current.push(() => opened.dispose());
      await opened.load();
      times.current = { signal: seconds(), clipped: -Infinity };
      const cutter = createCutter((audio, noise) => void take(audio, noise));
      const heard = (audio: Float32Array): void => {
        const size = measure(audio);
        if (moved(size)) times.current.signal = seconds();
        if (size.clipped) times.current.clipped = seconds();
        setLevel(size);
        cutter(audio);
      };
      const source = await microphoneSource(heard, (why) => stop(why));
      if (enrolment.current !== opened) { source.stop(); return; }
      closers.current.push(source.stop);
      await advance(0, 0);
      heading.current?.focus();
    } catch (error) { stop(messageOf(error)); }
  };

  if (step.name === 'reading') {
    const { at, used, checking, refused } = step;
    const { hint, ...view } = levelView('listening', level, seconds() - times.current.signal, seconds() - times.current.clipped);
    return (
      <section className="panel stack" aria-label="Sentence to read">
        <h2 ref={heading} tabIndex={-1}>Read this aloud, as you would at the bedside</h2>
        <p className="prompt" aria-live="polite">{PROMPTS[at]}</p>
        <p role="status">{checking ? 'Listening to that …' : refused === 'noise' ? 'Too much noise around you. Come closer to the microphone or find a quieter place, and read it again.' : refused ? 'That did not sound like this sentence. Read it again, or skip it.' : `Sentence ${at + 1} of ${PROMPTS.length}, ${used} taken.`}</p>
        <progress max={PROMPTS.length} value={at} aria-label="Sentences done" />
        <LevelMeter view={hint ? { ...view, hint } : view} />
        <p className="row">
          <button type="button" className="large" onClick={() => void advance(used, at + 1)}>Skip this sentence</button>
          <button type="button" className="large" onClick={() => stop(null)}>Stop</button>
        </p>
      </section>
    );
  }
  return (
    <section className="panel stack" aria-label="Read the sentences">
      {message ? <Notice message={message} /> : null}
      <p role="status">{step.name === 'loading' ? 'Getting ready …' : step.name === 'computing' ? 'Working the profile out …' : step.name === 'made' ? 'Done. The next examination hears you with it.' : `${PROMPTS.length} sentences, about two minutes. Sit where it is quiet, with the microphone that you will use.`}</p>
      <p className="row">{step.name === 'ready' || step.name === 'made' ? <button type="button" className="main large" onClick={() => void begin()}>{step.name === 'made' ? 'Read them again' : 'Begin reading'}</button> : <button type="button" className="large" onClick={() => stop(null)}>Stop</button>}</p>
    </section>
  );
}

/** The examiner reads a dozen sentences once, so that an accent or a voice far from the usual is heard better. */
export function VoiceProfileScreen(): ReactNode {
  const [profile, setProfile] = useState<VoiceProfile | null>(null);
  const [asking, setAsking] = useState(false);
  const [fault, setFault] = useState<Message | null>(null);
  useEffect(() => { document.title = 'Lumbrical: voice profile'; void loadVoice().then(setProfile); }, []);
  const remove = (): void => { setAsking(false); deleteVoice().then(() => setProfile(null), (error: unknown) => setFault(messageOf(error))); };
  return (
    <>
      <main className="page" id="main">
        <header><h1>Voice profile</h1><a className="button" href={formatRoute({ screen: 'start' })}>Back to the start</a></header>
        <p>If the recorder often mishears you, read these sentences once. It then shifts its idea of how sounds are spoken towards your voice and microphone. What is kept is a table of numbers, no sound; it stays in this browser until you delete it. It is one examiner’s: delete it before somebody else dictates here. It serves the built-in engine only.</p>
        {fault ? <Notice message={fault} /> : null}
        <section className="panel stack" aria-label="Kept profile">
          <p role="status">{profile ? `In use: made ${new Date(profile.made).toLocaleString()} from ${Math.round(profile.frames / 100)} seconds of speech.` : 'No voice profile is kept: the recorder hears with its usual model.'}</p>
          {profile ? <p className="row">{asking
            ? <><span>Delete the voice profile?</span><button type="button" onClick={remove}>Delete it</button><button type="button" onClick={() => setAsking(false)}>Keep it</button></>
            : <button type="button" onClick={() => setAsking(true)}>Delete the voice profile</button>}</p> : null}
        </section>
        <Readings onMade={setProfile} />
      </main>
      <p className="caution-line">{CAUTION_LINE}</p>
    </>
  );
}
