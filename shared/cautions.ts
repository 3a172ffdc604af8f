/** A caution in a line and in full; our own wording of what the trade and the occupational rules ask. */
export interface Caution {
  readonly name: string;
  readonly short: string;
  readonly long: string;
}

/** For whoever puts hands on a wheel end; shown in the app, the README and every export. */
export const wheelEndCautions: readonly Caution[] = [
  {
    name: 'support',
    short: 'Level ground, wheels chocked, rated stands; never a jack alone.',
    long: 'Park on level, hard ground, chock the wheels that stay down on both sides and treat the brakes as the procedure says. Set rated stands under the axle before a hand goes in: a jack lifts, it does not hold.',
  },
  {
    name: 'weight',
    short: 'Wheels with hub and drum weigh hundreds of kilograms: use a dolly.',
    long: 'A pair of wheels with hub and drum can weigh some 350 kg (770 lb). Move it with a wheel dolly or a hoist rated for it, never by hand, and never stand where it could tip.',
  },
  {
    name: 'heat',
    short: 'A hub may be hot enough to burn you or to light its lubricant.',
    long: 'A failing wheel end can be hot enough to burn skin or to light its lubricant and the tyre. Let it cool, put no water on it, keep an extinguisher at hand, and stand clear of the tyres if it smokes.',
  },
  {
    name: 'dust',
    short: 'Brake dust: no compressed air, no dry brushing.',
    long: 'Brake dust may hold asbestos or other fibres. Do not blow it off or brush it dry: wet it, or use a vacuum cleaner with a HEPA filter (29 CFR 1910.1001, appendix F).',
  },
  {
    name: 'stored-energy',
    short: 'Spring brakes and retaining rings store energy: cage, and cover the eyes.',
    long: 'A spring brake stores enough force to kill: cage it as its maker describes before work near it. Retaining rings and locks can fly off: wear eye protection.',
  },
  {
    name: 'tyre',
    short: 'Damaged rim or wheel: let the air out first.',
    long: 'Before work near a damaged wheel or rim let the air out of the tyre, of both in a dual pair, and keep out of the line of a bursting tyre (29 CFR 1910.177).',
  },
  {
    name: 'park',
    short: 'Loose, smoking or leaking onto the lining: park the vehicle where it is.',
    long: 'A wheel end that is loose, smoking, or leaking onto its brake lining stays where it is until it has been repaired. No chart is a reason to drive it to the shop.',
  },
  {
    name: 'after-the-job',
    short: 'Afterwards: lock seen engaged, torque and end play written down, level checked.',
    long: 'After every wheel-end job have a second person see the lock engaged, write down the torque read from a calibrated wrench and the end play where the build asks for it, confirm the lubricant level, feel for heat after a road check, and retighten the wheel fasteners when instructed.',
  },
  {
    name: 'maker',
    short: "The component maker's instruction governs; limits here are check values.",
    long: "The limits and steps kept here are check values that this fleet has entered. The current instruction of the component's maker governs how a wheel end is set, whatever a figure here shows.",
  },
];

/** What no finding of this tool says, however firm it is. */
export const findingCautions: readonly Caution[] = [
  {
    name: 'not-cause',
    short: 'Goes with, not caused by.',
    long: 'Records show what goes with what. They do not prove a cause, and a deviation that is not in the record may still have happened.',
  },
  {
    name: 'not-people',
    short: 'No number here is about a person.',
    long: 'A difference between shops or jobs is about work, tools and conditions. It says nothing of the person who held the wrench.',
  },
  {
    name: 'not-specification',
    short: 'A life or torque value here is no specification.',
    long: 'Lives, torques and intervals here describe past records of these builds, lubricants and duties. They are no specification, and say nothing of builds, lubricants or duties without records.',
  },
  {
    name: 'not-clearance',
    short: 'No figure here clears a wheel end for service.',
    long: 'Nothing here says that a vehicle is safe, fit to drive or within the rules. Few leaks seen does not mean few leaks; none seen does not mean no risk. A qualified inspector at the wheel end decides.',
  },
];

/** All of them in a line each, as every finding carries them: what it does not say first. */
export const shortCautions: string[] = [...findingCautions, ...wheelEndCautions].map(({ short }) => short);

/** The line that stands at the foot of every page and sheet. */
export const cautionLine =
  "Working on a wheel end: level ground, wheels chocked, rated stands, never a jack alone; a hub may be hot. The component maker's instruction governs. No figure here clears a wheel end for service.";
