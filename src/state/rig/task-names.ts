import type { Ms } from '../../units';

/** What can be taught to a rig, in the order in which it is asked. The first three are the two-minute path. */
export const taskNames = [
  'surfaces',
  'hands',
  'heights',
  'spots',
  'trims',
  'softest',
  'pairs',
  'false notes',
  'delays',
] as const;
export type TaskName = (typeof taskNames)[number];

/** How long the click takes to be heard, and who says so. */
export interface KnownOutput {
  readonly ms: Ms;
  readonly from: 'audio clock' | 'by hand';
}
