import type { Rig } from '../../sessions/types';
import { takeMarks } from '../keeping';
import { tempoOf } from '../pace';
import type { TakePlan } from '../run-take';
import { takeAsInput } from './bundled-input';
import { withFigureNow } from './room';
import type { RunSaid, Sitting } from './state';

/** The sitting after something was said of the running take. */
export function runHeard(sitting: Sitting, said: RunSaid): Sitting {
  switch (said.kind) {
    case 'started':
      return {
        ...sitting,
        running: said.running,
        live: null,
        contrastDb: null,
        figureNow: null,
        position: null,
        message: '',
        problem: '',
      };
    case 'live':
      return { ...sitting, live: said.live };
    case 'position':
      return withFigureNow({
        ...sitting,
        position: said.position,
        contrastDb: sitting.live?.contrastDb ?? null,
      });
    case 'ended':
      return { ...sitting, running: null, position: null, message: said.message };
  }
}

/** The take about to be played. A bundled take's strokes stay the model player's, whoever pressed Start. */
export function planOf(sitting: Sitting, rig: Rig, stamp: { id: string; recordedAt: string }): TakePlan {
  const { phrase, bpm, pace, limits } = sitting;
  const source = takeAsInput(sitting);
  return {
    format: 'evenhand-take',
    version: 1,
    ...stamp,
    ...(source === undefined ? takeMarks(sitting.keeping, phrase) : { player: source.player }),
    source: source === undefined ? 'played' : 'model',
    phrase,
    tempo: tempoOf(phrase, bpm, pace),
    click: 'on',
    limits,
    settings: source?.settings ?? {},
    rig,
    notes: source?.notes ?? '',
  };
}
