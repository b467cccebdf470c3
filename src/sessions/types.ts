import type { rig, surface } from './rig-schema';
import type { Stored } from './stored';
import type { takeSchema } from './take-schema';

export type Surface = Stored<typeof surface>;
export type Rig = Stored<typeof rig>;
export type Take = Stored<typeof takeSchema>;
