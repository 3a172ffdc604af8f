/**
 * How the trade writes where on a vehicle a wheel end is. The one place for it: every spelling is
 * given in words of the list below; `|` parts readings between which the spelling alone cannot
 * decide, `~` marks a reading that counts only where it says everything and no other does.
 */
export const meanings = [
  'left',
  'right',
  // By where the driver sits: on the driver's own side, toward the middle of the road; or toward the curb.
  'driver',
  'curb',
  'front',
  'rear',
  'middle',
  'steer',
  'drive',
  'tag',
  'pusher',
  'lift',
  'trailer',
  // The two axles behind the steered ones: which of the two is said by `front` or `rear`.
  'tandem',
  // The same, of a unit with exactly two drive axles, as the forward-rear and the rear-rear axle.
  'drives',
  'axle',
  'both',
  'elsewhere',
] as const;
export type Meaning = (typeof meanings)[number];

/** Which of two tyres stands there: the wheel end is the same. */
const tyre = '';

const sideWords = {
  'L LH LT LEFT LHS LFT LEFTHAND LINKS GAUCHE IZQ IZQUIERDA IZQUIERDO': 'left',
  'RH RT RIGHT RHS RGT RIGHTHAND RECHTS DROIT DROITE DERECHA DERECHO': 'right',
  R: 'right | ~rear',
  'DRIVER DRIVERS DRVR STREET ROAD OFFSIDE SS OS OFF': 'driver',
  'PASSENGER PASSENGERS PASS PASSGR CURB KERB CURBSIDE KERBSIDE NEARSIDE NEAR NS PS CS': 'curb',
  'BOTH ALL': 'both',
  // Road side or right side; driver side or drive shaft.
  RS: 'right | driver',
  DS: 'driver | elsewhere',
  DRIVESHAFT: 'elsewhere',
};

const axleWords = {
  'AXLE AXLES AX AXL A ACHSE ESSIEU EJE': 'axle',
  'FRONT FRT FNT F FWD FORWARD LEAD LEADING FRONTMOST VORN VORNE AVANT DELANTERO DELANTERA': 'front',
  'FA VA VORDERACHSE': 'front axle',
  'REAR REA BACK AFT TRAIL TRAILING LAST REARMOST HINTEN ARRIERE TRASERO TRASERA': 'rear',
  'RA HA HINTERACHSE': 'rear axle',
  'MID MIDDLE M CENTER CENTRE CTR CENTRAL MITTE MILIEU': 'middle',
  'STEER STEERS STEERING STR S LENKACHSE': 'steer',
  'DRIVE DRIVES DRV DRVE ANTRIEB ANTRIEBSACHSE MOTEUR': 'drive',
  D: 'drive | ~driver',
  'TAG TAGS': 'tag',
  'PUSHER PUSHERS PUSH': 'pusher',
  P: '~pusher | ~curb',
  'LIFT LIFTS BOOSTER': 'lift',
  'TRAILER TRAILERS TRLR TRL TLR T SEMI SEMITRAILER AUFLIEGER REMORQUE REMOLQUE': 'trailer',
  'TANDEM TANDEMS TDM': 'tandem',
};

const compounds = {
  'LF FL VL AVG': 'left front',
  'RF VR AVD': 'right front',
  FR: 'right front | front drives',
  'LR RL HL ARG': 'left rear',
  // Beside L/F it is left rear, behind an axle it is left and right.
  'L/R': 'left rear | both',
  'HR ARD': 'right rear',
  // Right rear, or the rear one of two rear axles with its side left out.
  RR: 'right rear | rear drives',
  'LM ML LC': 'left middle',
  'RM MR RC': 'right middle',
  SL: 'left steer',
  LS: 'left | ~left steer',
  SR: 'right steer',
  'DL LD': 'left drive',
  RD: 'right drive',
  DR: 'right drive | ~drive',
  TL: 'left trailer',
  TR: 'right trailer | ~trailer',
  'LFS SLF LSF': 'left front steer',
  'RFS SRF RSF': 'right front steer',
  'LFD DLF LDF FDL FLD': 'left front drive',
  'RFD DRF RDF FDR FRD': 'right front drive',
  'LRD DLR LDR RDL RLD': 'left rear drive',
  'RRD DRR RDR': 'right rear drive',
  'LFT TLF LTF': 'left front trailer',
  'RFT TRF RTF': 'right front trailer',
  'LRT TLR LTR': 'left rear trailer',
  'RRT TRR RTR': 'right rear trailer',
  'FRL LFR': 'left front drives',
  'FRR RFR': 'right front drives',
  'RRL LRR': 'left rear drives',
  RRR: 'right rear drives',
};

/** Each with the tyre of a pair behind it or in its middle: `RRI`, `LRO`, `RIR`. */
const tyrePlaces = {
  'LFO LFI LOF LIF': 'left front',
  'RFO RFI ROF RIF': 'right front',
  'LRO LRI LOR LIR': 'left rear',
  'RRO RRI ROR RIR': 'right rear',
  'LO LHI LHO': 'left',
  'RI RO RHI RHO': 'right',
  'LFDO LFDI': 'left front drive',
  'RFDO RFDI': 'right front drive',
  'LRDO LRDI': 'left rear drive',
  'RRDO RRDI': 'right rear drive',
};

const saysNothing = {
  'WHEEL WHL WHEELS END HUB SIDE SD POS POSITION LOC LOCATION SEAL SEALS BEARING NUMBER NO NUM NR THE OF ON AND AT':
    tyre,
  'INNER INSIDE INR OUTER OUTSIDE OTR DUAL DUALS I O TIRE TYRE UNIT HAND SEITE COTE LADO': tyre,
  // As `R&R` and `R & I` are parted into pieces.
  REMOVEANDREPLACE: tyre,
};

/** In a column that says nothing but the side a letter can mean nothing else. */
const sideOnly = {
  D: 'driver',
  DS: 'driver',
  S: 'driver',
  O: 'driver',
  P: 'curb',
  C: 'curb',
  K: 'curb',
  N: 'curb',
  R: 'right',
};

const ordinals = {
  1: '1ST FIRST ERSTE 1ER 1ERE PRIMER',
  2: '2ND SECOND ZWEITE 2E 2EME SEGUNDO',
  3: '3RD THIRD DRITTE 3E 3EME TERCER',
  4: '4TH FOURTH VIERTE',
  5: '5TH FIFTH',
  6: '6TH SIXTH',
  7: '7TH SEVENTH',
};

/** One way to read a spelling; a weak one counts only where it says everything and no other does. */
export interface Reading {
  readonly says: readonly Meaning[];
  readonly weak: boolean;
}

const readingsOf = (text: string): Reading[] =>
  text.split('|').map((part) => {
    const words = part.trim();
    const says = words.replace('~', '').split(' ').filter(Boolean) as Meaning[];
    return { says, weak: words.startsWith('~') };
  });

function byWord(...tables: Readonly<Record<string, string>>[]): Map<string, readonly Reading[]> {
  const found = new Map<string, readonly Reading[]>();
  for (const table of tables)
    for (const [words, text] of Object.entries(table))
      for (const word of words.split(' ')) found.set(word, readingsOf(text));
  return found;
}

/** Later tables win where a spelling stands in two. */
export const positionWords: ReadonlyMap<string, readonly Reading[]> = byWord(
  saysNothing,
  sideWords,
  axleWords,
  tyrePlaces,
  compounds,
);

export const sideOnlyWords: ReadonlyMap<string, readonly Reading[]> = byWord(saysNothing, sideWords, sideOnly);

export const ordinalWords: ReadonlyMap<string, number> = new Map(
  Object.entries(ordinals).flatMap(([number, words]) =>
    words.split(' ').map((word) => [word, Number(number)] as const),
  ),
);
