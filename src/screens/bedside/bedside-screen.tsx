import { useSelector } from '@xstate/react';
import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { ReactNode } from 'react';
import { answerable } from '../../examination';
import { microphoneSource } from '../hearing/sources';
import { hearingState } from '../hearing/hearing-machine';
import { levelView } from '../hearing/level';
import { cautionViews } from '../shared/caution-view';
import type { KeyPress } from '../shared/keys';
import { keyInWords } from '../shared/keys';
import { localisationView } from '../shared/localisation-view';
import { CAUTION_LINE } from '../shared/messages';
import { Notice } from '../shared/notice';
import { readAloud } from '../shared/read-aloud';
import { heardRows, keptUnparsed, questionView } from '../shared/record-view';
import { formatRoute } from '../shared/route';
import type { Settings } from '../shared/settings';
import { play } from '../shared/sounds';
import { stageViews } from '../shared/stage-view';
import { keepAwake } from '../shared/wake-lock';
import type { Hearing, Open } from '../session/open';
import { takeSource } from '../session/open';
import { CautionBanner, CautionsSeen, Heard, LevelMeter, Localisation, Question, SideShown, StageBoard } from './parts';
import { SettingsPanel } from './settings-panel';
import { useKeys } from './use-keys';

/** A clock for the meter: silence and clipping are told by the time since. */
function useSeconds(everyMs: number): number {
  const [now, setNow] = useState(() => performance.now() / 1000);
  useEffect(() => {
    const timer = setInterval(() => setNow(performance.now() / 1000), everyMs);
    return () => clearInterval(timer);
  }, [everyMs]);
  return now;
}

function Meter({ hearing, held }: { hearing: Hearing; held: boolean }): ReactNode {
  const now = useSeconds(500);
  const { value, context } = useSelector(hearing, (snapshot) => snapshot);
  return <LevelMeter view={levelView(hearingState(value, held, context.muted), context.level, now - context.lastSignal, now - context.lastClipped)} />;
}

function HeardNow({ hearing, rows, reply }: { hearing: Hearing; rows: Parameters<typeof Heard>[0]['rows']; reply: string | null }): ReactNode {
  return <Heard partial={useSelector(hearing, ({ context }) => context.partial)} rows={rows} reply={reply} />;
}

function HearingNotice({ hearing, onListen }: { hearing: Hearing; onListen: () => void }): ReactNode {
  const message = useSelector(hearing, ({ context }) => context.message);
  const note = useSelector(hearing, ({ context }) => context.note);
  const off = useSelector(hearing, ({ value }) => value === 'off' || value === 'failed');
  if (message) return <Notice message={message}>{off ? <button type="button" onClick={onListen}>Turn the microphone on</button> : null}</Notice>;
  return note ? <p className="notice">{note}</p> : null;
}

function TypedLine({ onType, field }: { onType: (text: string) => void; field: React.RefObject<HTMLInputElement | null> }): ReactNode {
  const [text, setText] = useState('');
  return (
    <form className="grow row" onSubmit={(event) => { event.preventDefault(); onType(text); setText(''); }}>
      <label className="offscreen" htmlFor="typed">Type what you would say</label>
      <input ref={field} id="typed" className="grow onset" value={text} placeholder="Type what you would say" autoComplete="off" onChange={(event) => setText(event.target.value)}
        onKeyDown={(event) => { if (event.key === 'Escape') event.currentTarget.blur(); }} />
      <button type="submit">Enter</button>
    </form>
  );
}

/** (a) Bedside: what is heard and what it became, the side, what remains, cautions, and where the lesion may be. */
export function BedsideScreen({ open, settings, onSettings }: { open: Open; settings: Settings; onSettings: (settings: Settings) => void }): ReactNode {
  const { session, hearing } = open;
  const view = useSyncExternalStore(session.subscribe, session.getView);
  const { record, protocol } = view;
  const listening = useSelector(hearing, ({ value }) => typeof value !== 'string');
  const [marked, setMarked] = useState<number | null>(null);
  const [showSettings, setShowSettings] = useState(false);
  const [demonstrating, setDemonstrating] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const latest = useRef({ settings, demonstrating });
  latest.current = { settings, demonstrating };

  const listen = (): void => hearing.send({ type: 'listen', source: microphoneSource });
  useEffect(() => { document.title = `Lumbrical: bedside, ${record.setUp?.label ?? ''}`; }, [record.setUp]);
  useEffect(keepAwake, []);
  useEffect(() => {
    const recording = takeSource(session.examinationId);
    if (recording) setDemonstrating(true);
    if (hearing.getSnapshot().value === 'off') hearing.send({ type: 'listen', source: recording ?? microphoneSource });
    const finished = hearing.on('finished', () => setDemonstrating(false));
    return () => { finished.unsubscribe(); hearing.send({ type: 'stop' }); };
  }, [hearing, session]);
  useEffect(() => {
    let quiet = (): void => undefined;
    const stop = session.onFeedback(({ sound, say }) => {
      const { settings: { sounds, speak }, demonstrating: recorded } = latest.current;
      if (sounds) play(sound, recorded ? 0.1 : 0.25);
      // The demonstration's voice must not be talked over: its answers are on the screen.
      if (speak && say && !recorded) { quiet(); quiet = readAloud(say, (muted) => hearing.send({ type: 'mute', muted })).stop; }
    });
    return () => { stop(); quiet(); };
  }, [session, hearing]);

  const question = answerable(record);
  const asked = question ? questionView(record, question) : null;
  useEffect(() => setMarked(null), [question?.utteranceId]);
  const cautions = cautionViews(view.cautions, record);
  const waiting = cautions.filter(({ acknowledged }) => !acknowledged);
  const [pending] = waiting;
  const say = (text: string): void => void session.type(text, 'button');

  const press = (pressed: NonNullable<KeyPress>): void => {
    if ('option' in pressed) { if (asked && pressed.option < asked.answers.length) void session.answer(pressed.option); return; }
    const step = (by: number): void => setMarked((before) => { const count = asked?.answers.length ?? 0; return count ? ((before ?? (by > 0 ? -1 : 0)) + by + count) % count : null; });
    switch (pressed.action) {
      case 'hold': say(record.held ? 'carry on' : 'hold'); break;
      case 'forward': if (asked) step(1); else say('next stage'); break;
      case 'back': if (asked) step(-1); else say('what remains'); break;
      case 'choose': if (pending) void session.acknowledge(pending.id); else if (asked && marked !== null) void session.answer(marked); break;
      case 'withdraw': say('withdraw that'); break;
      case 'type': field.current?.focus(); break;
    }
  };
  useKeys(settings.keys, press);

  const rows = heardRows(record);
  const kept = keptUnparsed(record);
  return (
    <>
      <main className="bedside" id="main">
        <div className="left">
          <div className="who">
            <SideShown side={record.currentSide} />
            <p className="soft label">{record.setUp?.label}{demonstrating ? <strong> · demonstration, invented patient</strong> : null}</p>
          </div>
          <HearingNotice hearing={hearing} onListen={listen} />
          {view.unsaved ? <Notice message={{ what: `Not stored yet: the last ${view.unsaved.count === 1 ? 'entry' : `${view.unsaved.count} entries`}.`, todo: view.unsaved.why }}><button type="button" onClick={() => void session.retry()}>Try to store again</button></Notice> : null}
          {pending ? <CautionBanner caution={pending} more={waiting.length - 1} onAcknowledge={() => void session.acknowledge(pending.id)} /> : null}
          {asked ? <Question question={asked} marked={marked} onAnswer={(n) => void session.answer(n)} onDismiss={() => void session.answer(null)} /> : <HeardNow hearing={hearing} rows={rows} reply={view.feedback?.show || null} />}
          {kept.length ? (
            <section className="panel kept" aria-label="Kept, not understood" tabIndex={0}><h2>Kept for review, not understood: {kept.length}</h2><ul>{kept.slice(0, 2).map(({ id, text }) => <li key={id}>“{text}”</li>)}</ul></section>
          ) : null}
        </div>
        <div className="right">
          <div className="hearing">
            <Meter hearing={hearing} held={record.held} />
            {listening
              ? <button type="button" className="large" onClick={() => say(record.held ? 'carry on' : 'hold')}>{record.held ? 'Carry on' : 'Hold'}</button>
              : <button type="button" className="large main" onClick={listen}>Turn the microphone on</button>}
          </div>
          <CautionsSeen cautions={cautions.filter(({ acknowledged }) => acknowledged)} />
          <StageBoard stages={stageViews(record, protocol)} onStage={(id) => void session.setStage(id)} />
          <Localisation view={localisationView(view.localisation)} />
        </div>
        <div className="typed">
          <TypedLine field={field} onType={(text) => void session.type(text)} />
          <button type="button" aria-expanded={showSettings} onClick={() => setShowSettings((before) => !before)}>Keys and sounds</button>
          <a className="button" href={formatRoute({ screen: 'desk', examinationId: session.examinationId })}>Desk</a>
        </div>
      </main>
      {showSettings ? <SettingsPanel settings={settings} onChange={onSettings} /> : null}
      <p className="caution-line">{CAUTION_LINE} <span className="soft">{keyInWords(settings.keys.hold[0] ?? 'none')}: hold or carry on.</span></p>
    </>
  );
}
