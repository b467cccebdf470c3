import { figureFor, type FigureName, type FigureNow } from '../../take/live/figures';
import type { State } from '../state';

/** The number that is worked on: the chosen one, or what the open report asks for; contrast where there is none. */
export function figureInUse({
  figureChoice,
  reviewed,
}: Pick<State, 'figureChoice' | 'reviewed'>): FigureName {
  if (figureChoice !== 'report') return figureChoice;
  const weakest = reviewed?.report.weakest ?? null;
  return weakest === null ? 'contrast' : figureFor(weakest.measure);
}

/** The number that is worked on as it stands: null where the last one is of another figure, or there is none. */
export function figureShown(state: Pick<State, 'figureChoice' | 'reviewed' | 'figureNow'>): FigureNow | null {
  const { figureNow } = state;
  return figureNow?.name === figureInUse(state) ? figureNow : null;
}
