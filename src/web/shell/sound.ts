let context: AudioContext | undefined;

/** Three short tones. A browser that nobody has touched since the page came stays silent, and shows what it would sound for. */
export function soundOnce(): void {
  if (!('AudioContext' in window)) return;
  context ??= new AudioContext();
  void context.resume();
  if (context.state === 'suspended') return;
  const gain = context.createGain();
  gain.gain.value = 0.2;
  gain.connect(context.destination);
  for (const [index, hertz] of [880, 880, 1175].entries()) {
    const tone = context.createOscillator();
    tone.frequency.value = hertz;
    tone.connect(gain);
    tone.start(context.currentTime + index * 0.25);
    tone.stop(context.currentTime + index * 0.25 + 0.15);
  }
}
