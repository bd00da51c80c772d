import { deviceStore } from './device-store';
import { memoryStore } from './memory-store';
import type { Store } from './store';
import { StoreFault } from './store';

/** The examination record: append-only events, where they are kept, and the record they fold into. */
export * from './event';
export * from './record';
export * from './store';
export * from './journal';
export * from './file';
export { askToKeep, deviceStore } from './device-store';
export { memoryStore } from './memory-store';
export { checkEvent, eventSchema, fileJsonSchema } from './schema';
export type { EventCheck, Issue } from './schema';

/** The best store there is: the device's, or memory with a notice for the screen that says so. Never rejects. */
export async function openStore(): Promise<{ readonly store: Store; readonly notice?: string }> {
  try { return { store: await deviceStore() }; } catch (error) {
    return { store: memoryStore(), notice: (error instanceof StoreFault ? error : new StoreFault('unavailable', error)).message };
  }
}
