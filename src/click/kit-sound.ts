import { metalSound, sound, type Sound } from './drum-sound';

// Pitches and decays by ear of what reads as each part of a kit; common practice, no source.

/** A tom: a tone that falls by a third as it dies away. */
const tomOf =
  (hz: number): Sound =>
  (sampleRate) =>
    sound(sampleRate, 0.35, (seconds, noise) => {
      const turns = hz * (seconds + 0.03 * (1 - Math.exp(-seconds / 0.06)));
      const head = Math.sin(2 * Math.PI * turns + 0.4) * Math.exp(-seconds / 0.12);
      return 0.85 * head + 0.15 * noise * Math.exp(-seconds / 0.01);
    });

export const highTomSound: Sound = tomOf(190);
export const tomSound: Sound = tomOf(150);
export const lowTomSound: Sound = tomOf(115);
export const floorTomSound: Sound = tomOf(85);

export const hihatSound: Sound = (sampleRate) =>
  metalSound(sampleRate, 0.12, (seconds, high) => 0.5 * high * Math.exp(-seconds / 0.03));

export const openHihatSound: Sound = (sampleRate) =>
  metalSound(sampleRate, 0.5, (seconds, high) => 0.5 * high * Math.exp(-seconds / 0.16));

export const crashSound: Sound = (sampleRate) =>
  metalSound(sampleRate, 0.9, (seconds, high) => 0.55 * high * Math.exp(-seconds / 0.28));

/** A ride: a tone of the bow over a breath of the metal. */
export const rideSound: Sound = (sampleRate) =>
  metalSound(sampleRate, 0.6, (seconds, high) => {
    const bow = Math.sin(2 * Math.PI * 2900 * seconds) * Math.exp(-seconds / 0.14);
    return 0.3 * bow + 0.3 * high * Math.exp(-seconds / 0.2);
  });

/** A side stick: a short knock of wood. */
export const sideStickSound: Sound = (sampleRate) =>
  sound(sampleRate, 0.08, (seconds) => {
    const knock = Math.sin(2 * Math.PI * 820 * seconds + 0.9) + 0.5 * Math.sin(2 * Math.PI * 1650 * seconds);
    return 0.6 * knock * Math.exp(-seconds / 0.012);
  });
