// Phrases whose bar view is worth a look, as queries of gallery.html: a model player has played them.
const of = (phrase, more = {}) => ({
  screen: 'play-phrase',
  phrase: JSON.stringify({ title: 'sample', beatsPerBar: 4, partialsPerBeat: 4, cycles: 6, ...phrase }),
  bar: '3',
  ...more,
});
const bar = (sticking, more = {}) => ({ variation: sticking.slice(0, 9), sticking, ...more });

export const phrases = {
  'play-dyn': of({ bars: [bar('Rlrr Lrll Rlrr Lrll', { dyn: 'p < < f' })] }),
  'play-unison': of({ bars: [bar('[RL]lr(r) [Rl](l)rl Rlrr [rl]rl-')] }),
  'play-unison-two': of({ bars: [bar('[RL]lr(r) [Rl](l)rl Rlrr [rl]rl-')] }, { two: '1' }),
  'play-flams': of({ bars: [bar('{l}Rlr{r}L rl{ll}Rl -rlr l{r}Lrl')] }),
  'play-feet': of({
    feet: 'K---H-k-[KH]---h---',
    bars: [bar('Rlrr Lrll Rlrr Lrll'), bar('rLrr lRll rLrr lRll')],
  }),
  'play-listen': of({
    bars: [bar('Rlrr Lrll Rlrr Lrll'), bar('Rlrr Lrll Rlrr Lrll', { role: 'listen' })],
  }),
  'play-call': of(
    { bars: [bar('Rlrr Lrll Rlrr Lrll', { role: 'say' }), bar('Rlrr Lrll Rlrr Lrll')] },
    { bar: '4' },
  ),
};
