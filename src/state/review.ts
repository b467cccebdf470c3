import { noteHeard } from './note';
import { nextStep, reviewHeard, type Treatment } from './reviewing';
import { ownInput } from './bundled-input';
import { withTakeOf } from './phrase';
import type { ReviewPartSaid, Sitting } from './state';

/** The sitting after something was said in Review. */
export function reviewPartHeard(sitting: Sitting, said: ReviewPartSaid): Sitting {
  switch (said.kind) {
    case 'review':
      return { ...sitting, reviewing: reviewHeard(sitting.reviewing, said.said, sitting.reviewed) };
    case 'note':
      return { ...sitting, noting: noteHeard(sitting.noting, said.said) };
    case 'next step':
      return stepped(sitting);
  }
}

/** The remedy, the phrase once more, or the way back, on the desk and ready to be played. */
function stepped(sitting: Sitting): Sitting {
  const { reviewed, reviewing } = sitting;
  if (reviewed === null) return sitting;
  const step = nextStep(reviewing, reviewed);
  switch (step.kind) {
    case 'remedy':
      return begun(sitting, { remedy: step.remedy, before: step.before, reached: 0 });
    case 'remedy again':
      return begun(sitting, step.treatment);
    case 'back':
      return {
        ...atPlay(sitting, step.treatment.before.take),
        reviewing: { ...reviewing, treatment: null },
      };
    case 'again':
      return atPlay(sitting, reviewed.take);
  }
}

function begun(sitting: Sitting, treatment: Treatment): Sitting {
  const { remedy, before } = treatment;
  return {
    ...atPlay(sitting, { ...before.take, phrase: remedy.phrase, tempo: { bpm: remedy.bpm } }),
    reviewing: { ...sitting.reviewing, treatment },
    message: remedy.stop.words,
  };
}

function atPlay(sitting: Sitting, take: Parameters<typeof withTakeOf>[1]): Sitting {
  return { ...withTakeOf(ownInput(sitting), take), screen: 'play', live: null, message: '' };
}
