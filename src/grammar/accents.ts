/**
 * British pronunciations from American ones. The dictionaries that come with speech engines are American; an examiner from
 * southern England says "four" without the r, "not" with a rounded vowel and "last" with that of "palm". The rules are the
 * standard lexical sets of J. C. Wells (Accents of English, Cambridge University Press 1982, vol. 1; from memory): BATH, LOT,
 * NURSE, lettER, and dropped r before anything but a vowel; the yod of "reduced" after t, d and n.
 */
const VOWELS = new Set('AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW'.split(' '));

/** Words of the BATH set, by stem: those that findings and talk about the hand use. */
const BATH = /^(last|cast|plaster|half|halves|grasp|after|sample|branch|fast|past|ask|bath|chance|advanced?|draught)/;

/**
 * Words that keep their American sounds only: unstressed ones, whose weak forms are in the dictionaries already, and those that
 * without their r are so short that the tail of any word fits them ("left hand" was heard as "left hand scar").
 */
const WEAK = new Set(['or', 'for', 'are', 'her', 'were', 'scar', 'r']);

/**
 * What a speaker of southern British English says for an American pronunciation; null when it is the same.
 * @param american ARPAbet phones without stress, one space between
 */
export function southernBritish(word: string, american: string): string | null {
  if (WEAK.has(word)) return null;
  const phones = american.split(' ');
  const said: string[] = [];
  phones.forEach((phone, i) => {
    const before = phones[i - 1] ?? '';
    const after = phones[i + 1] ?? '';
    const beforeVowel = VOWELS.has(after);
    if (phone === 'R' && VOWELS.has(before) && !beforeVowel) {
      if (before === 'IH' || before === 'IY' || before === 'UH' || before === 'UW') said.push('AH'); // NEAR, CURE glide to schwa
    } else if (phone === 'ER') said.push('AH', ...(beforeVowel ? ['R'] : []));
    else if (phone === 'AA' && after !== 'R' && (before === 'W' || (word.includes('o') && !word.includes('alm')))) said.push('AO');
    else if (phone === 'AE' && BATH.test(word)) said.push('AA');
    else if (phone === 'UW' && ['T', 'D', 'N'].includes(before) && /[tdn](u|ew)/.test(word)) said.push('Y', 'UW');
    else if (phone === 'AO' && after === 'R' && phones[i + 2] === 'IY' && i + 3 === phones.length) said.push('AH'); // "territory"
    else said.push(phone);
  });
  const british = said.join(' ');
  return british === american ? null : british;
}
