/** What the localiser holds once loaded and used, alone in a process: node --expose-gc --import tsx tests/bench/localiser/memory.ts prints two numbers in MiB, heap and tables. */
const collect = (globalThis as { gc?: () => void }).gc;
if (!collect) throw new Error('Run with node --expose-gc.');
const held = () => { collect(); const { heapUsed, arrayBuffers } = process.memoryUsage(); return { heapUsed, arrayBuffers }; };
const before = held();
const { PROPOSABLE, localise } = await import('../../../src/localiser');
const findings = PROPOSABLE.map(item => { const [sign, site] = item.split('@'); return { side: 'right', sign, site, result: { kind: 'level', level: sign === 'power' || sign === 'light.touch' || sign === 'pinprick' ? 'normal' : 'absent' } }; });
localise(findings as unknown as Parameters<typeof localise>[0]);
const after = held();
console.log(((after.heapUsed - before.heapUsed) / 2 ** 20).toFixed(1), ((after.arrayBuffers - before.arrayBuffers) / 2 ** 20).toFixed(1));

export {};
