import { settingsOf } from '../settings';
import { figureFor, figureNow, figureNames, type FigureName, type FigureNow } from '../take/live/figures';
import type { RoomSaid, Sitting } from './state';

/** What the bar view shows beside the bar itself. */
export interface ViewOptions {
  /** Early and late, left and right of the slot's middle. */
  readonly timing: boolean;
  /** The two hands mirrored about a line: right upwards, left downwards. */
  readonly mirrored: boolean;
  /** Numbers at all. */
  readonly numbers: boolean;
}

/** The one number: a chosen one, or `report`: what the last report found weakest. */
export type FigureChoice = FigureName | 'report';

/** Who chose it. */
export type FigureBy = 'player' | 'teacher';

export const plainView: ViewOptions = { timing: true, mirrored: false, numbers: true };

/** The sitting after something was said of what is shown while playing. */
export function roomHeard(sitting: Sitting, said: RoomSaid): Sitting {
  switch (said.kind) {
    case 'figure':
      return withFigureNow({ ...sitting, figureChoice: said.figure });
    case 'view':
      return { ...sitting, view: { ...sitting.view, ...said.change } };
  }
}

/** The number that is worked on: the chosen one, or what the open report asks for; contrast where there is none. */
export function figureInUse({
  figureChoice,
  reviewed,
}: Pick<Sitting, 'figureChoice' | 'reviewed'>): FigureName {
  if (figureChoice !== 'report') return figureChoice;
  const weakest = reviewed?.report.weakest ?? null;
  return weakest === null ? 'contrast' : figureFor(weakest.measure);
}

/** Renewed with each beat, so that it can be read. */
export function withFigureNow(sitting: Sitting): Sitting {
  const { running, live, limits, position } = sitting;
  if (running === null) return sitting;
  const bar = position?.phase === 'playing' ? position.barInCycle : 0;
  const now = figureNow(figureInUse(sitting), running.grid, live, settingsOf(limits), bar);
  return { ...sitting, figureNow: now };
}

/** The number that is worked on as it stands: null where the last one told is of another figure, or there is none. */
export function figureTold(
  sitting: Pick<Sitting, 'figureChoice' | 'reviewed' | 'figureNow'>,
): FigureNow | null {
  const { figureNow } = sitting;
  return figureNow?.name === figureInUse(sitting) ? figureNow : null;
}

/** What was kept of the choices of another day; undefined where it is none. */
export function keptView(
  kept: unknown,
): { readonly view: ViewOptions; readonly figure: FigureChoice } | undefined {
  if (typeof kept !== 'object' || kept === null) return undefined;
  const { timing, mirrored, numbers, figure } = kept as Readonly<Record<string, unknown>>;
  const flag = (value: unknown, otherwise: boolean): boolean =>
    typeof value === 'boolean' ? value : otherwise;
  return {
    view: {
      timing: flag(timing, plainView.timing),
      mirrored: flag(mirrored, plainView.mirrored),
      numbers: flag(numbers, plainView.numbers),
    },
    figure: figureNames.find((name) => name === figure) ?? 'report',
  };
}
