/** Keeps the screen on until the given function is called; nothing where the phone cannot. */
export const stayAwake = () => {
  let lock;
  let isOver = false;
  const ask = async () => {
    if (isOver || document.visibilityState !== 'visible') return;
    try {
      lock = await navigator.wakeLock?.request('screen');
      if (isOver) lock?.release();
    } catch { /* a low battery may forbid it */ }
  };
  document.addEventListener('visibilitychange', ask);
  ask();
  return () => {
    isOver = true;
    document.removeEventListener('visibilitychange', ask);
    lock?.release().catch(() => {});
  };
};
