/** What strokes behind a number count as. */
export const groupWords = {
  stroke: 'stroke',
  accent: 'accent',
  soft: 'soft stroke',
  'other soft': 'other soft stroke',
  tap: 'tap',
  ghost: 'ghost note',
  'before accent': 'before its accent',
  'after accent': 'after its accent',
  'beside accent': 'beside the other hand’s accent',
  second: 'second of a double',
  first: 'first of a double',
  'off-beat': 'off the beat',
  'on-beat': 'on the beat',
  'after change': 'first after a change',
  graced: 'stroke with graces',
  missed: 'missed',
  slipped: 'slipped',
  'other hand': 'with the other hand',
  'other drum': 'on another drum',
} as const;
export type GroupName = keyof typeof groupWords;
