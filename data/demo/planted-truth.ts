import { DEVIATIONS } from './planted-deviations.ts';
import * as planted from './planted-effects.ts';
import {
  BAD_LOT,
  BAD_SPELL,
  CHANGE,
  CLASSES,
  DUTY_HAZARD,
  OBSERVED_FROM,
  OBSERVED_TO,
  PLACEBO,
  SHOPS,
} from './story.ts';

/** Everything planted in an invented fleet, for tests and for readers who want to check an answer. */
export function plantedTruth(made: { units: number; seed: number }) {
  return {
    invented: true,
    note: 'Every number here and in the records beside it is invented. Hazard factors multiply the wear hazard; an early branch is an extra way to fail, open to `share` of the lives with the deviation, Weibull with `shape` and `scaleMiles`.',
    ...made,
    observedFrom: OBSERVED_FROM,
    observedTo: OBSERVED_TO,
    shops: SHOPS,
    deviations: DEVIATIONS,
    withoutEffectOnSeals: [
      'mark-missing',
      'sealant-on-seal',
      'end-play-unmeasured',
      'gasket-reused',
      'overfilled',
      'lock-not-engaged',
    ],
    onlyThroughAnother: { 'seal-tool-missing': 'seal-cocked three times as often; no effect of its own' },
    throughMoreOften: {
      'dirty-cavity': 'twice as often on quarry duty',
      'spindle-not-dressed': `${planted.NOT_DRESSED_AT_FIRST} times as often at a wheel end that never failed`,
    },
    endPlay: 'adjusted hubs: hazard × exp(0.2 × thousandths of an inch above 5)',
    sealWear: { ...planted.SEAL_WEAR, unitized: planted.UNITIZED_WEAR },
    spacerBuildHazard: planted.SPACER_BUILD_HAZARD,
    bearingWear: planted.BEARING_WEAR,
    semiFluidBearingHazard: planted.SEMI_FLUID_BEARING_HAZARD,
    frailtyVariance: planted.FRAILTY_VARIANCE,
    hazardPerPriorFailure: planted.HAZARD_PER_PRIOR_FAILURE,
    dutyHazard: DUTY_HAZARD,
    gasket: planted.GASKET,
    detection: planted.DETECTION,
    earlyLagFactor: planted.EARLY_LAG_FACTOR,
    soakMiles: planted.SOAK_MILES,
    bearingDamagePerLeakMile: planted.BEARING_DAMAGE_PER_LEAK_MILE,
    classes: CLASSES,
    badLot: BAD_LOT,
    change: { shop: CHANGE.shop, date: CHANGE.date, what: CHANGE.what, prevalenceFactor: CHANGE.prevalenceFactor },
    placebo: PLACEBO,
    badSpell: {
      shop: BAD_SPELL.shop,
      from: BAD_SPELL.from,
      to: BAD_SPELL.to,
      prevalenceFactor: BAD_SPELL.prevalenceFactor,
      visitDate: BAD_SPELL.visitDate,
      what: BAD_SPELL.what,
    },
    reversal: { worstRaw: 'Coldmere', worstLikeForLike: 'Eastfen' },
  };
}
export type PlantedTruth = ReturnType<typeof plantedTruth>;
