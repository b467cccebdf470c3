import { bareWords } from '../../exercises/bare-words';
import type { ClickPlan } from '../../exercises/click-plan';
import type { PlayingPlan } from '../../state/playing-plan';
import { counted, plural } from '../../text';

/**
 * How the next take is played, in a line: "8 cycles · count-in of one bar · click on 2 and 4, bare bars: 2 with the click, 2 without".
 * @param cycles of the phrase
 * @param free without a click, and so without a count-in
 */
export function planWords(plan: PlayingPlan, cycles: number, free = false): string {
  if (free) return [lengthWords(plan, cycles), 'free time, no click'].join(' · ');
  return [lengthWords(plan, cycles), leadWords(plan), clickWords(plan.click)].join(' · ');
}

function lengthWords({ length }: PlayingPlan, cycles: number): string {
  switch (length.kind) {
    case 'cycles':
      return counted(cycles, 'cycle');
    case 'minutes':
      return counted(length.minutes, 'minute');
    case 'open':
      return 'until you stop';
  }
}

function leadWords({ lead: { countInBars, sayFirst } }: PlayingPlan): string {
  const bars = countInBars === 'auto' ? 'count-in' : `count-in of ${counted(countInBars, 'bar')}`;
  return sayFirst ? `${bars}, then a bar to say it` : bars;
}

/** Which places click: "click on every beat". */
export function clickWords({ beats, partials, bare }: ClickPlan): string {
  const onBeat = partials.length === 1 && partials[0] === 0;
  const where = beatsWords(beats);
  const which = onBeat
    ? where
    : `${where}, ${plural(partials.length, 'partial')} ${partials.map((partial) => partial + 1).join(', ')}`;
  return bare === null ? `click on ${which}` : `click on ${which}, ${bareWords(bare)}`;
}

function beatsWords(beats: ClickPlan['beats']): string {
  switch (beats) {
    case 'every':
      return 'every beat';
    case 'first':
      return 'the first beat';
    case 'backbeats':
      return '2 and 4';
    default:
      return beats.length === 1
        ? `beat ${beats[0] + 1}`
        : `beats ${beats.map((beat) => beat + 1).join(', ')}`;
  }
}
