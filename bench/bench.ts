import * as grading from './accuracy-grading';
import * as agreement from './agreement';
import * as apart from './apart';
import * as alignment from './accuracy-alignment';
import * as course from './course';
import * as browser from './browser';
import * as endurance from './endurance';
import * as floors from './floors';
import * as engraving from './engraving';
import * as freeTime from './free-time';
import * as growth from './growth';
import * as hour from './hour';
import * as library from './library';
import * as live from './live';
import * as progress from './progress';
import * as review from './review';
import * as scope from './scope';
import * as speed from './speed';
import * as timeModel from './time-model';
import { printed, type Table } from './table';

/** `npm run bench [PART…]`: speed and accuracy, measured and printed as tables. Nothing here passes or fails. */
const parts: Readonly<Record<string, () => Promise<readonly Table[]>>> = {
  speed: speed.run,
  live: live.run,
  browser: browser.run,
  growth: growth.run,
  hour: hour.run,
  library: library.run,
  engraving: engraving.run,
  review: review.run,
  alignment: alignment.run,
  grading: async () => [...(await grading.run()), ...(await scope.run())],
  agreement: agreement.run,
  floors: floors.run,
  course: course.run,
  'time-model': timeModel.run,
  'free-time': freeTime.run,
  apart: apart.run,
  progress: progress.run,
  endurance: endurance.run,
};

const asked = process.argv.slice(2);
for (const [name, run] of Object.entries(parts)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  for (const table of await run()) process.stdout.write(printed(table));
}
