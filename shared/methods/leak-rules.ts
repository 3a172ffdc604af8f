/** How far a wording here was seen in the document itself. */
export type RuleStatus = 'wording seen' | 'from memory, check' | 'from a notice of the trade, check';

export interface LeakRule {
  readonly section: string;
  readonly says: string;
  readonly status: RuleStatus;
}

/** What rules say of leaks, soaked linings and the inspections that find them; general information, not legal advice. */
export const leakRules: readonly { readonly where: string; readonly rules: readonly LeakRule[] }[] = [
  {
    where: 'United States, federal',
    rules: [
      {
        section: '49 CFR 396.5(b)',
        says: 'Vehicles are to be free of oil and grease leaks. This is the rule that a leaking wheel seal breaks; 396.5(a) asks for proper lubrication.',
        status: 'wording seen',
      },
      {
        section: 'Appendix A to Part 396, item 1.a.(6)',
        says: 'At the yearly inspection lining fails that is saturated with oil, grease or brake fluid, not firmly attached, or too thin.',
        status: 'wording seen',
      },
      {
        section: 'Appendix A to Part 396, its name',
        says: 'It was Appendix G to Subchapter B until 2021; older papers quote it so.',
        status: 'from memory, check',
      },
      {
        section: 'Appendix A to Part 396, wheels and rims',
        says: 'Rings, cracks, fasteners and welds: nothing on bearings or hub seals.',
        status: 'from memory, check',
      },
      {
        section: '49 CFR 393.47(a)',
        says: 'Brake components are kept so that they do not fade or grab excessively. It says nothing of oil.',
        status: 'wording seen',
      },
      {
        section: '49 CFR 393.47(d)',
        says: 'Linings thinner than so much fail: on drums of steering axles 3/16 in (4.8 mm) of one strip or 1/4 in (6.4 mm) of two pads, on other drums 1/4 in (6.4 mm), on discs 1/8 in (3.2 mm). For steering axles Appendix A draws the line elsewhere.',
        status: 'wording seen',
      },
      {
        section: '49 CFR 393.205',
        says: 'Wheels and rims: cracks, fasteners missing or loose, holes worn long. About fasteners, not seals.',
        status: 'from memory, check',
      },
      {
        section: '49 CFR 396.3(a)(1)',
        says: 'Parts, wheels and axles among them, are in safe and proper working order at all times.',
        status: 'wording seen',
      },
      {
        section: '49 CFR 396.3(b) and (c)',
        says: 'Records of inspection, repair and maintenance with date and nature; kept one year, and six months after the vehicle has gone. Position, miles and reason are not asked for.',
        status: 'wording seen',
      },
      {
        section: '49 CFR 392.7(a)',
        says: 'No driving unless the driver is satisfied that brakes, wheels and rims are in good order.',
        status: 'wording seen',
      },
      {
        section: '49 CFR 396.11',
        says: 'The driver’s report after the day’s work; goods carriers only where a defect is found or known. Repair is certified.',
        status: 'wording seen',
      },
      { section: '49 CFR 396.11, keeping', says: 'Such reports are kept three months.', status: 'from memory, check' },
      {
        section: '49 CFR 396.13',
        says: 'Before driving: satisfied that the vehicle is in safe working order, the last report looked through where one is required.',
        status: 'wording seen',
      },
      {
        section: '49 CFR 396.17 and 396.21',
        says: 'An inspection against Appendix A at least once in twelve months; the report is kept fourteen months.',
        status: 'from a notice of the trade, check',
      },
      {
        section: '49 CFR 396.19 and 396.25',
        says: 'Who may inspect, and who may work on brakes.',
        status: 'from memory, check',
      },
      {
        section: '49 CFR 396.9',
        says: 'Roadside inspection; defects that put a vehicle out of service are put right before it moves; the report goes back within 15 days.',
        status: 'from memory, check',
      },
      { section: '49 CFR 393.48', says: 'Brakes are to work.', status: 'from memory, check' },
      {
        section: '49 CFR 393.45 and 393.207',
        says: 'Brake tubing and hoses; suspension. Neither is the rule for a wheel seal, though both are quoted as such.',
        status: 'from memory, check',
      },
    ],
  },
  {
    where: 'North America, roadside',
    rules: [
      {
        section: 'Out-of-service criteria, brakes',
        says: 'Lining or drum contaminated by oil or grease counts as a defective brake.',
        status: 'from a notice of the trade, check',
      },
      {
        section: 'Out-of-service criteria, how many brakes',
        says: 'Enough defective brakes (one in five of the service brakes, or certain ones on the steer axle) put the vehicle out of service.',
        status: 'from memory, check',
      },
      {
        section: 'Out-of-service criteria, hubs',
        says: 'A hub open to the inside, smoking from its bearing, or leaking with more to come.',
        status: 'from memory, check',
      },
      {
        section: 'Inspection policy 15',
        says: 'As quoted in 2020, a leak under 396.5 is written up once it forms drops that fall. Greased hubs leak without dripping, so roadside counts miss them.',
        status: 'from a notice of the trade, check',
      },
    ],
  },
  {
    where: 'Elsewhere',
    rules: [
      {
        section: 'Directive 2014/45/EU, annex I, item 5.1.3',
        says: 'Wheel bearings: too much play, too tight or jammed.',
        status: 'wording seen',
      },
      {
        section: 'Directive 2014/45/EU, annex I, item 1.1.13',
        says: 'Brake lining or pad contaminated by oil or grease is a deficiency, a worse one where it brakes less.',
        status: 'from memory, check',
      },
      {
        section: 'Directive 2014/47/EU',
        says: 'Inspections at the roadside, as its title says.',
        status: 'wording seen',
      },
      { section: 'UN Rule No. 2 (1997 Agreement)', says: 'Follows the same items.', status: 'from memory, check' },
      {
        section: 'Quebec road-vehicle safety regulation, s. 121.1',
        says: 'No damage or leakage at bearings other than oozing: where a seep ends and a leak begins differs by country.',
        status: 'wording seen',
      },
    ],
  },
  {
    where: 'Safety at work, United States',
    rules: [
      {
        section: '29 CFR 1910.1001, appendix F',
        says: 'How brake and clutch dust is kept down; not blown off, not brushed dry.',
        status: 'wording seen',
      },
      { section: '29 CFR 1910.177', says: 'Servicing of rim wheels.', status: 'wording seen' },
      {
        section: '29 CFR 1910.244(a)(2)',
        says: 'What a jack has raised is blocked or otherwise secured.',
        status: 'from memory, check',
      },
      { section: '29 CFR 1910.147', says: 'Stored energy is controlled before work.', status: 'from memory, check' },
    ],
  },
];
