import { closestPairWords } from '../../midi/learning/closest-pair';
import { delayWords } from '../../midi/learning/delays';
import type { Rig, Surface } from '../../sessions/types';
import type { TaskName } from './task-names';
import { falseNoteWords } from './found-words';

/** What a rig knows of one thing it was taught on another day, in words; none where it knows nothing. */
export function knownWords(rig: Rig, task: TaskName): readonly string[] {
  switch (task) {
    case 'surfaces':
    case 'hands':
    case 'heights':
      return [];
    case 'spots':
      return rig.surfaces.flatMap(spotsOf);
    case 'trims':
      return rig.surfaces.flatMap(({ name, trimmed, trimDb, trimLeftDb }) =>
        trimmed === true ? [`${name}: trim ${signed(trimDb)} dB${leftOf(trimLeftDb)}.`] : [],
      );
    case 'softest':
      return rig.surfaces.flatMap(({ name, thresholdVelocity }) =>
        thresholdVelocity === undefined
          ? []
          : [`${name}: nothing under velocity ${thresholdVelocity} arrives.`],
      );
    case 'pairs':
      return rig.surfaces.flatMap(({ name, closestPairMs, afterAccent }) =>
        closestPairMs === undefined && afterAccent === undefined
          ? []
          : closestPairWords({ separate: 1, merged: 0, closestPairMs, tapsLost: 0, afterAccent }).map(
              (words) => `${name}: ${words.replace('Every flam arrived as two strokes. ', '')}`,
            ),
      );
    case 'false notes': {
      const taught = rig.surfaces.filter(
        ({ forerunner, echo }) => forerunner !== undefined || echo !== undefined,
      );
      const surfaces = taught.map(({ id, forerunner, echo }) => ({
        surface: id,
        strokes: 1,
        forerunner,
        echo,
      }));
      return falseNoteWords(rig, { surfaces, crosstalk: rig.crosstalk ?? [], unclear: 0 });
    }
    case 'delays': {
      const { delays, inputDelayMs, outputDelayMs } = rig;
      if (delays === undefined) return [];
      const found = { inputMs: inputDelayMs, outputMs: outputDelayMs, sumMs: inputDelayMs + outputDelayMs };
      return delayWords({ ...delays, ...found });
    }
  }
}

function spotsOf({ name, spots }: Surface): readonly string[] {
  if (spots === undefined) return [];
  const { R, L, leftDb } = spots;
  return [
    `${name}: where the right hand lands ${signed(R)} dB, where the left lands ${signed(L)} dB. A balance finer than ${leftDb.toFixed(1)} dB is not told by this pad.`,
  ];
}

const leftOf = (leftDb: number | undefined): string =>
  leftDb === undefined ? '' : `, give or take ${leftDb.toFixed(1)}`;
function signed(db: number): string {
  const size = Math.abs(db).toFixed(1);
  return Number(size) === 0 ? size : `${db < 0 ? '−' : '+'}${size}`;
}
