import { z } from 'zod';
import { lifeStates } from './vocabulary.ts';

/** Columns of the list of lives that it can be ordered by. */
export const listColumns = [
  'unit_id',
  'position',
  'life_number',
  'install_date',
  'install_miles',
  'exit_miles',
  'exposure_miles',
  'state',
  'shop',
  'lubricant',
  'hub_build',
] as const;
export type ListColumn = (typeof listColumns)[number];

/** A failure episode found in a life's exposure: any, one whose lining was soaked, or a seal leak by what it says of the lining. */
export const foundWords = ['failure', 'soaked', 'leak-soaked', 'leak-clean', 'leak-unknown'] as const;
export type Found = (typeof foundWords)[number];

/** Which lives of a view are listed, in what order, and which of them lies open; carried by the link of the lives page. */
export const livesPickSchema = z.object({
  /** How the life ended; none named = however. A view's mode narrows the failed ones to it. */
  ended: z.array(z.enum(lifeStates)).default([]),
  found: z.enum(foundWords).nullable().default(null),
  /** Only lives of known start, watched beyond this age, in what the view's axis counts: those behind a life curve. */
  past: z.number().nonnegative().nullable().default(null),
  /** Only lives at risk at this age, counted alike: watched before it, not gone before it. */
  at: z.number().nonnegative().nullable().default(null),
  /** Part of a vehicle's number. */
  vehicle: z.string().default(''),
  order: z.enum(listColumns).nullable().default(null),
  down: z.boolean().default(false),
  /** The life that lies open, by its id. */
  life: z.string().nullable().default(null),
});
export type LivesPick = z.infer<typeof livesPickSchema>;

export const wholePick: LivesPick = livesPickSchema.parse({});
