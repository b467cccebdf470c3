/** The pictures there are of a take. */
export type PictureName =
  | 'levels by kind'
  | 'levels by place'
  | 'timing by place'
  | 'soft strokes'
  | 'accents and soft'
  | 'variations'
  | 'tempo'
  | 'ceiling';

/** What is looked at in Review, of the take that is open. */
export interface Reviewing {
  /** The picture asked for; null: the one that shows the reason best. */
  readonly picture: PictureName | null;
  /** The variation it is of; null: the weakest, else the whole take. `whole take` where that was asked for. */
  readonly pictureOf: string | null;
}

export type ReviewSaid =
  | { readonly kind: 'picture'; readonly name: PictureName }
  | { readonly kind: 'picture of'; readonly variation: string };

/** What a picture of no single variation is of. */
export const WHOLE_TAKE = 'whole take';

export const firstReviewing: Reviewing = { picture: null, pictureOf: null };

/** Review after something was said in it. */
export function reviewHeard(reviewing: Reviewing, said: ReviewSaid): Reviewing {
  switch (said.kind) {
    case 'picture':
      return { ...reviewing, picture: said.name };
    case 'picture of':
      return { ...reviewing, pictureOf: said.variation };
  }
}

/** Review of another take. */
export function reviewAnew(): Reviewing {
  return firstReviewing;
}
