/**
 * Code that runs in the library's worker before the library's own, and changes what it finds around it:
 * - a database that is always empty and forgets what it is told. The library keeps every unpacked file in the browser's storage,
 *   where it never checks it again, never lets an old one go, and stops without a word when a file is too large or the window is
 *   private. The model is read from its archive every time instead. Only what the library's file system (emscripten's IDBFS) asks for is here.
 * - an address that addresses can be relative to: in a document without an origin the worker's own ("blob:null/…") is none.
 */
export const SURROUNDINGS = `{
  const later = (request, result) => { queueMicrotask(() => { request.result = result; request.onsuccess?.({ target: request }); }); return request; };
  const store = { index: () => ({ openKeyCursor: () => later({}, null) }), put: () => later({}), delete: () => later({}), get: () => later({}) };
  const transaction = () => { const one = { objectStore: () => store }; setTimeout(() => one.oncomplete?.()); return one; };
  const database = { open: () => later({}, { transaction, objectStoreNames: { contains: () => true } }) };
  Object.defineProperty(globalThis, 'indexedDB', { value: database, configurable: true });
  Object.defineProperty(globalThis, 'location', { value: { href: 'file:///' }, configurable: true });
}\n`;
