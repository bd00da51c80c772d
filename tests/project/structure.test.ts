import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
/** The story of the program, left to right. A folder may use only what stands before it. */
const STORY = ['vocabulary', 'grammar', 'microphone', 'recogniser', 'parser', 'record', 'examination', 'localiser', 'cautions', 'report', 'headless', 'screens'];
const files = (folder: string): string[] => readdirSync(folder).flatMap((name) => {
  const path = join(folder, name);
  return statSync(path).isDirectory() ? files(path) : [path];
});
const imports = (text: string): string[] => [...text.matchAll(/^\s*(?:import|export)[^'"]*?from\s+['"](\.[^'"]+)['"]|import\(\s*['"](\.[^'"]+)['"]\s*\)/gm)].map((match) => (match[1] ?? match[2])!);

describe('structure', () => {
  it.each(STORY.slice(0, -1))('%s uses only folders to its left', (folder) => {
    const wrong = files(join(root, 'src', folder)).filter((path) => /\.tsx?$/.test(path)).flatMap((path) =>
      imports(readFileSync(path, 'utf8')).map((target) => relative(join(root, 'src'), join(path, '..', target)).split('/')[0]!)
        .filter((target) => STORY.indexOf(target) > STORY.indexOf(folder))
        .map((target) => `${relative(root, path)} uses ${target}`));
    expect(wrong).toEqual([]);
  });

  it('has only the agreed entries at the top level', () => {
    const agreed = ['README.md', 'DEVELOPERS.md', 'package.json', 'package-lock.json', 'vite.config.ts', 'tsconfig.json', 'src', 'grammars', 'models', 'tests', 'node_modules', 'dist'];
    expect(readdirSync(root).filter((name) => !name.startsWith('.') && !agreed.includes(name))).toEqual([]);
  });

  it('pins every package to one exact version', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Record<string, Record<string, string>>;
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies })) expect(version, name).toMatch(/^\d+\.\d+\.\d+(-[\w.]+)?$/);
  });

  it('ships only packages under permissive licences', () => {
    const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as { packages: Record<string, { dev?: boolean; optional?: boolean; license?: string }> };
    const allowed = /^(MIT|MIT-0|ISC|0BSD|BSD-2-Clause|BSD-3-Clause|Apache-2\.0|Python-2\.0|CC0-1\.0|BlueOak-1\.0\.0|\(?MIT OR [\w.-]+\)?)$/;
    const wrong = Object.entries(packages).filter(([path, entry]) => path !== '' && !entry.dev && !entry.optional && !allowed.test(entry.license ?? 'none')).map(([path, entry]) => `${path}: ${entry.license ?? 'none'}`);
    expect(wrong).toEqual([]);
  });

  it('never depends on anything outside its own folder', () => {
    const wrong = ['src', 'tests', 'grammars', 'models'].flatMap((name) => files(join(root, name))).filter((path) => /\.(tsx?|mjs|json|py|html|css)$/.test(path) && !path.includes('/files/') && path !== import.meta.filename)
      .filter((path) => imports(readFileSync(path, 'utf8')).some((target) => relative(root, join(path, '..', target)).startsWith('..')));
    expect(wrong.map((path) => relative(root, path))).toEqual([]);
  });
});
