/** A sound as samples within -1 to 1, its onset the first sample. */
export type Sound = (sampleRate: number) => Float32Array<ArrayBuffer>;

// Pitches and decays by ear of what reads as a drum; common practice, no source.

/** A stroke on a snare drum or pad: a short tone of the head and the rattle of the wires. */
export const snareSound: Sound = (sampleRate) =>
  sound(sampleRate, 0.18, (seconds, noise) => {
    const head = Math.sin(2 * Math.PI * 190 * seconds + 0.6) * Math.exp(-seconds / 0.035);
    return 0.55 * head + 0.6 * noise * Math.exp(-seconds / 0.045);
  });

/** A bass drum: a tone that falls from 120 to 50 Hz. */
export const bassDrumSound: Sound = (sampleRate) =>
  sound(sampleRate, 0.3, (seconds) => {
    const turns = 50 * seconds + 70 * 0.03 * (1 - Math.exp(-seconds / 0.03));
    return Math.sin(2 * Math.PI * turns + 0.3) * Math.exp(-seconds / 0.09);
  });

/** A hi-hat closed with the foot: a short breath of high noise. */
export const hihatFootSound: Sound = (sampleRate) =>
  metalSound(sampleRate, 0.08, (seconds, high) => 0.5 * high * Math.exp(-seconds / 0.018));

const FADE_SECONDS = 0.01;

/** The same on a noise with the low part taken out, as of thin metal. */
export function metalSound(
  sampleRate: number,
  lengthSeconds: number,
  wave: (seconds: number, noise: number) => number,
): Float32Array<ArrayBuffer> {
  let before = 0;
  return sound(sampleRate, lengthSeconds, (seconds, noise) => {
    const high = noise - before;
    before = noise;
    return wave(seconds, high);
  });
}

/** Samples of a wave that is faded out at its end, so that it doesn't click there. */
export function sound(
  sampleRate: number,
  lengthSeconds: number,
  wave: (seconds: number, noise: number) => number,
): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.round(sampleRate * lengthSeconds));
  let state = 1;
  for (let i = 0; i < samples.length; i += 1) {
    // The minimal standard generator (Park and Miller, 1988): the same noise each time.
    state = (state * 48_271) % 2_147_483_647;
    const seconds = i / sampleRate;
    const fade = Math.min(1, (lengthSeconds - seconds) / FADE_SECONDS);
    samples[i] = Math.max(-1, Math.min(1, fade * wave(seconds, state / 1_073_741_823.5 - 1)));
  }
  return samples;
}
