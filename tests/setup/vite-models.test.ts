import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, createServer, preview } from 'vite';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { serveModels } from '../../src/setup/vite-models';

let home: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'served-models-'));
  writeFileSync(join(home, 'index.html'), '<!doctype html><title>page</title>');
  mkdirSync(join(home, 'files/vosk'), { recursive: true });
  writeFileSync(join(home, 'files/vosk/installed.json'), '{"name":"small"}');
  writeFileSync(join(home, 'secret.txt'), 'not for the page');
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const config = () => ({ configFile: false as const, logLevel: 'silent' as const, root: home, appType: 'mpa' as const, plugins: [serveModels(join(home, 'files'))], build: { outDir: join(home, 'dist'), emptyOutDir: true } });
const ask = async (address: string, path: string): Promise<[number, string | null]> => {
  const answer = await fetch(new URL(path, address));
  return [answer.status, answer.ok ? await answer.text() : null];
};

it('gives the built page what is installed, and 404 for what is not or no longer', async () => {
  await build(config());
  const server = await preview({ ...config(), preview: { host: '127.0.0.1', port: 4471, open: false } });
  const address = server.resolvedUrls!.local[0]!;
  expect(await ask(address, 'models/vosk/installed.json')).toEqual([200, '{"name":"small"}']);
  expect(await ask(address, 'models/vosk/other.json')).toEqual([404, null]);
  await server.close();
  rmSync(join(home, 'files/vosk'), { recursive: true });
  await build(config());
  expect(existsSync(join(home, 'dist/models/vosk'))).toBe(false);
  expect(readFileSync(join(home, 'dist/index.html'), 'utf8')).toContain('page');
});

it('gives the same while developing, and nothing outside its folder', async () => {
  const server = await createServer({ ...config(), server: { host: '127.0.0.1', port: 4472, hmr: false, watch: null } });
  await server.listen();
  const address = server.resolvedUrls!.local[0]!;
  expect(await ask(address, 'models/vosk/installed.json')).toEqual([200, '{"name":"small"}']);
  for (const path of ['models/vosk/other.json', 'models/vosk', 'models/..%2fsecret.txt']) expect(await ask(address, path), path).toEqual([404, null]);
  await server.close();
});
