import { useEffect, useRef, useState } from 'react';
import type { KeyboardEvent, ReactNode } from 'react';
import { ACTION_WORDS, ACTIONS, giveKey, isFreeKey, keyInWords, USUAL_KEYS } from '../shared/keys';
import type { Action } from '../shared/keys';
import type { Settings } from '../shared/settings';

/** Keys and pedals, sounds, voice and look. Press a button, then the key or pedal that it should have. */
export function SettingsPanel({ settings, onChange }: { settings: Settings; onChange: (settings: Settings) => void }): ReactNode {
  const [learning, setLearning] = useState<Action | null>(null);
  const panel = useRef<HTMLElement>(null);
  useEffect(() => { void panel.current?.scrollIntoView(); }, []);
  const learn = (event: KeyboardEvent): void => {
    if (!learning) return;
    if (event.key === 'Escape') { setLearning(null); return; }
    if (!isFreeKey(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
    onChange({ ...settings, keys: giveKey(settings.keys, learning, event.key) });
    setLearning(null);
  };
  return (
    <aside className="panel stack settings" aria-label="Keys, pedal and sounds" ref={panel} onKeyDownCapture={learn}>
      <h2>Keys and foot pedal</h2>
      <p className="soft">1 to 9 choose an answer. To change a key, press its button, then the key or pedal. Escape leaves it as it is.</p>
      <ul>
        {ACTIONS.map((action) => (
          <li key={action} className="row">
            <span className="grow">{ACTION_WORDS[action]}</span>
            <button type="button" aria-pressed={learning === action} onClick={() => setLearning(action)}>{learning === action ? 'Press a key …' : settings.keys[action].map(keyInWords).join(', ') || 'none'}</button>
          </li>
        ))}
      </ul>
      <p className="row"><button type="button" onClick={() => onChange({ ...settings, keys: USUAL_KEYS })}>Usual keys</button></p>
      <label className="row"><input type="checkbox" checked={settings.sounds} onChange={(event) => onChange({ ...settings, sounds: event.target.checked })} /> Sounds for filed, asked back, ignored and cautions</label>
      <label className="row"><input type="checkbox" checked={settings.speak} onChange={(event) => onChange({ ...settings, speak: event.target.checked })} /> Speak questions and answers aloud (voices of this device only)</label>
      <label className="row">Look
        <select className="onset" value={settings.look} onChange={(event) => onChange({ ...settings, look: event.target.value as Settings['look'] })}>
          <option value="by screen">dark at the bedside, light at the desk</option><option value="lamp">dark</option><option value="paper">light</option>
        </select>
      </label>
    </aside>
  );
}
