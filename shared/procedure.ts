import { z } from 'zod';
import { hubBuilds, partClasses, roles, steps } from './vocabulary.ts';

/** An inclusive window; a null end is open, a null window is not known and judges nothing. */
const limit = z
  .object({ minimum: z.number().nullable(), maximum: z.number().nullable(), source: z.string().min(1) })
  .refine(({ minimum, maximum }) => minimum === null || maximum === null || minimum <= maximum, {
    message: 'minimum must not exceed maximum',
  })
  .nullable();

/** What one hub build on some axle roles must meet. */
const procedurePart = z.object({
  hubBuild: z.enum(hubBuilds),
  roles: z.array(z.enum(roles)).min(1),
  limits: z.object({ innerTorqueFtLb: limit, outerTorqueFtLb: limit, endPlayIn: limit }),
  setting: z.string(),
  requiredParts: z.array(z.enum(partClasses)),
  steps: z.array(z.enum(steps)),
  /** Parts renewed whenever the hub comes off, whether or not the job lists them. */
  renewedWhenHubComesOff: z.array(z.enum(partClasses)),
  serviceIntervalMiles: z.number().positive().nullable(),
  source: z.string().min(1),
});

/** The editable list of limits, steps and parts a wheel-end job must meet; lives are judged by the version valid on their install date. */
export const procedureSchema = z.object({
  name: z.string().min(1),
  version: z.string().min(1),
  validFrom: z.iso.date(),
  note: z.string(),
  parts: z.array(procedurePart).min(1),
});
export type Procedure = z.infer<typeof procedureSchema>;
