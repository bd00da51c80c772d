/**
 * Keys and foot pedals. Pedals present themselves as keyboards, most often sending Page Up and Page Down,
 * or whatever key they were set to (common practice, no source), so every action takes any key, and each can be changed.
 */
export const ACTIONS = ['hold', 'forward', 'back', 'choose', 'withdraw', 'type'] as const;
export type Action = (typeof ACTIONS)[number];

export const ACTION_WORDS: Readonly<Record<Action, string>> = {
  hold: 'Hold, or carry on',
  forward: 'Next answer; with no question open, next stage',
  back: 'Previous answer; with no question open, what remains',
  choose: 'Acknowledge a caution; choose the marked answer',
  withdraw: 'Withdraw the last finding',
  type: 'Go to the typed line',
};

export type KeyMap = Readonly<Record<Action, readonly string[]>>;
export const USUAL_KEYS: KeyMap = { hold: [' '], forward: ['PageDown'], back: ['PageUp'], choose: ['Enter'], withdraw: ['Delete'], type: ['/'] };

/** "Space" for " ", "Page Down" for "PageDown". */
export const keyInWords = (key: string): string => (key === ' ' ? 'Space' : key.replace(/([a-z])([A-Z])/g, '$1 $2'));

/** Digits always pick the answer of that number and Tab and Escape stay the browser's, so none can be given to an action. */
export const isFreeKey = (key: string): boolean => !/^[1-9]$/.test(key) && !['Tab', 'Escape', 'Shift', 'Control', 'Alt', 'Meta'].includes(key);

const mapKeys = (keysOf: (action: Action) => readonly string[]): KeyMap =>
  Object.fromEntries(ACTIONS.map((action) => [action, keysOf(action)])) as unknown as KeyMap;

/** Gives a key to an action, taking it from any other; the map stays one key to one action. */
export function giveKey(map: KeyMap, action: Action, key: string): KeyMap {
  if (!isFreeKey(key)) return map;
  return mapKeys((name) => (name === action ? [key] : map[name].filter((other) => other !== key)));
}

export type KeyPress = { readonly action: Action } | { readonly option: number } | null;

/** What a key means, or null. Inside a control that uses the key itself (`inControl`), only keys it can't use count. */
export function readKey(map: KeyMap, key: string, inControl: 'text' | 'button' | null): KeyPress {
  if (inControl === 'text' && !/^Page(Up|Down)$/.test(key)) return null;
  if (inControl === 'button' && (key === 'Enter' || key === ' ')) return null;
  if (/^[1-9]$/.test(key)) return { option: Number(key) - 1 };
  const action = ACTIONS.find((name) => map[name].includes(key));
  return action ? { action } : null;
}

/** Reads a stored map; anything odd falls back to the usual key of that action. */
export function parseKeyMap(text: string | null): KeyMap {
  try {
    const stored = JSON.parse(text ?? '{}') as Record<string, unknown>;
    return mapKeys((action) => {
      const keys = stored[action];
      return Array.isArray(keys) && keys.every((key) => typeof key === 'string' && isFreeKey(key)) ? keys : USUAL_KEYS[action];
    });
  } catch {
    return USUAL_KEYS;
  }
}
