import { figureNames, type FigureName } from '../take/live/figures';

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
