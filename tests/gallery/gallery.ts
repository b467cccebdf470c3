import '../../src/components/app';
import '../../src/components/play-screen';
import { settingsOf } from '../../src/settings';
import { cycleOf, inventedLive } from './invented';

const query = new URLSearchParams(location.search);
const walk = 'Single paradiddle, accent walk';
const app = document.createElement('evenhand-app');
document.body.append(app);
for (const name of [
  'go',
  'files',
  'phrase',
  'tempo',
  'start',
  'stop',
  'choose-input',
  'choose-click',
  'connect',
]) {
  app.addEventListener(name, (event) => {
    app.message = `${name} ${JSON.stringify((event as CustomEvent<unknown>).detail ?? null)}`;
  });
}
const inputs = [
  { id: 'kit', name: 'Practice pad', kind: 'midi' },
  { id: 'take-1', name: 'Left up stroke leaks, 84 bpm', kind: 'take' },
] as const;

switch (query.get('screen') ?? 'play') {
  case 'play':
  case 'play-idle': {
    const idle = query.get('screen') === 'play-idle';
    const { grid } = cycleOf(walk);
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
      words: 'accents over taps, last two cycles',
      aim: 'aim over 12',
    };
    if (idle) {
      screen.midi = { kind: 'failed', reason: 'refused' };
      screen.strikes = { first: null, second: null, firstHand: 'R' };
    } else {
      screen.running = true;
      screen.chosenInput = 'kit';
      screen.live = inventedLive(walk, 5, 60);
      screen.position = { phase: 'playing', bar: 23, barInCycle: 3, cycle: 5, beat: 2 };
    }
    app.screen = 'play';
    app.line = `${walk} · 84 bpm · click on`;
    app.append(screen);
  }
}
