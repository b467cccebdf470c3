import { ln } from '../../exact';

/**
 * What is held of a ceiling before any bar is seen. Source: grading.md section 7, tuned on model players so that
 * intervals cover (`npm run bench progress`).
 */
export const prior = {
  /** Flat in the logarithm of the tempo. */
  lnT50: [ln(20), ln(400)] as const,
  /** ln b is Normal: how steeply clean bars end. */
  lnSteepness: { mean: ln(12), sd: 0.6 },
  /** Weeks by which the logarithm of the tempo grows: Normal around none. */
  perWeek: { mean: 0, sd: 0.03 },
  /** Shares of bars that break whatever the tempo is, and how likely each is. */
  lapses: [
    { share: 0.02, weight: 0.5 },
    { share: 0.07, weight: 0.3 },
    { share: 0.12, weight: 0.2 },
  ],
  /** Sd of a day's own ceiling about the line, as the logarithm of a tempo, and how likely each is. */
  days: [
    { sd: 0.03, weight: 0.5 },
    { sd: 0.07, weight: 0.5 },
  ],
  /** Sd beyond which a Normal prior isn't looked at. */
  reachSd: 3,
} as const;
