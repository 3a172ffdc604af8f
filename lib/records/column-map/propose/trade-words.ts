/**
 * Words that shops write for the words of the contract's closed vocabularies, by column; where
 * columns share a vocabulary they share the table. Compared without capitals; `*` is any text.
 */
type Words = Readonly<Record<string, string>>;

const yes = 'y yes x 1 true t ja j oui si ok done checked ✓ ✔';
const no = 'n no 0 false f nein non none not';
const yesNo: Words = { yes, no };

const step: Words = {
  done: `${yes} pass passed complete completed ok good`,
  skipped: `${no} skip skipped omitted missed "not done" fail failed`,
};

const side: Words = { left: 'l lh lt left links gauche izquierda', right: 'r rh rt right rechts droite derecha' };

const parts: Words = {
  seal: '"wheel seal" "oil seal" "hub seal" "grease seal" seals sl "seal kit" "seal - wheel" joint dichtring simmerring',
  bearings:
    'bearing brg brgs "bearing set" "brg set" "inner bearing" "outer bearing" "inner brg" "outer brg" cone cones cup cups race races lager',
  gasket:
    'gaskets gskt gkt "hubcap gasket" "hub cap gasket" "axle gasket" "flange gasket" "axle flange gasket" dichtung',
  spacer: 'spacers "bearing spacer" spcr',
  lock: 'locks "lock ring" "lock washer" lockring lockwasher keeper cotter "cotter pin" tang',
  hub: 'hubs "hub assembly" "hub assy" "hub unit" "unitized hub" nabe',
  hubcap: '"hub cap" hubcaps "oil cap" "sight glass" cap window',
  lubricant: 'lube oil grease "gear oil" "hub oil" "oil fill" "wheel bearing grease" lub fett öl',
  lining: 'linings shoes shoe pads pad brakes "brake shoes" "brake pads" "brake lining" "brake linings" reline beläge',
  sleeve: 'sleeves "wear sleeve" "wear ring" "speedi sleeve" sleeve-wear',
};

const modes: Words = {
  'seal-inner':
    'sl-id "seal id" "inner seal leak" "seal inner" "leaking behind seal" "id leak" *behind*seal* *spindle*leak*',
  'seal-outer':
    'sl-od "seal od" "seal outer" "outer seal leak" "od leak" "leaking around seal" *around*seal* *seal*spun*',
  'gasket-hubcap': 'gk-hc hubcap "hub cap gasket" "hubcap gasket" "hub cap leaking" *hub*cap*leak* *hub*cap*gask*',
  'gasket-flange': 'gk-af "axle flange" "flange gasket" "axle gasket" *axle*flange* *stud*leak*',
  vent: 'vt "vent plug" "sight glass" *vent*blow* *sight*glass*',
  'lubricant-water': 'lb-w milky water *milky* *water in*',
  'lubricant-metal': 'lb-c metallic metal *metal in* *metallic*',
  'lubricant-low':
    'lb-low dry "no oil" "low oil" "low lube" *no oil* *ran dry* *low*oil* *low*lub* *oil*low* *lub*low*',
  'hot-hub': 'hh "hot hub" hot smoking fire *hot hub* *smok*',
  'end-play': 'ep loose "loose bearing" "end play" "excess end play" chucking *loose* *wobbl* *chuck*',
  'wheel-lost': 'wo "wheel off" wheel-off "lost wheel" runoff separation *wheel off* *lost wheel*',
  bearing:
    'br brg "bearing failure" "bad bearing" spalled pitted seized *bearing* *brg* *spall* *seiz* *cooked* *pitted*',
  'tone-ring': 'tr abs "tone ring" "abs light" *tone ring* *abs*',
  'seal-unknown':
    'sl sl-u seal "seal leak" "wheel seal" "wheel seal leak" "seal leaking" "oil seal" leak leaking weeping slinging *seal*leak* *leak*seal* *seal*',
  other: 'misc miscellaneous unk unknown n/a *other*',
};

const reasons: Words = {
  comeback: 'rework repeat redo "come back" "repeat repair" return *comeback* *rework*',
  'inspection-finding':
    '"routine inspection" inspection "insp finding" "found at pm" "found at inspection" dvir *insp* *found at*',
  'brake-work': '"brake job" brakes brake reline "brake work" *brake* *reline*',
  planned:
    'pm "pm service" scheduled sched preventive preventative preventive-maintenance campaign *prevent* *sched* *planned*',
  failure:
    'fail failed breakdown broke repair leak "road call" unscheduled unsched "driver report" corrective *fail* *break*down* *leak* *unsched*',
  other: 'misc unknown unk',
};

const foundBy: Words = {
  'road-call': 'roadcall "road call" breakdown *road*call* *break*down*',
  roadside: '"roadside inspection" dot "dot inspection" *roadside*',
  annual: '"annual inspection" yearly fhwa *annual* *yearly*',
  pm: '"pm inspection" pm-a pm-b preventive "routine inspection" *pm*',
  driver: 'drv dvir operator "driver report" *driver* *dvir*',
  shop: 'mechanic technician tech "in shop" *shop* *tech*',
};

const byColumn: Readonly<Record<string, Words>> = {
  side,
  replaced: parts,
  mode: modes,
  reason: reasons,
  found_by: foundBy,
  kind: { ...foundBy, 'pre-hire': 'prehire "pre hire" "pre trip" pretrip' },
  site: {
    vendor: 'outside external sublet dealer contractor v',
    roadside: '"road call" road "on road" rs',
    shop: 'inhouse in-house "in house" internal own home garage s',
  },
  lubricant: {
    oil: '"gear oil" "oil bath" 75w-90 80w-90 85w-140 75w90 80w90 85w140 "hub oil" öl huile *w-90* *w90* *w-140* *w140* *oil*',
    'semi-fluid':
      '00 000 ep00 ep000 "ep 00" "nlgi 00" "nlgi 000" sfg "semi fluid" semifluid "liquid grease" "00 grease" "000 grease" fliessfett *semi*',
    packed: '"hard grease" grease "#2" "no 2" 2 ep2 "wheel bearing grease" "packed grease" fett graisse *pack* *ep2*',
  },
  fill_level: { ok: 'full good correct normal', low: 'under underfilled short', over: 'overfilled high "too full"' },
  hub_build: {
    adjusted:
      'conventional conv standard std manual adjustable adj double-nut "double nut" jam-nut "manually adjusted" *convent* *manual*',
    spacer: 'preset pre-set pre-adjusted preadjusted "pre adjusted" "spacer hub" no-adjust *preset* *pre*adj*',
    unitized: 'unit cartridge sealed "hub unit" "sealed for life" sealed-for-life unitised *unitiz* *sealed*',
  },
  nut_system: { double: '2 "double nut" dual jam "jam nut"', single: '1 "single nut" "one piece" one-piece' },
  hub_material: { iron: 'cast "cast iron" fe ductile steel', aluminium: 'aluminum alum al alu' },
  acquired: { new: 'n neu', used: 'u "second hand" "pre owned" second-hand gebraucht' },
  out_reason: {
    sold: 'sale sell traded trade-in auction',
    wrecked: 'wreck totaled totalled accident scrapped',
    transferred: 'transfer xfer moved',
  },
  unit_kind: {
    tractor:
      '"day cab" daycab sleeper "power unit" "road tractor" truck-tractor trk trac *tractor* *sleeper* *day*cab*',
    straight: 'box "box truck" bobtail rigid "straight truck" *straight* *box*',
    trailer: 'trl trlr tlr semi semitrailer semi-trailer van reefer flatbed tank pup chassis tri-axle *trailer* *trlr*',
    dolly: 'converter "con gear" "converter dolly" *dolly*',
    bus: 'coach *bus*',
    other: 'misc',
  },
  axle_roles: {
    'steer drive drive': '6x4 6*4 "6 x 4" "tandem drive" tridem-no *6x4*',
    'steer drive': '4x2 "4 x 2" s/a "single axle" *4x2*',
    'steer drive tag': '6x2 "6x2 tag" "6 x 2"',
    'steer steer drive drive': '8x4 "8 x 4" *8x4*',
    steer: 's st str front',
    drive: 'd dr drv driven rear',
    pusher: 'p',
    'trailer trailer': '"t t" tt tandem "tandem trailer" t/a "2 axle trailer" spread "spread axle" *tandem*',
    'trailer trailer trailer': '"t t t" ttt tri tri-axle triaxle "tri axle" "3 axle trailer" *tri*axle*',
    trailer: 'pup "single axle trailer" "1 axle trailer"',
  },
  source: {
    odometer: 'odo odom dash ecu ecm',
    hubodometer: 'hubo "hub odometer" "hub meter" hubmeter hub',
    telematics: 'gps telematic eld',
    estimated: 'est estimate guess calc',
  },
  event: { reset: 'rst zeroed', replaced: 'new swap swapped changed "new meter" replace' },
  leak: { 0: 'dry none no n ok', 1: 'damp seep seeping', 2: 'wet', 3: 'dripping drip slinging soaked "on lining"' },
  leak_at: {
    inboard: 'inner inside seal id "inner seal"',
    hubcap: '"hub cap" cap gasket',
    flange: '"axle flange" axle',
    vent: 'plug "vent plug"',
    unknown: 'unk ?',
  },
  lubricant_condition: { clear: 'clean ok good', dark: 'black burnt', milky: 'water', metallic: 'metal' },
  wheel_lost_by: { bearing: 'brg "bearing failure"', fastener: 'studs stud nuts lugs "wheel nuts"', other: 'unknown' },
};

/** The words known for a choice or a list: what is meant, by what is written. Steps and yes-or-no columns share theirs. */
export function tradeWords(column: string, choices: readonly string[]): ReadonlyMap<string, string> {
  const known = new Map<string, string>();
  const table = byColumn[column] ?? (choices.includes('skipped') ? step : choices.includes('yes') ? yesNo : {});
  for (const choice of choices) known.set(choice, choice);
  for (const [meant, words] of Object.entries(table))
    for (const word of wordsIn(words)) if (!known.has(word)) known.set(word, meant);
  return known;
}

/** Words with a space stand in quotes. */
const wordsIn = (text: string): string[] =>
  [...text.matchAll(/"([^"]+)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? '');

/** Whole cells by which shops say that they do not know. */
export const blankWords = [
  '-',
  '--',
  '---',
  '.',
  '?',
  'n/a',
  'na',
  'n.a.',
  'none',
  'null',
  '#n/a',
  'unknown',
  'unk',
  'tbd',
  'not recorded',
  'not measured',
  'not meas',
  'not meas.',
  'not taken',
  'k.a.',
];

/** Days that programs write where they have none. */
export const blankDays = [
  '1900-01-01',
  '01/01/1900',
  '1/1/1900',
  '9999-12-31',
  '12/31/9999',
  '31.12.9999',
  '00/00/0000',
  '0000-00-00',
];
