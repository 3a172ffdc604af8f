import { z } from 'zod';
import { hubBuilds, partClasses, roles, steps } from './vocabulary.ts';

/** What a limit can be set on, in lbf·ft and inches. */
export const limitNames = ['innerTorqueFtLb', 'outerTorqueFtLb', 'endPlayIn'] as const;
export type LimitName = (typeof limitNames)[number];

const end = z.number().nonnegative().nullable();

/** An inclusive window; a null end is open, a null window is not known and judges nothing. */
const limit = z
  .object({ minimum: end, maximum: end, source: z.string().min(1) })
  .refine(({ minimum, maximum }) => minimum === null || maximum === null || minimum <= maximum, {
    message: 'minimum must not exceed maximum',
  })
  .nullable();
export type Limit = z.infer<typeof limit>;

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
export type ProcedurePart = z.infer<typeof procedurePart>;

/** The editable list of limits, steps and parts a wheel-end job must meet; lives are judged by the version valid on their install date. */
export const procedureSchema = z
  .object({
    name: z.string().min(1),
    version: z.string().min(1),
    validFrom: z.iso.date(),
    note: z.string(),
    parts: z.array(procedurePart).min(1),
  })
  .superRefine(({ parts }, context) => {
    const seen = new Set<string>();
    for (const [at, { hubBuild, roles: own }] of parts.entries())
      for (const [place, role] of own.entries()) {
        // A job judged by two parts would count twice.
        const job = `${hubBuild} ${role}`;
        if (seen.has(job))
          context.addIssue({
            code: 'custom',
            path: ['parts', at, 'roles', place],
            message: `each role of a hub build stands in one part only; ${role} of ${hubBuild} stands in two`,
          });
        seen.add(job);
      }
  });
export type Procedure = z.infer<typeof procedureSchema>;

/** The versions of a procedure: one is valid on any day, the last that began on or before it. */
export const proceduresSchema = z.array(procedureSchema).superRefine((procedures, context) => {
  for (const [at, { validFrom }] of procedures.entries())
    if (procedures.findIndex((other) => other.validFrom === validFrom) < at)
      context.addIssue({
        code: 'custom',
        path: [at, 'validFrom'],
        message: `two versions cannot begin on one day; ${validFrom} begins two`,
      });
});
