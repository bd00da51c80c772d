import { useEffect, useRef } from 'react';
import type { KeyMap, KeyPress } from '../shared/keys';
import { readKey } from '../shared/keys';

const controlOf = (target: EventTarget | null): 'text' | 'button' | null => {
  if (!(target instanceof HTMLElement)) return null;
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable) return 'text';
  if (target instanceof HTMLInputElement) return ['checkbox', 'radio', 'button', 'submit'].includes(target.type) ? 'button' : 'text';
  return target instanceof HTMLButtonElement || target instanceof HTMLAnchorElement || target.tagName === 'SUMMARY' ? 'button' : null;
};

/** Listens for keys and pedals on the whole page while mounted. */
export function useKeys(map: KeyMap, act: (press: NonNullable<KeyPress>) => void): void {
  const latest = useRef({ map, act });
  latest.current = { map, act };
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
      const press = readKey(latest.current.map, event.key, controlOf(event.target));
      if (!press) return;
      event.preventDefault();
      // A pedal held down must not hold and carry on in turns.
      if (!event.repeat) latest.current.act(press);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
