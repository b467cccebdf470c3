import type { BareBars } from './click-plan';

/**
 * Bare bars in words.
 * @example bareWords({ kind: 'steady', on: 2, off: 1 }) // => '2 bars with it, 1 bare'
 */
export function bareWords(bare: BareBars): string {
  const on = `${bare.on} ${bare.on === 1 ? 'bar' : 'bars'} with it`;
  return bare.kind === 'steady' ? `${on}, ${bare.off} bare` : `${on}, then 1 bare, growing to ${bare.most}`;
}
