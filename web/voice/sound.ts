/**
 * Three sounds, each a second to what the page shows: a low note at settled, the fifth above it at
 * logged, a soft knock when disturbed. Browsers keep silent until a person has touched the page.
 */
import { effect, type ReadonlySignal } from '@preact/signals';
import type { Stage } from '../model/stage.ts';

const LOW_NOTE_HZ = 196;
const FIFTH_ABOVE_HZ = LOW_NOTE_HZ * 1.5;
const KNOCK_HZ = 92;

interface Tone {
  readonly frequency_Hz: number;
  readonly length_s: number;
  readonly loudness: number;
}

const TONES: Partial<Readonly<Record<Stage, Tone>>> = {
  still: { frequency_Hz: LOW_NOTE_HZ, length_s: 0.9, loudness: 0.2 },
  logged: { frequency_Hz: FIFTH_ABOVE_HZ, length_s: 1.1, loudness: 0.2 },
  disturbed: { frequency_Hz: KNOCK_HZ, length_s: 0.16, loudness: 0.35 },
};

export function soundStages(stage: ReadonlySignal<Stage>, isOn: ReadonlySignal<boolean>): void {
  let audio: AudioContext | null = null;
  const allow = (): void => {
    audio ??= new AudioContext();
    if (audio.state === 'suspended') void audio.resume();
  };
  addEventListener('pointerdown', allow);
  addEventListener('keydown', allow);
  effect(() => {
    const tone = TONES[stage.value];
    if (tone !== undefined && audio?.state === 'running' && isOn.peek()) play(audio, tone);
  });
}

function play(audio: AudioContext, { frequency_Hz, length_s, loudness }: Tone): void {
  const [oscillator, gain] = [audio.createOscillator(), audio.createGain()];
  const from_s = audio.currentTime;
  oscillator.type = 'sine';
  oscillator.frequency.value = frequency_Hz;
  gain.gain.setValueAtTime(0, from_s);
  gain.gain.linearRampToValueAtTime(loudness, from_s + 0.015);
  gain.gain.exponentialRampToValueAtTime(0.001, from_s + length_s);
  oscillator.connect(gain).connect(audio.destination);
  oscillator.start(from_s);
  oscillator.stop(from_s + length_s);
}
