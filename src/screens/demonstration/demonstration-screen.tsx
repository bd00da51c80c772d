import { useEffect, useState } from 'react';
import type { ReactNode } from 'react';
import { CAUTION_LINE, messageOf } from '../shared/messages';
import { Notice } from '../shared/notice';
import { formatRoute } from '../shared/route';
import { demonstrationScript } from './demonstration';

/** (d) What will be seen, what will be said, and a button: browsers play sound only after one was pressed. */
export function DemonstrationScreen({ onPlay }: { onPlay: () => Promise<void> }): ReactNode {
  const [fault, setFault] = useState<unknown>(null);
  useEffect(() => { document.title = 'Lumbrical: demonstration'; }, []);
  return (
    <>
      <main className="page" id="main">
        <header><h1>Demonstration</h1><a className="button" href={formatRoute({ screen: 'start' })}>Back to the start</a></header>
        <p>An invented patient, cut at the left wrist by glass three hours ago. You hear an examiner speak for about a minute; the recorder hears the same sound as it would hear you, and files what it understands. The voices are synthetic; everything else is real, and no microphone is used.</p>
        {fault ? <Notice message={messageOf(fault)} /> : null}
        <p><button type="button" className="main large" onClick={() => { onPlay().catch(setFault); }}>Play the demonstration</button></p>
        <section className="panel stack" aria-label="What will be said">
          <h2>What will be said</h2>
          <ol className="script">{demonstrationScript.map(({ words, toPatient }, n) => <li key={n}>“{words}”{toPatient ? <span className="soft"> (to the patient: should be ignored)</span> : null}</li>)}</ol>
        </section>
      </main>
      <p className="caution-line">{CAUTION_LINE}</p>
    </>
  );
}
