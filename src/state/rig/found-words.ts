import type { FalseNotes } from '../../midi/learning/false-notes';
import { heightAdvice, type HeightsShown } from '../../midi/learning/heights';
import { softestVelocity } from '../../midi/learning/softest';
import type { SurfaceTrim } from '../../midi/learning/trims';
import type { Answers, Asked } from '../../midi/learning/asked-strokes';
import type { Rig } from '../../sessions/types';
import type { Hand } from '../../stroke';

/** What is wrong with heights, and what to do about it; one line where nothing is. */
export function adviceWords(rig: Rig, shown: readonly HeightsShown[]): readonly string[] {
  if (shown.length === 0) return [];
  const advice = shown.flatMap(({ surface, hand, problems }) =>
    problems.map(
      (problem) => `${nameOf(rig, surface)}, ${handNames[hand]} hand: ${lowerFirst(heightAdvice(problem))}`,
    ),
  );
  return advice.length > 0 ? advice : ['Low, half and full stand well apart, and none of them clips.'];
}

/** Trims between surfaces, in words. */
export function trimWords(rig: Rig, trims: readonly SurfaceTrim[]): readonly string[] {
  const most = Math.max(...trims.map(({ leftDb }) => leftDb));
  return [
    ...trims.map(({ surface, trimDb }) => {
      const size = Math.abs(trimDb).toFixed(1);
      if (Number(size) === 0) return `${nameOf(rig, surface)} reads like the others.`;
      return `${nameOf(rig, surface)} reads ${size} dB ${trimDb < 0 ? 'louder' : 'softer'} than the others: taken off.`;
    }),
    `Levels that differ by less than ${most.toFixed(1)} dB between surfaces are not told by this kit.`,
  ];
}

/** The lowest velocity that arrives from each surface, in words. */
export function thresholdWords(rig: Rig, state: Answers<Asked>): readonly string[] {
  return state.asked.slice(0, state.at).map(({ surface }) => {
    const lowest = softestVelocity(state, surface);
    return lowest === undefined
      ? `${nameOf(rig, surface)}: these strokes were not soft enough to tell where it ends.`
      : `${nameOf(rig, surface)}: the softest stroke that arrives has velocity ${lowest}; a softer one is lost.`;
  });
}

/** Windows of false notes, in words. */
export function falseNoteWords(rig: Rig, { surfaces, crosstalk, unclear }: FalseNotes): readonly string[] {
  const words = surfaces.flatMap(({ surface, strokes, forerunner, echo }) => {
    const name = nameOf(rig, surface);
    if (strokes === 0) return [`${name}: not struck.`];
    const found: string[] = [];
    if (forerunner !== undefined)
      found.push(
        `${name}: ${forerunner.n} forerunners, up to ${ms(forerunner.withinMs)} before the stroke and ${percent(forerunner.ratio)} of it.`,
      );
    if (echo !== undefined)
      found.push(
        `${name}: ${echo.n} echoes, ${ms(echo.fromMs)} to ${ms(echo.toMs)} after the stroke and up to ${percent(echo.ratio)} of it.`,
      );
    return found.length > 0 ? found : [`${name}: no false notes in ${strokes} strokes.`];
  });
  const shaken = crosstalk.map(
    ({ from, to, fromMs, toMs, ratio, n }) =>
      `${nameOf(rig, from)} shakes ${nameOf(rig, to)}: ${n} times, ${ms(fromMs)} to ${ms(toMs)} after the stroke and up to ${percent(ratio)} of it.`,
  );
  const left =
    unclear === 0 ? [] : [`${unclear} strokes were left out: something nearly as loud sounded beside them.`];
  return [...words, ...shaken, ...left];
}

const handNames: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };

const nameOf = (rig: Rig, id: string): string =>
  rig.surfaces.find((surface) => surface.id === id)?.name ?? id;

const ms = (value: number): string => `${value < 0 ? '−' : ''}${Math.round(Math.abs(value))} ms`;
const percent = (share: number): string => `${Math.round(100 * share)} %`;
const lowerFirst = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
