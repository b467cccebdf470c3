const LENGTH_SECONDS = 0.04;
/** The time in which the sound dies away to 1/e. */
const DECAY_SECONDS = 0.006;

/**
 * One click, computed: a sine that starts at its loudest slope and dies away, within -1 to 1. The onset is the
 * first sample.
 */
export function clickSamples(sampleRate: number, hz: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.round(sampleRate * LENGTH_SECONDS));
  const turn = (2 * Math.PI * hz) / sampleRate;
  for (let i = 0; i < samples.length; i += 1) {
    samples[i] = Math.sin(turn * (i + 1)) * Math.exp(-i / (sampleRate * DECAY_SECONDS));
  }
  return samples;
}
