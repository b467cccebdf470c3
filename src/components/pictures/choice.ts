import { judgedFigureOf, worstFigureOf } from '../../grading/figures/named-figures';
import type { Report } from '../../grading/types';
import type { PictureName } from '../../state/reviewing';
import type { TakeCeilings } from '../../insight/take-ceilings';
import type { Take } from '../../sessions/types';
import { isFault } from '../../grading/verdict';
import { accentsAndSoft } from './accents-and-soft';
import { arrivalPicture } from './arrival';
import { byKind } from './by-kind';
import { ceilingPicture } from './ceiling';
import { levelsByPlace, timingByPlace, type BandsOf } from './by-place';
import { graceNotes } from './grace-notes';
import type { Picture } from './picture';
import { softStrokes } from './soft-strokes';
import { tempoPicture } from './tempo';
import { variationsByMargin } from './variations';

/** The pictures of a take that can be asked for, in the order they are offered. */
export const pictureNames: readonly PictureName[] = [
  'levels by kind',
  'levels by place',
  'timing by place',
  'arrival',
  'grace notes',
  'accents and soft',
  'soft strokes',
  'variations',
  'tempo',
  'ceiling',
];

/** What a picture is called where it is offered. */
export const pictureWords: Readonly<Record<PictureName, string>> = {
  'levels by kind': 'Levels by kind of stroke',
  'levels by place': 'Levels stroke by stroke',
  'timing by place': 'Timing stroke by stroke',
  arrival: 'When each variation comes',
  'grace notes': 'Grace notes',
  'accents and soft': 'Accents and soft strokes',
  'soft strokes': 'Soft strokes by what stands beside them',
  variations: 'Variations',
  tempo: 'Tempo',
  ceiling: 'Ceiling',
  'differences by place': 'Two takes, place by place',
};

/**
 * The picture that shows the reason best, null where there is none: strokes that weren't there are told by the table of
 * bars, not by a picture.
 */
export function pictureByReason(take: Take, report: Report): PictureName | null {
  if (!report.fits) return null;
  const { weakest } = report;
  if (weakest === null) return tempoPicture(take, report) === null ? 'levels by kind' : 'tempo';
  const { measure, variation } = weakest;
  const isSwung = report.course.some(({ kind }) => kind === 'swing');
  if (isSwung && report.variations.every(({ band }) => !isFault(band))) return 'timing by place';
  const measures = report.variations.find(({ name }) => name === variation)?.measures ?? {};
  return judgedFigureOf(measure, worstFigureOf(measures, measure)?.part).picture;
}

/** What a picture may be asked of. */
export interface PictureOf {
  /** null: the whole take, where the picture can show that; else the first variation. */
  readonly variation: string | null;
  /** Another take's levels, as bands. */
  readonly bands?: BandsOf;
  /** Of its player's takes of this phrase on this rig. */
  readonly ceilings?: TakeCeilings | null;
}

/** A picture by its name; null where this take has nothing to show in it. */
export function pictureOf(
  take: Take,
  report: Report,
  name: PictureName,
  { variation, bands, ceilings = null }: PictureOf,
): Picture | null {
  if (!report.fits) return null;
  const one = variation ?? report.weakest?.variation ?? report.variations[0]?.name ?? '';
  switch (name) {
    case 'levels by kind':
      return byKind(report, variation);
    case 'levels by place':
      return levelsByPlace(take, report, one, bands);
    case 'timing by place':
      return timingByPlace(take, report, one);
    case 'arrival':
      return arrivalPicture(take, report);
    case 'grace notes':
      return graceNotes(take, report, one);
    case 'accents and soft':
      return accentsAndSoft(report, variation);
    case 'soft strokes':
      return softStrokes(report);
    case 'variations':
      return variationsByMargin(report);
    case 'tempo':
      return tempoPicture(take, report);
    case 'ceiling':
      return ceilings === null ? null : ceilingPicture(ceilings);
    // stands with the other take, not among the pictures of this one
    case 'differences by place':
      return null;
  }
}
