/**
 * Keeps identities out of the record: an examination carries a label that only the ward's own list can resolve.
 * The checks are deliberately broad and the answer is a hint, since a label is easily changed and a name in a file is not.
 */
export type LabelCheck = { readonly ok: true; readonly label: string } | { readonly ok: false; readonly hint: string };

const MONTHS = 'jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec';
const TITLES = /^(mr|mrs|ms|miss|mx|dr|prof|sir|dame|master|herr|frau|mme|señora?|sig)\.?$/i;

const looksLikeDate = (text: string): boolean =>
  /\b\d{1,2}\s?[./\-\s]\s?\d{1,2}\s?[./\-\s]\s?(\d{4}|\d{2})\b/.test(text)
  || /\b(19|20)\d{2}[./\-\s]\d{1,2}[./\-\s]\d{1,2}\b/.test(text)
  || new RegExp(`\\b\\d{1,2}(st|nd|rd|th)?[\\s.-]*(${MONTHS})[a-z]*\\b|\\b(${MONTHS})[a-z]*[\\s.-]*\\d{1,2}\\b`, 'i').test(text)
  || /\b(born|dob|d\.o\.b)\b/i.test(text);

/** Every national and hospital number known to us has six digits or more in a row, spaces and dashes aside (common practice, no source). */
const looksLikeNumber = (text: string): boolean => /\d(?:[\s\-./]?\d){5,}/.test(text);

function looksLikeName(text: string): boolean {
  const words = text.split(/[\s,]+/).filter(Boolean);
  if (words.some((word) => TITLES.test(word)) && words.length > 1) return true;
  if (words.some((word) => /^\p{Lu}\.$/u.test(word))) return true;                         // J. Smith
  if (/\p{L},\s*\p{L}/u.test(text)) return true;                                            // Smith, Anna
  const capitalised = words.filter((word) => /^\p{Lu}[\p{L}'’-]+$/u.test(word));
  return capitalised.length >= 2 || !/\d/.test(text);                                       // Anna Smith; smith
}

/** Checks a label typed on the start screen. Never throws; the hint says what to type instead. */
export function checkLabel(text: string): LabelCheck {
  const label = text.trim().replace(/\s+/g, ' ');
  if (label.length < 2) return { ok: false, hint: 'Give the examination a label, such as a code word and a number.' };
  if (label.length > 32) return { ok: false, hint: 'Keep the label to 32 characters.' };
  if (/@/.test(label)) return { ok: false, hint: 'This looks like an address. Use a code word and a number, and keep who it is on your own list.' };
  if (looksLikeDate(label)) return { ok: false, hint: 'This looks like a date, and a date of birth can identify a patient. Use a code word and a number.' };
  if (looksLikeNumber(label)) return { ok: false, hint: 'This looks like the number of an identity document or a hospital record. Use a code word and a short number.' };
  if (looksLikeName(label)) return { ok: false, hint: 'This could be a name. Use a code word and a number, such as the one suggested, and keep who it is on your own list.' };
  return { ok: true, label };
}

const WORDS = ['Alder', 'Basalt', 'Cedar', 'Dune', 'Ember', 'Fjord', 'Gannet', 'Heron', 'Ibex', 'Juniper', 'Kelp', 'Larch', 'Moss', 'Nettle', 'Osprey', 'Plover', 'Quartz', 'Rowan', 'Sorrel', 'Tern', 'Umber', 'Vole', 'Willow', 'Yarrow'] as const;

/** A label that says nothing about anybody: "Heron 27". Pass a source of random numbers in [0, 1). */
export function suggestLabel(random: () => number): string {
  const word = WORDS[Math.floor(random() * WORDS.length)] ?? WORDS[0];
  return `${word} ${10 + Math.floor(random() * 90)}`;
}
