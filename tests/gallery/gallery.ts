import { asGiven } from '../../src/state/phrase-choice';
import '../../src/components/shared/app';
import '../../src/components/phrase/phrase-screen';
import '../../src/components/play/play-screen';
import '../../src/components/review/review-screen';
import { gridOf } from '../../src/exercises/grid';
import { bundledPhrases, phraseFromText } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { writtenIn } from '../../src/exercises/written';
import type { Report } from '../../src/grading/types';
import { parseFault } from '../../src/model/faults';
import { gradeTake } from '../../src/take/grade-take';
import { liveSteps } from '../../src/take/live/step';
import { modelTake } from '../../src/model/model-player';
import { rigAsVoiced } from '../../src/take/voiced-rig';
import { settingsOf } from '../../src/settings';
import { cycleOf, inventedLive } from './invented';
import { inventedReport, inventedTake } from './invented-report';

const query = new URLSearchParams(location.search);
const walk = 'Single paradiddle, accent walk';
const app = document.createElement('evenhand-app');
document.body.append(app);
app.addEventListener('action', ({ detail }) => (app.message = JSON.stringify(detail)));
const inputs = [
  { id: 'kit', name: 'Practice pad', kind: 'midi' },
  { id: 'take-1', name: 'Left up stroke leaks, 84 bpm', kind: 'take' },
] as const;

switch (query.get('screen') ?? 'play') {
  case 'play':
  case 'play-idle': {
    const idle = query.get('screen') === 'play-idle';
    const text = query.get('text');
    const grid = text === null ? cycleOf(walk).grid : typed(text, Number(query.get('partials') ?? 4));
    const screen = document.createElement('evenhand-play-screen');
    screen.bars = grid.bars;
    screen.slots = grid.slots;
    screen.cycles = 8;
    screen.settings = settingsOf('working');
    screen.inputs = inputs;
    screen.outputs = [{ id: 'here', name: 'This computer' }];
    screen.chosenOutput = 'here';
    screen.figure = {
      value: idle ? null : 14.2,
      unit: 'dB',
      heights: '',
      words: 'accents over taps, last two cycles',
      aim: 'aim over 12',
    };
    if (idle) {
      screen.midi = { kind: 'failed', reason: 'refused' };
      screen.strikes = { first: null, second: null, firstHand: 'R' };
    } else {
      screen.running = true;
      screen.chosenInput = 'kit';
      screen.live = text === null ? inventedLive(walk, 5, 60) : null;
      const barInCycle = grid.bars.length - 1;
      screen.position = { phase: 'playing', bar: 23, barInCycle, cycle: 5, beat: 2 };
    }
    app.screen = 'play';
    app.line = `${walk} · 84 bpm · click on`;
    app.append(screen);
    break;
  }
  case 'play-phrase': {
    const phrase = JSON.parse(query.get('phrase') ?? '') as Phrase;
    const bar = Number(query.get('bar') ?? 0);
    const { take } = modelTake({ phrase, bpm: 84, seed: 5, surfaces: query.has('two') ? 2 : 1 });
    const grid = gridOf(phrase, take.tempo, take.downbeatMs ?? 0);
    const { start, step } = liveSteps(grid, rigAsVoiced(take.rig, phrase, grid), settingsOf('working'));
    const { beatsMs, endMs, cycle, barInCycle } = grid.bars[bar];
    const live = take.hits
      .filter(({ atMs }) => atMs < endMs - 400)
      .reduce((run, hit) => step(run, { kind: 'hit', hit }), start);
    const one = gridOf({ ...phrase, cycles: 1 }, take.tempo, 0);
    const screen = document.createElement('evenhand-play-screen');
    Object.assign(screen, {
      bars: one.bars,
      ...writtenIn(phrase, one),
      cycles: phrase.cycles,
      settings: settingsOf('working'),
      running: true,
      chosenInput: 'kit',
      live: live.shown,
      position: { phase: 'playing', bar, barInCycle, cycle, beat: beatsMs.length - 1 },
      figure: {
        value: 12.1,
        unit: 'dB',
        heights: '',
        words: 'contrast of the last two cycles',
        aim: 'aim 12 or more',
      },
    });
    app.screen = 'play';
    app.line = `${phrase.title} · 84 bpm · click on`;
    app.append(screen);
    break;
  }
  case 'phrase': {
    const { grid, phrase } = cycleOf(query.get('name') ?? walk);
    const screen = document.createElement('evenhand-phrase-screen');
    screen.choices = bundledPhrases.map(({ name, group }) => ({ name, group }));
    screen.chosen = phrase.title;
    screen.phraseTitle = phrase.title;
    screen.bars = grid.bars;
    screen.slots = grid.slots;
    screen.sticking = phrase.bars.map((bar) => bar.sticking).join(' |\n');
    screen.stickingError = query.has('error') ? 'line 2, column 4 must be a stroke, got "x"' : '';
    screen.build = asGiven;
    app.screen = 'phrase';
    app.line = `${phrase.title} · 84 bpm`;
    app.problem = query.has('error') ? 'hits[12].velocity must be an integer 1–127, got 0' : '';
    app.append(screen);
    break;
  }
  case 'review': {
    const screen = document.createElement('evenhand-review-screen');
    screen.take = inventedTake;
    screen.report = inventedReport();
    if (query.has('lag')) screen.report = lagging(screen.report);
    const fault = query.get('fault');
    if (fault !== null) {
      const phrase = cycleOf(query.get('name') ?? walk).phrase;
      screen.take = modelTake({ phrase, bpm: 84, seed: 5, faults: [parseFault(fault)] }).take;
      screen.report = gradeTake(screen.take);
    }
    screen.neighbours = {
      earlier: {
        id: 'b',
        recordedAt: '2026-03-01T16:12:00.000Z',
        title: walk,
        bpm: 80,
        sentence: 'Every variation holds.',
      },
      later: null,
    };
    app.screen = 'review';
    app.line = `${walk} · 84 bpm · 8 cycles`;
    app.append(screen);
    break;
  }
}

function typed(text: string, partialsPerBeat: number) {
  const phrase = phraseFromText(text, { beatsPerBar: 4, partialsPerBeat, cycles: 1 });
  return gridOf(phrase, { bpm: 84 }, 0);
}

/** The same report with timing as the reason: the other picture. */
function lagging(report: Report): Report {
  const weakest = report.weakest;
  return weakest === null ? report : { ...report, weakest: { ...weakest, measure: 'lag', slot: 1 } };
}
