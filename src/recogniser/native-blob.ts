/** The web build of soundswallower imports a Blob polyfill; every browser we run in has the real thing. */
const NativeBlob = globalThis.Blob;
export { NativeBlob as Blob };
