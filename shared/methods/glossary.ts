import type { Term } from './definitions.ts';

/** Words of the trade that stand on screen, in our own words. */
export const glossary: readonly Term[] = [
  {
    term: 'ABS tone ring',
    says: 'The toothed ring by whose passing the wheel’s speed is read; it suffers when a bearing is loose.',
  },
  {
    term: 'Adjusted hub',
    says: 'Two taper bearings whose play is set by hand: seat, back off, retighten, back off, lock. Here backing off is the procedure. Also called conventional or manually adjusted.',
  },
  {
    term: 'Axle, by number',
    says: '1 is the front-most axle of that vehicle itself. Some systems number trailer axles on through the combination: the screen for columns asks.',
  },
  {
    term: 'Back off',
    says: 'To turn the nut back after seating. Right on an adjusted hub; on a spacer or unitized hub it takes away the clamp that sets the bearing.',
  },
  {
    term: 'Bearing set',
    says: 'Inner and outer taper bearing of a wheel end, each a cone with rollers that runs in a cup.',
  },
  { term: 'Comeback', says: 'A job that has to be done again soon after.' },
  {
    term: 'Drive axle',
    says: 'An axle that drives. Its hubs share the oil of the axle; a shaft flange with a gasket closes them.',
  },
  {
    term: 'End play',
    says: 'How far the hub moves along the spindle, measured with a dial indicator. None is preload; too much lets the seal run out of true. An empty field is not zero.',
  },
  {
    term: 'Gasket',
    says: 'What seals the hubcap, or on drive axles the shaft flange. It leaks outward and seldom reaches the lining, and is often written down as a seal leak.',
  },
  { term: 'Hot hub', says: 'A hub too hot to touch, smoking or burning; also what a dragging brake looks like.' },
  {
    term: 'Hub build',
    says: 'How the bearing is set: adjusted, spacer or unitized. It decides which deviations are possible at all.',
  },
  {
    term: 'Left and right',
    says: 'As seen facing forward. “Driver side”, “near side”, “RS” change their meaning with country or shop and are asked about.',
  },
  {
    term: 'Lift, tag, pusher',
    says: 'Axles that carry without driving: tag behind the drive axles, pusher ahead of them, lift where it can be raised.',
  },
  {
    term: 'Lining, soaked',
    says: 'Brake lining that took up oil or grease. It is replaced, on both ends of the axle, not cleaned. A consequence of a leak, not its reason.',
  },
  {
    term: 'Lock',
    says: 'Washer, tang, ring, keeper or pin that keeps the nut from turning. Missing or not engaged it gives no sign until it lets go.',
  },
  {
    term: 'Mode',
    says: 'What was observed: a seal leak, a gasket leak, a hot hub. It is neither the mechanism nor the reason.',
  },
  {
    term: 'Oil bath',
    says: 'A hub that runs in oil, its level seen in the hubcap window. A failed seal shows itself.',
  },
  {
    term: 'Outer nut',
    says: 'In a double-nut system the second nut, which clamps the lock. An empty torque does not mean that it was not torqued.',
  },
  { term: 'Packed', says: 'A hub packed with stiff bearing grease. It shows a leak late or not at all.' },
  { term: 'Preload', says: 'Bearings set with less than no play: heat, thin lubricant, flaking.' },
  {
    term: 'Seal',
    says: 'The wheel seal at the inner end of the hub, which keeps the lubricant in and the road out. Called wheel, hub, oil or grease seal; “axle seal” may mean another.',
  },
  {
    term: 'Seal leak, inner or outer',
    says: 'Inner: past the lip at the spindle, by groove, wear or run-out. Outer: past the bore, as when it was driven in cocked. Most records do not say which.',
  },
  {
    term: 'Seep',
    says: 'Damp, not wet: at a new seal it may be what it was assembled with. A leak is graded 0 dry, 1 damp, 2 wet, 3 dripping or on the lining.',
  },
  {
    term: 'Semi-fluid',
    says: 'A grease of NLGI 00 or 000 that flows. There is no level to see: a leak may lie inside the drum, and an underfilled outer bearing burns.',
  },
  {
    term: 'Shop, vendor, roadside',
    says: 'Where a job was done: the fleet’s own shop, somebody else’s, or where the vehicle stood.',
  },
  {
    term: 'Spacer hub',
    says: 'A hub whose bearings are set by a precise spacer between them once the nut is torqued. Not to be backed off. Also called pre-adjusted or preset.',
  },
  {
    term: 'Spindle',
    says: 'The end of the axle on which the bearings sit. A groove worn by the old seal ruins the next.',
  },
  { term: 'Steer axle', says: 'The front axle, by which the vehicle is steered.' },
  {
    term: 'Unitized',
    says: 'A hub with its bearing, seal and grease as one closed unit, replaced whole. It has no seal of its own to fit.',
  },
  { term: 'Vent', says: 'What lets pressure out of hubcap or axle. Blocked, it presses the lubricant past the seal.' },
  { term: 'Wear sleeve', says: 'A thin ring pressed over a worn spindle so that the lip runs on a new face.' },
  {
    term: 'Wheel end',
    says: 'All at one end of one axle: hub, bearings, seal, nut and lock, brake. Two wheels side by side are one wheel end.',
  },
];
