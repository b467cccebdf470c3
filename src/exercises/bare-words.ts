import type { BareBars } from './click-plan';
import { counted } from '../text';

/**
 * Bare bars in words.
 * @example bareWords({ kind: 'steady', on: 2, off: 1 }) // => '2 bars with it, 1 bare'
 */
export function bareWords(bare: BareBars): string {
  const on = `${counted(bare.on, 'bar')} with it`;
  return bare.kind === 'steady' ? `${on}, ${bare.off} bare` : `${on}, then 1 bare, growing to ${bare.most}`;
}
