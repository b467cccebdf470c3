/** What the screens are called. */
export const screenNames = {
  today: 'Today',
  rig: 'Rig',
  phrase: 'Phrase',
  play: 'Play',
  review: 'Review',
  takes: 'Takes',
  history: 'History',
  library: 'Library',
} as const;
