/** Keeps the screen on while an examination runs; asks again when the page comes back into view (W3C Screen Wake Lock). */
export function keepAwake(): () => void {
  let lock: WakeLockSentinel | undefined;
  let stopped = false;
  const ask = async (): Promise<void> => {
    if (stopped || document.visibilityState !== 'visible' || !navigator.wakeLock) return;
    // Refused on a low battery, say: the examination goes on all the same.
    lock = await navigator.wakeLock.request('screen').catch(() => undefined);
    if (stopped) void lock?.release();
  };
  const onVisible = (): void => { void ask(); };
  document.addEventListener('visibilitychange', onVisible);
  void ask();
  return () => { stopped = true; document.removeEventListener('visibilitychange', onVisible); void lock?.release().catch(() => undefined); };
}
