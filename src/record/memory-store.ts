import { fromPcm16, toPcm16 } from './audio';
import type { RecordEvent } from './event';
import { StoreFault, latestFirst, summarise } from './store';
import type { Store } from './store';

/** A store that lasts as long as the page or process: for Node, and for a browser that keeps nothing. */
export function memoryStore(): Store {
  const logs = new Map<string, RecordEvent[]>();
  const sounds = new Map<string, Int16Array>();
  const claims = new Set<string>();
  return {
    kind: 'memory',
    async list() { return [...logs.values()].map((log) => summarise(undefined, log)).sort(latestFirst); },
    async read(id) { return structuredClone(logs.get(id) ?? []); },
    async append(events, audio = []) {
      for (const { examinationId, seq } of events)
        if (logs.get(examinationId)?.some((event) => event.seq === seq)) throw new StoreFault('open elsewhere');
      for (const event of events) logs.set(event.examinationId, [...(logs.get(event.examinationId) ?? []), structuredClone(event)]);
      const id = events[0]?.examinationId; // one call is about one examination
      if (id !== undefined) for (const { utteranceId, samples } of audio) sounds.set(`${id}/${utteranceId}`, toPcm16(samples));
    },
    async audio(id, utteranceId) {
      const pcm = sounds.get(`${id}/${utteranceId}`);
      return pcm && fromPcm16(pcm);
    },
    async remove(id) {
      logs.delete(id);
      for (const key of sounds.keys()) if (key.startsWith(`${id}/`)) sounds.delete(key);
    },
    async claim(id) {
      if (claims.has(id)) throw new StoreFault('open elsewhere');
      claims.add(id);
      return { release: () => void claims.delete(id) };
    },
  };
}
