import { useEffect, useState } from 'react';
import type { ReactNode } from 'react';
import { ENGINE_WORDS, INSTALL_COMMAND } from '../../recogniser/vosk';
import type { Measured } from '../../recogniser/vosk';
import { enginesHere, planHearing, secondStopped } from '../hearing/engines';
import type { EngineHere, EnginesHere } from '../hearing/engines';
import { messageOf } from '../shared/messages';
import type { Message } from '../shared/messages';
import { Notice } from '../shared/notice';
import type { Settings } from '../shared/settings';
import { Choices } from './choices';

const percent = (share: number): string => `${Math.round(100 * share)} %`;

const SHOWN = [['quiet', 'in quiet'], ['babble 20 dB', 'among other voices at 20 dB']] as const;

/** The printed figures that matter most, and what they were measured on. */
function figures({ conditions, clips, voices }: Measured): string {
  const parts = SHOWN.flatMap(([name, words]) => (conditions[name] ? [`${words} ${percent(conditions[name].exact)} filed exactly and ${percent(conditions[name].wronglyFiled)} wrongly, the rest asked about or missed`] : []));
  return `Measured: of ${clips} sentences ${parts.join('; ')}. Voices: ${voices}.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function EngineLine({ engine }: { engine: EngineHere }): ReactNode {
  const { name, installed, model, measured, note } = engine;
  return (
    <li className="stack tight">
      <p><strong>{capital(ENGINE_WORDS[name])}: {installed ? 'installed' : 'not installed'}</strong>{model ? `, ${model}` : ''}.</p>
      {installed
        ? <p className="soft">{measured ? figures(measured) : 'No measured figures on record, so it is never chosen by itself.'}{note ? ` ${note}` : ''}</p>
        : <p className="soft">{name === 'vosk' ? <>To install it, run <code>{INSTALL_COMMAND}</code> where the recorder is installed, then <code>npm start</code> again. It needs no network if you name a file.</> : <>Run <code>npm start</code> again with a network connection.</>}</p>}
    </li>
  );
}

/** Which engines there are, which one hears and why, and the choice between them. */
export function EngineChoiceView({ engines, settings, onSettings }: { engines: EnginesHere; settings: Settings; onSettings: (settings: Settings) => void }): ReactNode {
  const plan = planHearing(engines, settings);
  const canChoose = engines.vosk.installed || settings.engine === 'vosk';
  return (
    <>
      <p role="status"><strong>The {ENGINE_WORDS[plan.engine]} hears</strong>, because {plan.why}.</p>
      {plan.note && engines.vosk.installed ? <p className="notice">{plan.note}</p> : null}
      {canChoose ? (
        <Choices name="engine" legend="Which engine hears" value={settings.engine} onChange={(engine) => { secondStopped(null); onSettings({ ...settings, engine: engine as Settings['engine'] }); }}
          choices={[{ value: 'automatic', words: 'Best measured' }, { value: 'embedded', words: 'Built-in' }, { value: 'vosk', words: 'Second', disabled: !engines.vosk.installed }]} />
      ) : null}
      {plan.engine === 'vosk' ? (
        <>
          <Choices name="speech" legend="How you speak" value={plan.speech} onChange={(speech) => onSettings({ ...settings, speech: speech as Settings['speech'] })}
            choices={[{ value: 'short', words: 'Short findings', disabled: !engines.vosk.takesGrammar }, { value: 'free', words: 'Freely' }]} />
          {plan.speech === 'free' ? <p className="soft">Speaking freely, you are asked back more often, and what you say to the patient is told apart by its words alone: say less beside the findings.</p> : null}
        </>
      ) : null}
      <ul className="stack">{[engines.embedded, engines.vosk].map((engine) => <EngineLine key={engine.name} engine={engine} />)}</ul>
    </>
  );
}

/** The same, once the server has said what is installed. */
export function EngineChoice({ settings, onSettings }: { settings: Settings; onSettings: (settings: Settings) => void }): ReactNode {
  const [engines, setEngines] = useState<EnginesHere | null>(null);
  const [fault, setFault] = useState<Message | null>(null);
  useEffect(() => { enginesHere().then(setEngines, (error: unknown) => setFault(messageOf(error))); }, []);
  return (
    <section className="panel stack" aria-label="Speech engine">
      <h2>Speech engine</h2>
      {fault ? <Notice message={{ what: 'What is installed could not be read.', todo: `${fault.what} ${fault.todo}` }} /> : null}
      {engines ? <EngineChoiceView engines={engines} settings={settings} onSettings={onSettings} /> : fault ? null : <p className="soft">Looking …</p>}
    </section>
  );
}
