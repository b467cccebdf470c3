import type { MeasureKey, Report } from '../grading/types';

const names: Readonly<Record<MeasureKey, readonly [string, string]>> = {
  complete: ['complete', '%'],
  scatter: ['scatter', 'ms'],
  leakBefore: ['leak before', 'dB'],
  leakAfter: ['leak after', 'dB'],
  spill: ['spill', 'dB'],
  softRange: ['soft range', 'dB'],
  softness: ['softness', 'dB'],
  ghostContrast: ['ghost contrast', 'dB'],
  contrast: ['contrast', 'dB'],
  clarity: ['clarity', ''],
  fade: ['fade', 'dB'],
  doubleGap: ['double gap', '%'],
  balanceSoft: ['balance, soft strokes', 'dB'],
  balanceAccent: ['balance, accents', 'dB'],
  lag: ['lag', 'ms'],
  seam: ['seam', 'ms, dB'],
  softSpread: ['soft spread', 'dB'],
  accentSpread: ['accent spread', 'dB'],
  asynchrony: ['asynchrony', 'ms'],
  shape: ['shape', 'ms'],
  accentStretch: ['accent stretch', '%'],
};

export const measureName = (key: MeasureKey): string => names[key][0];
export const measureUnit = (key: MeasureKey): string => names[key][1];

export function strengthWords(report: Report): string {
  return `From ${report.counts.matched} strokes. Hands ${report.hands}. Levels are dB re velocity 127.`;
}
